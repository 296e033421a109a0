package out

import (
	"fmt"
	"slices"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

// suppliers divides the material by supplier.
func (s *summary) suppliers() {
	b := s.book
	s.together(summaryHead + summaryRow*float64(len(b.buying())))
	supplements := "Supplement"
	if b.discounted() {
		supplements = "Supplement less discount"
	}
	s.headed("By supplier", "Orders", "Goods", "Delivery", supplements, "Net", "Of material")
	first := s.row + 1
	suppliers := b.buying()
	for _, supplier := range suppliers {
		row := s.row + 1
		sum := func(heading string, of func(purchase.Order) money.Amount) (money.Amount, cell) {
			total, looks := b.result.Job.Settings.Currency.Zero(), ""
			for i, o := range b.result.Orders {
				if o.Supplier == supplier {
					total, looks = total.Add(of(o)), looks+"+"+s.from.totals.look(fmt.Sprint(i+1), orderHeading, heading)
				}
			}
			return total, amount(total).from(b.rounded(looks[1:]))
		}
		_, goods := sum(goodsHeading, func(o purchase.Order) money.Amount { return o.Goods })
		_, delivery := sum(deliveryHeading, func(o purchase.Order) money.Amount { return o.Delivery })
		added, supplement := sum(supplementHeading, func(o purchase.Order) money.Amount { return o.Supplement })
		if b.discounted() {
			off, discount := sum(orderDiscountHeading, func(o purchase.Order) money.Amount { return o.Allowance })
			supplement = amount(added.Sub(off)).from(b.rounded(supplement.formula + "-" + discount.formula))
		}
		net, netCell := sum(netHeading, func(o purchase.Order) money.Amount { return o.Net })
		s.putWhole(summaryRow, text(supplier.Name), count(b.ordersOf(supplier)), goods, delivery, supplement, netCell.strong(),
			shareOf(net, b.orderSums().Net, address(6, row), fmt.Sprintf("SUM(%s:%s)", fixed(6, first), fixed(6, first+len(suppliers)-1))))
	}
	s.gap()
}

// buying are the suppliers that get an order, in the order of the orders.
func (b *book) buying() []*job.Supplier {
	var suppliers []*job.Supplier
	for _, o := range b.result.Orders {
		if n := len(suppliers); n == 0 || suppliers[n-1] != o.Supplier {
			suppliers = append(suppliers, o.Supplier)
		}
	}
	return suppliers
}

func (b *book) ordersOf(supplier *job.Supplier) int {
	n := 0
	for _, o := range b.result.Orders {
		if o.Supplier == supplier {
			n++
		}
	}
	return n
}

// categories divides labour and other costs by the categories of the Operations
// and Extras sheets.
func (s *summary) categories() {
	b := s.book
	sums := map[string]money.Amount{} // capitals do not tell categories apart
	var names []string
	add := func(name string, a money.Amount) {
		key := strings.ToLower(name)
		if _, known := sums[key]; !known {
			names = append(names, name)
			sums[key] = b.result.Job.Settings.Currency.Zero()
		}
		sums[key] = sums[key].Add(a)
	}
	whole := b.result.Job.Settings.Currency.Zero()
	for _, line := range b.result.Labour {
		add(line.Operation.Category, line.Cost)
		whole = whole.Add(line.Cost)
	}
	for _, line := range b.result.Price.Extras {
		add(line.Extra.Category, line.Amount)
		whole = whole.Add(line.Amount)
	}
	slices.Sort(names)
	s.together(summaryHead + summaryRow*float64(len(names)))
	s.headed("By category", "", "", "", "", "Cost", "Of labour, other")
	first, last := s.row+1, s.row+len(names)
	for _, name := range names {
		row := s.row + 1
		sum := fmt.Sprintf("SUMIF(%s,%s,%s)+SUMIF(%s,%s,%s)", s.from.labour.operations.column(categoryHeading), equalTo(name), s.from.labour.operations.column(costHeading),
			s.from.extras.column(categoryHeading), equalTo(name), s.from.extras.column("Amount"))
		s.putWhole(summaryRow, text(name), cell{}, cell{}, cell{}, cell{}, amount(sums[strings.ToLower(name)]).from(b.rounded(sum)).strong(),
			shareOf(sums[strings.ToLower(name)], whole, address(6, row), fmt.Sprintf("SUM(%s:%s)", fixed(6, first), fixed(6, last))))
	}
	s.gap()
}

// equalTo is the criterion of a formula that finds a text of the user's, none of
// its letters standing for others. A formula holds 255 letters of text.
func equalTo(words string) string {
	const most = 120 // each may be escaped or doubled
	words = printable(words)
	if letters := []rune(words); len(letters) > most {
		return `"=` + criterion.Replace(string(letters[:most])) + `*"`
	}
	return `"=` + criterion.Replace(words) + `"`
}

var criterion = strings.NewReplacer(`"`, `""`, "~", "~~", "*", "~*", "?", "~?")

// shareOf is a part of a whole, as a share; its last arguments are their
// formulas.
func shareOf(part, whole money.Amount, partCell, wholeFormula string) cell {
	c := cell{value: 0.0, style: style{format: "0.0%"}}
	if !whole.IsZero() {
		c.value = round4(float(part.Decimal()) / float(whole.Decimal()))
	}
	return c.from(fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,4))", wholeFormula, partCell, wholeFormula))
}
