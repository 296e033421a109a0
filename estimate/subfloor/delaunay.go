package subfloor

import (
	"cmp"
	"math/bits"
	"slices"

	"laybill/estimate/job"
)

// triangle names three readings by their index, anticlockwise.
type triangle [3]int

// triangulate joins the readings, sorted by place, into triangles: Delaunay's,
// in which no circle through three readings of a triangle holds another. Where
// four readings lie on one circle, as on a grid, the lower of the two surfaces
// is taken, which needs more compound; so the surface depends on the readings
// alone, not on their order or on which way round the room is drawn.
//
// Each edge is joined to the reading on its left whose circle is empty (gift
// wrapping; R. Sibson, Locally equiangular triangulations, 1978, for the
// criterion; from memory). The readings are not all in one line.
func triangulate(readings []job.Reading) (triangles []triangle, hull []int) {
	type edge struct{ from, to int }
	done := map[edge]bool{}
	outer := map[int]int{}
	open := []edge{{0, hullNeighbour(readings)}}
	for len(open) > 0 {
		e := open[len(open)-1]
		open = open[:len(open)-1]
		if done[e] {
			continue
		}
		done[e] = true
		apex := bestApex(readings, e.from, e.to)
		if apex < 0 {
			outer[e.to] = e.from
			continue
		}
		triangles = append(triangles, triangle{e.from, e.to, apex})
		for _, side := range []edge{{e.from, e.to}, {e.to, apex}, {apex, e.from}} {
			done[side] = true
			open = append(open, edge{side.to, side.from})
		}
	}
	for at := 0; len(hull) == 0 || at != 0; at = outer[at] {
		hull = append(hull, at)
	}
	slices.SortFunc(triangles, func(a, b triangle) int { return slices.Compare(a[:], b[:]) })
	return triangles, hull
}

// edgesOf are the edges of triangles, each once.
func edgesOf(triangles []triangle) [][2]int {
	var edges [][2]int
	for _, t := range triangles {
		for i, u := range t {
			v := t[(i+1)%3]
			edges = append(edges, [2]int{min(u, v), max(u, v)})
		}
	}
	slices.SortFunc(edges, func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	return slices.Compact(edges)
}

// hullNeighbour is the reading that follows the first one on the way round all
// of them anticlockwise, the nearest of those in one line. The first reading is
// the leftmost, the lowest of those, so it is a corner of the hull.
func hullNeighbour(readings []job.Reading) int {
	best := 1
	for i := 2; i < len(readings); i++ {
		side := turn(readings[0], readings[best], readings[i])
		if side < 0 || side == 0 && nearer(readings[0], readings[i], readings[best]) {
			best = i
		}
	}
	return best
}

func nearer(from, a, b job.Reading) bool { return squared(from, a) < squared(from, b) }

func squared(a, b job.Reading) int64 {
	dx, dy := int64(a.At.X-b.At.X), int64(a.At.Y-b.At.Y)
	return dx*dx + dy*dy
}

// turn is twice the area of the triangle: positive where the way from a over b
// to c turns left.
func turn(a, b, c job.Reading) int64 {
	return int64(b.At.X-a.At.X)*int64(c.At.Y-a.At.Y) - int64(b.At.Y-a.At.Y)*int64(c.At.X-a.At.X)
}

// bestApex is the reading left of the edge whose circle with it holds no other;
// -1 when none lies there.
func bestApex(readings []job.Reading, from, to int) int {
	best := -1
	for i := range readings {
		if turn(readings[from], readings[to], readings[i]) <= 0 {
			continue
		}
		if best < 0 || inside(readings, from, to, best, i) {
			best = i
		}
	}
	return best
}

// inside tells whether reading d lies in the circle through a, b and c. Of four
// on one circle d counts as inside where that makes the surface lower, and
// where the four heights lie in one plane, so that both surfaces are one, by
// their order.
func inside(readings []job.Reading, a, b, c, d int) bool {
	corners := [4]int{a, b, c, d}
	var p [4]job.Reading
	for i, corner := range corners {
		p[i] = readings[corner]
	}
	weights := [4]int64{turn(p[1], p[2], p[3]), -turn(p[0], p[2], p[3]), turn(p[0], p[1], p[3]), -turn(p[0], p[1], p[2])}
	var circle, heights wide
	for i, weight := range weights {
		circle = circle.plus(weight, squared(p[i], p[3]))
		heights = heights.plus(weight, int64(p[i].Height))
	}
	if sign := cmp.Or(circle.sign(), heights.sign()); sign != 0 {
		return sign > 0
	}
	order := []int{0, 1, 2, 3}
	slices.SortFunc(order, func(i, k int) int { return cmp.Compare(corners[i], corners[k]) })
	for _, i := range order {
		if weights[i] != 0 {
			return weights[i] > 0
		}
	}
	return false
}

// wide is a whole number of 128 bits, enough for sums of four products of areas
// within a square kilometre.
type wide struct {
	high int64
	low  uint64
}

// plus adds the product of two numbers.
func (w wide) plus(a, b int64) wide {
	high, low := bits.Mul64(uint64(max(a, -a)), uint64(max(b, -b)))
	if (a < 0) != (b < 0) {
		var borrow uint64
		low, borrow = bits.Sub64(0, low, 0)
		high, _ = bits.Sub64(0, high, borrow)
	}
	sum, carry := bits.Add64(w.low, low, 0)
	top, _ := bits.Add64(uint64(w.high), high, carry)
	return wide{int64(top), sum}
}

func (w wide) sign() int {
	switch {
	case w.high < 0:
		return -1
	case w.high > 0 || w.low > 0:
		return 1
	}
	return 0
}
