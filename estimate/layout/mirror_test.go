package layout

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// imageOf is the mirror image of a pool.
func imageOf(p Pool) Pool {
	image := p
	image.Rooms = nil
	for _, room := range p.Rooms {
		image.Rooms = append(image.Rooms, room.mirrored())
	}
	return image
}

// A plan of a pool, mirrored, is a plan of the mirror image with every rule kept
// as well and as many planks: what starts a row on the left ends it on the
// right, and two pieces go into one plank in either hand.
func TestMirroredPlansAreValid(t *testing.T) {
	for seed := range uint64(8) {
		r := rand.New(rand.NewPCG(21, seed))
		rooms := append(apartmentRooms(r)[:2], cornerRoom(r), columnRoom(r))
		rooms[1].Directions = []shape.Angle{0, shape.QuarterTurn}
		rooms[2].Directions = []shape.Angle{shape.QuarterTurn}
		rules := trialRules
		rules.Ends = Ends(seed % 2)
		p := poolOf(trialPlanks[seed%4], rules, rooms...)
		plan, image := mustLay(t, Lay, imageOf(p)), p
		mirrored := plan.Mirrored(&image)
		report(t, p, mirrored)
		if mirrored.Planks != plan.Planks || len(mirrored.Shortfalls) != len(plan.Shortfalls) {
			t.Errorf("seed %d: %d planks and %d shortfalls, mirrored %d and %d", seed, plan.Planks, len(plan.Shortfalls), mirrored.Planks, len(mirrored.Shortfalls))
		}
	}
}

// A pool and its mirror image are laid once: the same one stands for both.
func TestPlainIsOneOfPoolAndImage(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 1))
	p := poolOf(trialPlanks[0], trialRules, cornerRoom(r), columnRoom(r))
	plain, mirrored := p.Plain()
	other, otherMirrored := imageOf(p).Plain()
	if plain.Key() != other.Key() || mirrored == otherMirrored {
		t.Errorf("a pool stands as image %t, its image as image %t, for the same pool %t", mirrored, otherMirrored, plain.Key() == other.Key())
	}
	p.Rooms[0].Directions = []shape.Angle{30_000}
	if _, mirrored := p.Plain(); mirrored {
		t.Error("a floor laid on the slant is taken mirrored, though its corners are rounded")
	}
	p.Rooms[0].Directions, p.Rules.Pattern = nil, Third
	if _, mirrored := p.Plain(); mirrored {
		t.Error("a floor in a pattern is taken mirrored, though its rows would step the other way")
	}
}

// Worked by hand: 2,000 mm long, gap 10, planks 1,200 x 140. A row from 10 to
// 1,990 is a starter of 780 cut from the right of its plank (420 to 1,200) and a
// whole plank. In the mirror x becomes 2,000 - x: the whole plank from 10 to
// 1,210 comes first, the starter ends the row from 1,210 to 1,990 and is cut from
// the left of its plank, 0 to 780. The whole plank is the first now.
func TestMirroredPiecesByHand(t *testing.T) {
	p := poolOf(Plank{1200 * mm, 140 * mm}, trialRules, roomOf(shape.Rectangle(shape.Box{X1: 2000 * mm, Y1: 300 * mm})))
	span := func(x0, x1 measure.Length) shape.Box {
		return shape.Box{X0: x0 * mm, Y0: 10 * mm, X1: x1 * mm, Y1: 150 * mm}
	}
	plank := func(x0, x1 measure.Length) shape.Box { return shape.Box{X0: x0 * mm, X1: x1 * mm, Y1: 140 * mm} }
	plan := Plan{Layouts: []Layout{{Room: p.Rooms[0].ID, Rows: []Row{{10 * mm, 150 * mm}}, Pieces: []Piece{
		{Row: 1, Seq: 1, Stock: 1, At: shape.Rectangle(span(10, 790)).Outer, In: plank(420, 1200)},
		{Row: 1, Seq: 2, Stock: 2, At: shape.Rectangle(span(790, 1990)).Outer, In: plank(0, 1200)},
	}}}}
	want := []Piece{
		{Row: 1, Seq: 1, Stock: 1, At: shape.Rectangle(span(10, 1210)).Outer, In: plank(0, 1200)},
		{Row: 1, Seq: 2, Stock: 2, At: shape.Rectangle(span(1210, 1990)).Outer, In: plank(0, 780)},
	}
	if diff := cmp.Diff(want, plan.Mirrored(&p).Layouts[0].Pieces); diff != "" {
		t.Error(diff)
	}
}
