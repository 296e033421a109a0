package in

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

func (r *reader) readOpenings() {
	r.each("openings", func(r row) {
		entry := r.placed()
		o := job.Opening{Ref: r.record("room"), LeadsTo: r.text("leads"), Undercut: r.yes("undercut"), Depth: r.length("depth")}
		width, widthState := read(r, "width", asLength)
		from, fromState := read(r, "from", asLength)
		o.Width = width
		o.Profile, _ = refer(r, "profile", r.products)
		wall, wallState := read(r, "wall", func(in input) (leg, *fault) { return parseWall(in, entry) })
		if entry == nil || len(entry.legs) == 0 || widthState != given || wallState != given || fromState == unknown {
			return
		}
		if width == 0 {
			r.doubt(problem.ValueOutOfRange, "width", "a length above 0", "correct the width, or delete the row")
			return
		}
		if !r.fits(entry, wall, from, width, fromState) {
			return
		}
		if fromState == blank {
			from = (wall.length() - width) / 2
		}
		o.Wall, o.From = place(entry.room.Outline, wall, from)
		entry.room.Openings = append(entry.room.Openings, o)
	})
}

// parseWall finds the wall an opening is in: the number of a leg, or the side
// that only one wall faces. Without a room, or a shape, any wall will do.
func parseWall(in input, entry *roomEntry) (leg, *fault) {
	text := strings.TrimSpace(in.text)
	facing := compass(text)
	number, err := strconv.Atoi(text)
	if facing == "" && err != nil {
		return leg{}, unreadable("write N, E, S or W, or the number of a leg")
	}
	if entry == nil || len(entry.legs) == 0 {
		return leg{}, nil
	}
	legs := entry.legs
	if facing == "" {
		if number < 1 || number > len(legs) {
			return leg{}, &fault{code: problem.OpeningWallUnknown, want: fmt.Sprintf("a leg from 1 to %d, or N, E, S, W", len(legs)), fix: "correct the number of the leg"}
		}
		return legs[number-1], nil
	}
	var found []leg
	var numbers []string
	for i, l := range legs {
		if faces(entry.room.Outline.Outer, l) == facing {
			found = append(found, l)
			numbers = append(numbers, strconv.Itoa(i+1))
		}
	}
	switch {
	case len(found) == 0:
		return leg{}, &fault{code: problem.OpeningWallUnknown, want: "a side that a wall faces, or the number of a leg", fix: fmt.Sprintf("no wall faces %s: write another side, or the number of a leg", facing)}
	case len(found) > 1:
		return leg{}, &fault{code: problem.OpeningWallUnknown, want: "the number of a leg where several walls face one side",
			fix: fmt.Sprintf("legs %s face %s: write the number of the one that is meant", strings.Join(numbers, " and "), facing)}
	}
	return found[0], nil
}

// faces is the side of the compass on which a wall bounds the room, "" for a
// slanted one.
func faces(outer shape.Ring, l leg) string {
	from, to := l.from, l.to
	if wall, forward := wallOf(outer, l); wall >= 0 && !forward {
		from, to = to, from
	}
	// The outline runs anticlockwise: the floor is on the left of each wall.
	switch {
	case from.Y == to.Y && to.X > from.X:
		return "S"
	case from.Y == to.Y:
		return "N"
	case from.X == to.X && to.Y > from.Y:
		return "E"
	case from.X == to.X:
		return "W"
	}
	return ""
}

// wallOf is the wall of the outline that a leg lies on, -1 when there is none;
// forward tells whether the leg was walked the same way, anticlockwise.
func wallOf(outer shape.Ring, l leg) (wall int, forward bool) {
	for i, w := range legsOf(outer) {
		if side(w, l.from) == 0 && side(w, l.to) == 0 && w.covers(l.from) && w.covers(l.to) {
			ahead := (w.to.X-w.from.X)*(l.to.X-l.from.X) + (w.to.Y-w.from.Y)*(l.to.Y-l.from.Y)
			return i, ahead > 0
		}
	}
	return -1, false
}

// place turns a distance along a leg, counted anticlockwise, into one along the
// outline's wall, which it finds by its number in the walls' walking order.
func place(outline shape.Polygon, l leg, from measure.Length) (int, measure.Length) {
	wall, forward := wallOf(outline.Outer, l)
	start := l.from
	if !forward {
		start = l.to
	}
	corner := outline.Outer[wall]
	number := slices.IndexFunc(outline.Walls(), func(w shape.Wall) bool { return w.Ring == 0 && w.From == corner })
	return number, leg{corner, start}.length() + from
}

// fits checks that an opening is no longer than its wall.
func (r row) fits(entry *roomEntry, wall leg, from, width measure.Length, fromState state) bool {
	long := wall.length()
	if from+width <= long {
		return true
	}
	unit := r.job.Settings.LengthUnit
	found, key := quote(r.shown("width")), "width"
	if width <= long && fromState == given {
		found, key = fmt.Sprintf("%s from the corner and %s wide", quote(r.shown("from")), quote(r.shown("width"))), "from"
	}
	r.problems.add("", problem.Problem{Code: problem.OpeningTooWide, At: r.at(key), Also: []problem.Ref{entry.room.Ref}, Room: entry.room.Name, Found: found,
		Want: fmt.Sprintf("an opening within its wall, which is %s long", withUnit(long, unit)), Fix: "correct the width, the distance or the wall"})
	return false
}

// withUnit writes a length with its unit.
func withUnit(l measure.Length, unit measure.Unit) string {
	text := l.Format(unit)
	if unit == measure.Ft || unit == measure.In {
		return text
	}
	return text + " " + unit.String()
}
