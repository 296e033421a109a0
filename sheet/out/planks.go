package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/purchase"
)

// laid is what is laid of one product, planned in three ways.
type laid struct {
	product              *job.Product
	floor, pieces        measure.Area
	planks, byEye, least int
}

// laidProducts adds up the floors by product, in the order of the floors.
func (b *book) laidProducts() []laid {
	var all []laid
	at := map[*job.Product]int{}
	for i := range b.result.Floors {
		floor := laidFloor(&b.result.Floors[i])
		if _, known := at[floor.product]; !known {
			at[floor.product] = len(all)
			all = append(all, laid{product: floor.product})
		}
		all[at[floor.product]].add(floor)
	}
	return all
}

func laidFloor(f *estimate.Floor) laid {
	l := laid{product: f.Product, planks: f.Plan.Planks, byEye: f.Plan.ByEye, least: f.Plan.LowerBound}
	for slot, room := range f.Rooms {
		l.floor += room.Area
		l.pieces += f.Plan.Layouts[slot].Area()
	}
	return l
}

func (l *laid) add(more laid) {
	l.planks += more.planks
	l.byEye += more.byEye
	l.least += more.least
	l.floor += more.floor
	l.pieces += more.pieces
}

// flat is how many planks an allowance in per cent on the floor's area comes
// to, whole planks.
func (l laid) flat(rate int64, unit measure.AreaUnit) decimal.Decimal {
	return l.floor.Decimal(unit, areaPlaces).Mul(decimal.NewFromInt(100+rate)).Shift(-2).DivRound(l.plank(unit), 8).Ceil()
}

// plank is the area of one.
func (l laid) plank(unit measure.AreaUnit) decimal.Decimal {
	return l.product.Length.Times(l.product.Width).Decimal(unit, 6)
}

// waste is what the planks have over what is laid of them, as a share of it.
func (l laid) waste(unit measure.AreaUnit) decimal.Decimal {
	pieces := l.pieces.Decimal(unit, areaPlaces)
	if pieces.Sign() == 0 {
		return decimal.Zero
	}
	return decimal.NewFromInt(int64(l.planks)).Mul(l.plank(unit)).DivRound(pieces, 12).Sub(decimal.NewFromInt(1)).Round(4)
}

// flatRates are the allowances that planks are ordered by without a plan
// (common practice), in per cent.
var flatRates = []int64{5, 7, 10}

// planks compares the plan with planning by eye and with flat allowances.
func (s *summary) planks() {
	products := s.book.laidProducts()
	if len(products) == 0 {
		return
	}
	unit := s.book.result.Job.Settings.AreaUnit
	s.headed("Planks", "Floor "+unit.String(), "Laid "+unit.String(), "One plank "+unit.String(), "This plan", "At least (proven)", "By eye",
		"Area + 5 %", "Area + 7 %", "Area + 10 %", "Waste")
	for _, l := range products {
		s.plankRow(l, unit)
		s.worthRow(l)
	}
	s.note("This plan is what the cut lists lay. At least: the proven bound below which no plan can come. By eye: the crew's row-by-row method, or a centred pattern with a block for every cut. Waste = planks of this plan over the laid area, spares and pack rounding apart. " +
		"The second row is what each other way costs more at the ordered price; less shows as a minus, and means that the allowance would not be enough.")
	s.gap()
}

// headed writes a heading row.
func (s *summary) headed(words ...string) {
	cells := make([]cell, len(words))
	for i := range cells {
		cells[i] = text(words[i])
		cells[i].style = style{bold: true, edge: ruleBelow, shaded: true, wrap: true}
		if i > 0 {
			cells[i].style.align = right
		}
	}
	s.putHigh(summaryHead, cells...)
}

// areaPlaces is the number of decimals that areas are compared with.
const areaPlaces = 4

func (s *summary) plankRow(l laid, unit measure.AreaUnit) {
	row := s.row + 1
	cells := []cell{text(l.product.Description).strong(), areaCell(l.floor, unit), areaCell(l.pieces, unit), number(l.plank(unit), "0.000000"), count(l.planks).strong(), atLeast(l.least), count(l.byEye)}
	for _, rate := range flatRates {
		cells = append(cells, number(l.flat(rate, unit), wholeFormat).from(fmt.Sprintf("ROUNDUP(ROUND(%s*%s/%s,8),0)", address(2, row), decimal.NewFromInt(100+rate).Shift(-2), address(4, row))))
	}
	cells = append(cells, number(l.waste(unit), percentFormat).strong().from(fmt.Sprintf("IF(%s=0,0,ROUND(%s*%s/%s-1,4))", address(3, row), address(5, row), address(4, row), address(3, row))))
	s.putWhole(summaryRow, cells...)
}

// atLeast is a bound, blank when none is known.
func atLeast(planks int) cell {
	if planks == 0 {
		return cell{}
	}
	return count(planks)
}

// worthRow says what the other ways cost more, at the net price of a plank as
// ordered.
func (s *summary) worthRow(l laid) {
	line, key := s.book.orderOf(l.product)
	bought := s.book.piecesBought(line)
	if line == nil || bought.Sign() <= 0 {
		return
	}
	above := s.row
	cells := make([]cell, len(summaryWidths))
	cells[0] = text("   dearer than this plan by, " + s.book.result.Job.Settings.Currency.Code).in(noteStyle)
	net := s.from.lines.look(fmt.Sprint(key), lineHeading, netHeading)
	if s.book.charged() {
		net = fmt.Sprintf("(%s-N(%s))", net, s.from.lines.look(fmt.Sprint(key), lineHeading, lineChargeHeading))
	}
	perSold := bought.DivRound(line.Quantity, 8)
	pieces := fmt.Sprintf("(%s*%s)", s.from.lines.look(fmt.Sprint(key), lineHeading, quantityHeading), perSold)
	others := map[int]decimal.Decimal{7: decimal.NewFromInt(int64(l.byEye))}
	for i, rate := range flatRates {
		others[8+i] = l.flat(rate, s.book.result.Job.Settings.AreaUnit)
	}
	for col := 7; col <= 10; col++ {
		more := others[col].Sub(decimal.NewFromInt(int64(l.planks)))
		worth := line.Goods().Decimal().Mul(more).DivRound(bought, s.book.minor())
		cells[col-1] = number(worth, decimalFormat(s.book.minor())).from(s.book.rounded(fmt.Sprintf("(%s-%s)*%s/%s", address(col, above), address(5, above), net, pieces)))
		cells[col-1].style.italic = true
	}
	s.putHigh(15, cells...)
}

// orderOf is the order line of a product and its number in the list of lines.
func (b *book) orderOf(p *job.Product) (*purchase.Line, int) {
	key := 0
	for i := range b.result.Orders {
		for j := range b.result.Orders[i].Lines {
			key++
			if b.result.Orders[i].Lines[j].Product == p {
				return &b.result.Orders[i].Lines[j], key
			}
		}
	}
	return nil, 0
}

// piecesBought is how many planks an order line buys.
func (b *book) piecesBought(line *purchase.Line) decimal.Decimal {
	if line == nil {
		return decimal.Zero
	}
	perSold := purchase.PiecesPerSold(line.Product)
	if perSold == nil {
		return decimal.Zero
	}
	return decimal.NewFromBigRat(perSold, 8).Mul(line.Quantity)
}
