package purchase

import (
	"math/big"
	"regexp"
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/estimate/published"
)

// publishedOrder is one order of peppol_order_examples.csv.
type publishedOrder struct {
	lines                                      [][]string // the match, quantity, price
	sum, allowances, charge, taxExclusive, tax string
}

// publishedOrders reads the Peppol order examples.
func publishedOrders(t *testing.T) map[string]publishedOrder {
	t.Helper()
	line := regexp.MustCompile(`(\d+)x([\d.]+)`)
	orders := map[string]publishedOrder{}
	for _, r := range published.Table(t, "peppol_order_examples.csv") {
		orders[r[0]] = publishedOrder{lines: line.FindAllStringSubmatch(r[2], -1), sum: r[3], allowances: r[4], charge: r[5], taxExclusive: r[6], tax: r[7]}
	}
	return orders
}

// buyPublished orders the lines of a published example, each product at the
// tax rate.
func buyPublished(t *testing.T, example publishedOrder, supplier *job.Supplier, taxPercent string) Order {
	t.Helper()
	var needs []Need
	for i, line := range example.lines {
		product := supplied(supplier, string(rune('A'+i)), func(p *job.Product) { p.Price, p.TaxPercent = dec(line[2]), dec(taxPercent) })
		needs = append(needs, Need{Product: product, Sold: dec(line[1]).Rat()})
	}
	order, _ := one(t, job.Settings{Currency: euro, TaxPercent: dec(taxPercent)}, supplier, needs...)
	return order
}

// Use cases 1, 2, 3 and 6 of the Peppol order examples, at the tax rate that
// their totals have.
func TestPublishedOrders(t *testing.T) {
	orders := publishedOrders(t)
	for _, row := range []struct{ name, rate, gross string }{
		{"UC1", "25", "143.75"}, {"UC2", "25", "875.00"}, {"UC3", "0", "400.00"}, {"UC6", "25", "500.00"},
	} {
		example, ok := orders[row.name]
		if !ok {
			t.Fatalf("%s is not in the reference data", row.name)
		}
		order := buyPublished(t, example, &job.Supplier{Code: "S"}, row.rate)
		if !order.Goods.Decimal().Equal(dec(example.sum)) || !order.Tax.Decimal().Equal(dec(example.tax)) {
			t.Errorf("%s: goods %s, tax %s; published %s and %s", row.name, order.Goods, order.Tax, example.sum, example.tax)
		}
		same(t, row.name+": gross", order.Gross.String(), row.gross)
	}
}

// Order_Example: lines of 6300 (here 120 at 52.50, the line's charge and
// allowance in its price) and 225, 10 % off the sum and a charge of 400 give
// 6272.50 before tax.
func TestPublishedOrderWithDiscountAndCharge(t *testing.T) {
	example := publishedOrders(t)["Order_Example"]
	example.lines = [][]string{{"", "120", "52.50"}, {"", "15", "15"}}
	supplier := &job.Supplier{Code: "S", DiscountPercent: dec("10"), Delivery: euro.Round(dec(example.charge))}
	order := buyPublished(t, example, supplier, "0")
	if !order.Net.Decimal().Equal(dec(example.taxExclusive)) {
		t.Errorf("net %s, published %s", order.Net, example.taxExclusive)
	}
}

// UBL-Order-2.1-Example: 120 x 50 and 15 x 15 are 6225.
func TestPublishedLineSum(t *testing.T) {
	example := publishedOrders(t)["UBL-Order-2.1-Example"]
	same(t, "goods", buyPublished(t, example, &job.Supplier{Code: "S"}, "0").Goods.String(), example.sum+".00")
}

// UC4: a list price of 2 less 1 is 50 % discount: 50 x 2 is 50 net.
func TestPublishedDiscount(t *testing.T) {
	example := publishedOrders(t)["UC4"]
	example.lines = [][]string{{"", "50", "2"}}
	supplier := &job.Supplier{Code: "S", DiscountPercent: dec("50"), Delivery: euros(example.charge)}
	order := buyPublished(t, example, supplier, "0")
	same(t, "goods", order.Goods.String(), example.sum+".00")
	same(t, "net with the charge, without the allowance", order.Net.Sub(euros(example.allowances)).String(), example.taxExclusive+".00")
}

