package out

import (
	"fmt"

	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

// Headings of the order totals that formulas refer to.
const (
	goodsHeading      = "Goods"
	deliveryHeading   = "Delivery"
	toFreeHeading     = "To free delivery"
	supplementHeading = "Supplement"
	taxHeading        = "Tax"
	grossHeading      = "Gross"
	weightHeading     = "Weight kg"
)

// orderTotal is one order, numbered.
type orderTotal struct {
	no int
	purchase.Order
}

// orderTotals writes a row an order. The rates of the tax classes stand above
// their columns, where the totals of the others are.
func (b *book) orderTotals(sheet string, lines, discounts listing, classes taxClasses) listing {
	l := list[orderTotal]{
		title:     "Order totals",
		note:      "Delivery is free from the limit on; goods below the minimum are charged up to it. Tax is taken once on the sum of each class; delivery and supplement are class A. The rate of a class stands above its tax.",
		landscape: true,
	}
	rows := b.orderRows()
	l.columns = b.orderTotalColumns(sheet, lines, discounts, classes, len(rows))
	return l.write(b, sheet, rows)
}

// orderRows are the orders, numbered.
func (b *book) orderRows() []orderTotal {
	rows := make([]orderTotal, len(b.result.Orders))
	for i, order := range b.result.Orders {
		rows[i] = orderTotal{i + 1, order}
	}
	return rows
}

// orderNames are the columns that say which order a row is of.
func (b *book) orderNames() []column[orderTotal] {
	return []column[orderTotal]{
		{heading: orderHeading, width: 7, cell: func(r orderTotal, _ int) cell { return plainCount(r.no) }},
		{heading: "Order", width: 16, cell: func(r orderTotal, _ int) cell { return text(r.Number) }},
		{heading: "Supplier", width: 24, cell: func(r orderTotal, _ int) cell { return text(r.Supplier.Name) }},
		{heading: "For", width: 16, cell: func(r orderTotal, _ int) cell { return text(b.forWords(r.Order)) }},
	}
}

func (b *book) orderTotalColumns(sheet string, lines, discounts listing, classes taxClasses, rows int) []column[orderTotal] {
	sums := b.orderSums()
	columns := append(b.orderNames(), []column[orderTotal]{
		{heading: "Needed by", width: 13, cell: func(r orderTotal, _ int) cell { return day(r.NeededBy) }},
		{heading: "Order by", width: 13, cell: func(r orderTotal, _ int) cell { return day(r.OrderBy) }},
		{heading: goodsHeading, width: 13, total: amount(sums.Goods), places: b.minor()},
	}...)
	if b.discounted() {
		columns = append(columns, column[orderTotal]{heading: orderDiscountHeading, width: 12, total: amount(sums.Allowance), places: b.minor()})
	}
	columns = append(columns, []column[orderTotal]{
		{heading: "Charge", width: 10, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.Delivery).input() }},
		{heading: "Free from", width: 11, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.FreeFrom).input() }},
		{heading: deliveryHeading, width: 11, total: amount(sums.Delivery), places: b.minor()},
		{heading: toFreeHeading, width: 11},
		{heading: "Minimum", width: 11, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.MinimumOrder).input() }},
		{heading: supplementHeading, width: 12, total: amount(sums.Supplement), places: b.minor()},
		{heading: netHeading, width: 13, total: amount(sums.Net), places: b.minor()},
	}...)
	for i := range classes {
		columns = append(columns,
			column[orderTotal]{heading: "Net class " + className(i), width: 13},
			column[orderTotal]{heading: "Tax class " + className(i), width: 11})
	}
	columns = append(columns,
		column[orderTotal]{heading: taxHeading, width: 12, total: amount(sums.Tax), places: b.minor()},
		column[orderTotal]{heading: grossHeading, width: 13, total: amount(sums.Gross), places: b.minor()},
		column[orderTotal]{heading: weightHeading, width: 10, cell: func(r orderTotal, _ int) cell { return number(r.Weight, "#,##0.0") }},
		column[orderTotal]{heading: "Lead days", width: 7, cell: func(r orderTotal, _ int) cell { return count(r.Supplier.LeadDays) }})
	at := (&list[orderTotal]{columns: columns}).listed(sheet, rows)
	o := orderFormulas{b, at, lines, discounts, classes}
	set := func(heading string, cell func(orderTotal, int) cell) { columns[at.number(heading)-1].cell = cell }
	set(goodsHeading, o.goods)
	set(deliveryHeading, o.delivery)
	set(toFreeHeading, o.toFree)
	set(supplementHeading, o.supplement)
	set(netHeading, o.net)
	for i, rate := range classes {
		columns[at.number("Tax class "+className(i))-1].above = percent(rate).input()
		set("Net class "+className(i), func(r orderTotal, row int) cell { return o.classNet(r, row, i) })
		set("Tax class "+className(i), func(r orderTotal, row int) cell { return o.classTax(r, row, i) })
	}
	set(taxHeading, o.tax)
	set(grossHeading, o.gross)
	if b.discounted() {
		set(orderDiscountHeading, func(r orderTotal, row int) cell {
			return amount(r.Allowance).from(o.discounts.look(o.cell(orderHeading, row), orderHeading, orderDiscountHeading))
		})
	}
	return columns
}

// limit is a supplier's limit, blank when there is none.
func (b *book) limit(a money.Amount) cell {
	return orBlank(number(a.Decimal(), decimalFormat(b.minor())))
}

// orBlank blanks a nought.
func orBlank(c cell) cell {
	if c.value == 0.0 {
		c.value = nil
	}
	return c
}

