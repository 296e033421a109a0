package job

import (
	"fmt"
	"slices"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// Through tells whether the floor runs through the doorway in one piece: one of
// its rows says so.
func (d Doorway) Through() bool { return d.Opening.Through || d.Back.Through }

// checkThrough finds openings laid through whose rooms cannot be one floor.
func checkThrough(j *Job) []Finding {
	var found []Finding
	other := map[*Opening]bool{}
	for _, d := range Doorways(j.Rooms) {
		other[d.Opening], other[d.Back] = true, true
		if !d.Through() {
			continue
		}
		if text := d.unfit(); text != "" {
			found = append(found, d.finding(text))
		}
	}
	for _, room := range j.Rooms {
		for i := range room.Openings {
			if o := &room.Openings[i]; o.Through && !other[o] {
				found = append(found, Finding{Cells: cells(o.Ref, "through", "leads", "width"), Problem: problem.Problem{Code: problem.ThroughUnfit, Room: room.Name,
					Found: fmt.Sprintf("an opening of %s laid through from %s to %q, without one back", room.Name, o.Width, o.LeadsTo),
					Want:  "the same opening in the other room's rows: leading back, of the same width", Fix: "correct Leads to or Width, or add the row of the other room"}})
			}
		}
	}
	if len(found) > 0 {
		return found
	}
	for _, g := range groups(j.Rooms) {
		if text := g.unfit(); text != "" {
			found = append(found, g.through[0].finding(text))
		}
	}
	return found
}

func (d Doorway) finding(text string) Finding {
	return Finding{Cells: append(cells(d.Opening.Ref, "through", "wall", "from", "depth"), cells(d.Back.Ref, "wall", "from", "depth")...),
		Problem: problem.Problem{Code: problem.ThroughUnfit, Room: d.Room.Name, Found: fmt.Sprintf("%s and %s laid through: %s", d.Room.Name, d.Other.Name, text),
			Want: "two rooms with one floor, drawn with the same north, that meet in the opening", Fix: "correct the rows of both rooms, or leave Laid through empty"}}
}

// unfit says what keeps the rooms of a doorway from being one floor; nothing
// when all is well.
func (d Doorway) unfit() string {
	a, b := d.Room, d.Other
	differ := func(what string) string { return "their " + what + " differ" }
	switch {
	case d.Opening.Profile != nil || d.Back.Profile != nil:
		return "a profile stands in the opening"
	case d.Opening.Depth != d.Back.Depth:
		return fmt.Sprintf("the wall is %s deep in one row and %s in the other", d.Opening.Depth, d.Back.Depth)
	case a.BuildUp != b.BuildUp:
		return differ("build-ups")
	case a.LevelBy != b.LevelBy:
		return differ("levelling depths")
	case a.LiftOld != b.LiftOld || a.Subfloor != b.Subfloor || a.Flatness != b.Flatness || a.Heated != b.Heated:
		return differ("subfloors")
	case a.Skirting != b.Skirting:
		return differ("skirtings")
	case a.Steps > 0 && b.Steps > 0 && a.StepWidth != b.StepWidth:
		return differ("steps")
	case len(a.Readings) > 0 || len(b.Readings) > 0:
		return "level readings are taken room by room"
	case len(a.Outline.Outer) == 0 || len(b.Outline.Outer) == 0:
		return "" // said elsewhere
	}
	if _, _, ok := d.meeting(); !ok {
		return "the walls of the opening do not face one another"
	}
	return ""
}

// meeting is how far the other room is moved in the frame of the first so that
// both halves of the opening lie across the wall from one another, and the floor
// in the wall between; ok is false when their walls do not face.
func (d Doorway) meeting() (shift shape.Point, strip shape.Box, ok bool) {
	out, a, facing := span(d.Room, d.Opening)
	back, b, facing2 := span(d.Other, d.Back)
	if !facing || !facing2 || out.X != -back.X || out.Y != -back.Y {
		return shift, strip, false
	}
	across := shape.Point{X: out.X * d.Opening.Depth, Y: out.Y * d.Opening.Depth}
	far := shape.Box{X0: a.X0 + across.X, Y0: a.Y0 + across.Y, X1: a.X1 + across.X, Y1: a.Y1 + across.Y}
	strip = shape.Box{X0: min(a.X0, far.X0), Y0: min(a.Y0, far.Y0), X1: max(a.X1, far.X1), Y1: max(a.Y1, far.Y1)}
	return shape.Point{X: far.X0 - b.X0, Y: far.Y0 - b.Y0}, strip, true
}

// span is the stretch of wall that an opening takes, and the way out of the room
// through it; ok is false in a slanted wall.
func span(room *Room, o *Opening) (out shape.Point, at shape.Box, ok bool) {
	wall := room.Outline.Walls()[o.Wall]
	dx, dy := sign(wall.To.X-wall.From.X), sign(wall.To.Y-wall.From.Y)
	if dx != 0 && dy != 0 {
		return out, at, false
	}
	x, y := wall.From.X+dx*o.From, wall.From.Y+dy*o.From
	u, v := x+dx*o.Width, y+dy*o.Width
	return shape.Point{X: dy, Y: -dx}, shape.Box{X0: min(x, u), Y0: min(y, v), X1: max(x, u), Y1: max(y, v)}, true
}

func sign(l measure.Length) measure.Length {
	switch {
	case l > 0:
		return 1
	case l < 0:
		return -1
	}
	return 0
}

// group is rooms whose floors are one, each moved into the frame of the first.
type group struct {
	rooms   []*Room
	shifts  []shape.Point
	through []Doorway
	strips  []shape.Box // floor in the walls, as through
	apart   bool        // a ring of rooms does not close
}

// groups are the rooms laid through openings, by type and name.
func groups(rooms []*Room) []*group {
	of := map[*Room]*group{}
	place := map[*Room]shape.Point{}
	var all []*group
	for _, d := range Doorways(rooms) {
		shift, _, ok := d.meeting()
		if !d.Through() || !ok {
			continue
		}
		for _, room := range []*Room{d.Room, d.Other} {
			if of[room] == nil {
				g := &group{rooms: []*Room{room}}
				of[room] = g
				all = append(all, g)
			}
		}
		a, b := of[d.Room], of[d.Other]
		want := plus(place[d.Room], shift)
		if a == b {
			a.apart = a.apart || want != place[d.Other]
		} else {
			move := minus(want, place[d.Other])
			for _, room := range b.rooms {
				place[room], of[room] = plus(place[room], move), a
			}
			a.rooms, a.through, a.apart = append(a.rooms, b.rooms...), append(a.through, b.through...), a.apart || b.apart
			b.rooms = nil
		}
		a.through = append(a.through, d)
	}
	all = slices.DeleteFunc(all, func(g *group) bool { return len(g.rooms) == 0 })
	for _, g := range all {
		g.settle(place)
	}
	return all
}

// settle moves the rooms so that the corner of all is at 0,0.
func (g *group) settle(place map[*Room]shape.Point) {
	var low shape.Point
	for i, room := range g.rooms {
		box, at := room.Outline.Bounds(), place[room]
		if corner := (shape.Point{X: box.X0 + at.X, Y: box.Y0 + at.Y}); i == 0 {
			low = corner
		} else {
			low = shape.Point{X: min(low.X, corner.X), Y: min(low.Y, corner.Y)}
		}
	}
	for _, room := range g.rooms {
		g.shifts = append(g.shifts, minus(place[room], low))
	}
	for _, d := range g.through {
		_, strip, _ := d.meeting()
		at := minus(place[d.Room], low)
		g.strips = append(g.strips, shape.Box{X0: strip.X0 + at.X, Y0: strip.Y0 + at.Y, X1: strip.X1 + at.X, Y1: strip.Y1 + at.Y})
	}
}

func plus(a, b shape.Point) shape.Point  { return shape.Point{X: a.X + b.X, Y: a.Y + b.Y} }
func minus(a, b shape.Point) shape.Point { return shape.Point{X: a.X - b.X, Y: a.Y - b.Y} }

// unfit says why the rooms do not make one floor as they are drawn.
func (g *group) unfit() string {
	_, ok := g.outline()
	switch {
	case g.apart:
		return "the openings of these rooms do not lead round to the same place"
	case !ok:
		return "the rooms overlap as drawn, or do not touch"
	}
	return ""
}

// outline is the floor of all rooms and of the walls between them; ok is false
// when some of them overlap, or do not touch.
func (g *group) outline() (outline shape.Polygon, ok bool) {
	var parts shape.Region
	var area int64
	for i, room := range g.rooms {
		parts = append(parts, room.Outline.Shift(g.shifts[i]))
	}
	for _, strip := range g.strips {
		if strip.X0 < strip.X1 && strip.Y0 < strip.Y1 {
			parts = append(parts, shape.Rectangle(strip))
		}
	}
	for _, part := range parts {
		area += part.DoubleArea()
	}
	whole := shape.Union(parts)
	if len(whole) != 1 || whole.DoubleArea() != area {
		return shape.Polygon{}, false
	}
	return shape.Normalise(whole[0]), true
}
