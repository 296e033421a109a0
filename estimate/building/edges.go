package building

import (
	"cmp"
	"math"
	"slices"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Run is a length of wall between corners and openings, with its ends as a
// person sees them who stands in the room and faces the wall.
type Run struct {
	Wall        int            // number of the wall in walking order, from 1
	From        measure.Length // from the wall's first corner, walking anticlockwise; of a return, its opening's side
	Length      measure.Length
	Return      bool // in the side of an opening rather than in the wall
	Left, Right End
}

// End is where a run ends.
type End struct {
	At   Corner
	Turn Turn // of the corner; nought at an opening
}

// Corner is what a run ends at.
type Corner int

// The corners. A run is Butted at an opening, and at a corner that the run
// of the next wall does not reach.
const (
	Butted Corner = iota
	InsideCorner
	OutsideCorner
)

// Turn is how far a wall turns from the one before it, as the tangent of half
// the angle: Rise over Reach.
type Turn struct{ Rise, Reach int64 }

// rightAngle turns a run into the side of an opening.
var rightAngle = Turn{1, 1}

// Half is half the angle in degrees: what a mitre saw is set to.
func (t Turn) Half() float64 { return math.Atan2(float64(t.Rise), float64(t.Reach)) * 180 / math.Pi }

// openings are the room's doorways as built; without a table of them, the doors
// that are only counted, each of the job's door width.
func openings(room *Room, mirrored bool, doorWidth measure.Length) []Opening {
	spec := room.Spec
	all := asBuiltIn(spec, spec.Openings, mirrored)
	if len(all) == 0 {
		for range spec.Doors {
			all = append(all, Opening{Width: doorWidth})
		}
	}
	return all
}

// asBuiltIn are openings of a room as built.
func asBuiltIn(spec *job.Room, openings []job.Opening, mirrored bool) []Opening {
	var all []Opening
	for i := range openings {
		o := &openings[i]
		from := o.From
		if mirrored {
			from = spec.Outline.Walls()[o.Wall].Length - o.From - o.Width
		}
		all = append(all, Opening{Spec: o, Wall: wallNumber(spec, o.Wall, mirrored), From: from, Width: o.Width, Profile: o.Profile})
	}
	return all
}

// wallNumber is the number from 1 of a wall that was wall i, from 0, before
// mirroring: the anticlockwise walk meets mirrored walls in the reverse order,
// and the new walk starts at the corner nearest 0,0.
func wallNumber(spec *job.Room, i int, mirrored bool) int {
	if !mirrored {
		return i + 1
	}
	bounds := spec.Outline.Bounds()
	axis := bounds.X0 + bounds.X1
	wall := spec.Outline.Walls()[i]
	from, to := wall.To, wall.From
	from.X, to.X = axis-from.X, axis-to.X
	for number, mirror := range spec.Outline.Mirror(axis).Walls() {
		if mirror.From == from && mirror.To == to {
			return number + 1
		}
	}
	return i + 1
}

// runs are the walls less the room's openings and jambs: each wall falls into the lengths
// between corners and openings. Columns and shafts have none. Doors that are
// only counted shorten the longest run, since nobody said where they are.
func runs(room *Room) []Run {
	walls := outerWalls(room)
	bare := slices.Concat(room.Openings, room.Jambs)
	var all []Run
	for i, wall := range walls {
		all = append(all, between(i+1, wall.Length, openingsIn(bare, i+1))...)
	}
	setEnds(all, walls)
	for _, opening := range room.Openings {
		if opening.Wall == 0 {
			shortenLongest(all, opening.Width)
		}
	}
	return slices.DeleteFunc(all, func(r Run) bool { return r.Length <= 0 })
}

func outerWalls(room *Room) []shape.Wall { return room.Walls.Walls()[:len(room.Walls.Outer)] }

// openingsIn are the openings of one wall in walking order.
func openingsIn(openings []Opening, wall int) []Opening {
	var in []Opening
	for _, o := range openings {
		if o.Wall == wall {
			in = append(in, o)
		}
	}
	slices.SortStableFunc(in, func(a, b Opening) int { return cmp.Compare(a.From, b.From) })
	return in
}

// between is what is left of a wall between its openings.
func between(wall int, length measure.Length, openings []Opening) []Run {
	var left []Run
	at := measure.Length(0)
	add := func(to measure.Length) {
		if to > at {
			left = append(left, Run{Wall: wall, From: at, Length: to - at})
		}
	}
	for _, o := range openings {
		add(o.From)
		at = max(at, o.From+o.Width)
	}
	add(length)
	return left
}

// setEnds finds the corners that two runs meet in. The walk goes from right to
// left for a person who faces the wall.
func setEnds(all []Run, walls []shape.Wall) {
	for i := range all {
		run, next := &all[i], &all[(i+1)%len(all)]
		wall := walls[run.Wall-1]
		following := run.Wall%len(walls) + 1
		if run.From+run.Length != wall.Length || next.Wall != following || next.From != 0 {
			continue
		}
		end := cornerOf(wall, walls[following-1])
		run.Left, next.Right = end, end
	}
}

// cornerOf is the corner where a walk with the floor to its left turns from one
// wall into the next. Walls in line make none.
func cornerOf(a, b shape.Wall) End {
	ax, ay := int64(a.To.X-a.From.X), int64(a.To.Y-a.From.Y)
	bx, by := int64(b.To.X-b.From.X), int64(b.To.Y-b.From.Y)
	cross, dot := ax*by-ay*bx, ax*bx+ay*by
	turn := Turn{Rise: max(cross, -cross), Reach: int64(a.Length)*int64(b.Length) + dot}
	switch {
	case cross > 0:
		return End{InsideCorner, turn}
	case cross < 0:
		return End{OutsideCorner, turn}
	}
	return End{}
}

// withReturns adds the returns of openings that have them: the skirting turns
// out of the wall into both sides of the opening.
func withReturns(runs []Run, openings []Opening) []Run {
	all := slices.Clone(runs)
	for _, o := range openings {
		if o.Spec == nil || o.Spec.Return == 0 {
			continue
		}
		first := Run{Wall: o.Wall, From: o.From, Length: o.Spec.Return, Return: true}
		second := Run{Wall: o.Wall, From: o.From + o.Width, Length: o.Spec.Return, Return: true}
		corner := End{OutsideCorner, rightAngle}
		for i := range all {
			run := &all[i]
			switch {
			case run.Wall != o.Wall || run.Return:
			case run.From+run.Length == first.From:
				run.Left, first.Right = corner, corner
			case run.From == second.From:
				run.Right, second.Left = corner, corner
			}
		}
		all = append(all, first, second)
	}
	slices.SortStableFunc(all, func(a, b Run) int {
		return cmp.Or(cmp.Compare(a.Wall, b.Wall), cmp.Compare(a.From, b.From), cmp.Compare(a.along(), b.along()))
	})
	return all
}

// along puts the return at an opening's far side before the run that begins there.
func (r Run) along() measure.Length {
	if r.Return {
		return 0
	}
	return r.Length
}

// shortenLongest takes a length off the longest run, and off the next when one
// is not long enough.
func shortenLongest(runs []Run, by measure.Length) {
	for by > 0 {
		longest := -1
		for i := range runs {
			if runs[i].Length > 0 && (longest < 0 || runs[i].Length > runs[longest].Length) {
				longest = i
			}
		}
		if longest < 0 {
			return
		}
		taken := min(by, runs[longest].Length)
		runs[longest].Length -= taken
		by -= taken
	}
}
