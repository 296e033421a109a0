package quantity

import (
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// waste is what is taken away from a room: the old floor that is lifted, and
// what the layout of the covering leaves over, as solid material. Film, trims
// and packing are left out: little volume, and none that a layout knows.
type waste struct {
	volume *big.Rat // squares of 1/320 mm x millimetres
	weight *big.Rat // kilograms
}

func wasteOf(room *building.Room, laid Laid) waste {
	w := waste{new(big.Rat), new(big.Rat)}
	if old := room.Spec.OldFloor; old != nil {
		w.add(big.NewRat(int64(room.Area), 1), old.Thickness, new(big.Rat).Quo(old.Weight.Rat(), big.NewRat(int64(measure.SquareMetre), 1)))
	}
	if line := room.Spec.BuildUp.Covering(); line != nil {
		w.add(coveringWaste(room, line, laid), line.Product.Thickness, weightOf(line.Product))
	}
	return w
}

// add adds an area of something as thick and, in kilograms by square of
// 1/320 mm, as heavy as it is.
func (w waste) add(area *big.Rat, thickness measure.Length, weight *big.Rat) {
	w.volume.Add(w.volume, new(big.Rat).Mul(area, big.NewRat(int64(thickness), int64(measure.Millimetre))))
	if weight != nil {
		w.weight.Add(w.weight, new(big.Rat).Mul(area, weight))
	}
}

// coveringWaste is the room's part of what its planks leave over, or the waste
// per cent of a covering that is counted by area.
func coveringWaste(room *building.Room, line *job.Line, laid Laid) *big.Rat {
	if laid.ByPiece {
		return big.NewRat(int64(laid.Waste), 1)
	}
	area := room.Area
	if line.Measure == job.LaidArea {
		area = laidArea(room, laid)
	}
	percent := new(big.Rat).Mul(line.Factor.Rat(), line.Waste.Rat())
	return percent.Mul(percent, big.NewRat(int64(area), 100))
}

// weightOf is the kilograms of a covering by square of 1/320 mm; nil when its
// row does not say.
func weightOf(product *job.Product) *big.Rat {
	content := product.AreaIn(product.SoldBy)
	if content == nil || product.Weight.IsZero() {
		return nil
	}
	return new(big.Rat).Quo(product.Weight.Rat(), content)
}

// wasteVolume states a volume in cubic metres, or cubic yards in jobs of feet and
// inches.
func (t *taker) wasteVolume(w waste) measured {
	per, unit := new(big.Rat).Set(cubicMetre), "m3"
	if t.settings.LengthUnit.Imperial() {
		per.Mul(per, job.CubicYard.Rat())
		unit = "yd3"
	}
	return measured{byAreaAndDepth, w.volume, per, unit}
}

// cubicMetre is in squares of 1/320 mm times millimetres.
var cubicMetre = big.NewRat(int64(measure.SquareMetre)*1000, 1)

func (t *taker) wasteWeight(w waste) measured {
	return measured{counted, w.weight, big.NewRat(1, 1), "kg"}
}

// oldFloor states the work of lifting the room's old floor.
func (t *taker) oldFloor(room *building.Room) {
	if old := room.Spec.OldFloor; old != nil && old.Operation != nil {
		t.add(room, &job.Line{Ref: old.Ref, Operation: old.Operation, Measure: job.OldFloorArea, Factor: decimal.NewFromInt(1)}, t.area(room.Area), Laid{})
	}
}
