package shape

import (
	"math/bits"

	"laybill/estimate/measure"
)

// MitreLimit is how many gaps a mitred corner may lie from the corner of the
// wall it keeps clear of. A thin wedge of wall, sharper than about 11 degrees,
// that pokes into the floor would else throw its mitre far out.
const MitreLimit = 10

// Inset is the floor less a gap along every wall, the holes' walls too. Walls
// are moved inwards and meet in mitred corners up to the mitre limit; beyond
// it the corner is cut off square. The floor may fall into several parts, or
// vanish. It is exact where walls are axis-parallel; a slanted wall is moved to
// within one unit. A gap of nought or less takes nothing off.
//
// Each wall is moved by itself. Where that lets the moved outline run over
// itself, as it does in a niche narrower than two gaps, the stretches that ran
// over wind the wrong way round: the floor left is what is wound about more
// often forwards than backwards (offsetting by winding number: X. Chen and S.
// McMains, Polygon Offsetting by Computing Winding Numbers, ASME 2005; from
// memory).
func Inset(r Region, gap measure.Length) Region {
	if gap <= 0 {
		return floorOf(wallsOf(r))
	}
	var walls []wall
	for _, part := range r {
		walls = addMoved(walls, part.Outer, gap)
		for _, hole := range part.Holes {
			walls = addMoved(walls, hole, gap)
		}
	}
	return floorOf(uncrossed(walls))
}

// addMoved appends the legs of a ring moved inwards by the gap.
func addMoved(walls []wall, r Ring, gap measure.Length) []wall {
	if len(r) < 3 {
		return walls
	}
	corners := movedCorners(r, gap)
	last := corners[len(corners)-1].leave
	for i := range corners {
		c := &corners[i]
		walls = addLeg(walls, last, c.arrive)
		if c.arrive != c.leave {
			if c.inward {
				walls = addLeg(walls, c.arrive, r[i])
				walls = addLeg(walls, r[i], c.leave)
			} else {
				walls = addLeg(walls, c.arrive, c.leave)
			}
		}
		last = c.leave
	}
	return walls
}

// movedCorner is where the moved legs before and after a corner end and begin.
type movedCorner struct {
	arrive, leave Point
	inward        bool // the moved legs run over one another, by way of the corner itself
}

// movedCorners moves every corner of a ring inwards. A corner has one mitred
// point where that keeps the direction of the legs on both sides. Else, at a
// corner that narrows the floor, each leg keeps its full length.
func movedCorners(r Ring, gap measure.Length) []movedCorner {
	count := len(r)
	corners := make([]movedCorner, count)
	before := normalOf(r[count-1], r[0])
	for i := range r {
		after := normalOf(r[i], r.after(i))
		corners[i] = mitred(r[(i+count-1)%count], r[i], r.after(i), before, after, gap)
		before = after
	}
	for i := range r {
		next := (i + 1) % count
		if dot(corners[i].leave, corners[next].arrive, r[i], r[next]) <= 0 {
			corners[i].unmitre(r[i], normalOf(r[(i+count-1)%count], r[i]), normalOf(r[i], r[next]), gap)
			corners[next].unmitre(r[next], normalOf(r[i], r[next]), normalOf(r[next], r.after(next)), gap)
		}
	}
	return corners
}

// mitred moves the corner between the legs from a and to b.
func mitred(a, corner, b Point, before, after normal, gap measure.Length) movedCorner {
	inward := cross(a, corner, b) > 0
	closeness := before.times(after) + one // 1 + cos of the turn
	if closeness*MitreLimit*MitreLimit >= 2*one {
		at := Point{
			corner.X + roundedShare(gap, before.x+after.x, closeness),
			corner.Y + roundedShare(gap, before.y+after.y, closeness),
		}
		return movedCorner{at, at, inward}
	}
	c := movedCorner{before.moved(corner, gap), after.moved(corner, gap), inward}
	if !inward {
		// The moved legs run on past the corner and are joined there.
		c.arrive = before.turnedRight().moved(c.arrive, MitreLimit*gap)
		c.leave = after.turnedLeft().moved(c.leave, MitreLimit*gap)
	}
	return c
}

// unmitre gives the legs at a corner that narrows the floor their full length.
func (c *movedCorner) unmitre(corner Point, before, after normal, gap measure.Length) {
	if c.inward {
		c.arrive, c.leave = before.moved(corner, gap), after.moved(corner, gap)
	}
}

// normal is a direction of length one, pointing to the left of a leg.
type normal struct{ x, y int64 } // in parts of one

// one is the length of a normal, fine enough that a move of 1 km is right to
// the unit.
const one = 1 << 30

// normalOf is the direction to the left of the leg from a to b.
func normalOf(a, b Point) normal {
	dx, dy := int64(b.X-a.X), int64(b.Y-a.Y)
	squared := uint64(dx*dx) + uint64(dy*dy)
	return normal{-fractionOfRoot(dy, squared), fractionOfRoot(dx, squared)}
}

// fractionOfRoot is part / √squared in parts of one; part² <= squared.
func fractionOfRoot(part int64, squared uint64) int64 {
	if part == 0 {
		return 0
	}
	hi, lo := bits.Mul64(2*one*magnitude(part), 2*one*magnitude(part))
	quotient, _ := bits.Div64(hi, lo, squared)
	fraction := int64((floorRoot(quotient) + 1) / 2)
	if part < 0 {
		return -fraction
	}
	return fraction
}

// times is the cosine of the angle between two normals in parts of one.
func (n normal) times(other normal) int64 { return (n.x*other.x + n.y*other.y) / one }

func (n normal) turnedLeft() normal  { return normal{-n.y, n.x} }
func (n normal) turnedRight() normal { return normal{n.y, -n.x} }

// moved is the point moved by a distance in the normal's direction.
func (n normal) moved(p Point, by measure.Length) Point {
	return Point{p.X + roundedShare(by, n.x, one), p.Y + roundedShare(by, n.y, one)}
}

// roundedShare is length × part / whole, rounded half away from nought.
func roundedShare(length measure.Length, part, whole int64) measure.Length {
	product := int64(length) * part
	if product < 0 {
		return -measure.Length((-product + whole/2) / whole)
	}
	return measure.Length((product + whole/2) / whole)
}
