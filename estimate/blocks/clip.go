package blocks

import (
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// floor is the floor of a room inside the expansion gap, in the frame of a
// layout whose points run in a direction.
type floor struct {
	along  shape.Angle
	region shape.Region
	walls  [][2]shape.Point
	bands  map[[2]measure.Length][]shape.Polygon
}

func floorOf(room *layout.Room, along shape.Angle, p *pattern, gap measure.Length) *floor {
	f := &floor{along: along, region: inside(room, along+p.turn, gap), bands: map[[2]measure.Length][]shape.Polygon{}}
	for _, part := range f.region {
		for _, ring := range append([]shape.Ring{part.Outer}, part.Holes...) {
			for i, from := range ring {
				f.walls = append(f.walls, [2]shape.Point{from, ring[(i+1)%len(ring)]})
			}
		}
	}
	return f
}

// inside is the floor inside the gap, in a frame turned by an angle. The pattern
// runs on from field to field of a divided floor.
func inside(room *layout.Room, turn shape.Angle, gap measure.Length) shape.Region {
	if len(room.Fields) == 0 {
		return shape.Inset(room.Floor.Turn(turn), gap)
	}
	var region shape.Region
	for _, field := range room.Fields {
		region = append(region, shape.Inset(field.Turn(turn), gap)...)
	}
	return region
}

// band is the floor between two heights, cut once.
func (f *floor) band(y0, y1 measure.Length) []shape.Polygon {
	key := [2]measure.Length{y0, y1}
	parts, known := f.bands[key]
	if !known {
		parts = shape.Rows(f.region, []measure.Length{y0, y1})[0]
		f.bands[key] = parts
	}
	return parts
}

// cut is a piece of floor in one block.
type cut struct {
	room  int // index into the pool's rooms
	block int // number of its block in the pattern of the room
	row   int // of the pattern, from 0
	hand  layout.Hand
	whole bool
	at    shape.Polygon // in the layout's frame
	in    shape.Polygon // in the block's frame
	box   shape.Box     // of in
}

// laid is a room's floor with the pattern begun at a place.
type laid struct {
	*floor
	origin shape.Point
	cuts   []cut // by row, then along the points
	blocks int   // of the pattern that hold a piece
	first  int   // row of the pattern that the first row is
}

// lay cuts the floor by the pattern begun at the origin.
func (f *floor) lay(room int, p *pattern, origin shape.Point) *laid {
	l := &laid{floor: f, origin: origin}
	low, high := f.cells(p, origin)
	for row := low.across; row <= high.across; row++ {
		for layer := range p.rows {
			before := len(l.cuts)
			for step := low.along; step <= high.along; step++ {
				corner := plus(origin, plus(times(p.along, step), times(p.across, row)))
				for i := range p.cell {
					if p.cell[i].row == layer {
						l.block(room, p, &p.cell[i], plus(corner, p.cell[i].at), row*p.rows+layer)
					}
				}
			}
			if before == 0 && len(l.cuts) > 0 {
				l.first = l.cuts[0].row
			}
		}
	}
	for i := range l.cuts {
		l.cuts[i].row -= l.first
	}
	return l
}

type cell struct{ along, across int }

// cells are the least and the greatest cell of the pattern that may hold floor.
func (f *floor) cells(p *pattern, origin shape.Point) (low, high cell) {
	if len(f.walls) == 0 {
		return cell{0, 1}, cell{0, 0}
	}
	floor, blocks := p.extent(f.corners()), p.extent(p.corners())
	begin := p.torus(origin)
	along, across := p.periods()
	low = cell{floorDivide(floor.X0-begin.X-blocks.X1, along), floorDivide(floor.Y0-begin.Y-blocks.Y1, across)}
	high = cell{floorDivide(floor.X1-begin.X-blocks.X0, along) + 1, floorDivide(floor.Y1-begin.Y-blocks.Y0, across) + 1}
	return low, high
}

func (f *floor) corners() []shape.Point {
	corners := make([]shape.Point, len(f.walls))
	for i := range f.walls {
		corners[i] = f.walls[i][0]
	}
	return corners
}

// corners are those of all blocks of a cell.
func (p *pattern) corners() []shape.Point {
	var corners []shape.Point
	for _, block := range p.cell {
		for _, corner := range p.outline(block.hand) {
			corners = append(corners, plus(block.at, corner))
		}
	}
	return corners
}

// extent is the box round points as torus sees them.
func (p *pattern) extent(points []shape.Point) shape.Box {
	turned := make(shape.Ring, len(points))
	for i, q := range points {
		turned[i] = p.torus(q)
	}
	return turned.Bounds()
}

// block adds what the floor holds of one block.
func (l *laid) block(room int, p *pattern, of *place, at shape.Point, row int) {
	outline := p.outline(of.hand)
	bounds := outline.Bounds()
	box := shape.Box{X0: at.X + bounds.X0, Y0: at.Y + bounds.Y0, X1: at.X + bounds.X1, Y1: at.Y + bounds.Y1}
	c := cut{room: room, block: l.blocks, row: row, hand: of.hand}
	switch {
	case !l.meetsWall(box):
		if !l.holds(shape.Point{X: (box.X0 + box.X1) / 2, Y: (box.Y0 + box.Y1) / 2}) {
			return
		}
		c.whole, c.in, c.box = true, shape.Polygon{Outer: outline}, bounds
		c.at = moved(c.in, at)
		l.cuts = append(l.cuts, c)
	default:
		before := len(l.cuts)
		for _, piece := range l.within(p, of.hand, at) {
			c.at = piece
			c.in = moved(piece, shape.Point{X: -at.X, Y: -at.Y})
			c.box = c.in.Bounds()
			c.whole = same(c.in, outline)
			l.cuts = append(l.cuts, c)
		}
		if before == len(l.cuts) {
			return
		}
	}
	l.blocks++
}

// meetsWall reports whether a wall comes inside the box; it may say so of one
// that only comes near.
func (f *floor) meetsWall(b shape.Box) bool {
	for i := range f.walls {
		from, to := f.walls[i][0], f.walls[i][1]
		if max(from.X, to.X) <= b.X0 || min(from.X, to.X) >= b.X1 || max(from.Y, to.Y) <= b.Y0 || min(from.Y, to.Y) >= b.Y1 {
			continue
		}
		side := func(x, y measure.Length) int64 {
			return int64(to.X-from.X)*int64(y-from.Y) - int64(to.Y-from.Y)*int64(x-from.X)
		}
		a, b, c, d := side(b.X0, b.Y0), side(b.X1, b.Y0), side(b.X1, b.Y1), side(b.X0, b.Y1)
		if max(a, b, c, d) > 0 && min(a, b, c, d) < 0 {
			return true
		}
	}
	return false
}

func (f *floor) holds(q shape.Point) bool {
	for i := range f.region {
		if f.region[i].Contains(q) {
			return true
		}
	}
	return false
}

// within is the floor inside the block that lies at a place. It is cut between
// the block's level sides and then between the other two, along which both
// neighbours come to the same points.
func (f *floor) within(p *pattern, hand layout.Hand, at shape.Point) []shape.Polygon {
	outline := p.outline(hand)
	low, right, high := outline[0], outline[1], outline[3]
	lean := leaning{y: at.Y + low.Y, deep: high.Y - low.Y, rise: high.X - low.X}
	sides := []measure.Length{at.X + low.X, at.X + right.X}
	var pieces []shape.Polygon
	for _, part := range f.band(at.Y+low.Y, at.Y+high.Y) {
		for _, piece := range shape.Columns(lean.straightened(part), sides)[0] {
			pieces = append(pieces, lean.leant(piece))
		}
	}
	return pieces
}

// leaning is the slant of a parallelogram's sides: so far across from y up to
// its depth.
type leaning struct{ y, deep, rise measure.Length }

// at is how far the sides lean at a height, rounded to the unit.
func (l leaning) at(y measure.Length) measure.Length {
	return measure.Length(floorDivide(2*(y-l.y)*l.rise+l.deep, 2*l.deep))
}

// straightened moves the floor so that the sides stand upright; leant moves it
// back, exactly.
func (l leaning) straightened(p shape.Polygon) shape.Polygon {
	if l.rise == 0 {
		return p
	}
	return each(p, func(q shape.Point) shape.Point { return shape.Point{X: q.X - l.at(q.Y), Y: q.Y} })
}

func (l leaning) leant(p shape.Polygon) shape.Polygon {
	if l.rise == 0 {
		return p
	}
	return each(p, func(q shape.Point) shape.Point { return shape.Point{X: q.X + l.at(q.Y), Y: q.Y} })
}

func moved(p shape.Polygon, by shape.Point) shape.Polygon {
	return each(p, func(q shape.Point) shape.Point { return plus(q, by) })
}

func each(p shape.Polygon, move func(shape.Point) shape.Point) shape.Polygon {
	ring := func(r shape.Ring) shape.Ring {
		moved := make(shape.Ring, len(r))
		for i, q := range r {
			moved[i] = move(q)
		}
		return moved
	}
	out := shape.Polygon{Outer: ring(p.Outer)}
	for _, hole := range p.Holes {
		out.Holes = append(out.Holes, ring(hole))
	}
	return out
}

// same reports whether the polygon is just the ring.
func same(p shape.Polygon, r shape.Ring) bool {
	if len(p.Holes) > 0 || len(p.Outer) != len(r) {
		return false
	}
	for i := range r {
		if p.Outer[i] != r[i] {
			return false
		}
	}
	return true
}
