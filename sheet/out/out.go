// Package out writes a result as a workbook: the summary for the owner, the bid
// for the client, cut lists for the crew, orders for the office, and what the
// estimate rests on.
//
// Sums are live formulas that hold their exact results as well, so that a
// changed price moves every total and a recalculation changes no cent. What
// came out of a layout is a value. Formulas find rows by number, never by
// place or by a person's words, so that lists may be sorted and filtered.
package out

import (
	"fmt"
	"io"

	"laybill/estimate"
	"laybill/sheet/crew"
)

// Write writes the result as a workbook. The same result gives the same bytes.
func Write(w io.Writer, r *estimate.Result) error {
	b := newBook(r)
	defer b.file.Close()
	b.sheets()
	return b.write(w)
}

// sheets makes all sheets first, since their order is that of their making, and
// fills most of them later, when what they refer to is known.
func (b *book) sheets() {
	l := later{book: b}
	l.owner()
	l.quantities()
	crowded := l.crew()
	l.from = b.money()
	l.besides()
	l.judged(crowded)
	for _, fill := range l.fills {
		fill()
	}
}

// later is what sheets are filled with in the end.
type later struct {
	*book
	from   sources    // of the money, known when the sheets of the office are filled
	ladder ladderRows // known when the summary is
	fills  []func()
}

// sheet makes a sheet to be filled later, and gives its name; "" when it is not
// wanted.
func (l *later) sheet(wanted bool, name string, fill func(sheet string)) string {
	sheet := l.addIf(wanted, name)
	if sheet != "" {
		l.fills = append(l.fills, func() { fill(sheet) })
	}
	return sheet
}

// owner makes what the owner and the client read.
func (l *later) owner() {
	charged := len(l.result.Price.Rooms) > 0
	l.sheet(true, "Summary", func(sheet string) { l.ladder = l.summary(sheet, l.from) })
	l.sheet(true, "Cost breakdown", func(sheet string) { l.breakdown(sheet, l.ladder, l.from) })
	l.sheet(true, "Bid", func(sheet string) { l.bid(sheet, l.ladder) })
	l.sheet(charged, "Prices by apartment", func(sheet string) { l.prices(sheet, "Prices by apartment", l.ladder, l.pricedApartments(), false) })
	l.sheet(charged, "Prices by room", func(sheet string) { l.prices(sheet, "Prices by room", l.ladder, l.pricedRooms(), true) })
}

// quantities makes what every room needs.
func (l *later) quantities() {
	alike := l.alikeQuantities()
	byType := l.sheet(len(alike) < len(l.result.Takeoff.Lines), "Quantities by type", func(sheet string) { l.quantitiesByType(sheet, alike) })
	l.sheet(true, "Quantities", func(sheet string) { l.book.quantities(sheet, byType) })
	l.sheet(len(l.result.Building.Repairs) > 0, "Repairs", func(sheet string) { l.repairs(sheet, l.ladder) })
}

// crew makes the cut lists and what they were planned by. It gives the number of
// plans that share a sheet.
func (l *later) crew() (crowded int) {
	plans := l.book.crew.Plans()
	crowded = max(0, len(plans)-mostCutSheets)
	lists := newCuts(l.book)
	lists.draw(plans)
	for _, p := range plans[:len(plans)-crowded] {
		lists.sheet(l.add("Cuts "+p.Name()), []*crew.Plan{p})
	}
	if crowded > 0 {
		lists.sheet(l.add("Cuts, further plans"), plans[len(plans)-crowded:])
	}
	planned := len(l.result.Floors) > 0
	l.sheet(planned, "Planks by pool", l.planksByPool)
	l.sheet(planned, "Planks by room", l.planksByRoom)
	l.sheet(true, "Trim cuts", l.trimCuts)
	pieces := l.trimPieces()
	alike := l.alikePieces(pieces)
	byType := l.sheet(len(alike) < len(pieces), "Trim lengths by type", func(sheet string) { l.trimLengthsByType(sheet, pieces, alike) })
	l.sheet(true, "Trim lengths", func(sheet string) { l.trimLengths(sheet, byType, pieces) })
	return crowded
}

// besides makes what stands beside the job: other ways to do it, what others
// measured, the subfloors and the risk.
func (l *later) besides() {
	l.sheet(len(l.result.Alternatives) > 0, "Options", func(sheet string) { l.options(sheet, l.ladder) })
	l.sheet(len(l.result.Job.Takeoff) > 0, "Takeoff", func(sheet string) { l.takeoff(sheet, l.ladder) })
	subfloors := l.addSubfloor()
	l.fills = append(l.fills, func() { l.subfloor(subfloors) })
	given := l.result.Job.Settings.Risk.Given()
	risk := l.addIf(given, "Risk")
	l.sheet(given, "Risk runs", func(runs string) { l.risk(risk, runs, l.ladder) })
}

// judged makes what a person has to judge, and what all rests on.
func (l *later) judged(crowded int) {
	l.sheet(true, "Cautions", l.cautions)
	l.sheet(true, "Basis", func(sheet string) { l.basis(sheet, crowded) })
	l.sheet(true, "Checks", l.checks)
	l.sheet(true, "Problems", l.problems)
}

// money writes the orders, the labour and the other costs.
func (b *book) money() sources {
	classes := b.taxClasses()
	lines := b.orderLines(classes)
	ordersSheet, totalsSheet := b.add("Orders"), b.add("Order totals")
	var from sources
	from.lines = b.orders(ordersSheet, lines)
	var discounts, payments listing
	if b.discounted() {
		discounts = b.orderDiscounts(b.add("Order discounts"), from.lines, classes)
	}
	from.totals = b.orderTotals(totalsSheet, from.lines, discounts, classes)
	if b.settled() {
		payments = b.orderPayments(b.add("Order payments"), from.totals)
	}
	if len(b.result.Splits) > 0 {
		b.atOnce(b.add("Ordered at once"))
	}
	for i, order := range b.result.Orders {
		name := "PO " + order.Supplier.Code
		if len(b.result.Consignments) > 1 {
			name += fmt.Sprintf("-%d", order.Consignment+1)
		}
		b.purchaseOrder(b.add(name), i+1, lines, from.lines, from.totals, payments, classes)
	}
	b.deliveries(b.add("Deliveries"))
	if len(b.returns()) > 0 {
		b.returnsSheet(b.add("Returns"))
	}
	b.materials(b.add("Materials"))
	if b.result.Programme.Dated() {
		b.programme(b.add("Programme"))
		b.programmeBars(b.add("Programme bars"))
	}
	alike := b.alikeLabour()
	trades, operations, apartments := b.add("Trades"), b.add("Operations"), b.add("Labour by apartment")
	byType := b.addIf(len(alike) < len(b.result.Labour), "Labour by type")
	from.labour = b.planLabour(trades, operations, apartments, b.add("Labour"))
	b.labour(from.labour, byType, alike)
	from.extras = b.extras(b.add("Other costs"))
	return from
}
