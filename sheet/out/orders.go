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
	lineHeading       = "Line"
	lineChargeHeading = "Line charge"
	orderHeading      = "Order no"
	quantityHeading   = "Quantity"
	perSoldHeading    = "Units per sold unit"
	priceHeading      = "Price"
	discountHeading   = "Discount"
	netHeading        = "Net"
	classHeading      = "Tax class"
	kindHeading       = "Kind"
	packsHeading      = "Packs"
)

// orders writes every order line of the job.
func (b *book) orders(sheet string, lines []orderLine) listing {
	l := list[orderLine]{
		title:     "Orders",
		note:      "Boxed, slanted cells may be changed: nets, orders, cost and price follow. Net = quantity x units per sold unit x price, less discount, rounded once" + b.chargeNote() + "." + b.choiceNote(),
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
	}
	if b.charged() {
		l.columns = append(l.columns, column[orderLine]{heading: lineChargeHeading, width: 10, cell: func(r orderLine, _ int) cell { return orBlank(amount(r.Charge)).input() }})
	}
	l.columns = append(l.columns,
		column[orderLine]{heading: netHeading, width: 13, total: amount(b.goods()), places: b.minor()},
		column[orderLine]{heading: classHeading, width: 7, cell: func(r orderLine, _ int) cell { return text(className(r.class)) }})
	at := l.listed(sheet, len(lines))
	l.columns[at.number(netHeading)-1].cell = func(r orderLine, row int) cell {
		net := fmt.Sprintf("ROUND(%s%d*%s%d*%s%d*(1-%s%d),%d)", at.letter(quantityHeading), row,
			at.letter(perSoldHeading), row, at.letter(priceHeading), row, at.letter(discountHeading), row, b.minor())
		if b.charged() {
			net = b.rounded(fmt.Sprintf("%s+N(%s%d)", net, at.letter(lineChargeHeading), row))
		}
		return amount(r.Line.Net).from(net)
	}
	return l.write(b, sheet, lines)
}

// chargeNote says that the lines' charges are in their nets, where there are any.
func (b *book) chargeNote() string {
	if b.charged() {
		return ", and the line charge"
	}
	return ""
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
