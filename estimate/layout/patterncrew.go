package layout

import "laybill/estimate/measure"

// crewPhase is the phase that a crew takes without a plan: the first row starts
// with a whole plank, or where that leaves rows with end pieces too short, with
// two thirds, a half or a third of one, whichever leaves fewest.
func (s *saw) crewPhase(g *grid) measure.Length {
	if len(g.segments) == 0 {
		return 0
	}
	length := s.plank.Length
	best, fewest := measure.Length(0), len(g.segments)+1
	for _, starter := range []measure.Length{length, length * 2 / 3, length / 2, length / 3} {
		phase := s.within(g.segments[0].x0 + starter)
		if out := s.outAt(g, phase); out < fewest {
			best, fewest = phase, out
		}
	}
	return best
}

// outAt counts the rows that cannot keep to the pattern at a phase.
func (s *saw) outAt(g *grid, phase measure.Length) int {
	lattice := s.lattice(phase)
	out := 0
	for i := range g.segments {
		if seg := &g.segments[i]; seg.length() > s.plank.Length && !s.fits(seg, lattice.starter(seg)) {
			out++
		}
	}
	return out
}

func (s *saw) fits(seg *segment, starter measure.Length) bool {
	short, long := s.starters(seg.length())
	return short.has(starter) || long.has(starter)
}

// inPattern is the starter of a segment in pattern, or nearest to it, and the
// newest off-cut long enough for it, -1 for a new plank.
func (c *crew) inPattern(seg *segment) (length measure.Length, taken int) {
	in := c.lattice.starter(seg)
	length = in
	if !c.fits(seg, in) {
		choices := c.choices(seg)
		length = c.mostStaggered(seg, choices)
		nearest := far
		for _, a := range choices {
			if away := c.away(a, in); away < nearest && c.staggered(seg, a, noLineUp) {
				length, nearest = a, away
			}
		}
	}
	for i := len(c.pile) - 1; i >= max(0, len(c.pile)-deepest); i-- {
		if c.plank.Length-c.pile[i].from >= length {
			return length, i
		}
	}
	return length, -1
}
