package layout

import "laybill/estimate/measure"

// Pattern is after how many rows the joints of a fixed pattern are alike again:
// every row lies a plank's length over that number further than the one before.
// The joints of all rows of a room then lie on one lattice, those after a notch
// or a column too.
type Pattern int

// The patterns (common practice).
const (
	Random Pattern = 0 // joints where the plan has most use of them, the least stagger apart
	Half   Pattern = 2
	Third  Pattern = 3 // always the same way, so that no joints two rows apart are in line
)

// lineUp is the distance to keep between joints two rows apart. Half a plank
// twice is a whole one: there joints two rows apart are in line by nature.
func (r *Rules) lineUp() measure.Length {
	if r.Pattern == Half {
		return 0
	}
	return r.LineUp
}

// Shifts are how far the joints of the rows of a fixed pattern lie beyond those
// of the first row, row by row until they are alike again, rounded for the tape;
// none of random joints.
func (p Pattern) Shifts(plank Plank) []measure.Length {
	tape := roundStep(plank)
	shifts := make([]measure.Length, p)
	for i := range shifts {
		exact := plank.Length * measure.Length(i) / measure.Length(p)
		shifts[i] = (exact + tape/2) / tape * tape
	}
	return shifts
}

// lattice is where the joints of a room in a fixed pattern lie.
type lattice struct {
	plank  measure.Length
	shifts []measure.Length
	phase  measure.Length // where a joint of the first row lies, less whole planks
}

func (s *saw) lattice(phase measure.Length) lattice {
	return lattice{s.plank.Length, s.shifts, s.within(phase)}
}

// shift is how far the joints of a row, from 0, lie beyond those of the first.
func (l lattice) shift(row int) measure.Length { return l.shifts[row%len(l.shifts)] }

// starter is the starter of a segment in pattern, more than 0, at most a plank.
func (l lattice) starter(seg *segment) measure.Length {
	a := (l.phase + l.shift(seg.row) - seg.x0) % l.plank
	if a <= 0 {
		a += l.plank
	}
	return a
}

// within takes whole planks off a place along a row: 0 to less than a plank.
func (s *saw) within(x measure.Length) measure.Length {
	length := s.plank.Length
	return (x%length + length) % length
}

// away is by how much two starters of a segment differ, at most half a plank:
// joints recur every plank.
func (s *saw) away(a, b measure.Length) measure.Length {
	d := s.within(a - b)
	return min(d, s.plank.Length-d)
}

// outOfPattern names the rows of a room that leave its pattern, the shortest end
// piece they would have in it of each.
func (n *naming) outOfPattern(s *saw, g *grid, slots [][]slot) {
	if s.pattern == Random {
		return
	}
	mark := len(n.found)
	lattice := s.lattice(g.phase)
	for i := range g.segments {
		seg := &g.segments[i]
		if len(slots[i]) < 2 {
			continue
		}
		in := lattice.starter(seg)
		if away := s.away(in, slots[i][0].x1-seg.x0); away > 0 {
			_, end := s.course(seg.length(), in)
			n.add(mark, Shortfall{Row: seg.row + 1, Rule: RulePattern, At: seg.parts[0].Outer[0], Found: min(in, end), Want: n.rules.LeastEnd},
				"is "+millimetres(away)+" out of the pattern: in it an end piece would be %s long, less than %s")
		}
	}
}
