package in

import (
	"fmt"
	"math"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
	"laybill/sheet/book"
)

// cornerTable is the rows of Corners by room.
type cornerTable struct {
	groups map[roomKey]*cornerGroup
	order  []*cornerGroup
}

// cornerGroup is the corners of one room.
type cornerGroup struct {
	row   row // the first
	key   roomKey
	name  string
	rings [][]cornerRow
	bad   bool // a cell of it could not be read
	used  bool
}

type cornerRow struct {
	point shape.Point
	at    problem.Ref
}

// mostRings of one room: its outline and its holes.
const mostRings = 100

func (r *reader) readCorners() *cornerTable {
	table := &cornerTable{groups: map[roomKey]*cornerGroup{}}
	r.each("corners", func(r row) {
		name, state := read(r, "room", asText)
		key := roomKey{nameKey(r.text("type")), nameKey(name)}
		ring, ringState := read(r, "ring", asWhole)
		x, xState := read(r, "x", asCoordinate)
		y, yState := read(r, "y", asCoordinate)
		if state != given {
			return
		}
		group := table.groups[key]
		if group == nil {
			group = &cornerGroup{row: r, key: key, name: name}
			table.groups[key] = group
			table.order = append(table.order, group)
		}
		switch {
		case ringState == unknown || xState == unknown || yState == unknown:
			group.bad = true
		case ring < 1 || ring > mostRings:
			r.doubt(problem.ValueOutOfRange, "ring", fmt.Sprintf("a number from 1 to %d: 1 is the outline, more are holes", mostRings), "correct the number")
			group.bad = true
		case max(x, -x, y, -y) > shape.Limit:
			r.doubt(problem.ValueOutOfRange, "x", "a corner within 1 km", "correct the number, or its unit")
			group.bad = true
		default:
			for len(group.rings) < ring {
				group.rings = append(group.rings, nil)
			}
			group.rings[ring-1] = append(group.rings[ring-1], cornerRow{shape.Point{X: x, Y: y}, r.at("x")})
		}
	})
	return table
}

// of is the corners of a room; without a type they belong to the only type
// that has the room.
func (t *cornerTable) of(room *job.Room, single bool) *cornerGroup {
	group := t.groups[roomKey{nameKey(room.Type), nameKey(room.Name)}]
	if group == nil && single {
		group = t.groups[roomKey{"", nameKey(room.Name)}]
	}
	if group != nil {
		group.used = true
	}
	return group
}

// checkCornersUsed reports corners of rooms that are not there.
func (r *reader) checkCornersUsed(corners *cornerTable) {
	for _, group := range corners.order {
		if !group.used {
			group.row.placed()
		}
	}
}

// shape finds a room's shape by the best that is given: corners, outline,
// length and width, area and perimeter, area, or what the takeoff says of it. The
// room has no walls when its shape is not known.
func (r row) shape(entry *roomEntry, corners *cornerTable) {
	room := entry.room
	group := corners.of(room, r.rooms.nameCount(r, room.Name) == 1)
	outline, outlineState := read(r, "outline", parseLegs)
	length, lengthState := read(r, "length", asLength)
	width, widthState := read(r, "width", asLength)
	area, areaState := read(r, "area", asArea)
	perimeter, perimeterState := read(r, "perimeter", asLength)
	var rings []shape.Ring
	ok := true
	switch {
	case group != nil:
		room.Source = job.FromCorners
		rings, ok = group.outline()
	case outlineState != blank:
		room.Source = job.FromOutline
		rings, ok = []shape.Ring{outline}, outlineState == given
	case lengthState != blank || widthState != blank:
		room.Source = job.FromSides
		rings, ok = r.rectangle(length, width, lengthState, widthState)
	case areaState != blank:
		rings, ok = r.assumed(room, area, perimeter, areaState, perimeterState)
	default:
		rings, ok = r.takenOff(room)
	}
	if !ok || !r.sound(rings, group) {
		return
	}
	room.Outline = shape.Normalise(shape.Polygon{Outer: rings[0], Holes: rings[1:]})
	for _, wall := range room.Outline.Walls() {
		if wall.Ring == 0 {
			entry.walls = append(entry.walls, wall)
		}
	}
	if room.Source == job.FromOutline {
		entry.legs = rings[0]
	}
	r.compare(room, area, perimeter, areaState, perimeterState)
}

// nameCount is how many rows of Rooms have a name.
func (n *roomNames) nameCount(r row, name string) int {
	if n.counts == nil {
		n.counts = map[string]int{}
		r.each("rooms", func(r row) {
			if cell, found := r.cell("room"); found && cell.Kind != book.Empty {
				n.counts[nameKey(cell.Text)]++
			}
		})
	}
	return n.counts[nameKey(name)]
}

