package exchange

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"time"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

// orderColumns are the columns of orders.csv. The nets of an order's rows add
// up to its net; the last three, of the order as a whole, stand in its first row.
var orderColumns = []string{
	"order", "supplier", "line", "product", "description", "quantity", "unit", "unit code", "packs",
	"price", "price unit", "price units per unit", "discount %", "net", "currency", "tax %", "weight kg",
	"for", "needed by", "order by", "full pallets", "packs on a part pallet",
	"line charge", "paid already", "rounding", "payable",
}

// orderTable writes one row a line of every order, and one each for its discount,
// delivery and supplement.
func orderTable(r *estimate.Result) ([]byte, error) {
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	rows := [][]string{orderColumns}
	for i := range r.Orders {
		o := &r.Orders[i]
		dates := []string{harmless(r.Consignments[o.Consignment].Name), dateOrNone(o.NeededBy), dateOrNone(o.OrderBy)}
		rows = append(rows, orderRows(o, dates)...)
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return text.Bytes(), nil
}

// orderRows are an order's rows; where is what they all say of its delivery.
func orderRows(o *purchase.Order, where []string) [][]string {
	var rows [][]string
	for i, line := range o.Lines {
		p := line.Product
		packs, weight := "", ""
		if line.Packs.Sign() > 0 {
			packs = line.Packs.String()
		}
		if p.Weight.Sign() > 0 {
			weight = line.Quantity.Mul(p.Weight).String()
		}
		full, part := "", ""
		if n, rest, said := line.Pallets(); said {
			full, part = fmt.Sprint(n), fmt.Sprint(rest)
		}
		rows = append(rows, slices.Concat([]string{
			harmless(o.Number), harmless(o.Supplier.Code), fmt.Sprint(i + 1), harmless(p.Code), harmless(line.Words()),
			line.Quantity.String(), p.SoldBy.String(), p.SoldBy.Code(), packs,
			line.Price.String(), p.PricePer.String(), line.UnitsPerSold.String(), line.Discount.String(),
			line.Net.String(), line.Net.Currency().Code, line.TaxPercent.String(), weight,
		}, where, []string{full, part, unlessZero(line.Charge)}, payment(o, i == 0)))
	}
	additions := charges(o)
	if !o.Allowance.IsZero() {
		additions = append([]charge{{orderDiscountReason, o.Allowance.Neg()}}, additions...)
	}
	for _, c := range additions {
		rows = append(rows, slices.Concat([]string{
			harmless(o.Number), harmless(o.Supplier.Code), fmt.Sprint(len(rows) + 1), "", c.reason,
			"1", job.PerEach.String(), job.PerEach.Code(), "", c.amount.String(), job.PerEach.String(), "1", "0",
			c.amount.String(), c.amount.Currency().Code, "", "",
		}, where, []string{"", "", ""}, payment(o, false)))
	}
	return rows
}

const orderDiscountReason = "Discount on the whole order"

// payment is how the order is paid, blank in all rows but its first.
func payment(o *purchase.Order, first bool) []string {
	if !first {
		return []string{"", "", ""}
	}
	return []string{unlessZero(o.Paid), unlessZero(o.Rounding), o.Payable.String()}
}

func unlessZero(a money.Amount) string {
	if a.IsZero() {
		return ""
	}
	return a.String()
}

// charge is what an order costs besides its goods.
type charge struct {
	reason string
	amount money.Amount
}

func charges(o *purchase.Order) []charge {
	var all []charge
	for _, c := range []charge{{"Delivery", o.Delivery}, {"Supplement up to the minimum order", o.Supplement}} {
		if !c.amount.IsZero() {
			all = append(all, c)
		}
	}
	return all
}

// dateOrNone is a date by ISO 8601, "" when there is none.
func dateOrNone(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return isoDate(t)
}

// harmless keeps a spreadsheet from taking a text for a formula.
func harmless(text string) string {
	if text != "" && strings.ContainsAny(text[:1], "=+-@\t\r") {
		return "'" + text
	}
	return text
}
