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

// runs asks for the room's runs with what their ends add, to be cut from stock.
func (t *taker) runs(room *building.Room, product *job.Product, by job.Measure, runs []building.Run) {
	for _, run := range runs {
		piece := Length{Product: product, Room: room, By: by, Wall: run.Wall, Run: run.Length, Return: run.Return,
			Ends: [2]End{endOf(product, run.Left, true), endOf(product, run.Right, false)}}
		piece.Length = run.Length + piece.Ends[0].allowance(product) + piece.Ends[1].allowance(product)
		t.cut(piece)
	}
}

// walls asks for every wall's whole length, openings not deducted.
func (t *taker) walls(room *building.Room, product *job.Product) {
	for i, wall := range room.Walls.Walls() {
		if i < len(room.Walls.Outer) {
			t.cut(Length{Product: product, Room: room, By: job.Perimeter, Wall: i + 1, Run: wall.Length, Length: wall.Length})
		}
	}
}

// nosings asks for one nosing a step, as wide as the steps.
func (t *taker) nosings(room *building.Room, product *job.Product) {
	for range room.Spec.Steps {
		t.cut(Length{Product: product, Room: room, By: job.Steps, Run: room.Spec.StepWidth, Length: room.Spec.StepWidth, Whole: true})
	}
}

// profiles gives this one to every opening that has none, from either side.
func (t *taker) profiles(room *building.Room, product *job.Product) {
	for _, opening := range room.Openings {
		if opening.TakesProfile() {
			t.profile(room, product, opening)
		}
	}
}

func withoutProfile(room *building.Room) int {
	n := 0
	for _, opening := range room.Openings {
		if opening.TakesProfile() {
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
		t.profile(room, opening.Profile, opening)
	}
}

// profile asks for an opening's profile, cut to its width.
func (t *taker) profile(room *building.Room, product *job.Product, opening building.Opening) {
	t.cut(Length{Product: product, Room: room, By: job.Openings, Wall: opening.Wall, Run: opening.Width, Length: opening.Width, Opening: opening.Spec, Whole: true})
}

// expansionProfiles asks for the profiles between the room's fields.
func (t *taker) expansionProfiles(room *building.Room, product *job.Product) {
	for _, profile := range room.Profiles {
		t.cut(Length{Product: product, Room: room, By: job.ExpansionProfiles, Run: profile.Length(), Length: profile.Length()})
	}
}

// cut asks for a piece.
func (t *taker) cut(piece Length) {
	t.use(piece.Product, piece.Room, int64(piece.Length))
	t.out.Lengths = append(t.out.Lengths, piece)
}

// strips asks for the room's strips, to be cut from rolls or boards.
func (t *taker) strips(room *building.Room, product *job.Product) {
	for _, s := range stripsOf(room, product) {
		t.use(product, room, int64(s.length.Times(product.Width)))
		length := Length{Product: product, Room: room, By: job.FloorArea, Run: s.length, Length: s.length}
		if s.along > 1 {
			length.Along = s.along
		}
		t.out.Lengths = append(t.out.Lengths, length)
	}
}
