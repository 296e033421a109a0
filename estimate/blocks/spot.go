package blocks

import (
	"cmp"
	"math"
	"slices"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// spotLines is how many lines along a block are searched for the spot that most
// pieces hold.
const spotLines = 5

// spot finds the place in a block that most pieces hold or come nearer to than
// half a kerf.
func (s saw) spot(pieces []*cut, hand layout.Hand, outline shape.Ring, side shape.Point) layout.Spot {
	best := layout.Spot{Hand: hand}
	from, wide := widthOf(outline, side)
	for i := range measure.Length(spotLines) {
		start := plus(from, shape.Point{X: wide.X * (2*i + 1) / (2 * spotLines), Y: wide.Y * (2*i + 1) / (2 * spotLines)})
		at := s.busiest(pieces, start, side)
		if n := s.holding(pieces, at); n > best.Pieces {
			best.At, best.Pieces = at, n
		}
	}
	return best
}

// widthOf is where a block's long side begins and the way from there to the
// other one.
func widthOf(outline shape.Ring, side shape.Point) (from, wide shape.Point) {
	for i, corner := range outline {
		next := outline[(i+1)%len(outline)]
		before := outline[(i+len(outline)-1)%len(outline)]
		if plus(corner, side) == next {
			return corner, shape.Point{X: before.X - corner.X, Y: before.Y - corner.Y}
		}
	}
	return outline[0], shape.Point{}
}

// busiest is the place on a line along the block that most pieces reach.
func (s saw) busiest(pieces []*cut, start, side shape.Point) shape.Point {
	long := math.Hypot(float64(side.X), float64(side.Y))
	reach := float64(s.kerf/2-1) / long
	type end struct {
		at    float64
		opens bool
	}
	var ends []end
	base := 0
	for _, piece := range pieces {
		if piece.whole {
			base++
			continue
		}
		if low, high, ok := along(piece.in.Outer, start, side); ok {
			ends = append(ends, end{low - reach, true}, end{high + reach, false})
		}
	}
	slices.SortStableFunc(ends, func(a, b end) int {
		switch {
		case a.at != b.at:
			return cmp.Compare(a.at, b.at)
		case a.opens == b.opens:
			return 0
		case a.opens:
			return -1
		}
		return 1
	})
	best, open, at := -1, base, 0.5
	for i, e := range ends {
		if !e.opens {
			open--
			continue
		}
		if open++; open > best && i+1 < len(ends) {
			best, at = open, (e.at+ends[i+1].at)/2
		}
	}
	at = min(1, max(0, at))
	return shape.Point{X: start.X + measure.Length(math.Round(at*float64(side.X))), Y: start.Y + measure.Length(math.Round(at*float64(side.Y)))}
}

// along is the stretch of a line that a ring reaches over, in parts of the side.
func along(r shape.Ring, start, side shape.Point) (low, high float64, ok bool) {
	turn := func(q shape.Point) int64 {
		return int64(side.X)*int64(q.Y-start.Y) - int64(side.Y)*int64(q.X-start.X)
	}
	part := func(x, y float64) float64 {
		dx, dy := float64(side.X), float64(side.Y)
		return ((x-float64(start.X))*dx + (y-float64(start.Y))*dy) / (dx*dx + dy*dy)
	}
	low, high = math.Inf(1), math.Inf(-1)
	for i, p := range r {
		q := r[(i+1)%len(r)]
		a, b := turn(p), turn(q)
		if a > 0 == (b > 0) {
			continue
		}
		share := float64(a) / float64(a-b)
		at := part(float64(p.X)+share*float64(q.X-p.X), float64(p.Y)+share*float64(q.Y-p.Y))
		low, high = min(low, at), max(high, at)
	}
	return low, high, low <= high
}

// holding is how many pieces hold the spot or come nearer to it than half a
// kerf.
func (s saw) holding(pieces []*cut, at shape.Point) int {
	n := 0
	for _, piece := range pieces {
		if piece.in.Contains(at) || s.near(piece.in, at) {
			n++
		}
	}
	return n
}

// near reports whether a side of the polygon comes nearer to the point than half
// a kerf.
func (s saw) near(p shape.Polygon, at shape.Point) bool {
	limit := float64(s.kerf)/2 - 1
	box := p.Bounds()
	if reach := s.kerf; at.X < box.X0-reach || at.X > box.X1+reach || at.Y < box.Y0-reach || at.Y > box.Y1+reach {
		return false
	}
	for i, a := range p.Outer {
		b := p.Outer[(i+1)%len(p.Outer)]
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		x, y := float64(at.X-a.X), float64(at.Y-a.Y)
		share := min(1, max(0, (x*dx+y*dy)/(dx*dx+dy*dy)))
		if math.Hypot(x-share*dx, y-share*dy) < limit {
			return true
		}
	}
	return false
}
