package layout

import (
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Racked is the floor of a room laid with boards of random lengths. Which board
// lies where is only known when packs are open, so that its rows are known and
// the boards are not: each piece of Layout is an unbroken row, cut from no plank.
type Racked struct {
	Layout Layout
	Most   measure.Area // of boards, see Rack; without those left over
}

// LeftOver is how many boards of random lengths, each the longest, may be left
// over as off-cuts where rooms share them.
const LeftOver = 2

// Rack cuts a room into rows for boards of random lengths up to plank.Length, and
// says how much of them it takes at most when the crew lays by this rule (common
// practice; boards are racked out of several open packs before they are fixed):
//
// Every row starts with what was cut off the end of a row before, where that
// keeps the stagger, shortened where it must be, else with a board. Then follow
// boards, the longest first, that keep the stagger and leave a last piece no
// shorter than the least end piece. The shortest board that reaches the wall ends
// the row. What is cut off it is kept, unless it is shorter than the least end
// piece.
//
// Most counts the board's full width for every unbroken row and its length, a saw
// cut and half a least end piece: of random rests too short to keep the mean.
// Rooms that share off-cuts take at most LeftOver boards besides, what lies on the
// pile in the end. No floor takes less than its area. In trials with random packs
// no room took more (see the tests).
//
// Of several directions the one that takes least is chosen.
func Rack(room Room, plank Plank, rules Rules) Racked {
	var best Racked
	for i, direction := range directionsOf(&room) {
		if r := rack(&room, direction, plank, &rules); i == 0 || r.Most < best.Most {
			best = r
		}
	}
	return best
}

func rack(room *Room, direction shape.Angle, plank Plank, rules *Rules) Racked {
	r := Racked{Layout: Layout{Room: room.ID, Direction: direction}}
	parts := []shape.Region{room.Floor}
	if len(room.Fields) > 0 {
		parts = inOrderOfRows(room.Fields, direction)
	}
	for _, part := range parts {
		f := floorOf(&Room{Floor: part}, direction, rules.Gap)
		if len(f.region) == 0 {
			continue
		}
		g := f.cut(0, crewFirstRow(f.width(), plank.Width, rules.LeastRow), plank.Width)
		r.add(&g, plank, rules)
	}
	return r
}

// add takes the rows of a field. How many boards of a row are ripped or notched
// is not known, so the fewest count.
func (r *Racked) add(g *grid, plank Plank, rules *Rules) {
	longest, width := plank.Length, plank.Width
	before := len(r.Layout.Rows)
	r.Layout.Rows = append(r.Layout.Rows, g.rows...)
	row, seq := -1, 0
	for i := range g.segments {
		for _, part := range g.segments[i].parts {
			if g.segments[i].row != row {
				row, seq = g.segments[i].row, 0
			}
			seq++
			box := part.Bounds()
			long, wide := box.X1-box.X0, box.Y1-box.Y0
			r.Layout.Pieces = append(r.Layout.Pieces, Piece{Row: before + row + 1, Seq: seq, At: part.Outer, Holes: part.Holes, In: shape.Box{X1: long, Y1: wide}})
			r.Most += (long + rules.LeastEnd/2 + rules.Kerf).Times(width)
			r.Layout.Cuts++
			if wide < width {
				r.Layout.Rips += int((long + longest - 1) / longest)
			}
			if !isRectangle(part) {
				r.Layout.countShape(&part)
			}
		}
	}
}
