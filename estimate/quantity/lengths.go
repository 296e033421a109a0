package quantity

import (
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
)

func runLength(runs []building.Run) measure.Length {
	var total measure.Length
	for _, run := range runs {
		total += run.Length
	}
	return total
}

// skirting asks for the room's runs, to be cut from stock.
func (t *taker) skirting(room *building.Room, product *job.Product) {
	for _, run := range room.Runs {
		t.cutLength(room, product, run.Wall, run.Length, false)
	}
}

// walls asks for every wall's whole length, openings not deducted.
func (t *taker) walls(room *building.Room, product *job.Product) {
	for i, wall := range room.Walls.Walls() {
		if i < len(room.Walls.Outer) {
			t.cutLength(room, product, i+1, wall.Length, false)
		}
	}
}

// profiles gives every opening that names no profile of its own this one.
func (t *taker) profiles(room *building.Room, product *job.Product) {
	for _, opening := range room.Openings {
		if opening.Profile == nil {
			t.cutLength(room, product, opening.Wall, opening.Width, true)
		}
	}
}

func withoutProfile(room *building.Room) int {
	n := 0
	for _, opening := range room.Openings {
		if opening.Profile == nil {
			n++
		}
	}
	return n
}

// openingProfiles states and asks for the profiles that openings name.
func (t *taker) openingProfiles(room *building.Room) {
	for _, opening := range room.Openings {
		if opening.Profile == nil {
			continue
		}
		m := t.length(opening.Width)
		t.out.Lines = append(t.out.Lines, Line{Apartment: room.Apartment, Room: room, Product: opening.Profile,
			Measure: job.Openings, Quantity: m.stated(), Unit: m.unit})
		t.cutLength(room, opening.Profile, opening.Wall, opening.Width, true)
	}
}

func (t *taker) cutLength(room *building.Room, product *job.Product, wall int, length measure.Length, whole bool) {
	t.use(product, room, int64(length))
	t.out.Lengths = append(t.out.Lengths, Length{Product: product, Room: room, Wall: wall, Length: length, Whole: whole})
}

// film asks for the room's strips, to be cut from rolls.
func (t *taker) film(room *building.Room, product *job.Product) {
	for _, s := range stripsOf(room, product) {
		t.use(product, room, int64(s.length.Times(product.Width)))
		t.out.Lengths = append(t.out.Lengths, Length{Product: product, Room: room, Length: s.length})
	}
}
