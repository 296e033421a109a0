package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/price"
)

// grouping is one way to divide the price.
type grouping struct {
	title string
	key   func(*building.Room) string
}

var (
	byType    = grouping{"By apartment type", typeOf}
	byFloor   = grouping{"By floor", func(r *building.Room) string { return r.Place(job.LevelFloor) }}
	groupings = []grouping{byType, {"By block", func(r *building.Room) string { return r.Apartment.Block }}, {"By covering", byCovering}}
)

// typeOf is the apartment type that a room belongs to; repairs are none's.
func typeOf(r *building.Room) string {
	if r.Repaired {
		return repairsGroup
	}
	return r.Spec.Type
}

// repairsGroup is the group of all repairs.
const repairsGroup = "Repairs"

// Columns of a division that charts show.
const (
	groupProfit = 8
	groupRate   = 10
)

// groups divides cost and price, as far as the job tells the groups apart.
func (s *summary) groups(ways []grouping) {
	for _, by := range ways {
		groups := price.GroupBy(s.book.result.Building.Places(), s.book.result.Price.Rooms, by.key)
		first := s.group(by, groups)
		if by.title == byType.title {
			s.ladder.types = listing{sheet: s.name, first: first, last: first + len(groups) - 1}
		}
	}
}

// group writes one division and gives its first row. Each amount is its computed
// share scaled by what the whole has become since, so that it follows a change of
// price.
func (s *summary) group(by grouping, groups []price.Group) (first int) {
	if len(groups) < 2 && by.title != byType.title {
		return 0
	}
	unit := s.book.result.Job.Settings.AreaUnit
	s.together(summaryHead + summaryRow*float64(len(groups)+2))
	s.headed(by.title, "Apartments", "Floor "+unit.String(), "Material", "Labour", "Other", "Contingency, overhead", "Profit", "Price", "Price per "+unit.String(), "Margin")
	first = s.row + 1
	for _, g := range groups {
		s.groupRow(g, unit)
	}
	s.groupTotals(first, s.row)
	s.gap()
	return first
}

func (s *summary) groupRow(g price.Group, unit measure.AreaUnit) {
	row := s.row + 1
	l := s.book.result.Price.Ladder
	name := g.Name
	if name == "" {
		name = "(not named)"
	}
	area := areaOf(g.Rooms).Decimal(unit, areaPlaces)
	top := g.Share.Contingency.Add(g.Share.Overhead)
	cells := []cell{
		text(name), count(apartmentsOf(g.Rooms)), number(area, "#,##0.00"),
		s.book.scaled(g.Share.Material, l.Material, s.amountCell(s.ladder.material)),
		s.book.scaled(g.Share.Labour, l.Labour, s.amountCell(s.ladder.labour)),
		s.book.scaled(g.Share.Other, l.Other, s.amountCell(s.ladder.other)),
		s.book.scaled(top, l.Contingency.Add(l.Overhead), "("+s.topCells()+")"),
		s.book.scaled(g.Share.Profit, l.Profit, s.amountCell(s.ladder.profit)),
		amount(g.Share.Price).from(s.book.rounded(fmt.Sprintf("SUM(%s:%s)", address(4, row), address(8, row)))).strong(),
		perArea(g.Share.Price, area, row),
		marginCell(g.Share.Profit, g.Share.Price, row),
	}
	s.putWhole(summaryRow, cells...)
}

func (s *summary) topCells() string {
	return fmt.Sprintf("SUM(%s:%s)", s.amountCell(s.ladder.materialContingency), fixed(ladderAmount, s.ladder.overhead))
}

// scaled is a share of a whole: as computed while the whole is unchanged, in
// proportion afterwards.
func (b *book) scaled(share, whole money.Amount, now string) cell {
	if whole.IsZero() || share.IsZero() {
		return amount(share)
	}
	return amount(share).from(b.rounded(fmt.Sprintf("%s*%s/%s", share.Decimal(), now, whole.Decimal())))
}

// perArea is a price by the unit of area.
func perArea(price money.Amount, area decimal.Decimal, row int) cell {
	minor := price.Currency().Minor
	c := number(decimal.Zero, decimalFormat(minor))
	if !area.IsZero() {
		c.value = float(price.Decimal().DivRound(area, minor))
	}
	return c.from(fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,%d))", address(3, row), address(9, row), address(3, row), minor))
}

func marginCell(profit, price money.Amount, row int) cell {
	c := cell{value: 0.0, style: style{format: percentFormat}}
	if !price.IsZero() {
		c.value = float(profit.Decimal().DivRound(price.Decimal(), 4))
	}
	return c.from(fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,4))", address(9, row), address(8, row), address(9, row)))
}

func areaOf(rooms []*building.Room) measure.Area {
	var total measure.Area
	for _, room := range rooms {
		total += room.Area
	}
	return total
}

func apartmentsOf(rooms []*building.Room) int {
	seen := map[*job.Apartment]bool{}
	for _, room := range rooms {
		seen[room.Apartment] = true
	}
	return len(seen)
}

// groupTotals writes the whole beside the sum of the groups: they differ by
// cents at most, and only after a price was changed.
func (s *summary) groupTotals(first, last int) {
	l := s.book.result.Price.Ladder
	wholes := []struct {
		amount money.Amount
		now    string
	}{
		{l.Material, s.amountCell(s.ladder.material)}, {l.Labour, s.amountCell(s.ladder.labour)}, {l.Other, s.amountCell(s.ladder.other)},
		{l.Contingency.Add(l.Overhead), s.topCells()}, {l.Profit, s.amountCell(s.ladder.profit)}, {l.Net, s.amountCell(s.ladder.net)},
	}
	total := make([]cell, len(summaryWidths))
	rest := make([]cell, len(summaryWidths))
	total[0], rest[0] = text("Whole job"), text("Cents of rounding after a change").in(noteStyle)
	rooms := s.book.result.Building.Places()
	total[1], total[2] = count(apartmentsOf(rooms)), number(areaOf(rooms).Decimal(s.book.result.Job.Settings.AreaUnit, areaPlaces), "#,##0.00")
	for i, whole := range wholes {
		col := i + 4
		total[col-1] = amount(whole.amount).from(s.book.rounded(whole.now))
		rest[col-1] = amount(s.book.result.Job.Settings.Currency.Zero()).from(s.book.rounded(fmt.Sprintf("%s-SUM(%s:%s)", address(col, last+1), address(col, first), address(col, last))))
		rest[col-1].style.italic = true
	}
	for i := range total {
		total[i] = total[i].total()
	}
	s.putHigh(summaryRow, total...)
	s.putHigh(summaryRow, rest...)
}
