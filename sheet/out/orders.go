package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/estimate/purchase"
)

// orderLine is one line of one order, numbered through the job so that other
// sheets find it wherever it is sorted to.
type orderLine struct {
	key   int
	order int // number of the order, from 1
	purchase.Line
	purchase.Order
	class int // index into the tax rates
}

// taxClasses are the different tax rates of the orders, as they come; a class
// is named by a letter, so that changing its rate moves every line of it.
type taxClasses []decimal.Decimal

func (b *book) taxClasses() taxClasses {
	classes := taxClasses{b.result.Job.Settings.TaxPercent}
	for _, order := range b.result.Orders {
		for _, line := range order.Lines {
			if classes.of(line.TaxPercent) < 0 {
				classes = append(classes, line.TaxPercent)
			}
		}
	}
	return classes
}

func (t taxClasses) of(rate decimal.Decimal) int {
	for i := range t {
		if t[i].Equal(rate) {
			return i
		}
	}
	return -1
}

// className is the letter of a class; more than 26 rates go on with AA.
func className(class int) string { return problem.ColumnName(class + 1) }

func (b *book) orderLines(classes taxClasses) []orderLine {
	var lines []orderLine
	for i, order := range b.result.Orders {
		for _, line := range order.Lines {
			lines = append(lines, orderLine{key: len(lines) + 1, order: i + 1, Line: line, Order: order, class: classes.of(line.TaxPercent)})
		}
	}
	return lines
}

// Headings of the order lines that formulas refer to.
const (
	lineHeading     = "Line"
	orderHeading    = "Order no"
	quantityHeading = "Quantity"
	perSoldHeading  = "Units per sold unit"
	priceHeading    = "Price"
	discountHeading = "Discount"
	netHeading      = "Net"
	classHeading    = "Tax class"
	kindHeading     = "Kind"
	packsHeading    = "Packs"
)

// orders writes every order line of the job.
func (b *book) orders(sheet string, lines []orderLine) listing {
	l := list[orderLine]{
		title:     "Orders",
		note:      "Boxed, slanted cells may be changed: nets, orders, cost and price follow. Net = quantity x units per sold unit x price, less discount, rounded once." + b.choiceNote(),
		landscape: true,
	}
	l.columns = []column[orderLine]{
		{heading: lineHeading, width: 6, cell: func(r orderLine, _ int) cell { return plainCount(r.key) }},
		{heading: orderHeading, width: 7, cell: func(r orderLine, _ int) cell { return plainCount(r.order) }},
		{heading: "Supplier", width: 26, cell: func(r orderLine, _ int) cell { return text(r.Supplier.Name) }},
		{heading: "For", width: 12, cell: func(r orderLine, _ int) cell { return text(b.forWords(r.Order)) }},
		{heading: "Product", width: 14, cell: func(r orderLine, _ int) cell { return text(r.Product.Code) }},
		{heading: "Description", width: 44, cell: func(r orderLine, _ int) cell { return text(r.Words() + b.rackedRange(r.Product)) }},
		{heading: kindHeading, width: 12, cell: func(r orderLine, _ int) cell { return text(r.Product.Kind.String()) }},
		{heading: quantityHeading, width: 10, cell: func(r orderLine, _ int) cell { return number(r.Quantity, "#,##0.####").input() }},
		{heading: "Sold by", width: 8, cell: func(r orderLine, _ int) cell { return text(r.Product.SoldBy.String()) }},
		{heading: "Unit code", width: 7, cell: func(r orderLine, _ int) cell { return text(r.Product.SoldBy.Code()) }},
		{heading: packsHeading, width: 8, cell: func(r orderLine, _ int) cell { return packs(r.Packs) }},
		{heading: "Pallets", width: 25, cell: func(r orderLine, _ int) cell { return text(palletWords(r.Line)) }},
		{heading: priceHeading, width: 11, cell: func(r orderLine, _ int) cell { return unitPrice(r.Price, b.minor()).input() }},
		{heading: "Price per", width: 8, cell: func(r orderLine, _ int) cell { return text(r.Product.PricePer.String()) }},
		{heading: perSoldHeading, width: 11, cell: func(r orderLine, _ int) cell { return number(r.UnitsPerSold, "#,##0.########") }},
		{heading: discountHeading, width: 9, cell: func(r orderLine, _ int) cell { return percent(r.Discount).input() }},
		{heading: netHeading, width: 13, total: amount(b.goods()), places: b.minor()},
		{heading: classHeading, width: 7, cell: func(r orderLine, _ int) cell { return text(className(r.class)) }},
	}
	at := l.listed(sheet, len(lines))
	l.columns[at.number(netHeading)-1].cell = func(r orderLine, row int) cell {
		return amount(r.Line.Net).from(fmt.Sprintf("ROUND(%s%d*%s%d*%s%d*(1-%s%d),%d)", at.letter(quantityHeading), row,
			at.letter(perSoldHeading), row, at.letter(priceHeading), row, at.letter(discountHeading), row, b.minor()))
	}
	return l.write(b, sheet, lines)
}

func (b *book) goods() money.Amount {
	total := b.result.Job.Settings.Currency.Zero()
	for _, order := range b.result.Orders {
		total = total.Add(order.Goods)
	}
	return total
}

func (b *book) minor() int32 { return b.result.Job.Settings.Currency.Minor }

// packs is a number of packs, blank for goods without packs.
func packs(n decimal.Decimal) cell {
	if n.IsZero() {
		return cell{}
	}
	return number(n, "#,##0.##")
}

