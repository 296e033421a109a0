package quantity

import (
	"math/big"

	"laybill/estimate/building"
	"laybill/estimate/job"
)

// repairs states the pieces that repairs replace, and what their methods take.
func (t *taker) repairs(all []building.Repair) {
	for i := range all {
		t.repair(&all[i])
	}
}

func (t *taker) repair(r *building.Repair) {
	from, pieces := len(t.out.Lines), count(r.Pieces)
	t.out.Lines = append(t.out.Lines, Line{Apartment: r.At.Apartment, Room: r.At, Product: r.Product, Measure: job.Pieces, Quantity: pieces.stated(), Unit: pieces.unit})
	if bought := r.AreaOf(r.NewPieces()); bought > 0 {
		t.use(r.Product, r.At, int64(bought))
	}
	for _, line := range r.Method.Lines {
		if line.Measure.InRoom() {
			t.add(r.At, line, t.replaced(r, line.Measure), Laid{})
		}
	}
	for i := range t.out.Lines[from:] {
		t.out.Lines[from+i].Repair = r
	}
}

// replaced counts what a line of the repair's method is measured by.
func (t *taker) replaced(r *building.Repair, by job.Measure) measured {
	switch by {
	case job.Pieces:
		return count(r.Pieces)
	case job.Rows:
		return count(r.Rows)
	case job.LaidArea:
		return t.area(r.AreaOf(r.Pieces))
	case job.RoomCount:
		return count(1)
	case job.WasteVolume:
		return t.wasteVolume(repairWaste(r))
	case job.WasteWeight:
		return t.wasteWeight(repairWaste(r))
	}
	panic("quantity: " + by.String() + " is not measured in a repair")
}

// repairWaste is the damaged pieces and what is left over of the planks that
// take their place, together as much as these planks, and the packing of the new
// ones.
func repairWaste(r *building.Repair) Waste {
	w := NoWaste()
	p := r.Product
	w.add(big.NewRat(int64(r.PlankArea(r.Planks())), 1), p.Thickness, weightOf(p))
	if sold := p.AreaIn(p.SoldBy); sold != nil {
		w.AddPacking(p, new(big.Rat).Quo(big.NewRat(int64(r.PlankArea(r.NewPlanks())), 1), sold))
	}
	return w
}
