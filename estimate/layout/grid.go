package layout

import (
	"slices"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// grid is a room cut into rows for one direction and one width of first row.
type grid struct {
	room      int // index into the pool's rooms
	direction shape.Angle
	rows      []Row
	segments  []segment      // by row, then x
	phase     measure.Length // of a fixed pattern
}

// segment is an unbroken stretch of a row. Its parts are several when a wall
// along the row divides it.
type segment struct {
	row    int
	x0, x1 measure.Length
	parts  []shape.Polygon
}

func (s *segment) length() measure.Length { return s.x1 - s.x0 }

// floor is the floor of a room inside the expansion gap, seen in one direction.
type floor struct {
	direction shape.Angle
	region    shape.Region
	bounds    shape.Box
}

// floorOf sees a room along a direction. An empty floor has no region.
func floorOf(room *Room, direction shape.Angle, gap measure.Length) floor {
	region := shape.Inset(room.Floor.Turn(direction), gap)
	f := floor{direction: direction, region: region}
	if len(region) > 0 {
		f.bounds = region.Bounds()
	}
	return f
}

// directionsOf are the directions a room may be laid in, the longer side where
// none is given.
func directionsOf(room *Room) []shape.Angle {
	if len(room.Directions) > 0 {
		return room.Directions
	}
	return []shape.Angle{longerSide(room.Floor)}
}

// byEyeDirection is the direction the crew takes: the one given, else of
// several the one along the longer side.
func byEyeDirection(room *Room) shape.Angle {
	directions := directionsOf(room)
	if longer := longerSide(room.Floor); slices.Contains(directions, longer) {
		return longer
	}
	return directions[0]
}

// longerSide is the direction of the longer side of the floor's enclosing
// rectangle.
func longerSide(r shape.Region) shape.Angle {
	if len(r) == 0 {
		return 0
	}
	if box := r.Bounds(); box.Y1-box.Y0 > box.X1-box.X0 {
		return shape.QuarterTurn
	}
	return 0
}

// width of the floor across the planks.
func (f *floor) width() measure.Length { return f.bounds.Y1 - f.bounds.Y0 }

// cut cuts the floor into rows, the first of the given width, the others as
// wide as the plank, the last what is left.
func (f *floor) cut(room int, first, plank measure.Length) grid {
	edges := []measure.Length{f.bounds.Y0}
	for y := f.bounds.Y0 + first; y < f.bounds.Y1; y += plank {
		edges = append(edges, y)
	}
	edges = append(edges, f.bounds.Y1)
	g := grid{room: room, direction: f.direction, rows: make([]Row, len(edges)-1)}
	g.segments = make([]segment, 0, len(g.rows))
	for i, parts := range shape.Rows(f.region, edges) {
		g.rows[i] = Row{edges[i], edges[i+1]}
		g.addSegments(i, parts)
	}
	return g
}

// addSegments joins the parts of a row that overlap along x into segments.
func (g *grid) addSegments(row int, parts []shape.Polygon) {
	first := len(g.segments)
	slices.SortStableFunc(parts, func(a, b shape.Polygon) int {
		return int(a.Bounds().X0 - b.Bounds().X0)
	})
	for i := range parts {
		box := parts[i].Bounds()
		if last := len(g.segments) - 1; last >= first && box.X0 < g.segments[last].x1 {
			s := &g.segments[last]
			s.x1 = max(s.x1, box.X1)
			s.parts = append(s.parts, parts[i])
			continue
		}
		g.segments = append(g.segments, segment{row: row, x0: box.X0, x1: box.X1, parts: parts[i : i+1 : i+1]})
	}
}

// crewFirstRow is the width of the crew's first row: a whole plank, or, where
// that leaves the last row under the least row, half of what the two share.
func crewFirstRow(width measure.Length, plank, leastRow measure.Length) measure.Length {
	if width <= plank {
		return width
	}
	rest := width % plank
	if rest == 0 || rest >= leastRow {
		return plank
	}
	return (plank + rest + 1) / 2
}
