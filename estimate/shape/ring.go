package shape

import (
	"cmp"
	"math"
	"slices"

	"laybill/estimate/measure"
)

// Limit is the largest coordinate, either way from nought: 1 km. Within it no
// product in this package overflows.
const Limit = 1000 * measure.Metre

// cross is twice the signed area of the triangle a, b, c: positive where the
// way from a over b to c turns left.
func cross(a, b, c Point) int64 {
	return int64(b.X-a.X)*int64(c.Y-a.Y) - int64(b.Y-a.Y)*int64(c.X-a.X)
}

// dot is the product of the ways from a to b and from c to d.
func dot(a, b, c, d Point) int64 {
	return int64(b.X-a.X)*int64(d.X-c.X) + int64(b.Y-a.Y)*int64(d.Y-c.Y)
}

// distance is the straight way from a to b, rounded to the unit.
func distance(a, b Point) measure.Length {
	dx, dy := a.X-b.X, a.Y-b.Y
	switch {
	case dx == 0:
		return max(dy, -dy)
	case dy == 0:
		return max(dx, -dx)
	}
	return measure.Length(roundedRoot(uint64(dx*dx) + uint64(dy*dy)))
}

// floorRoot is the whole part of the square root.
func floorRoot(n uint64) uint64 {
	root := uint64(math.Sqrt(float64(n)))
	root = min(root, math.MaxUint32)
	for root*root > n {
		root--
	}
	for root < math.MaxUint32 && (root+1)*(root+1) <= n {
		root++
	}
	return root
}

// roundedRoot is the square root of n < 2⁶² to the nearest whole number.
func roundedRoot(n uint64) uint64 { return (floorRoot(4*n) + 1) / 2 }

// DoubleArea is twice the area inside the ring in squares of the unit, exact:
// positive for an anticlockwise ring, negative for a clockwise one.
func (r Ring) DoubleArea() int64 {
	var sum int64
	for i := 1; i+1 < len(r); i++ {
		sum += cross(r[0], r[i], r[i+1])
	}
	return sum
}

// DoubleArea is twice the area of the outline less its holes, exact.
func (p Polygon) DoubleArea() int64 {
	sum := p.Outer.DoubleArea()
	for _, hole := range p.Holes {
		sum += hole.DoubleArea()
	}
	return sum
}

// DoubleArea is twice the area of all parts, exact.
func (r Region) DoubleArea() int64 {
	var sum int64
	for _, part := range r {
		sum += part.DoubleArea()
	}
	return sum
}

// Area is the area of the outline less its holes: exact where the walls are
// axis-parallel, else half a square unit may be rounded up.
func (p Polygon) Area() measure.Area { return halfUp(p.DoubleArea()) }

// Area is the area of all parts, rounded as that of a polygon.
func (r Region) Area() measure.Area { return halfUp(r.DoubleArea()) }

func halfUp(double int64) measure.Area { return measure.Area((double + 1) >> 1) }

// Perimeter is the length of all rings; a slanted leg is rounded once to the
// unit.
func (p Polygon) Perimeter() measure.Length {
	sum := p.Outer.length()
	for _, hole := range p.Holes {
		sum += hole.length()
	}
	return sum
}

func (r Ring) length() measure.Length {
	var sum measure.Length
	for i := range r {
		sum += distance(r[i], r.after(i))
	}
	return sum
}

// after is the corner that follows corner i on the way round.
func (r Ring) after(i int) Point {
	if i+1 == len(r) {
		return r[0]
	}
	return r[i+1]
}

// Convex reports whether a ring that is walked anticlockwise turns right
// nowhere.
func (r Ring) Convex() bool {
	for i, a := range r {
		b, c := r[(i+1)%len(r)], r[(i+2)%len(r)]
		if int64(b.X-a.X)*int64(c.Y-b.Y) < int64(b.Y-a.Y)*int64(c.X-b.X) {
			return false
		}
	}
	return true
}

// Bounds is the smallest box round the ring; nought for an empty one.
func (r Ring) Bounds() Box {
	if len(r) == 0 {
		return Box{}
	}
	box := Box{r[0].X, r[0].Y, r[0].X, r[0].Y}
	for _, p := range r[1:] {
		box.X0, box.X1 = min(box.X0, p.X), max(box.X1, p.X)
		box.Y0, box.Y1 = min(box.Y0, p.Y), max(box.Y1, p.Y)
	}
	return box
}

// Bounds is the smallest box round the polygon.
func (p Polygon) Bounds() Box { return p.Outer.Bounds() }

// Bounds is the smallest box round all parts; nought when there is none.
func (r Region) Bounds() Box {
	if len(r) == 0 {
		return Box{}
	}
	box := r[0].Bounds()
	for _, part := range r[1:] {
		next := part.Bounds()
		box.X0, box.X1 = min(box.X0, next.X0), max(box.X1, next.X1)
		box.Y0, box.Y1 = min(box.Y0, next.Y0), max(box.Y1, next.Y1)
	}
	return box
}

func (r Ring) axisParallel() bool {
	for i, p := range r {
		if q := r.after(i); p.X != q.X && p.Y != q.Y {
			return false
		}
	}
	return true
}

// AxisParallel reports whether every wall runs along x or along y.
func (p Polygon) AxisParallel() bool {
	for _, hole := range p.Holes {
		if !hole.axisParallel() {
			return false
		}
	}
	return p.Outer.axisParallel()
}

// AxisParallel reports whether every wall of every part runs along x or y.
func (r Region) AxisParallel() bool {
	for _, part := range r {
		if !part.AxisParallel() {
			return false
		}
	}
	return true
}

