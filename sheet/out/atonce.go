package out

import (
	"fmt"
	"strings"

	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

// Headings of the split orders that formulas refer to.
const (
	inPartsHeading = "In parts"
	atOnceHeading  = "At once"
	lessHeading    = "Less at once"
)

// atOnce sets the orders for parts of the building beside one order of the whole
// to each supplier.
func (b *book) atOnce(sheet string) {
	l := list[purchase.Split]{
		title: "Ordered at once",
		note: "What the orders for parts of the building cost, beside one order of the same goods to each supplier, before tax and as priced: later changes in this workbook do not move it. " +
			"One order reaches price breaks, discounts on orders, free delivery and minimums sooner. It wants room to store the goods, or a supplier who delivers on call.",
		landscape: true,
	}
	inParts, once, less := b.splitSums()
	l.columns = []column[purchase.Split]{
		{heading: "Supplier", width: 28, cell: func(r purchase.Split, _ int) cell { return text(r.Once.Supplier.Name) }},
		{heading: "Orders", width: 8, cell: func(r purchase.Split, _ int) cell { return count(len(r.Orders)) }},
		{heading: inPartsHeading, width: 13, total: amount(inParts), places: b.minor(), cell: func(r purchase.Split, _ int) cell { return amount(r.Net()) }},
		{heading: atOnceHeading, width: 13, total: amount(once), places: b.minor(), cell: func(r purchase.Split, _ int) cell { return amount(r.Once.Net) }},
		{heading: lessHeading, width: 13, total: amount(less), places: b.minor()},
		{heading: "Because", width: 80, cell: func(r purchase.Split, _ int) cell {
			return text(strings.Join(r.Reasons(), "; ")).in(plainStyle.wrapped())
		}},
	}
	at := l.listed(sheet, len(b.result.Splits))
	l.columns[at.number(lessHeading)-1].cell = func(r purchase.Split, row int) cell {
		return amount(r.Less()).from(b.rounded(fmt.Sprintf("%s%d-%s%d", at.letter(inPartsHeading), row, at.letter(atOnceHeading), row))).strong()
	}
	l.write(b, sheet, b.result.Splits)
}

func (b *book) splitSums() (inParts, once, less money.Amount) {
	zero := b.result.Job.Settings.Currency.Zero()
	inParts, once, less = zero, zero, zero
	for _, s := range b.result.Splits {
		inParts, once, less = inParts.Add(s.Net()), once.Add(s.Once.Net), less.Add(s.Less())
	}
	return inParts, once, less
}
