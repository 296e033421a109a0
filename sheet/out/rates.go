package out

import (
	"fmt"

	"laybill/estimate/building"
	"laybill/estimate/price"
)

// byCovering names what a room gets.
func byCovering(r *building.Room) string {
	if r.Repaired {
		return repairsGroup
	}
	if covering := r.Spec.BuildUp.Covering(); covering != nil {
		return covering.Product.Description
	}
	return r.Spec.BuildUp.Name
}

// bidRates prices each covering by the unit of area. A rate is rounded, so that
// area x rate misses the price by something: that stands in a line of its own.
func (b *book) bidRates(s *sheet, ladder ladderRows) {
	unit := b.result.Job.Settings.AreaUnit
	net := b.result.Price.Ladder.Net
	s.part("Unit rates, before " + b.result.Job.Settings.TaxName)
	s.headings(3, "", "", "Floor", "Area "+unit.String(), "Rate a "+unit.String(), "Area x rate")
	first := s.row + 1
	extended := b.result.Job.Settings.Currency.Zero()
	for _, g := range price.GroupBy(b.result.Building.Places(), b.result.Price.Rooms, byCovering) {
		row := s.row + 1
		area := b.billed(g.Rooms).Decimal(unit, 2)
		rate := b.rateOf(g.Share.Price, area)
		line := b.result.Job.Settings.Currency.Round(area.Mul(rate))
		extended = extended.Add(line)
		now := fmt.Sprintf("IF(%s=0,0,%s)", address(4, row), b.rounded(fmt.Sprintf("%s*%s/%s/%s", g.Share.Price.Decimal(), ladder.at(ladder.net), net.Decimal(), address(4, row))))
		if net.IsZero() {
			now = "0"
		}
		cells := []cell{text("All work on"), {}, text(g.Name).in(plainStyle.wrapped()), number(area, "#,##0.00"), number(rate, decimalFormat(b.minor())).from(now),
			amount(line).from(b.rounded(address(4, row) + "*" + address(5, row)))}
		for i := range cells {
			cells[i].style.edge = hairBelow
		}
		s.putWhole(usualHeight, cells...)
	}
	sum := fmt.Sprintf("SUM(%s:%s)", address(6, first), address(6, s.row))
	rest := amount(net.Sub(extended)).from(b.rounded(ladder.at(ladder.net) + "-" + sum))
	s.putHigh(14, text("Difference by rounding of the rates"), cell{}, cell{}, cell{}, cell{}, rest)
	total := make([]cell, 6)
	total[0], total[5] = text("Price before "+b.result.Job.Settings.TaxName), amount(net).from(ladder.at(ladder.net))
	for i := range total {
		total[i] = total[i].total()
	}
	s.putHigh(16, total...)
}
