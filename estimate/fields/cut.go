package fields

import (
	"cmp"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// axis is a direction in which a floor runs; it is cut at right angles to it.
type axis bool

const (
	alongX axis = false
	alongY axis = true
)

// of is the place of a point along the axis, across its place across it.
func (a axis) of(p shape.Point) measure.Length {
	if a == alongY {
		return p.Y
	}
	return p.X
}

func (a axis) across(p shape.Point) measure.Length { return (!a).of(p) }

// point is the point at a place along and across the axis.
func (a axis) point(along, across measure.Length) shape.Point {
	if a == alongY {
		return shape.Point{X: across, Y: along}
	}
	return shape.Point{X: along, Y: across}
}

// span is how far a part reaches along the axis.
func (a axis) span(p shape.Polygon) (from, to measure.Length) {
	box := p.Bounds()
	return a.of(shape.Point{X: box.X0, Y: box.Y0}), a.of(shape.Point{X: box.X1, Y: box.Y1})
}

// halves are the pieces of a part before and after a place along the axis.
func (a axis) halves(p shape.Polygon, at measure.Length) (before, after []shape.Polygon) {
	from, to := a.span(p)
	edges := []measure.Length{from, at, to}
	var parts [][]shape.Polygon
	if a == alongY {
		parts = shape.Rows(shape.Region{p}, edges)
	} else {
		parts = shape.Columns(p, edges)
	}
	return parts[0], parts[1]
}

// cut is a part cut in two along a straight line, with what tells a better cut.
type cut struct {
	pieces   []shape.Polygon
	profiles []Profile

	thin    measure.Length // how far the thinnest piece is below the least field
	fields  int64          // that the pieces take
	length  measure.Length // of the profiles
	corner  bool
	longest measure.Length // of the pieces, along the axis
}

func (d *divider) cut(part shape.Polygon, a axis, at place) *cut {
	before, after := a.halves(part, at.at)
	c := &cut{pieces: append(before, after...), corner: at.corner, profiles: between(before, after, a, at.at)}
	for _, p := range c.profiles {
		c.length += p.Length()
	}
	for _, piece := range c.pieces {
		from, to := a.span(piece)
		c.thin = max(c.thin, d.least-(to-from))
		c.longest = max(c.longest, to-from)
		c.fields += d.runs(piece)
	}
	return c
}

// compare orders the better cut first.
func (c *cut) compare(other *cut) int {
	return cmp.Or(cmp.Compare(c.thin, other.thin), cmp.Compare(c.fields, other.fields), cmp.Compare(c.length, other.length),
		cmp.Compare(rank(c.corner), rank(other.corner)), cmp.Compare(c.longest, other.longest))
}

func rank(corner bool) int {
	if corner {
		return 0
	}
	return 1
}

// between are the profiles on a cut: where floor lies on both sides of it.
func between(before, after []shape.Polygon, a axis, at measure.Length) []Profile {
	var profiles []Profile
	for _, one := range sidesAt(before, a, at) {
		for _, other := range sidesAt(after, a, at) {
			if from, to := max(one.from, other.from), min(one.to, other.to); from < to {
				profiles = append(profiles, Profile{a.point(at, from), a.point(at, to)})
			}
		}
	}
	return profiles
}

// side is the stretch of a straight side across an axis.
type side struct{ from, to measure.Length }

// sidesAt are the sides of pieces that lie on a cut.
func sidesAt(pieces []shape.Polygon, a axis, at measure.Length) []side {
	var sides []side
	for _, piece := range pieces {
		for _, ring := range append([]shape.Ring{piece.Outer}, piece.Holes...) {
			for i, p := range ring {
				q := ring[(i+1)%len(ring)]
				if a.of(p) == at && a.of(q) == at {
					sides = append(sides, side{min(a.across(p), a.across(q)), max(a.across(p), a.across(q))})
				}
			}
		}
	}
	return sides
}