// outline is the group's rings, repeated last corners taken off; ok is false
// when a cell could not be read or a ring is too short.
func (g *cornerGroup) outline() (rings []shape.Ring, ok bool) {
	if g.bad {
		return nil, false
	}
	for i, corners := range g.rings {
		var ring shape.Ring
		for _, c := range corners {
			ring = append(ring, c.point)
		}
		if n := len(ring); n > 1 && ring[n-1] == ring[0] {
			ring = ring[:n-1]
		}
		if len(ring) == 0 && i > 0 {
			continue
		}
		if len(ring) < 3 || len(ring) > mostCorners {
			at := g.row.at("x")
			if len(corners) > 0 {
				at = corners[0].at
			}
			g.row.problems.add("", problem.Problem{Code: problem.RoomOutlineBad, At: at, Room: g.name, Found: fmt.Sprintf("ring %d of %s has %d corners", i+1, quote(g.name), len(ring)),
				Want: fmt.Sprintf("from 3 to %d corners in walking order", mostCorners), Fix: "add the corners that are missing, or correct the ring's number"})
			return nil, false
		}
		rings = append(rings, ring)
	}
	return rings, true
}

// rectangle is the room of a length and a width.
func (r row) rectangle(length, width measure.Length, lengthState, widthState state) (rings []shape.Ring, ok bool) {
	for _, side := range []struct {
		key, other string
		length     measure.Length
		state      state
	}{{"length", "width", length, lengthState}, {"width", "length", width, widthState}} {
		switch {
		case side.state == blank:
			column := r.part.table.Column(side.key)
			r.problems.add("rooms "+side.key, problem.Problem{Code: problem.CellMissing, At: r.sideAt(side.key, side.other), Found: "nothing",
				Want: fmt.Sprintf("%s: %s", column.Heading, r.wants(column.Kind)), Fix: fmt.Sprintf("fill in the %s%s", side.key, r.named())})
			return nil, false
		case side.state == given && (side.length == 0 || side.length > shape.Limit):
			r.doubt(problem.ValueOutOfRange, side.key, "a length above 0 and under 1 km", "correct the number, or write its unit")
			return nil, false
		}
	}
	if lengthState != given || widthState != given {
		return nil, false
	}
	return []shape.Ring{shape.Rectangle(shape.Box{X1: length, Y1: width}).Outer}, true
}

// sideAt is the cell of a side, or of the other one when the sheet has no
// column for it.
func (r row) sideAt(key, other string) problem.Ref {
	if r.part.columns[key] == 0 {
		return r.at(other)
	}
	return r.at(key)
}

// assumed is the rectangle that stands in for a room of which only the area,
// or area and perimeter, are given. It is said so at the area.
func (r row) assumed(room *job.Room, area measure.Area, perimeter measure.Length, areaState, perimeterState state) (rings []shape.Ring, ok bool) {
	if areaState != given || perimeterState == unknown {
		return nil, false
	}
	if area <= 0 || area > measure.Area(shape.Limit)*measure.Area(measure.Metre) {
		r.doubt(problem.ValueOutOfRange, "area", "an area above 0 and under 1,000,000 m2", "correct the area, or write its unit")
		return nil, false
	}
	room.Source = job.FromArea
	long := math.Sqrt(float64(area) * 4 / 3) // sides 4 : 3, as ShapeSources says
	how := "taken as a rectangle with sides 4 : 3"
	if perimeterState == given {
		room.Source = job.FromAreaAndPerimeter
		how = "taken as the rectangle of this area and perimeter"
		half := float64(perimeter) / 2
		// The sides solve a + b = perimeter/2 and a b = area.
		root := half*half - 4*float64(area)
		if root < -0.02*half*half {
			r.problems.add("", problem.Problem{Code: problem.PerimeterTooShort, At: r.at("perimeter"), Also: []problem.Ref{r.at("area")}, Room: room.Name, Found: quote(r.shown("perimeter")),
				Want: "at least the perimeter of a square of this area", Fix: "correct the perimeter or the area"})
			return nil, false
		}
		long = (half + math.Sqrt(max(0, root))) / 2
	}
	length := measure.Length(math.Round(long))
	width := measure.Length(math.Round(float64(area) / long))
	if length > shape.Limit || width < 1 {
		r.doubt(problem.ValueOutOfRange, "area", "an area that fits its perimeter", "correct the area or the perimeter")
		return nil, false
	}
	r.problems.add("rooms shape "+how, problem.Problem{Code: problem.RoomShapeAssumed, At: r.at("area"), Room: room.Name, Found: fmt.Sprintf("%s, %s", quote(r.shown("area")), how),
		Want: "the room's length and width, or its outline", Fix: "measure the room before ordering"})
	return []shape.Ring{shape.Rectangle(shape.Box{X1: length, Y1: width}).Outer}, true
}

