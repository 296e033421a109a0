package job

import (
	"cmp"
	"slices"
	"strings"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// Joined is the job with the rooms that are laid through openings as one room
// each, called by all their names, and what is wrong with these. Everything else
// is the job's own.
func (j *Job) Joined() (*Job, problem.List) {
	all := groups(j.Rooms)
	if len(all) == 0 {
		return j, nil
	}
	c := *j
	became := map[*Room]*Room{}
	var problems problem.List
	for _, g := range all {
		whole := g.room()
		for _, room := range g.rooms {
			became[room] = whole
		}
		for _, finding := range checkRun(whole) {
			finding.At = whole.Ref
			problems.Add(finding.Problem)
		}
	}
	leadElsewhere(j.Rooms, became)
	c.Rooms, c.Takeoff = nil, joinedTakeoff(j.Takeoff, became)
	done := map[*Room]bool{}
	for _, room := range j.Rooms {
		if room = became[room]; !done[room] {
			done[room] = true
			c.Rooms = append(c.Rooms, room)
		}
	}
	return &c, problems
}

// leadElsewhere lets openings to a room that is part of a whole now lead to the
// whole. Rooms that became none become copies of themselves.
func leadElsewhere(rooms []*Room, became map[*Room]*Room) {
	names := map[called]string{}
	for _, room := range rooms {
		if whole := became[room]; whole != nil {
			names[room.called()] = whole.Name
		}
	}
	for _, room := range rooms {
		if became[room] == nil {
			own := *room
			own.Openings = slices.Clone(room.Openings)
			became[room] = &own
		}
		for i := range became[room].Openings {
			o := &became[room].Openings[i]
			o.LeadsTo = cmp.Or(names[o.to(room)], o.LeadsTo)
		}
	}
}

// room is the one room that the group makes. It is laid the way its largest room
// asks for.
func (g *group) room() *Room {
	largest := slices.MaxFunc(g.rooms, func(a, b *Room) int { return cmp.Compare(a.Outline.Area(), b.Outline.Area()) })
	whole := *g.rooms[0]
	whole.Outline, _ = g.outline()
	whole.Direction = largest.Direction
	whole.Source, whole.Doors, whole.Steps = largest.Source, 0, 0
	whole.Fixtures, whole.Openings = nil, nil
	var names, notes []string
	for i, room := range g.rooms {
		names = append(names, room.Name)
		if room.Note != "" {
			notes = append(notes, room.Note)
		}
		whole.Steps += room.Steps
		whole.StepWidth = max(whole.StepWidth, room.StepWidth)
		if room.Moisture.Cmp(whole.Moisture) > 0 {
			whole.Moisture = room.Moisture
		}
		for _, fixture := range room.Fixtures {
			fixture.Box = moved(fixture.Box, g.shifts[i])
			whole.Fixtures = append(whole.Fixtures, fixture)
		}
		g.addOpenings(&whole, room, g.shifts[i])
	}
	g.addJambs(&whole)
	whole.Whole = true
	whole.Name, whole.Note = strings.Join(names, " + "), strings.Join(notes, "; ")
	return &whole
}

// addOpenings puts the openings of a room that are not laid through into the
// walls of the whole.
func (g *group) addOpenings(whole, room *Room, shift shape.Point) {
	walls := room.Outline.Walls()
	for i := range room.Openings {
		o := room.Openings[i]
		if slices.ContainsFunc(g.through, func(d Doorway) bool { return d.Opening == &room.Openings[i] || d.Back == &room.Openings[i] }) {
			continue
		}
		from := plus(walls[o.Wall].From, shift)
		to := plus(walls[o.Wall].To, shift)
		if _, at, ok := span(room, &o); ok {
			at = moved(at, shift)
			from, to = shape.Point{X: at.X0, Y: at.Y0}, shape.Point{X: at.X1, Y: at.Y1}
			o.From = 0
		}
		if wall, before, found := locate(whole.Outline.Walls(), from, to); found {
			o.Wall, o.From = wall, before+o.From
			whole.Openings = append(whole.Openings, o)
		}
	}
}

// addJambs marks the sides of the openings laid through, which have no skirting,
// unless it turns into the opening from both rooms and so runs on.
func (g *group) addJambs(whole *Room) {
	for i, d := range g.through {
		strip := g.strips[i]
		if d.Opening.Depth == 0 || d.Opening.Return+d.Back.Return >= d.Opening.Depth {
			continue
		}
		low, high := shape.Point{X: strip.X0, Y: strip.Y0}, shape.Point{X: strip.X1, Y: strip.Y1}
		sides := [][2]shape.Point{{low, {X: strip.X0, Y: strip.Y1}}, {{X: strip.X1, Y: strip.Y0}, high}}
		if out, _, _ := span(d.Room, d.Opening); out.X != 0 {
			sides = [][2]shape.Point{{low, {X: strip.X1, Y: strip.Y0}}, {{X: strip.X0, Y: strip.Y1}, high}}
		}
		undercut := []bool{d.Opening.Undercut, d.Back.Undercut} // one frame, cut from either room
		for k, side := range sides {
			if wall, from, found := locate(whole.Outline.Walls(), side[0], side[1]); found {
				whole.Jambs = append(whole.Jambs, Opening{Ref: d.Opening.Ref, Wall: wall, From: from, Width: d.Opening.Depth, Undercut: undercut[k]})
			}
		}
	}
}

// locate finds the wall that two points lie on, in any order, and how far along
// it the nearer one lies.
func locate(walls []shape.Wall, p, q shape.Point) (wall int, from measure.Length, found bool) {
	for i, w := range walls {
		box := shape.Ring{w.From, w.To}.Bounds()
		on := func(s shape.Point) bool { return s == w.From || s == w.To || level(w) && within(box, s) }
		if on(p) && on(q) {
			return i, min(apart(w.From, p), apart(w.From, q)), true
		}
	}
	return 0, 0, false
}

// level tells a wall along x or y.
func level(w shape.Wall) bool { return w.From.X == w.To.X || w.From.Y == w.To.Y }

func within(b shape.Box, p shape.Point) bool {
	return b.X0 <= p.X && p.X <= b.X1 && b.Y0 <= p.Y && p.Y <= b.Y1
}

// apart is how far two points on a wall along x or y are apart; 0 for one point.
func apart(a, b shape.Point) measure.Length {
	return max(a.X-b.X, b.X-a.X) + max(a.Y-b.Y, b.Y-a.Y)
}

func moved(b shape.Box, by shape.Point) shape.Box {
	return shape.Box{X0: b.X0 + by.X, Y0: b.Y0 + by.Y, X1: b.X1 + by.X, Y1: b.Y1 + by.Y}
}

// joinedTakeoff adds up what a takeoff says of rooms that are one now. Perimeters
// and openings of the single rooms say nothing of the whole.
func joinedTakeoff(rows []*TakeoffRoom, became map[*Room]*Room) []*TakeoffRoom {
	var joined []*TakeoffRoom
	at := map[*Room]*TakeoffRoom{}
	for _, row := range rows {
		whole := became[row.Ours]
		switch {
		case whole == nil:
			joined = append(joined, row)
		case whole.Name == row.Ours.Name:
			own := *row
			own.Ours = whole
			joined = append(joined, &own)
		case at[whole] != nil:
			at[whole].Area += row.Area
		default:
			sum := *row
			sum.Room, sum.Ours, sum.Perimeter, sum.Openings = whole.Name, whole, 0, 0
			at[whole] = &sum
			joined = append(joined, &sum)
		}
	}
	return joined
}
