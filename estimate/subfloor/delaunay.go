package subfloor

import (
	"cmp"
	"math/big"
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
	circle, heights := new(big.Int), new(big.Int)
	for i, weight := range weights {
		circle.Add(circle, product(weight, squared(p[i], p[3])))
		heights.Add(heights, product(weight, int64(p[i].Height)))
	}
	if sign := cmp.Or(circle.Sign(), heights.Sign()); sign != 0 {
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

func product(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }
