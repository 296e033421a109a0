package shape

import "slices"

// FaultKind says what is wrong with an outline.
type FaultKind uint8

// The faults an outline can have.
const (
	FewCorners  FaultKind = iota + 1 // a ring has fewer than three different corners
	ZeroLeg                          // two successive corners are the same
	Crossing                         // a ring crosses itself
	Touching                         // a ring touches itself, or goes back along a wall
	HoleOutside                      // a hole lies outside the outline
	HoleCrosses                      // a hole crosses or touches the outline
	HolesMeet                        // two holes cross, touch or lie in one another
	NoArea                           // a ring runs back along itself all the way
	TooFar                           // a corner lies beyond the largest coordinate
)

// Fault is one thing wrong with an outline. Rings and legs count from 0; ring 0
// is the outline, and leg i runs from corner i to the next one.
type Fault struct {
	Kind      FaultKind
	Ring, Leg int
	OtherRing int   // the second ring, of a Crossing, Touching or hole fault
	Other     int   // the second ring's leg
	At        Point // where, to within one unit
}

// Validate is everything that keeps a polygon from being one floor, ring by
// ring. Rings may run either way round and may have corners on a straight wall.
func Validate(p Polygon) []Fault {
	rings := append([]Ring{p.Outer}, p.Holes...)
	var faults []Fault
	sound := make([]bool, len(rings))
	for i, ring := range rings {
		found := ringFaults(ring, i)
		sound[i] = len(found) == 0
		faults = append(faults, found...)
	}
	for hole := 1; hole < len(rings); hole++ {
		for other := range hole {
			if sound[hole] && sound[other] {
				faults = append(faults, holeFaults(rings, hole, other)...)
			}
		}
	}
	return faults
}

// ringFaults is what is wrong with a ring by itself. Legs are compared only
// where every corner is within reach.
func ringFaults(r Ring, number int) []Fault {
	var faults []Fault
	for i, p := range r {
		if p.X < -Limit || p.X > Limit || p.Y < -Limit || p.Y > Limit {
			faults = append(faults, Fault{Kind: TooFar, Ring: number, Leg: i, OtherRing: number, At: p})
		}
	}
	if len(faults) > 0 {
		return faults
	}
	for i, p := range r {
		if len(r) > 1 && p == r.after(i) {
			faults = append(faults, Fault{Kind: ZeroLeg, Ring: number, Leg: i, OtherRing: number, At: p})
		}
	}
	if differentCorners(r) < 3 {
		fault := Fault{Kind: FewCorners, Ring: number, OtherRing: number}
		if len(r) > 0 {
			fault.At = r[0]
		}
		return append(faults, fault)
	}
	if tidy(slices.Clone(r)) == nil {
		return append(faults, Fault{Kind: NoArea, Ring: number, OtherRing: number, At: r[0]})
	}
	return append(faults, selfMeetings(r, number)...)
}

// differentCorners counts corners up to three.
func differentCorners(r Ring) int {
	if len(r) == 0 {
		return 0
	}
	first, second, count := r[0], r[0], 1
	for _, p := range r {
		switch {
		case count == 1 && p != first:
			second, count = p, 2
		case count == 2 && p != first && p != second:
			return 3
		}
	}
	return count
}

// selfMeetings is where legs of one ring meet other than one end to the next,
// each place once.
func selfMeetings(r Ring, number int) []Fault {
	var faults []Fault
	for i := range r {
		for j := i + 1; j < len(r); j++ {
			a, b, c, d := r[i], r.after(i), r[j], r.after(j)
			if a == b || c == d {
				continue
			}
			kind, at := meeting(a, b, c, d)
			switch {
			case kind == 0:
				continue
			case b == c && joined(a, b, d), d == a && joined(c, d, b):
				continue
			}
			if !slices.ContainsFunc(faults, func(f Fault) bool { return f.At == at }) {
				faults = append(faults, Fault{kind, number, i, number, j, at})
			}
		}
	}
	return faults
}

// joined reports whether the legs a-b and b-d, one after the other, meet in b
// only.
func joined(a, b, d Point) bool { return cross(a, b, d) != 0 || dot(a, b, b, d) > 0 }

// meeting is how and where legs a-b and c-d meet: Crossing where they cross
// between their ends, Touching where an end lies on the other leg, else 0.
func meeting(a, b, c, d Point) (FaultKind, Point) {
	sideC, sideD := sign(cross(a, b, c)), sign(cross(a, b, d))
	sideA, sideB := sign(cross(c, d, a)), sign(cross(c, d, b))
	switch {
	case sideC*sideD < 0 && sideA*sideB < 0:
		return Crossing, crossingPoint(a, b, c, d)
	case sideC == 0 && dot(c, a, c, b) <= 0:
		return Touching, c
	case sideD == 0 && dot(d, a, d, b) <= 0:
		return Touching, d
	case sideA == 0 && dot(a, c, a, d) <= 0:
		return Touching, a
	case sideB == 0 && dot(b, c, b, d) <= 0:
		return Touching, b
	}
	return 0, Point{}
}

func sign(n int64) int {
	switch {
	case n > 0:
		return 1
	case n < 0:
		return -1
	}
	return 0
}

// holeFaults is how a hole goes wrong with the outline (ring 0) or with
// another hole: the first place where they meet, else whether one lies where it
// may not.
func holeFaults(rings []Ring, hole, other int) []Fault {
	kind := HolesMeet
	if other == 0 {
		kind = HoleCrosses
	}
	for i, a := range rings[hole] {
		for j, c := range rings[other] {
			if met, at := meeting(a, rings[hole].after(i), c, rings[other].after(j)); met != 0 {
				return []Fault{{kind, hole, i, other, j, at}}
			}
		}
	}
	at := rings[hole][0]
	inside := Polygon{Outer: rings[other]}.Contains(at)
	around := Polygon{Outer: rings[hole]}.Contains(rings[other][0])
	switch {
	case other == 0 && !inside:
		return []Fault{{Kind: HoleOutside, Ring: hole, At: at}}
	case other > 0 && (inside || around):
		return []Fault{{Kind: HolesMeet, Ring: hole, OtherRing: other, At: at}}
	}
	return nil
}
