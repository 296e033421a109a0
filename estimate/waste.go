package estimate

import (
	"math/big"
	"math/bits"
	"slices"

	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// countWaste adds the lines of waste where it is counted: what is cut off and
// unpacked follows from those taken before.
func (r *Result) countWaste() {
	if r.CountsWaste() {
		r.Takeoff.AddWaste(r.Job, r.Building, r.laid(), r.wasteBesides())
	}
}

// CountsWaste tells whether a build-up has a line of waste to take away.
func (r *Result) CountsWaste() bool {
	return slices.ContainsFunc(r.Job.BuildUps, func(b *job.BuildUp) bool {
		return slices.ContainsFunc(b.Lines, func(l *job.Line) bool { return l.Measure.OfWaste() })
	})
}

// wasteBesides is what every room leaves over besides its covering: off-cuts of
// trims, film and underlay, and packing. It is known when lengths are cut, of the
// quantities taken before.
func (r *Result) wasteBesides() []quantity.Waste {
	besides := make([]quantity.Waste, len(r.Building.Rooms))
	for i := range besides {
		besides[i] = quantity.NoWaste()
	}
	for i := range r.Cutting {
		shareOffcuts(&r.Cutting[i], besides)
		packingOfLengths(&r.Cutting[i], besides)
	}
	r.packing(besides)
	return besides
}

// shareOffcuts shares what a pool's cuts leave over to its rooms, by the length
// cut for them; the shares add up to the whole.
func shareOffcuts(pool *cutting.Pool, besides []quantity.Waste) {
	left, cut := pool.Waste(), pool.Laid()
	shares := map[int]measure.Length{} // by room index
	var before, shared measure.Length
	for _, piece := range pool.Pieces {
		before += piece.Length
		high, low := bits.Mul64(uint64(left), uint64(before))
		upTo, _ := bits.Div64(high, low, uint64(cut)) // before is no more than cut
		if room := piece.Run.Room; room != nil {
			shares[room.Index] += measure.Length(upTo) - shared
		}
		shared = measure.Length(upTo)
	}
	kg := kilograms(pool.Product)
	for room, share := range shares { // sums of exact numbers: their order is nothing
		besides[room].AddLength(pool.Product, share, kg)
	}
}

// packingOfLengths adds the packing of the lengths cut for every room, in parts of
// sold units.
func packingOfLengths(pool *cutting.Pool, besides []quantity.Waste) {
	p := pool.Product
	if !p.Packed() {
		return
	}
	for _, piece := range pool.Pieces {
		if room := piece.Run.Room; room != nil {
			besides[room.Index].AddPacking(p, new(big.Rat).Mul(soldPieces(p, 1), big.NewRat(int64(piece.Length), int64(p.Length))))
		}
	}
}

// kilograms is the weight of one piece of a product that is cut to lengths; nil
// when its row does not say.
func kilograms(p *job.Product) *big.Rat {
	pieces := purchase.PiecesPerSold(p)
	if p.Weight.IsZero() || pieces == nil {
		return nil
	}
	return new(big.Rat).Quo(p.Weight.Rat(), pieces)
}

// packing adds the packing of what every room uses, in parts of sold units: packs
// that it shares with others are shared so too.
func (r *Result) packing(besides []quantity.Waste) {
	for i := range r.Floors {
		floor := &r.Floors[i]
		for slot, room := range floor.Rooms {
			besides[room.Index].AddPacking(floor.Product, soldPieces(floor.Product, int64(floor.Plan.Layouts[slot].Planks)))
		}
	}
	for i := range r.Takeoff.Demands {
		if d := &r.Takeoff.Demands[i]; d.Unpacked() {
			besides[d.Room.Index].AddPacking(d.Product, d.Sold)
		}
	}
}
