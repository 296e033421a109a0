package layout

import (
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Glued-down planks have no handed ends, so either half of a cut plank starts or
// ends a row (common practice).
//
// Planks of 1200 x 200 mm laid in halves, no kerf, 300 mm at least at each end, in
// a room of 1500 x 600 mm without a gap: three rows of a starter a and an end piece
// 1500 - a. Rows 1 and 3 have the same a, row 2 one of 600 more or less. Handed, a
// starter goes with an end piece of at most 1200 - a: in its own row they come to
// 1500, of two neighbours one pair comes to 900, the other to 2100; so row 2 makes
// one pair, and 6 pieces take 5 planks at any phase. Free, with a = 600 two starters
// of 600 are one plank, and the 900 that ends row 1 and the 300 that ends row 2
// another: 6 pieces less 2 pairs take 4 planks, as many as the area of 3.75 planks.
func TestEitherHalfOfAFreePlank(t *testing.T) {
	for ends, want := range map[Ends]int{Handed: 5, Free: 4} {
		rules := Rules{LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm, Ends: ends, Pattern: Half}
		p := poolOf(Plank{1200 * mm, 200 * mm}, rules, Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: 1500 * mm, Y1: 600 * mm})}, Directions: []shape.Angle{0}})
		plan := mustLay(t, Lay, p)
		report(t, p, plan)
		if plan.Planks != want || !plan.Proven || len(plan.Shortfalls) > 0 {
			t.Errorf("ends %d: %d planks, proven %t, %v; want %d planks", ends, plan.Planks, plan.Proven, plan.Shortfalls, want)
		}
		if alike := starterPairs(plan.Layouts[0].Pieces); (alike > 0) != (ends == Free) {
			t.Errorf("ends %d: %d planks give two pieces of a kind", ends, alike)
		}
	}
}

// starterPairs counts the planks that give two starters, or two end pieces.
func starterPairs(pieces []Piece) int {
	first, pairs := map[int]bool{}, 0
	seen := map[int]bool{}
	for _, p := range pieces {
		if starts := p.At.Bounds().X0 == measure.Length(0); seen[p.Stock] && first[p.Stock] == starts {
			pairs++
		} else {
			seen[p.Stock], first[p.Stock] = true, starts
		}
	}
	return pairs
}
