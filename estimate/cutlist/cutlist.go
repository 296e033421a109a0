// Package cutlist tells the crew where every piece of a floor comes from and
// where the rest of its plank goes, from the plan of a pool.
package cutlist

import (
	"cmp"
	"slices"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
)

// Source is what a piece is cut from.
type Source int

// The sources: a plank laid as it comes, the first cut of a plank, or what an
// earlier cut left.
const (
	Whole Source = iota
	NewPlank
	Offcut
)

// Step is one piece in the order of laying.
type Step struct {
	Piece  *layout.Piece
	Source Source
	Before *Place // the piece cut from the plank before this one; nil for the first
	After  *Place // the piece that the off-cut goes to; nil when nothing more is cut
}

// Place names a piece within its pool.
type Place struct {
	Room  int // index into Plan.Layouts
	Piece *layout.Piece
}

// Of lists the steps of every layout of the plan, by layout, then row and
// piece. Planks are of the given size. The layouts are laid in the plan's
// order, so a plank is first cut where its first piece lies.
func Of(plan *layout.Plan, length, width measure.Length) [][]Step {
	steps := make([][]Step, len(plan.Layouts))
	latest := map[int]*Step{}
	places := map[int]Place{}
	for room := range plan.Layouts {
		steps[room] = inOrder(plan.Layouts[room].Pieces)
		for i := range steps[room] {
			step := &steps[room][i]
			stock := step.Piece.Stock
			here := Place{Room: room, Piece: step.Piece}
			step.Source = NewPlank
			if isWhole(&plan.Layouts[room], step.Piece, length, width) {
				step.Source = Whole
			}
			if before := latest[stock]; before != nil {
				place := places[stock]
				step.Source, step.Before, before.After = Offcut, &place, &here
			}
			latest[stock], places[stock] = step, here
		}
	}
	return steps
}

func inOrder(pieces []layout.Piece) []Step {
	steps := make([]Step, len(pieces))
	for i := range pieces {
		steps[i].Piece = &pieces[i]
	}
	slices.SortStableFunc(steps, func(a, b Step) int {
		return cmp.Or(cmp.Compare(a.Piece.Row, b.Piece.Row), cmp.Compare(a.Piece.Seq, b.Piece.Seq))
	})
	return steps
}

// isWhole tells whether the piece is the plank as it comes: nothing is cut.
func isWhole(l *layout.Layout, p *layout.Piece, length, width measure.Length) bool {
	if l.Blocks != nil {
		return l.Blocks.Whole(p)
	}
	b := p.At.Bounds()
	return len(p.At) == 4 && len(p.Holes) == 0 && b.X1-b.X0 == length && b.Y1-b.Y0 == width
}

// Segment is the pieces of a row that touch one another; a fixture that stands
// in the whole row parts it into several.
type Segment struct {
	Row   int
	Steps []Step
}

// Segments groups the steps of one layout, which are in order.
func Segments(steps []Step) []Segment {
	var segments []Segment
	for i, step := range steps {
		if i == 0 || !touches(steps[i-1].Piece, step.Piece) {
			segments = append(segments, Segment{Row: step.Piece.Row})
		}
		last := &segments[len(segments)-1]
		last.Steps = append(last.Steps, step)
	}
	return segments
}

func touches(left, right *layout.Piece) bool {
	return left.Row == right.Row && left.At.Bounds().X1 == right.At.Bounds().X0
}