// Contains reports whether the point lies on the floor; its walls belong to
// it, also those of the holes.
func (p Polygon) Contains(q Point) bool {
	inside := false
	for ring := -1; ring < len(p.Holes); ring++ {
		corners := p.Outer
		if ring >= 0 {
			corners = p.Holes[ring]
		}
		for i, a := range corners {
			b := corners.after(i)
			side := cross(a, b, q)
			if side == 0 && dot(q, a, q, b) <= 0 {
				return true
			}
			// A ray eastwards from q crosses the leg.
			if (a.Y > q.Y) != (b.Y > q.Y) && (side > 0) == (b.Y > a.Y) {
				inside = !inside
			}
		}
	}
	return inside
}

// Rectangle is the floor of a box.
func Rectangle(b Box) Polygon {
	return Polygon{Outer: Ring{{b.X0, b.Y0}, {b.X1, b.Y0}, {b.X1, b.Y1}, {b.X0, b.Y1}}}
}

// Normalise gives equal floors the same corners in the same order: outer rings
// run anticlockwise and holes clockwise, repeated corners and corners on a
// straight wall are dropped, each ring begins at its lowest corner, the
// leftmost of those, and holes are ordered by their first corners, lower
// before higher and then left before right. A ring without area is dropped.
func Normalise(p Polygon) Polygon {
	tidied := Polygon{Outer: oriented(p.Outer, true)}
	for _, hole := range p.Holes {
		if ring := oriented(hole, false); ring != nil {
			tidied.Holes = append(tidied.Holes, ring)
		}
	}
	slices.SortFunc(tidied.Holes, compareRings)
	return tidied
}

// oriented is a tidied copy of the ring that runs the given way round.
func oriented(r Ring, anticlockwise bool) Ring {
	ring := tidy(slices.Clone(r))
	area := ring.DoubleArea()
	if area == 0 {
		return nil
	}
	if (area > 0) != anticlockwise {
		slices.Reverse(ring)
	}
	startLow(ring)
	return ring
}

// tidy drops repeated corners and corners on a straight wall, in place. A leg
// that goes straight back on the one before it goes too.
func tidy(r Ring) Ring {
	kept := r[:0]
	for _, p := range r {
		for len(kept) > 0 && needless(kept, p) {
			kept = kept[:len(kept)-1]
		}
		if len(kept) == 0 || kept[len(kept)-1] != p {
			kept = append(kept, p)
		}
	}
	// The same across the seam between the last corner and the first.
	for changed := true; changed && len(kept) > 2; {
		changed = false
		last := len(kept) - 1
		if kept[last] == kept[0] || cross(kept[last-1], kept[last], kept[0]) == 0 {
			kept, changed = kept[:last], true
		} else if cross(kept[last], kept[0], kept[1]) == 0 {
			kept, changed = kept[1:], true
		}
	}
	if len(kept) < 3 {
		return nil
	}
	return kept
}

// needless reports whether the last corner kept lies on one line with the one
// before it and the next.
func needless(kept Ring, next Point) bool {
	last := len(kept) - 1
	return last > 0 && kept[last] != next && cross(kept[last-1], kept[last], next) == 0
}

// startLow turns the ring so that it begins at its lowest corner, the leftmost
// of those; a corner that is passed twice counts where the next one is lower.
func startLow(r Ring) {
	start := 0
	for i := 1; i < len(r); i++ {
		order := comparePoints(r[i], r[start])
		if order == 0 {
			order = comparePoints(r.after(i), r.after(start))
		}
		if order < 0 {
			start = i
		}
	}
	if start == 0 {
		return
	}
	slices.Reverse(r[:start])
	slices.Reverse(r[start:])
	slices.Reverse(r)
}

// comparePoints orders the lower point first, then the one further left.
func comparePoints(a, b Point) int {
	if a.Y != b.Y {
		return cmp.Compare(a.Y, b.Y)
	}
	return cmp.Compare(a.X, b.X)
}

// compareRings orders rings by their corners, the first that differs.
func compareRings(a, b Ring) int { return slices.CompareFunc(a, b, comparePoints) }

// Shift is the floor moved by a way.
func (p Polygon) Shift(by Point) Polygon {
	return p.each(func(q Point) Point { return Point{q.X + by.X, q.Y + by.Y} })
}

// Mirror is the floor as seen in a mirror: x becomes axis less x. Rings keep
// their way round, and the result is normalised.
func (p Polygon) Mirror(axis measure.Length) Polygon {
	return Normalise(p.each(func(q Point) Point { return Point{axis - q.X, q.Y} }))
}

// Mirror is the floor as seen in a mirror, its parts in the order of Sorted.
func (r Region) Mirror(axis measure.Length) Region {
	image := make(Region, len(r))
	for i, part := range r {
		image[i] = part.Mirror(axis)
	}
	return image.Sorted()
}

// Sorted is the floor with its parts ordered by their outer rings.
func (r Region) Sorted() Region {
	sorted := slices.Clone(r)
	slices.SortFunc(sorted, func(a, b Polygon) int { return compareRings(a.Outer, b.Outer) })
	return sorted
}

// each is a copy of the polygon with every corner moved.
func (p Polygon) each(move func(Point) Point) Polygon {
	moved := Polygon{Outer: p.Outer.each(move)}
	if len(p.Holes) > 0 {
		moved.Holes = make([]Ring, len(p.Holes))
		for i, hole := range p.Holes {
			moved.Holes[i] = hole.each(move)
		}
	}
	return moved
}

func (r Ring) each(move func(Point) Point) Ring {
	moved := make(Ring, len(r))
	for i, p := range r {
		moved[i] = move(p)
	}
	return moved
}
