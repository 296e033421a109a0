package blocks

import (
	"math/bits"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// saw parts pieces of one block by straight cuts, each along a side of a piece
// and one kerf wide.
type saw struct{ kerf measure.Length }

// parts reports whether cuts part all pieces from one another.
func (s saw) parts(pieces []*cut) bool {
	if len(pieces) < 2 {
		return true
	}
	for _, piece := range pieces {
		outer := piece.in.Outer
		for i, from := range outer {
			near, far := s.sort(pieces, from, outer[(i+1)%len(outer)])
			if len(near)+len(far) == len(pieces) && len(far) > 0 {
				return s.parts(near) && s.parts(far)
			}
		}
	}
	return false
}

// sort gives the pieces on the near side of a cut along a side of a piece, which
// runs anticlockwise, and those beyond its kerf.
func (s saw) sort(pieces []*cut, from, to shape.Point) (near, far []*cut) {
	kerf := int64(s.kerf) * lengthUp(from, to)
	for _, piece := range pieces {
		least, most := across(piece.in.Outer, from, to)
		switch {
		case most <= 0:
			near = append(near, piece)
		case least >= kerf:
			far = append(far, piece)
		}
	}
	return near, far
}

// apart is parts for two pieces.
func (s saw) apart(a, b *cut) bool {
	if a.box.X1+s.kerf <= b.box.X0 || b.box.X1+s.kerf <= a.box.X0 || a.box.Y1+s.kerf <= b.box.Y0 || b.box.Y1+s.kerf <= a.box.Y0 {
		return true
	}
	return s.cutAlong(a, b) || s.cutAlong(b, a)
}

// cutAlong reports whether a cut along a side of a parts it from b.
func (s saw) cutAlong(a, b *cut) bool {
	outer := a.in.Outer
	for i, from := range outer {
		to := outer[(i+1)%len(outer)]
		if least, _ := across(b.in.Outer, from, to); least < int64(s.kerf)*lengthUp(from, to) {
			continue
		}
		if _, most := across(outer, from, to); most <= 0 {
			return true
		}
	}
	return false
}

// across is how far a ring reaches to the right of the line through two points,
// at least and at most, times their distance.
func across(r shape.Ring, from, to shape.Point) (least, most int64) {
	dx, dy := int64(to.X-from.X), int64(to.Y-from.Y)
	for i, q := range r {
		right := dy*int64(q.X-from.X) - dx*int64(q.Y-from.Y)
		if i == 0 || right < least {
			least = right
		}
		if i == 0 || right > most {
			most = right
		}
	}
	return least, most
}

// lengthUp is the distance of two points, rounded up.
func lengthUp(a, b shape.Point) int64 {
	dx, dy := int64(b.X-a.X), int64(b.Y-a.Y)
	if dx == 0 || dy == 0 {
		return max(dx, -dx) + max(dy, -dy)
	}
	square := uint64(dx*dx + dy*dy)
	root := uint64(1) << ((bits.Len64(square) + 1) / 2) // no less than the root
	for {
		next := (root + square/root) / 2
		if next >= root {
			break
		}
		root = next
	}
	if root*root < square {
		root++
	}
	return int64(root)
}