// shown is a cell as the person sees it.
func (r row) shown(key string) string {
	cell, _ := r.cell(key)
	return r.book.Shown(cell)
}

func (r row) noShape(room *job.Room) {
	for _, key := range []string{"length", "width", "outline", "area"} {
		if _, doubted := r.part.doubted[key]; doubted {
			return // said at the heading
		}
	}
	r.problems.add("rooms shape", problem.Problem{Code: problem.RoomShapeMissing, At: r.at("room"), Room: room.Name, Found: fmt.Sprintf("%s without a size", quote(room.Name)),
		Want: "length and width, an outline, corners, or an area", Fix: "fill in the size of the room"})
}

// sound checks that the rings are one floor, and names the first legs that
// keep them from it, at their corner where there is a row for it.
func (r row) sound(rings []shape.Ring, group *cornerGroup) bool {
	faults := shape.Validate(shape.Polygon{Outer: rings[0], Holes: rings[1:]})
	if len(faults) == 0 {
		return true
	}
	fault := faults[0]
	p := problem.Problem{Code: problem.RoomOutlineBad, At: r.at("outline"), Room: r.name("room"), Found: faultText(fault),
		Want: "walls that meet only at corners, and holes inside the room", Fix: "correct the corners or legs named"}
	if group != nil {
		p.At = group.corner(fault.Ring, fault.Leg)
		if other := group.corner(fault.OtherRing, fault.Other); other != p.At {
			p.Also = append(p.Also, other)
		}
	}
	r.problems.add("", p)
	return false
}

// corner is the place of a corner, counted as the rings are: empty ones left
// out.
func (g *cornerGroup) corner(ring, number int) problem.Ref {
	for _, corners := range g.rings {
		if len(corners) == 0 {
			continue
		}
		if ring == 0 {
			return corners[min(number, len(corners)-1)].at
		}
		ring--
	}
	return g.row.at("x")
}

// faultText says what is wrong with an outline. Legs are named by where they
// begin in the list: leg 1 runs from the first corner.
func faultText(f shape.Fault) string {
	leg := func(ring, leg int) string {
		if ring == 0 {
			return fmt.Sprintf("leg %d", leg+1)
		}
		return fmt.Sprintf("leg %d of ring %d", leg+1, ring+1)
	}
	one, other := leg(f.Ring, f.Leg), leg(f.OtherRing, f.Other)
	switch f.Kind {
	case shape.FewCorners:
		return "fewer than three different corners"
	case shape.ZeroLeg:
		return one + " has no length"
	case shape.Crossing:
		return fmt.Sprintf("%s crosses %s", one, other)
	case shape.Touching:
		return fmt.Sprintf("%s touches %s or runs back on it", one, other)
	case shape.HoleOutside:
		return fmt.Sprintf("ring %d, a hole, lies outside the room", f.Ring+1)
	case shape.HoleCrosses, shape.HolesMeet:
		return fmt.Sprintf("%s meets %s", one, other)
	case shape.NoArea:
		return "a walk that encloses nothing"
	}
	return "a corner more than 1 km away"
}

// compare warns when an area or perimeter that is given disagrees with the
// shape by more than 1 %.
func (r row) compare(room *job.Room, area measure.Area, perimeter measure.Length, areaState, perimeterState state) {
	if room.Source == job.FromArea || room.Source == job.FromAreaAndPerimeter {
		return
	}
	settings := &r.job.Settings
	differs := func(key, shape string) {
		r.problems.add("", problem.Problem{Code: problem.RoomSizeDiffers, At: r.at(key), Room: room.Name, Found: fmt.Sprintf("%s, where the shape has %s", quote(r.shown(key)), shape),
			Want: fmt.Sprintf("the %s of the shape, within 1 %%", key), Fix: fmt.Sprintf("correct the %s, or the shape", key)})
	}
	if drawn := room.Outline.Area(); areaState == given && apart(float64(area), float64(drawn)) {
		differs("area", fmt.Sprintf("%s %s", drawn.Decimal(settings.AreaUnit, 2), settings.AreaUnit))
	}
	if drawn := (shape.Polygon{Outer: room.Outline.Outer}).Perimeter(); perimeterState == given && apart(float64(perimeter), float64(drawn)) {
		differs("perimeter", drawn.Format(settings.LengthUnit))
	}
}

func apart(a, b float64) bool { return math.Abs(a-b) > 0.01*b }
