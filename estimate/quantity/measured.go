package quantity

import (
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// dimension is what a measured amount is an amount of.
type dimension int

const (
	counted dimension = iota
	byLength
	byArea
	byAreaAndDepth // area units x millimetres
)

// measured is an exact amount: of pieces, of 1/320 mm, of squares of 1/320 mm,
// or of squares of 1/320 mm times millimetres.
type measured struct {
	dimension dimension
	amount    *big.Rat
	per       *big.Rat // amount in one stated unit
	unit      string   // the stated unit
}

func count(n int) measured {
	return measured{counted, big.NewRat(int64(n), 1), big.NewRat(1, 1), "each"}
}

// measured counts what a line of the room's build-up is measured by.
func (t *taker) measured(room *building.Room, laid Laid, line *job.Line) measured {
	switch line.Measure {
	case job.FloorArea:
		return t.area(room.Area)
	case job.LaidArea:
		return t.area(laidArea(room, laid))
	case job.OldFloorArea:
		if !room.Spec.LiftOld {
			return t.area(0)
		}
		return t.area(room.Area)
	case job.LevelledArea:
		return t.area(t.subfloors.Rooms[room.Index].LevelledArea())
	case job.AreaDepth:
		return t.areaDepth(t.subfloors.Rooms[room.Index].AreaDepth())
	case job.Grinding:
		return t.areaDepth(t.subfloors.Rooms[room.Index].Grinding())
	case job.TileBed:
		return t.litres(room.Area, bedDepth(room.Spec.BuildUp.Covering().Product))
	case job.TileJoints:
		return t.litres(room.Area, jointDepth(room.Spec.BuildUp.Covering().Product))
	case job.Perimeter:
		return t.length(room.Perimeter)
	case job.SkirtingLength:
		return t.length(runLength(room.Skirting))
	case job.Runs:
		return t.length(runLength(room.Runs))
	case job.Seams:
		return t.length(seamLength(seamsBefore(room, line)))
	case job.ExpansionProfiles:
		return t.length(room.ProfileLength())
	case job.Packs:
		return inPacks(t.packsOpened(room, laid))
	case job.Bags:
		return inBags(t.bagsIn(room, laid))
	case job.Carried:
		return t.carried(room, laid)
	}
	return countedIn(room, laid, line.Measure)
}

func countedIn(room *building.Room, laid Laid, by job.Measure) measured {
	switch by {
	case job.Openings:
		return count(len(room.Openings))
	case job.Undercuts:
		return count(undercuts(room))
	case job.RoomCount:
		return count(1)
	case job.Cuts:
		return count(laid.Cuts)
	case job.Rows:
		return count(laid.Rows)
	case job.Pieces:
		return count(laid.Pieces)
	case job.Steps:
		return count(room.Spec.Steps)
	case job.Rips:
		return count(laid.Rips)
	case job.Notches:
		return count(laid.Notches)
	case job.InsideCorners:
		return count(corners(room, building.InsideCorner))
	case job.OutsideCorners:
		return count(corners(room, building.OutsideCorner))
	}
	panic("quantity: " + by.String() + " is not measured in a room")
}

// corners counts the corners of a kind at which two lengths of the room's
// skirting meet: where one of them ends on the left, the other does on the right.
func corners(room *building.Room, kind building.Corner) int {
	n := 0
	for _, run := range room.Skirting {
		if run.Left.At == kind {
			n++
		}
	}
	return n
}

// laidArea is the area of the pieces, or, for a covering that is not laid piece
// by piece, the floor inside the expansion gap.
func laidArea(room *building.Room, laid Laid) measure.Area {
	if laid.ByPiece || laid.Most > 0 {
		return laid.Area
	}
	covering := room.Spec.BuildUp.Covering()
	if covering == nil {
		return room.Area
	}
	return room.InsideGaps(covering.Product.Gap)
}

func undercuts(room *building.Room) int {
	n := 0
	for _, opening := range slices.Concat(room.Openings, room.Jambs) {
		if opening.Spec != nil && opening.Spec.Undercut {
			n++
		}
	}
	return n
}

func (t *taker) area(a measure.Area) measured {
	unit := t.settings.AreaUnit
	return measured{byArea, big.NewRat(int64(a), 1), big.NewRat(int64(unit.Area()), 1), unit.String()}
}

func (t *taker) areaDepth(amount *big.Rat) measured {
	unit := t.settings.AreaUnit
	return measured{byAreaAndDepth, amount, big.NewRat(int64(unit.Area()), 1), unit.String() + " x mm"}
}

// litres is an area so many millimetres deep: a millimetre on a square metre is
// a litre.
func (t *taker) litres(a measure.Area, depth *big.Rat) measured {
	return measured{byAreaAndDepth, new(big.Rat).Mul(big.NewRat(int64(a), 1), depth), big.NewRat(int64(measure.SquareMetre), 1), "l"}
}

func (t *taker) length(l measure.Length) measured {
	unit := t.lengthUnit()
	return measured{byLength, big.NewRat(int64(l), 1), big.NewRat(int64(unit.Length()), 1), unit.String()}
}

// lengthUnit is what lengths are stated in: metres or feet.
func (t *taker) lengthUnit() measure.Unit {
	if t.settings.LengthUnit.Imperial() {
		return measure.Ft
	}
	return measure.M
}

// scaled is the amount times a factor and raised by a waste per cent.
func (m measured) scaled(factor, waste decimal.Decimal) measured {
	if !factor.Equal(one) {
		m.amount = new(big.Rat).Mul(m.amount, factor.Rat())
	}
	if !waste.IsZero() {
		m.amount = new(big.Rat).Mul(m.amount, one.Add(waste.Shift(-2)).Rat())
	}
	return m
}

var one = decimal.NewFromInt(1)

// stated is the amount in its unit, rounded half away from zero.
func (m measured) stated() decimal.Decimal {
	return roundRat(new(big.Rat).Quo(m.amount, m.per), Places)
}

// integer is the amount as a whole number for sharing costs: units of length or
// area, or thousandths of a count.
func (m measured) integer() int64 {
	amount := m.amount
	if m.dimension == counted {
		amount = new(big.Rat).Mul(amount, big.NewRat(1000, 1))
	}
	return roundRat(amount, 0).IntPart()
}

// roundRat is a rational as a decimal of so many places, half away from zero.
func roundRat(r *big.Rat, places int32) decimal.Decimal {
	shifted := new(big.Int).Mul(r.Num(), pow10(places))
	shifted.Lsh(shifted.Abs(shifted), 1).Add(shifted, r.Denom())
	rounded := shifted.Quo(shifted, new(big.Int).Lsh(r.Denom(), 1))
	if r.Sign() < 0 {
		rounded.Neg(rounded)
	}
	return decimal.NewFromBigInt(rounded, -places)
}

func pow10(n int32) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// soldUnits is the exact number of sold units that hold the amount.
func soldUnits(product *job.Product, by job.Measure, m measured) *big.Rat {
	return new(big.Rat).Quo(m.amount, Content(product, by))
}

// Content is how much of a measure one sold unit of the product holds: squares
// of 1/320 mm for areas, 1/320 mm for lengths, squares times millimetres of
// depth for compound, tile adhesive, grout and waste, kilograms for its weight, pieces for the rest. It is nil when the product's row
// does not say.
func Content(product *job.Product, by job.Measure) *big.Rat {
	switch by {
	case job.AreaDepth, job.Grinding, job.TileBed, job.TileJoints:
		return compoundContent(product)
	case job.FloorArea, job.LaidArea, job.OldFloorArea, job.LevelledArea:
		if product.SpreadArea > 0 && !product.SoldBy.Area() {
			return big.NewRat(int64(product.SpreadArea), 1)
		}
		return product.AreaIn(product.SoldBy)
	case job.Perimeter, job.SkirtingLength, job.Runs, job.Seams, job.ExpansionProfiles:
		return product.LengthIn(product.SoldBy)
	case job.WasteVolume:
		return positive(new(big.Rat).Mul(product.Holds.Rat(), cubicMetre))
	case job.WasteWeight:
		return positive(product.Weight.Rat())
	}
	if pieces := product.PiecesIn(product.SoldBy); pieces != nil {
		return pieces
	}
	return big.NewRat(1, 1)
}

// compoundContent: a bag of w kg spreads w / s square metres one millimetre
// deep when the compound takes s kg per m2 and mm.
func compoundContent(product *job.Product) *big.Rat {
	if product.Spread.Sign() <= 0 || product.Weight.Sign() <= 0 {
		return nil
	}
	squareMetres := new(big.Rat).Quo(product.Weight.Rat(), product.Spread.Rat())
	return squareMetres.Mul(squareMetres, big.NewRat(int64(measure.SquareMetre), 1))
}

func positive(r *big.Rat) *big.Rat {
	if r.Sign() <= 0 {
		return nil
	}
	return r
}
