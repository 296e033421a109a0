package shape

import "laybill/estimate/measure"

// LongerSide is the direction of the longer side of the polygon's bounding
// box: nought for the x axis, also when both are alike, else a quarter turn.
func (p Polygon) LongerSide() Angle {
	box := p.Bounds()
	if box.Y1-box.Y0 > box.X1-box.X0 {
		return QuarterTurn
	}
	return 0
}

// Side is the side of a room that a wall stands on.
type Side uint8

// The sides of a room.
const (
	North Side = iota
	East
	South
	West
)

// String is the side's letter: N, E, S or W.
func (s Side) String() string { return "NESW"[s : s+1] }

// Wall is one leg of a ring, walked with the floor to the left.
type Wall struct {
	Ring     int // 0 for the outline, else the number of the hole
	From, To Point
	Length   measure.Length // a slanted wall's is rounded to the unit
	Facing   Side           // the side of the room the wall stands on
}

// Walls is the legs of the outline anticlockwise from the corner nearest 0,0
// (the lowest, then the leftmost of several), so that wall number 1 comes
// first, and then those of each hole from its first corner.
//
// A wall stands on the side its outward normal points to; a slanted one on the
// nearest side, north or south before east or west where it is halfway.
func (p Polygon) Walls() []Wall {
	walls := appendWalls(nil, 0, p.Outer, nearestOrigin(p.Outer))
	for i, hole := range p.Holes {
		walls = appendWalls(walls, i+1, hole, 0)
	}
	return walls
}

func appendWalls(walls []Wall, ring int, r Ring, start int) []Wall {
	for i := range r {
		from := r[(start+i)%len(r)]
		to := r[(start+i+1)%len(r)]
		walls = append(walls, Wall{ring, from, to, distance(from, to), facing(from, to)})
	}
	return walls
}

// facing is the side to the right of a leg.
func facing(from, to Point) Side {
	east, north := to.Y-from.Y, from.X-to.X
	switch {
	case max(east, -east) <= max(north, -north) && north > 0:
		return North
	case max(east, -east) <= max(north, -north):
		return South
	case east > 0:
		return East
	}
	return West
}

// nearestOrigin is the corner with the shortest way to 0,0.
func nearestOrigin(r Ring) int {
	nearest := 0
	for i := range r {
		way, best := dot(Point{}, r[i], Point{}, r[i]), dot(Point{}, r[nearest], Point{}, r[nearest])
		if way < best || way == best && comparePoints(r[i], r[nearest]) < 0 {
			nearest = i
		}
	}
	return nearest
}

// Leg is one straight stretch of a walk round a room.
type Leg struct{ DX, DY measure.Length }

// FromLegs is the outline of a walk from 0,0: its corners in walking order, and
// the leg that is left to close it, which is nought when the walk comes back.
func FromLegs(legs []Leg) (corners Ring, closing Leg) {
	at := Point{}
	corners = make(Ring, 0, len(legs)+1)
	for _, leg := range legs {
		corners = append(corners, at)
		at = Point{at.X + leg.DX, at.Y + leg.DY}
	}
	if at != (Point{}) {
		corners = append(corners, at)
	}
	return corners, Leg{-at.X, -at.Y}
}