// orderSums adds the orders up.
func (b *book) orderSums() purchase.Order {
	zero := b.result.Job.Settings.Currency.Zero()
	sum := purchase.Order{Goods: zero, Allowance: zero, Delivery: zero, Supplement: zero, Net: zero, Tax: zero, Gross: zero, Paid: zero, Rounding: zero, Payable: zero}
	for _, o := range b.result.Orders {
		sum.Goods, sum.Delivery, sum.Supplement = sum.Goods.Add(o.Goods), sum.Delivery.Add(o.Delivery), sum.Supplement.Add(o.Supplement)
		sum.Net, sum.Tax, sum.Gross = sum.Net.Add(o.Net), sum.Tax.Add(o.Tax), sum.Gross.Add(o.Gross)
		sum.Allowance, sum.Paid, sum.Rounding, sum.Payable = sum.Allowance.Add(o.Allowance), sum.Paid.Add(o.Paid), sum.Rounding.Add(o.Rounding), sum.Payable.Add(o.Payable)
	}
	return sum
}

// orderFormulas are the sums of one order, each with its formula.
type orderFormulas struct {
	b         *book
	at        listing
	lines     listing
	discounts listing // none where no supplier gives any
	classes   taxClasses
}

func (o orderFormulas) cell(heading string, row int) string {
	return fmt.Sprintf("%s%d", o.at.letter(heading), row)
}

func (o orderFormulas) goods(r orderTotal, row int) cell {
	return amount(r.Goods).from(fmt.Sprintf("ROUND(SUMIF(%s,%s,%s),%d)", o.lines.column(orderHeading), o.cell(orderHeading, row), o.lines.column(netHeading), o.b.minor()))
}

func (o orderFormulas) delivery(r orderTotal, row int) cell {
	free, goods := o.cell("Free from", row), o.cell(goodsHeading, row)
	return amount(r.Delivery).from(fmt.Sprintf("IF(AND(N(%s)>0,ROUND(%s-%s,%d)>=0),0,N(%s))", free, goods, free, o.b.minor(), o.cell("Charge", row)))
}

// toFree is what the goods lack to free delivery, blank when it is free or never
// is.
func (o orderFormulas) toFree(r orderTotal, row int) cell {
	c := amount(r.ToFreeDelivery())
	c.style.format += ";;"
	return c.from(fmt.Sprintf("IF(N(%s)*N(%s)>0,MAX(0,ROUND(%s-%s,%d)),0)", o.cell("Free from", row), o.cell("Charge", row), o.cell("Free from", row), o.cell(goodsHeading, row), o.b.minor()))
}

func (o orderFormulas) supplement(r orderTotal, row int) cell {
	return amount(r.Supplement).from(fmt.Sprintf("MAX(0,ROUND(N(%s)-%s,%d))", o.cell("Minimum", row), o.cell(goodsHeading, row), o.b.minor()))
}

func (o orderFormulas) net(r orderTotal, row int) cell {
	off := ""
	if o.b.discounted() {
		off = "-" + o.cell(orderDiscountHeading, row)
	}
	return amount(r.Net).from(fmt.Sprintf("ROUND(%s%s+%s+%s,%d)", o.cell(goodsHeading, row), off, o.cell(deliveryHeading, row), o.cell(supplementHeading, row), o.b.minor()))
}

// tax of a class in an order; none when it has no such lines.
func (o orderFormulas) taxOf(r orderTotal, class int) purchase.Tax {
	for _, tax := range r.Taxes {
		if tax.Percent.Equal(o.classes[class]) {
			return tax
		}
	}
	zero := o.b.result.Job.Settings.Currency.Zero()
	return purchase.Tax{Goods: zero, Allowance: zero, Base: zero, Amount: zero}
}

func (o orderFormulas) classNet(r orderTotal, row, class int) cell {
	sum := o.sumOfClass(row, class)
	switch {
	case o.b.discounted() && len(o.classes) > 1:
		sum += "-" + o.discounts.look(o.cell(orderHeading, row), orderHeading, shareHeading(class))
	case o.b.discounted():
		sum += "-" + o.cell(orderDiscountHeading, row)
	}
	if class == 0 {
		sum += "+" + o.cell(deliveryHeading, row) + "+" + o.cell(supplementHeading, row)
	}
	return amount(o.taxOf(r, class).Base).from(fmt.Sprintf("ROUND(%s,%d)", sum, o.b.minor()))
}

// sumOfClass adds up the nets of an order's lines of a class.
func (o orderFormulas) sumOfClass(row, class int) string {
	return fmt.Sprintf(`SUMIFS(%s,%s,%s,%s,"%s")`, o.lines.column(netHeading), o.lines.column(orderHeading), o.cell(orderHeading, row), o.lines.column(classHeading), className(class))
}

func (o orderFormulas) classTax(r orderTotal, row, class int) cell {
	rate := fixed(o.at.number("Tax class "+className(class)), listTotals)
	return amount(o.taxOf(r, class).Amount).from(fmt.Sprintf("ROUND(%s*%s,%d)", o.cell("Net class "+className(class), row), rate, o.b.minor()))
}

func (o orderFormulas) tax(r orderTotal, row int) cell {
	sum := ""
	for i := range o.classes {
		sum += "+" + o.cell("Tax class "+className(i), row)
	}
	return amount(r.Tax).from(fmt.Sprintf("ROUND(%s,%d)", sum[1:], o.b.minor()))
}

func (o orderFormulas) gross(r orderTotal, row int) cell {
	return amount(r.Gross).from(fmt.Sprintf("ROUND(%s+%s,%d)", o.cell(netHeading, row), o.cell(taxHeading, row), o.b.minor()))
}
