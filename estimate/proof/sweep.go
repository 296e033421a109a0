package proof

import (
	"cmp"
	"math"
	"slices"
)

// layer is what an outline in a sweep stands for.
type layer int8

const (
	wallLayer  layer = iota
	holeLayer        // not floor
	outerStrip       // gap less the slack: no piece may be here
	innerStrip       // gap plus the slack: the floor beyond must be covered
	pieceLayer
	layers
)

// side is one side of an outline, rising from y0 to y1.
type side struct {
	x0, y0, x1, y1 float64
	layer          layer
	owner          int32
}

func (s *side) at(y float64) float64 {
	if s.x0 == s.x1 {
		return s.x0
	}
	return s.x0 + (s.x1-s.x0)*(y-s.y0)/(s.y1-s.y0)
}

// sweep lays outlines over one another and measures where they agree, slab by
// slab between successive corners and crossings. For axis-parallel outlines
// every number in it is exact.
type sweep struct {
	sides  []side
	owners int32
	slants int
}

// add adds an outline with its holes as one thing.
func (w *sweep) add(as layer, outlines ...loop) {
	for _, l := range outlines {
		for i, p := range l {
			q := l[(i+1)%len(l)]
			if p.y == q.y {
				continue
			}
			if p.y > q.y {
				p, q = q, p
			}
			if p.x != q.x {
				w.slants++
			}
			w.sides = append(w.sides, side{p.x, p.y, q.x, q.y, as, w.owners})
		}
	}
	w.owners++
}

// cover is what a sweep finds, in squares of 1/320 mm, with the first spot of
// each kind of fault.
type cover struct {
	ground    float64 // floor less holes
	outer     float64 // floor within the outer gap
	inner     float64 // floor within the inner gap
	uncovered float64
	twice     float64
	outside   float64

	uncoveredAt, twiceAt, outsideAt spot
}

// sweepSteps bounds the work of all sweeps of a file, for hostile ones: a floor
// of 10 000 pieces takes about two million steps.
const sweepSteps = 2_000_000_000

// measure runs the sweep, taking its work off steps; ok is false when there is
// too much to do.
func (w *sweep) measure(steps *int) (c cover, ok bool) {
	if len(w.sides) == 0 {
		return c, true
	}
	if *steps -= w.slants * len(w.sides); *steps < 0 {
		return c, false
	}
	levels := w.levels()
	slices.SortFunc(w.sides, func(a, b side) int { return cmp.Compare(a.y0, b.y0) })
	open := make([]bool, w.owners)
	var active []crossing
	next := 0
	for i := 0; i+1 < len(levels); i++ {
		low, high := levels[i], levels[i+1]
		active = slices.DeleteFunc(active, func(c crossing) bool { return c.side.y1 <= low })
		for ; next < len(w.sides) && w.sides[next].y0 <= low; next++ {
			active = append(active, crossing{side: &w.sides[next]})
		}
		if *steps -= len(active); *steps < 0 {
			return c, false
		}
		for j := range active {
			active[j].x = active[j].side.at((low + high) / 2)
		}
		slices.SortFunc(active, func(a, b crossing) int { return cmp.Compare(a.x, b.x) })
		c.slab(active, low, high, open)
	}
	return c, true
}

// crossing is where a side crosses the middle of a slab.
type crossing struct {
	x    float64
	side *side
}

// slab adds one slab up: from left to right, every side enters or leaves its
// outline. All outlines are closed, so open ends as it began, all false.
func (c *cover) slab(active []crossing, low, high float64, open []bool) {
	var inside [layers]int
	for j, cross := range active {
		s := cross.side
		if open[s.owner] {
			inside[s.layer]--
		} else {
			inside[s.layer]++
		}
		open[s.owner] = !open[s.owner]
		if j+1 < len(active) && active[j+1].x > cross.x {
			area := (active[j+1].x - cross.x) * (high - low)
			c.cell(&inside, area, spot{(cross.x + active[j+1].x) / 2, (low + high) / 2})
		}
	}
}

func (c *cover) cell(inside *[layers]int, area float64, at spot) {
	floor := inside[wallLayer] > 0 && inside[holeLayer] == 0
	outer := floor && inside[outerStrip] == 0
	inner := floor && inside[innerStrip] == 0
	pieces := inside[pieceLayer]
	if floor {
		c.ground += area
	}
	if outer {
		c.outer += area
	}
	if inner {
		c.inner += area
	}
	fault := func(sum *float64, first *spot) {
		if *sum == 0 {
			*first = at
		}
		*sum += area
	}
	if inner && pieces == 0 {
		fault(&c.uncovered, &c.uncoveredAt)
	}
	if pieces > 1 {
		fault(&c.twice, &c.twiceAt)
	}
	if pieces > 0 && !outer {
		fault(&c.outside, &c.outsideAt)
	}
}

// levels are the heights of all corners and of all crossings with slanted
// sides, rising.
func (w *sweep) levels() []float64 {
	levels := make([]float64, 0, 2*len(w.sides))
	for i := range w.sides {
		levels = append(levels, w.sides[i].y0, w.sides[i].y1)
	}
	if w.slants > 0 {
		levels = w.addCrossings(levels)
	}
	slices.Sort(levels)
	return slices.Compact(levels)
}

func (w *sweep) addCrossings(levels []float64) []float64 {
	for i := range w.sides {
		s := &w.sides[i]
		if s.x0 == s.x1 {
			continue
		}
		for j := range w.sides {
			if y, ok := crossingOf(s, &w.sides[j]); ok {
				levels = append(levels, y)
			}
		}
	}
	return levels
}

// crossingOf is the height at which two sides cross, where they do.
func crossingOf(s, t *side) (float64, bool) {
	low, high := math.Max(s.y0, t.y0), math.Min(s.y1, t.y1)
	if low >= high {
		return 0, false
	}
	below, above := s.at(low)-t.at(low), s.at(high)-t.at(high)
	if (below < 0) == (above < 0) || below == above {
		return 0, false
	}
	y := low + (high-low)*below/(below-above)
	return y, y > low && y < high
}
