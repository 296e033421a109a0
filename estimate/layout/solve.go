package layout

import "math"

// Counts that limit the search for starters.
const (
	leastSteps  = 10_000 // of one attempt
	stepsAPiece = 400
	mostWork    = 25_000_000 // steps times elements of one attempt
	allWork     = 70_000_000 // steps times elements of a pool; past it one cutting alone is tried
	longer      = 3          // times the steps, at least, of a second attempt
	longerWork  = 4_000_000  // steps times elements of it, at least
	nearBy      = 4          // an attempt comes near when it leaves less than such a part of a plank over
	extraPlanks = 3          // over the crew's, where its method breaks a rule
)

// solve looks for the fewest planks, upwards from the bound. What an attempt
// leaves over tells how many planks more it takes at least, so that numbers out
// of reach are passed over, and whether more attempts at one plank fewer are worth
// their time. It gives nil when nothing is better than the crew's plan.
func (s *search) solve(cuttings []cutting, bound int) (*puzzle, *cutting, error) {
	if s.saw.pattern != Random {
		return s.solvePattern(cuttings)
	}
	most := s.eye.Planks
	if s.eye.broken() {
		most += extraPlanks
	}
	for i := range cuttings {
		c := &cuttings[i]
		c.next = max(bound, c.bound())
	}
	for n := nextNumber(cuttings); n <= most; n = nextNumber(cuttings) {
		z, c, err := s.attempts(cuttings, n)
		if err != nil {
			return nil, nil, err
		}
		if z == nil {
			continue
		}
		better, of, err := s.again(cuttings, n-1)
		if err != nil || better != nil {
			return better, of, err
		}
		return z, c, nil
	}
	return nil, nil, nil
}

// nextNumber is the least number of planks that one of the cuttings may do with.
func nextNumber(cuttings []cutting) int {
	n := math.MaxInt
	for i := range cuttings {
		n = min(n, cuttings[i].next)
	}
	return n
}

// attempts tries each cutting that may do with n planks. Past a pool's work the
// first one alone is tried.
func (s *search) attempts(cuttings []cutting, n int) (*puzzle, *cutting, error) {
	for i := range cuttings {
		c := &cuttings[i]
		if c.next > n {
			continue
		}
		if err := s.ctx.Err(); err != nil {
			return nil, nil, err
		}
		if i > 0 && s.work > allWork {
			c.next = math.MaxInt
			continue
		}
		z := newPuzzle(s.saw, c.grids, c.pairs, s.pool.Seed)
		if s.attempt(z, c, n, z.steps()) {
			return z, c, nil
		}
	}
	return nil, nil, nil
}

// again tries the cuttings that came near n planks once more, with other random
// numbers and more steps.
func (s *search) again(cuttings []cutting, n int) (*puzzle, *cutting, error) {
	for i := range cuttings {
		c := &cuttings[i]
		if c.tried != n || !c.near || s.work > allWork {
			continue
		}
		if err := s.ctx.Err(); err != nil {
			return nil, nil, err
		}
		z := newPuzzle(s.saw, c.grids, c.pairs, s.pool.Seed+1)
		if s.attempt(z, c, n, z.longerSteps()) {
			return z, c, nil
		}
	}
	return nil, nil, nil
}

// attempt searches a puzzle with n planks, first with every rule kept, then with
// joints two rows apart left free, and last by turns. Where it fails it notes what
// that tells of its cutting.
func (s *search) attempt(z *puzzle, c *cutting, n, steps int) bool {
	s.work += steps * len(z.elements)
	for _, lineUp := range []bool{true, false} {
		missing := z.solve(n, steps, lineUp)
		if missing == 0 {
			z.spread(n, lineUp)
			return true
		}
		c.tried, c.near = n, missing < z.plank.Length/nearBy
		c.next = n + max(1, int(missing/z.plank.Length))
		if !c.near {
			break
		}
		steps /= 2
	}
	z.byTurns()
	if z.over(n, far)+z.strain(false) > 0 {
		return false
	}
	z.spread(n, false)
	return true
}

// steps is how many steps one attempt takes.
func (z *puzzle) steps() int {
	size := max(1, len(z.elements))
	return max(500, min(leastSteps+stepsAPiece*size, mostWork/size))
}

// longerSteps is how many steps a second attempt takes.
func (z *puzzle) longerSteps() int {
	return max(z.steps()*longer, longerWork/max(1, len(z.elements)))
}

// broken reports whether a plan breaks a rule that another choice of starters
// might keep.
func (p Plan) broken() bool {
	for _, s := range p.Shortfalls {
		if s.Rule == RuleStagger {
			return true
		}
	}
	return false
}
