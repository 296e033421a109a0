package quantity

import (
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// Waste is what is taken away, as solid material and packing pressed flat.
type Waste struct {
	Volume *big.Rat // squares of 1/320 mm x millimetres
	Weight *big.Rat // kilograms
}

// NoWaste is none yet.
func NoWaste() Waste { return Waste{new(big.Rat), new(big.Rat)} }

// AddLength adds a length of a trim, film or underlay, as wide and thick as it is;
// kg is the weight of a piece of its stock, nil when not known. Without a width
// or a thickness it has no volume.
func (w Waste) AddLength(p *job.Product, length measure.Length, kg *big.Rat) {
	w.add(big.NewRat(int64(length.Times(p.Width)), 1), p.Thickness, nil)
	if kg != nil {
		w.Weight.Add(w.Weight, new(big.Rat).Mul(kg, big.NewRat(int64(length), int64(p.Length))))
	}
}

// AddPacking adds what so many sold units of a product leave of their packing.
func (w Waste) AddPacking(p *job.Product, sold *big.Rat) {
	if !p.Packed() {
		return
	}
	volume := new(big.Rat).Mul(p.Packing.Rat(), cubicMetre)
	w.Volume.Add(w.Volume, volume.Mul(volume, sold))
	w.Weight.Add(w.Weight, new(big.Rat).Mul(p.PackingWeight.Rat(), sold))
}

// AddWaste adds the lines of the rooms that count what is taken away, each after
// the others of its room. besides is what a room leaves over of trims, film,
// underlay and packing, by the room's index; it becomes all that the room leaves.
func (all *Takeoff) AddWaste(j *job.Job, b *building.Building, laid []Laid, besides []Waste) {
	waste := &taker{settings: j.Settings, out: &Takeoff{}}
	lines := make([]Line, 0, len(all.Lines)+len(b.Rooms))
	rest := all.Lines
	for _, room := range b.Rooms {
		n := 0
		for n < len(rest) && rest[n].Room == room {
			n++
		}
		lines, rest = append(lines, rest[:n]...), rest[n:]
		waste.out.Lines = lines
		waste.waste(room, laid[room.Index], besides[room.Index])
		lines = waste.out.Lines
	}
	all.Lines = append(lines, rest...)
	all.Uses = append(all.Uses, waste.out.Uses...)
	all.Demands = append(all.Demands, waste.out.Demands...)
}

func (t *taker) waste(room *building.Room, laid Laid, besides Waste) {
	counted := false
	for _, line := range room.Spec.BuildUp.Lines {
		if !line.Measure.OfWaste() {
			continue
		}
		if !counted {
			besides.addRoom(room, laid)
			counted = true
		}
		m := t.wasteVolume(besides)
		if line.Measure == job.WasteWeight {
			m = t.wasteWeight(besides)
		}
		t.add(room, line, m, laid)
	}
}

// addRoom adds what is taken away from a room: the old floor that is lifted and
// what the layout of the covering leaves over.
func (w Waste) addRoom(room *building.Room, laid Laid) {
	if old := room.Spec.OldFloor; old != nil {
		w.add(big.NewRat(int64(room.Area), 1), old.Thickness, new(big.Rat).Quo(old.Weight.Rat(), big.NewRat(int64(measure.SquareMetre), 1)))
	}
	if line := room.Spec.BuildUp.Covering(); line != nil {
		w.add(coveringWaste(room, line, laid), line.Product.Thickness, weightOf(line.Product))
	}
}

// add adds an area of something as thick and, in kilograms by square of
// 1/320 mm, as heavy as it is.
func (w Waste) add(area *big.Rat, thickness measure.Length, weight *big.Rat) {
	w.Volume.Add(w.Volume, new(big.Rat).Mul(area, big.NewRat(int64(thickness), int64(measure.Millimetre))))
	if weight != nil {
		w.Weight.Add(w.Weight, new(big.Rat).Mul(area, weight))
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
func (t *taker) wasteVolume(w Waste) measured {
	per, unit := new(big.Rat).Set(cubicMetre), "m3"
	if t.settings.LengthUnit.Imperial() {
		per.Mul(per, job.CubicYard.Rat())
		unit = "yd3"
	}
	return measured{byAreaAndDepth, w.Volume, per, unit}
}

// cubicMetre is in squares of 1/320 mm times millimetres.
var cubicMetre = big.NewRat(int64(measure.SquareMetre)*1000, 1)

func (t *taker) wasteWeight(w Waste) measured {
	return measured{counted, w.Weight, big.NewRat(1, 1), "kg"}
}

// oldFloor states the work of lifting the room's old floor.
func (t *taker) oldFloor(room *building.Room) {
	if old := room.Spec.OldFloor; old != nil && old.Operation != nil {
		t.add(room, &job.Line{Ref: old.Ref, Operation: old.Operation, Measure: job.OldFloorArea, Factor: decimal.NewFromInt(1)}, t.area(room.Area), Laid{})
	}
}
