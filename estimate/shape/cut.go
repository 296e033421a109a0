package shape

import (
	"slices"

	"laybill/estimate/measure"
)

// Subtract is the floor less boxes: a column inside becomes a hole, a hearth at
// a wall a notch, and the floor may fall into several parts or vanish. Boxes
// may overlap one another and reach beyond the floor. It is exact; only where
// the side of a box meets a slanted wall is the point rounded to the unit.
func Subtract(r Region, boxes ...Box) Region {
	walls := wallsOf(r)
	bounds := r.Bounds()
	for _, box := range boxes {
		if !box.overlaps(bounds) {
			continue
		}
		corners := Rectangle(box).Outer
		slices.Reverse(corners)
		walls = addWalls(walls, corners)
	}
	return floorOf(uncrossed(walls))
}

// Union is the floor that lies in any of the parts, which may touch or overlap.
func Union(parts Region) Region { return floorOf(uncrossed(wallsOf(parts))) }

// overlaps reports whether two boxes have area in common.
func (b Box) overlaps(other Box) bool {
	return b.X0 < other.X1 && other.X0 < b.X1 && b.Y0 < other.Y1 && other.Y0 < b.Y1
}

// Rows cuts the floor into rows at heights that ascend, and gives the parts in
// each row between one height and the next: each connected part is one polygon,
// ordered by its least x and then its least y. Parts that touch in a point
// only, or through a neck narrower than the unit, are separate. Floor below the
// first height or above the last is left out.
//
// Rows of a floor whose walls are axis-parallel add up to it exactly. On a
// slanted wall the ends of a cut are rounded to the unit, the same for the rows
// on both sides, so no floor is lost or counted twice, and the whole is right
// to half a unit times the length of the slanted walls.
func Rows(r Region, edges []measure.Length) [][]Polygon {
	return bandsOf(wallsOf(r), edges)
}

// Columns cuts a piece of floor along x as Rows does along y: the parts in each
// column between one cut and the next, ordered by their least y and then their
// least x.
func Columns(p Polygon, cuts []measure.Length) [][]Polygon {
	columns := bandsOf(wallsOf(Region{p.transposed()}), cuts)
	for _, parts := range columns {
		for i := range parts {
			parts[i] = parts[i].transposed()
			startLow(parts[i].Outer)
			for _, hole := range parts[i].Holes {
				startLow(hole)
			}
			slices.SortFunc(parts[i].Holes, compareRings)
		}
	}
	return columns
}

// transposed is the polygon with x and y exchanged. Its rings keep their way
// round.
func (p Polygon) transposed() Polygon {
	exchanged := p.each(func(q Point) Point { return Point{q.Y, q.X} })
	slices.Reverse(exchanged.Outer)
	for _, hole := range exchanged.Holes {
		slices.Reverse(hole)
	}
	return exchanged
}
