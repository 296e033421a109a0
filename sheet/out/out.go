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

// sheets makes all sheets first, since their order is that of their making,
// and fills them in an order in which each knows what it refers to.
func (b *book) sheets() {
	plans := b.crew.Plans()
	crowded := max(0, len(plans)-mostCutSheets)
	summary, bid := b.add("Summary"), b.add("Bid")
	charged := len(b.result.Price.Rooms) > 0
	apartments, rooms := b.addIf(charged, "Prices by apartment"), b.addIf(charged, "Prices by room")
	byType := b.alikeQuantities()
	gathered := b.addIf(len(byType) < len(b.result.Takeoff.Lines), "Quantities by type")
	quantities := b.add("Quantities")
	repairs := b.addIf(len(b.result.Building.Repairs) > 0, "Repairs")
	lists := newCuts(b)
	lists.draw(plans)
	for _, p := range plans[:len(plans)-crowded] {
		lists.sheet(b.add("Cuts "+p.Name()), []*crew.Plan{p})
	}
	if crowded > 0 {
		lists.sheet(b.add("Cuts, further plans"), plans[len(plans)-crowded:])
	}
	hasPlans := len(b.result.Floors) > 0
	planPools, planRooms := b.addIf(hasPlans, "Planks by pool"), b.addIf(hasPlans, "Planks by room")
	trimCuts, pieces := b.add("Trim cuts"), b.trimPieces()
	alikePieces := b.alikePieces(pieces)
	lengthsByType := b.addIf(len(alikePieces) < len(pieces), "Trim lengths by type")
	trimLengths := b.add("Trim lengths")
	from := b.money()
	options := b.addIf(len(b.result.Alternatives) > 0, "Options")
	takeoff := b.addIf(len(b.result.Job.Takeoff) > 0, "Takeoff")
	subfloors := b.addSubfloor()
	given := b.result.Job.Settings.Risk.Given()
	risks, runs := b.addIf(given, "Risk"), b.addIf(given, "Risk runs")
	cautions, basis, checks, problems := b.add("Cautions"), b.add("Basis"), b.add("Checks"), b.add("Problems")

	if gathered != "" {
		b.quantitiesByType(gathered, byType)
	}
	b.quantities(quantities, gathered)
	if hasPlans {
		b.planLists(planPools, planRooms)
	}
	b.trimCuts(trimCuts)
	if lengthsByType != "" {
		b.trimLengthsByType(lengthsByType, pieces, alikePieces)
	}
	b.trimLengths(trimLengths, lengthsByType, pieces)
	ladder := b.summary(summary, from)
	b.bid(bid, ladder)
	if charged {
		b.prices(apartments, "Prices by apartment", ladder, b.pricedApartments(), false)
		b.prices(rooms, "Prices by room", ladder, b.pricedRooms(), true)
	}
	if repairs != "" {
		b.repairs(repairs, ladder)
	}
	if options != "" {
		b.options(options, ladder)
	}
	if takeoff != "" {
		b.takeoff(takeoff, ladder)
	}
	b.subfloor(subfloors)
	if risks != "" {
		b.risk(risks, runs, ladder)
	}
	b.cautions(cautions)
	b.basis(basis, crowded)
	b.checks(checks)
	b.problems(problems)
}

// money writes the orders, the labour and the other costs.
func (b *book) money() sources {
	classes := b.taxClasses()
	lines := b.orderLines(classes)
	ordersSheet, totalsSheet := b.add("Orders"), b.add("Order totals")
	var from sources
	from.lines = b.orders(ordersSheet, lines)
	from.totals = b.orderTotals(totalsSheet, from.lines, classes)
	if len(b.result.Splits) > 0 {
		b.atOnce(b.add("Ordered at once"))
	}
	for i, order := range b.result.Orders {
		name := "PO " + order.Supplier.Code
		if len(b.result.Consignments) > 1 {
			name += fmt.Sprintf("-%d", order.Consignment+1)
		}
		b.purchaseOrder(b.add(name), i+1, lines, from.lines, from.totals, classes)
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
