package shape

import (
	"cmp"

	"laybill/estimate/measure"
)

// wall is a leg of an outline that rises, whichever way its ring runs.
type wall struct {
	low, high Point
	wind      int            // 1 where the floor begins to its right, -1 where it ends
	at        measure.Length // x where the wall meets the height the sweep has reached
}

// xAt is where the wall meets a height, rounded to the unit, halves to the
// right.
func (w *wall) xAt(y measure.Length) measure.Length {
	switch {
	case w.low.X == w.high.X || y <= w.low.Y:
		return w.low.X
	case y >= w.high.Y:
		return w.high.X
	}
	rise := int64(w.high.Y - w.low.Y)
	across := int64(w.high.X-w.low.X) * int64(y-w.low.Y)
	return w.low.X + measure.Length(floorDivide(2*across+rise, 2*rise))
}

// floorDivide rounds down; b is positive.
func floorDivide(a, b int64) int64 {
	quotient := a / b
	if a%b < 0 {
		quotient--
	}
	return quotient
}

// compareWalls orders two walls that do not cross and share a height: left
// before right, and of two that lie on one another the one that begins floor.
func compareWalls(a, b *wall) int {
	var side int64 // positive where b lies left of a
	if b.low.Y >= a.low.Y {
		side = cross(a.low, a.high, b.low)
	} else {
		side = -cross(b.low, b.high, a.low)
	}
	if side == 0 {
		if b.high.Y <= a.high.Y {
			side = cross(a.low, a.high, b.high)
		} else {
			side = -cross(b.low, b.high, a.high)
		}
	}
	if side == 0 {
		return cmp.Compare(b.wind, a.wind)
	}
	return cmp.Compare(side, 0)
}

// addWalls appends the rising and falling legs of a ring.
func addWalls(walls []wall, r Ring) []wall {
	for i, p := range r {
		walls = addLeg(walls, p, r.after(i))
	}
	return walls
}

// addLeg appends one leg, unless it is level. Floor lies to its left.
func addLeg(walls []wall, from, to Point) []wall {
	switch {
	case from.Y < to.Y:
		return append(walls, wall{low: from, high: to, wind: -1})
	case from.Y > to.Y:
		return append(walls, wall{low: to, high: from, wind: 1})
	}
	return walls
}

// wallsOf is every rising leg of a region.
func wallsOf(r Region) []wall {
	corners := 0
	for _, part := range r {
		corners += len(part.Outer)
		for _, hole := range part.Holes {
			corners += len(hole)
		}
	}
	walls := make([]wall, 0, corners)
	for _, part := range r {
		walls = addWalls(walls, part.Outer)
		for _, hole := range part.Holes {
			walls = addWalls(walls, hole)
		}
	}
	return walls
}