// Delivery 45, free from 500; minimum order 300; the job's tax 20 %. Goods are
// n pieces at 10.
func TestDeliveryAndMinimum(t *testing.T) {
	for _, row := range []struct {
		name                                         string
		pieces                                       int64
		goods, delivery, supplement, net, tax, gross string
	}{
		{"below the minimum", 12, "120.00", "45.00", "180.00", "345.00", "69.00", "414.00"},
		{"at the minimum", 30, "300.00", "45.00", "0.00", "345.00", "69.00", "414.00"},
		{"just not free", 49, "490.00", "45.00", "0.00", "535.00", "107.00", "642.00"},
		{"free at the limit", 50, "500.00", "0.00", "0.00", "500.00", "100.00", "600.00"},
	} {
		supplier := &job.Supplier{Code: "S", Ref: problem.Ref{Sheet: "Suppliers", Row: 3}, Delivery: euros("45"), FreeFrom: euros("500"), MinimumOrder: euros("300")}
		orders, _, problems := Buy(settings, []*job.Supplier{supplier}, []Need{{Product: supplied(supplier, "P", nil), Sold: big.NewRat(row.pieces, 1)}})
		order := orders[0]
		for _, figure := range []struct{ what, got, want string }{
			{"goods", order.Goods.String(), row.goods}, {"delivery", order.Delivery.String(), row.delivery}, {"supplement", order.Supplement.String(), row.supplement},
			{"net", order.Net.String(), row.net}, {"tax", order.Tax.String(), row.tax}, {"gross", order.Gross.String(), row.gross},
		} {
			same(t, row.name+": "+figure.what, figure.got, figure.want)
		}
		cautioned := len(problems) == 1 && problems[0].Code == problem.BelowMinimum && problems[0].At == supplier.Ref
		if cautioned != (row.supplement != "0.00") || len(problems) > 1 {
			t.Errorf("%s: problems %v", row.name, problems)
		}
	}
}

// Tax is rounded once for a rate (EN 16931, rules BR-CO-14 and BR-CO-17):
// three lines of 0.33 at 5 % are taxed 0.0495 -> 0.05, two lines of 10 at 20 %
// and the delivery of 7 at the job's 20 % are taxed 27 x 20 % = 5.40.
func TestTaxPerRate(t *testing.T) {
	supplier := &job.Supplier{Code: "S", Delivery: euros("7")}
	var needs []Need
	for i, tax := range []string{"5", "20", "5.0", "20", "5"} {
		product := supplied(supplier, string(rune('A'+i)), func(p *job.Product) {
			p.TaxPercent = dec(tax)
			if tax != "20" {
				p.Price = dec("0.33")
			}
		})
		needs = append(needs, Need{Product: product, Sold: big.NewRat(1, 1)})
	}
	order, _ := one(t, settings, supplier, needs...)
	if len(order.Taxes) != 2 {
		t.Fatalf("taxes %v, want one for each of two rates", order.Taxes)
	}
	same(t, "base at 5 %", order.Taxes[0].Base.String(), "0.99")
	same(t, "tax at 5 %", order.Taxes[0].Amount.String(), "0.05")
	same(t, "base at 20 %", order.Taxes[1].Base.String(), "27.00")
	same(t, "tax at 20 %", order.Taxes[1].Amount.String(), "5.40")
	same(t, "tax", order.Tax.String(), "5.45")
}

func TestOrdersAreNumberedAndSorted(t *testing.T) {
	first, second, unused := &job.Supplier{Code: "A"}, &job.Supplier{Code: "B"}, &job.Supplier{Code: "AA"}
	needs := []Need{
		{Product: supplied(second, "Z", func(p *job.Product) { p.Weight = dec("12.5") }), Sold: big.NewRat(2, 1)},
		{Product: supplied(first, "Y", nil), Sold: big.NewRat(1, 1)},
		{Product: supplied(second, "X", nil), Sold: big.NewRat(1, 1)},
	}
	for _, row := range []struct{ number, first, second string }{{"J7", "J7-A", "J7-B"}, {"", "1", "2"}} {
		numbered := settings
		numbered.Number = row.number
		orders, _, _ := Buy(numbered, []*job.Supplier{second, unused, first}, needs)
		if len(orders) != 2 {
			t.Fatalf("%d orders, want 2", len(orders))
		}
		same(t, "first number", orders[0].Number, row.first)
		same(t, "second number", orders[1].Number, row.second)
		same(t, "first line of B", orders[1].Lines[0].Product.Code, "X")
		same(t, "weight", orders[1].Weight.String(), "25")
	}
}