// unitPrice is a price that may have more places than amounts.
func unitPrice(price decimal.Decimal, minor int32) cell {
	places := max(minor, -price.Exponent())
	return number(price, decimalFormat(min(places, 8)))
}

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
func (b *book) orderTotals(sheet string, lines listing, classes taxClasses) listing {
	l := list[orderTotal]{
		title:     "Order totals",
		note:      "Delivery is free from the limit on; goods below the minimum are charged up to it. Tax is taken once on the sum of each class; delivery and supplement are class A. The rate of a class stands above its tax.",
		landscape: true,
	}
	rows := make([]orderTotal, len(b.result.Orders))
	for i, order := range b.result.Orders {
		rows[i] = orderTotal{i + 1, order}
	}
	l.columns = b.orderTotalColumns(sheet, lines, classes, len(rows))
	return l.write(b, sheet, rows)
}

func (b *book) orderTotalColumns(sheet string, lines listing, classes taxClasses, rows int) []column[orderTotal] {
	sums := b.orderSums()
	columns := []column[orderTotal]{
		{heading: orderHeading, width: 7, cell: func(r orderTotal, _ int) cell { return plainCount(r.no) }},
		{heading: "Order", width: 16, cell: func(r orderTotal, _ int) cell { return text(r.Number) }},
		{heading: "Supplier", width: 24, cell: func(r orderTotal, _ int) cell { return text(r.Supplier.Name) }},
		{heading: "For", width: 16, cell: func(r orderTotal, _ int) cell { return text(b.forWords(r.Order)) }},
		{heading: "Needed by", width: 13, cell: func(r orderTotal, _ int) cell { return day(r.NeededBy) }},
		{heading: "Order by", width: 13, cell: func(r orderTotal, _ int) cell { return day(r.OrderBy) }},
		{heading: goodsHeading, width: 13, total: amount(sums.Goods), places: b.minor()},
		{heading: "Charge", width: 10, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.Delivery).input() }},
		{heading: "Free from", width: 11, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.FreeFrom).input() }},
		{heading: deliveryHeading, width: 11, total: amount(sums.Delivery), places: b.minor()},
		{heading: toFreeHeading, width: 11},
		{heading: "Minimum", width: 11, cell: func(r orderTotal, _ int) cell { return b.limit(r.Supplier.MinimumOrder).input() }},
		{heading: supplementHeading, width: 12, total: amount(sums.Supplement), places: b.minor()},
		{heading: netHeading, width: 13, total: amount(sums.Net), places: b.minor()},
	}
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
	o := orderFormulas{b, at, lines, classes}
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
	sum := purchase.Order{Goods: zero, Delivery: zero, Supplement: zero, Net: zero, Tax: zero, Gross: zero}
	for _, o := range b.result.Orders {
		sum.Goods, sum.Delivery, sum.Supplement = sum.Goods.Add(o.Goods), sum.Delivery.Add(o.Delivery), sum.Supplement.Add(o.Supplement)
		sum.Net, sum.Tax, sum.Gross = sum.Net.Add(o.Net), sum.Tax.Add(o.Tax), sum.Gross.Add(o.Gross)
	}
	return sum
}

// orderFormulas are the sums of one order, each with its formula.
type orderFormulas struct {
	b       *book
	at      listing
	lines   listing
	classes taxClasses
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
	return amount(r.Net).from(fmt.Sprintf("ROUND(%s+%s+%s,%d)", o.cell(goodsHeading, row), o.cell(deliveryHeading, row), o.cell(supplementHeading, row), o.b.minor()))
}

// tax of a class in an order; none when it has no such lines.
func (o orderFormulas) taxOf(r orderTotal, class int) purchase.Tax {
	for _, tax := range r.Taxes {
		if tax.Percent.Equal(o.classes[class]) {
			return tax
		}
	}
	zero := o.b.result.Job.Settings.Currency.Zero()
	return purchase.Tax{Base: zero, Amount: zero}
}

func (o orderFormulas) classNet(r orderTotal, row, class int) cell {
	sum := fmt.Sprintf(`SUMIFS(%s,%s,%s,%s,"%s")`, o.lines.column(netHeading), o.lines.column(orderHeading), o.cell(orderHeading, row), o.lines.column(classHeading), className(class))
	if class == 0 {
		sum += "+" + o.cell(deliveryHeading, row) + "+" + o.cell(supplementHeading, row)
	}
	return amount(o.taxOf(r, class).Base).from(fmt.Sprintf("ROUND(%s,%d)", sum, o.b.minor()))
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

// kinds are the kinds of product that the orders hold, in their usual order.
func (b *book) kinds() []job.Kind {
	var kinds []job.Kind
	for k := range job.Kinds {
		for _, line := range b.orderLines(nil) {
			if line.Product.Kind == job.Kind(k) {
				kinds = append(kinds, job.Kind(k))
				break
			}
		}
	}
	return kinds
}

// forWords is the part of the building that an order is for; the job as a whole
// is not named.
func (b *book) forWords(o purchase.Order) string { return b.result.Consignments[o.Consignment].Name }

// palletWords says how the line's packs come: on full pallets and a part of one.
func palletWords(l purchase.Line) string {
	full, rest, said := l.Pallets()
	each := l.Product.PacksPerPallet
	switch {
	case !said:
		return ""
	case full == 0:
		return fmt.Sprintf("part of a pallet: %d of %d", rest, each)
	case rest == 0:
		return fmt.Sprintf("%d full of %d", full, each)
	}
	return fmt.Sprintf("%d full of %d, %d on a part", full, each, rest)
}
