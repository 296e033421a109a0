// Package fields divides a floor that is longer than its covering may run into
// fields: parts that are laid in one piece each, with an expansion profile
// between them.
//
// A profile runs straight along the room's length or width, from wall to wall.
// Where it stands is chosen cut by cut: so that no field is thinner than
// LeastField, then for the fewest fields, then for the shortest profile (a neck
// or a doorway of the outline), then at an inner corner of the walls rather
// than elsewhere, and last for parts as equal as can be (common practice).
package fields

import (
	"cmp"
	"slices"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// LeastField is how thick a field is at least, where the floor allows it; half
// the longest run for coverings whose runs are shorter than twice that. A
// narrower strip beside a profile looks like a mistake (from memory).
const LeastField = measure.Metre

// Profile is an expansion profile between two fields, from wall to wall.
type Profile struct{ From, To shape.Point }

// Length is the profile's length.
func (p Profile) Length() measure.Length { return p.To.X - p.From.X + p.To.Y - p.From.Y }

// Mirror is the profile in a mirror: x becomes axis less x.
func (p Profile) Mirror(axis measure.Length) Profile {
	p.From.X, p.To.X = axis-p.To.X, axis-p.From.X
	return p
}

// Divide divides the floor into fields none of which is longer than longest
// along x or y, which is more than 0. Fields and profiles are ordered by their
// least x, then y. Parts of the floor that do not touch are fields of their own.
func Divide(floor shape.Region, longest measure.Length) ([]shape.Polygon, []Profile) {
	d := divider{longest: longest, least: min(LeastField, longest/2)}
	for _, part := range floor {
		d.corners = innerCorners(part)
		d.divide(part)
	}
	slices.SortFunc(d.fields, func(a, b shape.Polygon) int { return compareCorners(low(a), low(b)) })
	slices.SortFunc(d.profiles, func(a, b Profile) int { return compareCorners(a.From, b.From) })
	return d.fields, d.profiles
}

// low is the corner of the polygon's bounds with the least x and y.
func low(p shape.Polygon) shape.Point {
	box := p.Bounds()
	return shape.Point{X: box.X0, Y: box.Y0}
}

func compareCorners(a, b shape.Point) int {
	return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
}

type divider struct {
	longest, least measure.Length
	corners        []shape.Point // inner corners of the walls of the floor's part at hand
	fields         []shape.Polygon
	profiles       []Profile
}

// divide cuts a part of the floor until every piece of it may run as it is.
func (d *divider) divide(part shape.Polygon) {
	if d.runs(part) == 1 {
		d.fields = append(d.fields, part)
		return
	}
	best := d.bestCut(part)
	d.profiles = append(d.profiles, best.profiles...)
	for _, piece := range best.pieces {
		d.divide(piece)
	}
}

// runs is how many fields the rectangle about a part would take.
func (d *divider) runs(part shape.Polygon) int64 {
	box := part.Bounds()
	return d.times(box.X1-box.X0) * d.times(box.Y1-box.Y0)
}

// times is how many longest runs hold a length.
func (d *divider) times(length measure.Length) int64 {
	return int64((length + d.longest - 1) / d.longest)
}

// bestCut tries every place worth it.
func (d *divider) bestCut(part shape.Polygon) *cut {
	var best *cut
	for _, axis := range []axis{alongX, alongY} {
		for _, place := range d.places(part, axis) {
			c := d.cut(part, axis, place)
			if best == nil || c.compare(best) < 0 {
				best = c
			}
		}
	}
	return best
}

// place is where a part may be cut.
type place struct {
	at     measure.Length
	corner bool // at an inner corner of the walls
}

// places are the inner corners of the walls along an axis and, where the part
// runs too long, those that divide it evenly.
func (d *divider) places(part shape.Polygon, a axis) []place {
	from, to := a.span(part)
	var places []place
	for _, corner := range d.corners {
		if at := a.of(corner); from < at && at < to && touches(part.Bounds(), corner) {
			places = append(places, place{at, true})
		}
	}
	n := d.times(to - from)
	for i := int64(1); i < n; i++ {
		places = append(places, place{from + (to-from)*measure.Length(i)/measure.Length(n), false})
	}
	return places
}

func touches(b shape.Box, p shape.Point) bool {
	return b.X0 <= p.X && p.X <= b.X1 && b.Y0 <= p.Y && p.Y <= b.Y1
}

// innerCorners are the corners that point into the floor.
func innerCorners(part shape.Polygon) []shape.Point {
	var corners []shape.Point
	for _, ring := range append([]shape.Ring{part.Outer}, part.Holes...) {
		for i, p := range ring {
			if turnsRight(ring[(i+len(ring)-1)%len(ring)], p, ring[(i+1)%len(ring)]) {
				corners = append(corners, p)
			}
		}
	}
	return corners
}

// turnsRight tells a corner at which the floor, on the left of its walls, is
// wider than straight.
func turnsRight(a, b, c shape.Point) bool {
	return int64(b.X-a.X)*int64(c.Y-b.Y)-int64(b.Y-a.Y)*int64(c.X-b.X) < 0
}
