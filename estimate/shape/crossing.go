package shape

import (
	"cmp"
	"math/bits"
	"slices"

	"laybill/estimate/measure"
)

// cut is a place at which a wall is divided.
type cut struct {
	wall int
	at   Point
}

// uncrossed divides walls where they cross, so that a sweep can pass through
// them. Crossing points are rounded to the unit, which may bend a slanted wall
// by up to one unit and so make new crossings; the search is repeated until
// there are none. Axis-parallel walls never bend.
func uncrossed(walls []wall) []wall {
	// Each round moves walls by less than a unit, so a few rounds settle any
	// plan; the limit only guards against walls that agree nowhere.
	const rounds = 12
	for range rounds {
		cuts := crossings(walls)
		if len(cuts) == 0 {
			break
		}
		walls = divided(walls, cuts)
	}
	return walls
}

// crossings is where walls cross other than at their ends.
func crossings(walls []wall) []cut {
	slices.SortFunc(walls, func(a, b wall) int { return cmp.Compare(a.low.Y, b.low.Y) })
	var cuts []cut
	for i := range walls {
		a := &walls[i]
		left, right := min(a.low.X, a.high.X), max(a.low.X, a.high.X)
		for j := i + 1; j < len(walls) && walls[j].low.Y < a.high.Y; j++ {
			b := &walls[j]
			if max(b.low.X, b.high.X) < left || min(b.low.X, b.high.X) > right {
				continue
			}
			at, crossed := crossingOf(a, b)
			if !crossed {
				continue
			}
			if at != a.low && at != a.high {
				cuts = append(cuts, cut{i, at})
			}
			if at != b.low && at != b.high {
				cuts = append(cuts, cut{j, at})
			}
		}
	}
	return cuts
}

// crossingOf is the point, rounded to the unit, where two walls cross between
// their ends.
func crossingOf(a, b *wall) (at Point, crossed bool) {
	if a.low.X == a.high.X && b.low.X == b.high.X {
		return Point{}, false
	}
	low, high := cross(a.low, a.high, b.low), cross(a.low, a.high, b.high)
	if low == 0 || high == 0 || (low > 0) == (high > 0) {
		return Point{}, false
	}
	from, to := cross(b.low, b.high, a.low), cross(b.low, b.high, a.high)
	if from == 0 || to == 0 || (from > 0) == (to > 0) {
		return Point{}, false
	}
	return crossingPoint(a.low, a.high, b.low, b.high), true
}

// crossingPoint is where the stretches a-b and c-d cross, rounded to the unit.
func crossingPoint(a, b, c, d Point) Point {
	part, whole := cross(c, d, a), cross(c, d, a)-cross(c, d, b)
	return Point{a.X + share(b.X-a.X, part, whole), a.Y + share(b.Y-a.Y, part, whole)}
}

// share is length × part / whole, rounded half away from nought. part/whole
// lies between 0 and 1.
func share(length measure.Length, part, whole int64) measure.Length {
	negative := length < 0
	hi, lo := bits.Mul64(magnitude(int64(length)), magnitude(part))
	divisor := magnitude(whole)
	lo, carry := bits.Add64(lo, divisor/2, 0)
	quotient, _ := bits.Div64(hi+carry, lo, divisor)
	if negative {
		return -measure.Length(quotient)
	}
	return measure.Length(quotient)
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return uint64(-n)
	}
	return uint64(n)
}

// divided is the walls with each cut into the stretches between its cuts; a
// stretch that rounding has made level is dropped.
func divided(walls []wall, cuts []cut) []wall {
	slices.SortFunc(cuts, func(a, b cut) int {
		return cmp.Or(cmp.Compare(a.wall, b.wall), cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X))
	})
	stretches := make([]wall, 0, len(walls)+len(cuts))
	next := 0
	for i, w := range walls {
		from := w.low
		for ; next < len(cuts) && cuts[next].wall == i; next++ {
			stretches = addStretch(stretches, w, from, cuts[next].at)
			from = cuts[next].at
		}
		stretches = addStretch(stretches, w, from, w.high)
	}
	return stretches
}

func addStretch(stretches []wall, w wall, low, high Point) []wall {
	if low.Y >= high.Y {
		return stretches
	}
	return append(stretches, wall{low: low, high: high, wind: w.wind})
}
