package layout

import "laybill/estimate/measure"

// saw is what the rules come to along the planks.
type saw struct {
	plank     Plank
	kerf      measure.Length
	leastEnd  measure.Length // at least one unit, at most half a plank
	leastRow  measure.Length
	stagger   measure.Length // at most half a plank: joints recur every plank
	lineUp    measure.Length
	leastKept measure.Length // shortest off-cut worth keeping
	ends      Ends
	pattern   Pattern
	shifts    []measure.Length // of the pattern
}

func newSaw(p *Pool) *saw {
	half := p.Plank.Length / 2
	return &saw{
		plank:     p.Plank,
		kerf:      p.Rules.Kerf,
		leastEnd:  max(1, min(p.Rules.LeastEnd, half)),
		leastRow:  max(1, min(p.Rules.LeastRow, p.Plank.Width)),
		stagger:   max(0, min(p.Rules.LeastStagger, half)),
		lineUp:    max(0, min(p.Rules.lineUp(), half)),
		leastKept: max(1, min(p.Rules.LeastEnd, half)),
		ends:      p.Rules.Ends,
		pattern:   p.Rules.Pattern,
		shifts:    p.Rules.Pattern.Shifts(p.Plank),
	}
}

// interval is the lengths from lo to hi, none when lo > hi.
type interval struct{ lo, hi measure.Length }

func (i interval) empty() bool               { return i.lo > i.hi }
func (i interval) has(l measure.Length) bool { return i.lo <= l && l <= i.hi }
func (i interval) span() measure.Length      { return max(0, i.hi-i.lo+1) }

// split writes a row longer than a plank as whole planks and a rest in
// (0, plank].
func (s *saw) split(row measure.Length) (whole int, rest measure.Length) {
	whole = int((row - 1) / s.plank.Length)
	return whole, row - measure.Length(whole)*s.plank.Length
}

// starters are the lengths a starter of a row longer than a plank may have so
// that both ends are long enough: short ones leave an end piece that makes up
// the rest with it, long ones make up the rest and a plank.
func (s *saw) starters(row measure.Length) (short, long interval) {
	_, rest := s.split(row)
	length := s.plank.Length
	short = interval{s.leastEnd, rest - s.leastEnd}
	long = interval{max(rest, s.leastEnd), min(length, rest+length-s.leastEnd)}
	return short, long
}

// course is a row that starts with a starter, followed by whole planks and an
// end piece.
func (s *saw) course(row, starter measure.Length) (whole int, end measure.Length) {
	return s.split(row - starter)
}

// joints are the end joints of a segment: count of them, a plank apart.
type joints struct {
	first measure.Length
	count int
}

// far is a distance no rule asks for.
const far = measure.Length(1) << 40

// nearest is the least distance between joints of two segments.
func (s *saw) nearest(a, b joints) measure.Length {
	if a.count == 0 || b.count == 0 {
		return far
	}
	length := s.plank.Length
	apart := b.first - a.first
	least, most := measure.Length(1-a.count), measure.Length(b.count-1)
	steps := -apart / length
	if steps*length > -apart {
		steps--
	}
	low := apart + min(max(steps, least), most)*length
	high := apart + min(max(steps+1, least), most)*length
	return min(abs(low), abs(high))
}

func abs(l measure.Length) measure.Length {
	if l < 0 {
		return -l
	}
	return l
}

// jointsOf are the joints of a segment that starts at x0 with a starter.
func (s *saw) jointsOf(seg *segment, starter measure.Length) joints {
	whole, _ := s.course(seg.length(), starter)
	return joints{seg.x0 + starter, whole + 1}
}
