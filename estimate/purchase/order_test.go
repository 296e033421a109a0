package purchase

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
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
// tax rate and changed.
func buyPublished(t *testing.T, example publishedOrder, supplier *job.Supplier, taxPercent string, changes ...func(*job.Product)) Order {
	t.Helper()
	var needs []Need
	for i, line := range example.lines {
		product := supplied(supplier, string(rune('A'+i)), func(p *job.Product) { p.Price, p.TaxPercent = dec(line[2]), dec(taxPercent) })
		for _, change := range changes {
			change(product)
		}
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

// Order_Example: 120 x 50 less 5 %, 300.00, and a charge of 600.00 are 6300.00; with
// 225.00 the lines are 6525.00; 10 % off them and a charge of 400 give 6272.50 before
// tax. At no tax, 10.00 are paid of it and 6262.50 are payable with 6263.00.
func TestPublishedOrderWithDiscountsAndCharges(t *testing.T) {
	example := publishedOrders(t)["Order_Example"]
	supplier := &job.Supplier{Code: "S", OrderDiscountPercent: dec("10"), Delivery: euro.Round(dec(example.charge)), Paid: euros("10"), PayableStep: euros("1")}
	order := buyPublished(t, example, supplier, "0", func(p *job.Product) {
		if p.Code == "A" {
			p.Discount, p.LineCharge = decimal.NewNullDecimal(dec("5")), euros("600")
		}
	})
	if allowance, _, _ := strings.Cut(example.allowances, " "); !order.Allowance.Decimal().Equal(dec(allowance)) {
		t.Errorf("allowance %s, published %s", order.Allowance, allowance)
	}
	if !order.Goods.Decimal().Equal(dec(example.sum)) || !order.Net.Decimal().Equal(dec(example.taxExclusive)) {
		t.Errorf("goods %s, net %s, published %s, %s", order.Goods, order.Net, example.sum, example.taxExclusive)
	}
	same(t, "payable", order.Payable.String(), "6263.00")
}

// UBL-Order-2.1-Example: 120 x 50 and 15 x 15 are 6225.
func TestPublishedLineSum(t *testing.T) {
	example := publishedOrders(t)["UBL-Order-2.1-Example"]
	same(t, "goods", buyPublished(t, example, &job.Supplier{Code: "S"}, "0").Goods.String(), example.sum+".00")
}

// UC4: a list price of 2 less 1 is 50 % discount: 50 x 2 is 50 net. 20 % off them and
// a charge of 10 are 50, and 55 with 10 % tax.
func TestPublishedDiscount(t *testing.T) {
	example := publishedOrders(t)["UC4"]
	example.lines = [][]string{{"", "50", "2"}}
	supplier := &job.Supplier{Code: "S", DiscountPercent: dec("50"), OrderDiscountPercent: dec("20"), Delivery: euros(example.charge)}
	order := buyPublished(t, example, supplier, "10")
	same(t, "goods", order.Goods.String(), example.sum+".00")
	same(t, "allowance", order.Allowance.String(), example.allowances+".00")
	same(t, "net", order.Net.String(), example.taxExclusive+".00")
	same(t, "payable", order.Payable.String(), "55.00")
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

// By hand: A, 10 pieces at 10 and taxed 5 %, B, 1 at 20.01 and C, 2 at 10 and a
// charge of 3.00, both taxed 20 %, as is the delivery of 7. Goods are 100.00 +
// 20.01 + 23.00 = 143.01; 12.5 % of them, 17.87625, are 17.88. Of that the goods at
// 5 % bear 17.88 x 100.00 / 143.01 = 12.5025.. and those at 20 % 5.3774..: 12.50 and
// 5.37, the cent left to the larger remainder, 5.38. Bases are 87.50 and 43.01 -
// 5.38 + 7 = 44.63; taxes 4.375 -> 4.38 and 8.926 -> 8.93. Net is 143.01 - 17.88 +
// 7 = 132.13, gross 145.44. Paid 100.03 already, 45.41 are due, 45.40 to 0.05.
func TestOrderDiscountPaymentAndRounding(t *testing.T) {
	supplier := &job.Supplier{Code: "S", Delivery: euros("7"), OrderDiscountPercent: dec("12.5"), OrderDiscountFrom: euros("143.01"), Paid: euros("100.03"), PayableStep: euros("0.05")}
	product := func(code, price, tax, charge string) *job.Product {
		return supplied(supplier, code, func(p *job.Product) {
			p.Price, p.TaxPercent, p.LineCharge = dec(price), dec(tax), euros(charge)
		})
	}
	order, _ := one(t, settings, supplier, Need{Product: product("A", "10", "5", "0"), Sold: big.NewRat(10, 1)},
		Need{Product: product("B", "20.01", "20", "0"), Sold: big.NewRat(1, 1)}, Need{Product: product("C", "10", "20", "3"), Sold: big.NewRat(2, 1)})
	for _, figure := range []struct {
		what string
		got  money.Amount
		want string
	}{
		{"charge", order.Lines[2].Charge, "3.00"}, {"net of the charged line", order.Lines[2].Net, "23.00"}, {"goods", order.Goods, "143.01"}, {"allowance", order.Allowance, "17.88"},
		{"share at 5 %", order.Taxes[0].Allowance, "12.50"}, {"share at 20 %", order.Taxes[1].Allowance, "5.38"}, {"base at 5 %", order.Taxes[0].Base, "87.50"},
		{"base at 20 %", order.Taxes[1].Base, "44.63"}, {"tax at 5 %", order.Taxes[0].Amount, "4.38"}, {"tax at 20 %", order.Taxes[1].Amount, "8.93"},
		{"net", order.Net, "132.13"}, {"gross", order.Gross, "145.44"}, {"paid", order.Paid, "100.03"}, {"rounding", order.Rounding, "-0.01"}, {"payable", order.Payable, "45.40"},
	} {
		same(t, figure.what, figure.got.String(), figure.want)
	}
}

// The discount begins at its limit, and neither it nor what is paid moves the
// minimum order and free delivery: these compare with the goods before it.
func TestOrderDiscountFrom(t *testing.T) {
	for _, row := range []struct {
		pieces                                   int64
		allowance, delivery, supplement, payable string
	}{
		{9, "0.00", "5.00", "10.00", "105.00"}, {10, "10.00", "0.00", "0.00", "90.00"}, {12, "12.00", "0.00", "0.00", "108.00"},
	} {
		supplier := &job.Supplier{Code: "S", Delivery: euros("5"), FreeFrom: euros("100"), MinimumOrder: euros("100"), OrderDiscountPercent: dec("10"), OrderDiscountFrom: euros("100")}
		orders, _, _ := Buy(settings, []*job.Supplier{supplier}, []Need{{Product: supplied(supplier, "P", func(p *job.Product) { p.TaxPercent = dec("0") }), Sold: big.NewRat(row.pieces, 1)}})
		untaxed := orders[0]
		same(t, "allowance", untaxed.Allowance.String(), row.allowance)
		same(t, "delivery", untaxed.Delivery.String(), row.delivery)
		same(t, "supplement", untaxed.Supplement.String(), row.supplement)
		same(t, "payable", untaxed.Payable.Sub(untaxed.Tax).String(), row.payable)
	}
}

// 100 held by a supplier pay the first order of 60 and 40 of the second; the third
// is paid whole, and no order is ever below nothing. Sums are rounded to 50, half
// up: 20 to nothing, 75 to 100.
func TestPaidGoesToTheEarliestOrders(t *testing.T) {
	supplier := &job.Supplier{Code: "S", Paid: euros("100"), PayableStep: euros("50")}
	product := supplied(supplier, "P", func(p *job.Product) { p.TaxPercent, p.Price = dec("0"), dec("15") })
	need := Need{Product: product, Sold: big.NewRat(13, 1), By: []*big.Rat{big.NewRat(4, 1), big.NewRat(4, 1), big.NewRat(5, 1)}}
	orders, _, _ := Buy(settings, []*job.Supplier{supplier}, []Need{need})
	got := ""
	for _, o := range orders {
		got += fmt.Sprintf("%s - %s + %s = %s; ", o.Gross, o.Paid, o.Rounding, o.Payable)
	}
	same(t, "payments", got, "60.00 - 60.00 + 0.00 = 0.00; 60.00 - 40.00 + -20.00 = 0.00; 75.00 - 0.00 + 25.00 = 100.00; ")
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
