package shape

import (
	"cmp"
	"slices"
)

// loop is a traced ring: an outer ring where its area is positive, else a hole.
type loop struct {
	ring      Ring
	area      int64
	component int32
}

// trace follows the sides of all spans into rings and gathers the rings of
// each connected part into a polygon, left to right and then upwards.
func (s *sweep) trace() []Polygon {
	s.loops = s.loops[:0]
	for i := range s.spans {
		if !s.spans[i].doneUp {
			s.traceLoop(side(2 * i))
		}
		if !s.spans[i].doneDown {
			s.traceLoop(side(2*i + 1))
		}
	}
	return s.gather()
}

// traceLoop follows one ring from a side back to it.
func (s *sweep) traceLoop(start side) {
	from := len(s.points)
	firstWall, firstTail, _ := s.walk(start)
	lastWall, last := int32(-1), Point{}
	for at := start; ; {
		w, tail, head := s.walk(at)
		if w == lastWall && tail == last {
			s.points = s.points[:len(s.points)-1] // on the wall, no corner
		} else {
			s.points = append(s.points, tail)
		}
		s.points = append(s.points, head)
		lastWall, last = w, head
		if at = s.pass(at); at == start {
			break
		}
	}
	ring := s.points[from:]
	if lastWall == firstWall && last == firstTail {
		ring = ring[1 : len(ring)-1]
	}
	to := from + copy(s.points[from:], tidy(ring))
	s.points = s.points[:to]
	ring = s.points[from:to:to]
	area := ring.DoubleArea()
	if area == 0 {
		s.points = s.points[:from]
		return
	}
	startLow(ring)
	s.loops = append(s.loops, loop{ring, area, s.component(start >> 1)})
}

// walk is a side's wall and where the walk along it begins and ends.
func (s *sweep) walk(at side) (w int32, tail, head Point) {
	p := &s.spans[at>>1]
	if at&1 == 0 {
		return p.right, Point{p.right0, p.y0}, Point{p.right1, p.y1}
	}
	return p.left, Point{p.left1, p.y1}, Point{p.left0, p.y0}
}

// pass marks a side as walked and is the side after it.
func (s *sweep) pass(at side) side {
	p := &s.spans[at>>1]
	if at&1 == 0 {
		p.doneUp = true
		return p.afterUp
	}
	p.doneDown = true
	return p.afterDown
}

// gather makes the loops into polygons, ordered by their least x, then by
// their least y, then by their corners.
func (s *sweep) gather() []Polygon {
	if len(s.loops) == 0 {
		return nil
	}
	slices.SortStableFunc(s.loops, func(a, b loop) int {
		return cmp.Or(cmp.Compare(a.component, b.component), cmp.Compare(b.area, a.area))
	})
	from := len(s.polygons)
	open := int32(-1) // the connected part whose outer ring came last
	for _, each := range s.loops {
		switch {
		case each.area > 0:
			s.polygons = append(s.polygons, Polygon{Outer: each.ring})
			open = each.component
		case each.component == open:
			last := &s.polygons[len(s.polygons)-1]
			last.Holes = append(last.Holes, each.ring)
		}
	}
	polygons := slices.Clip(s.polygons[from:])
	for i := range polygons {
		slices.SortFunc(polygons[i].Holes, compareRings)
	}
	sortPolygons(polygons)
	return polygons
}

func sortPolygons(polygons []Polygon) {
	if len(polygons) < 2 {
		return
	}
	slices.SortFunc(polygons, func(a, b Polygon) int {
		boxA, boxB := a.Bounds(), b.Bounds()
		return cmp.Or(cmp.Compare(boxA.X0, boxB.X0), cmp.Compare(boxA.Y0, boxB.Y0), compareRings(a.Outer, b.Outer))
	})
}
