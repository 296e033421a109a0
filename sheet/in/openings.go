package in

import (
	"fmt"
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
		o := job.Opening{Ref: r.record("room"), LeadsTo: r.text("leads"), Through: r.yes("through"), Undercut: r.yes("undercut"), Depth: r.length("depth"), Return: r.length("return")}
		width, widthState := read(r, "width", asLength)
		from, fromState := read(r, "from", asLength)
		o.Width = width
		o.Profile, _ = refer(r, "profile", r.products)
		wall, wallState := read(r, "wall", func(in input) (int, *fault) { return parseWall(in, entry) })
		if entry == nil || len(entry.walls) == 0 || widthState != given || wallState != given || fromState == unknown {
			return
		}
		if width == 0 {
			r.doubt(problem.ValueOutOfRange, "width", "a length above 0", "correct the width, or delete the row")
			return
		}
		if o.Depth > 0 && o.Return > o.Depth {
			r.doubt(problem.ValueOutOfRange, "return", "at most the wall depth", "correct the return or the wall depth")
		}
		r.checkNumbering(entry, wall)
		long := entry.walls[wall].Length
		if !r.fits(entry, long, from, width, fromState) {
			return
		}
		if o.Wall, o.From = wall, from; fromState == blank {
			o.From = (long - width) / 2
		}
		entry.room.Openings = append(entry.room.Openings, o)
	})
}

// parseWall finds the wall an opening is in: its number in the walk, or the
// side that only one wall faces. Without a room, or a shape, any wall will do.
func parseWall(in input, entry *roomEntry) (wall int, flaw *fault) {
	text := strings.TrimSpace(in.text)
	facing := compass(text)
	number, err := strconv.Atoi(text)
	if facing == "" && err != nil {
		return 0, unreadable("write N, E, S or W, or the number of a leg")
	}
	if entry == nil || len(entry.walls) == 0 {
		return 0, nil
	}
	if facing == "" {
		if number < 1 || number > len(entry.walls) {
			return 0, &fault{code: problem.OpeningWallUnknown, want: fmt.Sprintf("a leg from 1 to %d, or N, E, S, W", len(entry.walls)), fix: "correct the number of the leg"}
		}
		return number - 1, nil
	}
	return wallFacing(facing, entry.walls)
}

// wallFacing is the only wall that stands on a side of the room. Slanted walls
// count when no other stands there.
func wallFacing(facing string, walls []shape.Wall) (wall int, flaw *fault) {
	var found, slanted []int
	for i, w := range walls {
		switch {
		case w.Facing.String() != facing:
		case w.From.X == w.To.X || w.From.Y == w.To.Y:
			found = append(found, i)
		default:
			slanted = append(slanted, i)
		}
	}
	if len(found) == 0 {
		found = slanted
	}
	if len(found) == 1 {
		return found[0], nil
	}
	flaw = &fault{code: problem.OpeningWallUnknown, want: "a side that a wall faces, or the number of a leg", fix: fmt.Sprintf("no wall faces %s: write another side, or the number of a leg", facing)}
	if len(found) > 1 {
		var numbers []string
		for _, i := range found {
			numbers = append(numbers, strconv.Itoa(i+1))
		}
		flaw.want = "the number of a leg where several walls face one side"
		flaw.fix = fmt.Sprintf("legs %s face %s: write the number of the one that is meant, counted anticlockwise from the corner nearest 0,0", strings.Join(numbers, " and "), facing)
	}
	return 0, flaw
}

// checkNumbering warns where the number of a wall, which counts anticlockwise
// from the corner nearest 0,0, is another leg in the outline as it was written.
func (r row) checkNumbering(entry *roomEntry, wall int) {
	cell, _ := r.cell("wall")
	legs := entry.legs
	if compass(cell.Text) != "" || wall < len(legs) && legs[wall] == entry.walls[wall].From && legs[(wall+1)%len(legs)] == entry.walls[wall].To || len(legs) == 0 {
		return
	}
	w := entry.walls[wall]
	r.problems.add("", problem.Problem{Code: problem.WallNumberDoubtful, At: r.at("wall"), Also: []problem.Ref{entry.row.at("outline")}, Room: entry.room.Name,
		Found: fmt.Sprintf("%s, taken as the wall on the side %s that is %s long", quote(r.shown("wall")), w.Facing, withUnit(w.Length, r.job.Settings.LengthUnit)),
		Want:  "walls counted anticlockwise from the corner nearest 0,0, which is not how the outline is written", Fix: "check the wall, or write the outline that way round"})
}

// fits checks that an opening is no longer than its wall.
func (r row) fits(entry *roomEntry, long, from, width measure.Length, fromState state) bool {
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
