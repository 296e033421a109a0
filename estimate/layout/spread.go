package layout

import "laybill/estimate/measure"

// Counts and lengths of the spreading of joints (common practice: no stairs of
// joints, no joints in line two rows apart).
const (
	spreadSteps = 60 // for each element
	unlikeSteps = 60 * measure.Millimetre
)

// spreading makes the pattern of joints less regular without costing a plank or
// breaking a rule: joints two rows apart are moved apart as far as half the
// stagger, and three rows do not step the same way by the same length.
type spreading struct {
	annealing
	triples [][3]int // elements of three rows in a row whose joints meet
	within  [][]int  // of each element, its triples
}

// spread improves a solved puzzle of n planks.
func (z *puzzle) spread(n int, lineUp bool) {
	s := spreading{annealing: annealing{puzzle: z, n: n, lineUp: lineUp}, within: make([][]int, len(z.elements))}
	s.findTriples()
	for range spreadSteps * len(z.moving) {
		if i := z.moving[z.random.below(len(z.moving))]; !z.elements[i].single {
			s.improve(i)
		}
	}
}

// findTriples takes each link over two rows with every element between that is
// linked to both.
func (s *spreading) findTriples() {
	for a := range s.elements {
		for _, over := range s.elements[a].links {
			if !over.far || over.other < a {
				continue
			}
			for _, near := range s.elements[a].links {
				if near.far || !s.linked(near.other, over.other) {
					continue
				}
				for _, i := range []int{a, near.other, over.other} {
					s.within[i] = append(s.within[i], len(s.triples))
				}
				s.triples = append(s.triples, [3]int{a, near.other, over.other})
			}
		}
	}
}

func (s *spreading) linked(a, b int) bool {
	for _, l := range s.elements[a].links {
		if l.other == b && !l.far {
			return true
		}
	}
	return false
}

// improve moves a starter when every rule and the number of planks still hold
// and the pattern is no more regular than before.
func (s *spreading) improve(i int) {
	e := &s.elements[i]
	old := e.state
	before := s.regularity(i)
	if before == 0 {
		return
	}
	next := s.courseOf(e, s.propose(e))
	strain := s.tension(e, &old, s.lineUp)
	e.state = next
	if s.tension(e, &next, s.lineUp) > strain || s.misfits(e) > 0 || s.regularity(i) >= before {
		e.state = old
		return
	}
	done := s.shift(e, &old, &next)
	if s.puzzle.over(s.n, 0) > 0 {
		s.undo(&done)
		e.state = old
	}
}

// regularity is by how much the joints of an element make a pattern.
func (s *spreading) regularity(i int) measure.Length {
	e := &s.elements[i]
	var sum measure.Length
	for _, l := range e.links {
		if l.far {
			sum += max(0, s.stagger/2-s.nearest(e.state.joints, s.elements[l.other].state.joints))
		}
	}
	for _, at := range s.within[i] {
		t := s.triples[at]
		first := s.stepBetween(t[0], t[1]) - s.stepBetween(t[1], t[2])
		sum += max(0, unlikeSteps-abs(s.wrapped(first)))
	}
	return sum
}

// stepBetween is how far the joints of one element lie beyond those of another.
func (s *spreading) stepBetween(a, b int) measure.Length {
	return s.elements[b].state.joints.first - s.elements[a].state.joints.first
}

// wrapped is a step less whole planks, at most half a plank either way.
func (s *spreading) wrapped(step measure.Length) measure.Length {
	length := s.plank.Length
	step = (step%length + length) % length
	if step > length/2 {
		step -= length
	}
	return step
}
