package exchange

import (
	"fmt"
	"strings"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// OrderFile is one file of the orders.
type OrderFile struct {
	Name string
	Data []byte
}

// OrderFiles are the orders for other programs: orders.csv with all their lines,
// and an OASIS UBL 2.4 Order document for each, named by the order's number.
// The job must have what MissingForOrders asks for.
func OrderFiles(r *estimate.Result) ([]OrderFile, error) {
	table, err := orderTable(r)
	if err != nil {
		return nil, err
	}
	files := []OrderFile{{Name: "orders.csv", Data: table}}
	taken := map[string]bool{"orders": true}
	for i := range r.Orders {
		order := &r.Orders[i]
		document, err := ublOrder(r.Job.Settings, r.Consignments[order.Consignment].Name, order)
		if err != nil {
			return nil, err
		}
		files = append(files, OrderFile{Name: fileName(r.Orders[i].Number, taken) + documentEnding, Data: document})
	}
	return files, nil
}

// MissingForOrders names what the order documents need and the job does not
// have: UBL wants a date of issue, and Laybill takes none from the clock.
func MissingForOrders(settings job.Settings) problem.List {
	var list problem.List
	if settings.Date.IsZero() {
		list.Add(problem.Problem{Code: problem.OrderDateMissing, At: problem.Ref{Sheet: "Job"}, Found: "no Date",
			Want: "the setting Date: an order document states when it was issued", Fix: "add a row Date with the date of the orders to the Job sheet"})
	}
	return list
}

// Order documents are named by their beginning and their end.
const (
	documentStart  = "order-"
	documentEnding = ".xml"
)

// IsOrderFile tells whether a file's name is that of an order document, of this
// job or another.
func IsOrderFile(name string) bool {
	return strings.HasPrefix(name, documentStart) && strings.HasSuffix(name, documentEnding)
}

// fileName is an order's number as the name of a file on any system; two that
// would be the same get a number.
func fileName(number string, taken map[string]bool) string {
	plain := strings.Map(func(r rune) rune {
		switch {
		case r >= '0' && r <= '9', r >= 'A' && r <= 'Z', r >= 'a' && r <= 'z', r == '-', r == '_':
			return r
		}
		return '-'
	}, number)
	name := documentStart + plain
	for n := 2; taken[strings.ToLower(name)]; n++ {
		name = fmt.Sprintf("%s%s-%d", documentStart, plain, n)
	}
	taken[strings.ToLower(name)] = true
	return name
}
