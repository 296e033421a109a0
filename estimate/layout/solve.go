package layout

// Counts that limit the search for starters.
const (
	leastSteps  = 10_000 // of one attempt
	stepsAPiece = 400
	mostWork    = 25_000_000 // steps times elements of one attempt
	allWork     = 70_000_000 // steps times elements of a pool; past it one cutting alone is tried
	tries       = 5          // more attempts at one plank fewer than was found
	extraPlanks = 3          // over the crew's, where its method breaks a rule
)

// solve looks for the fewest planks: upwards from the bound in steps that grow,
// then between the last number that failed and the one that did. It gives nil
// when nothing is better than the crew's plan.
func (s *search) solve(cuttings []cutting, bound int) (*puzzle, *cutting, error) {
	if s.saw.pattern != Random {
		return s.solvePattern(cuttings)
	}
	most := s.eye.Planks
	if s.eye.broken() {
		most += extraPlanks
	}
	if len(cuttings) > 0 {
		bound = max(bound, cuttings[0].bound()) // what none of them undercuts
	}
	failed, step := bound-1, 1
	var solved *puzzle
	var of *cutting
	n := bound
	for tried := 1; ; tried++ {
		z, c, err := s.attempts(cuttings, n, 0, 1)
		if err != nil {
			return nil, nil, err
		}
		if z != nil {
			solved, of = z, c
			break
		}
		if n >= most {
			return nil, nil, nil
		}
		failed = n
		if tried > 2 {
			step *= 2
		}
		n = min(most, n+step)
	}
	for n-failed > 1 {
		middle := (n + failed) / 2
		z, c, err := s.attempts(cuttings, middle, 0, 1)
		switch {
		case err != nil:
			return nil, nil, err
		case z != nil:
			solved, of, n = z, c, middle
		default:
			failed = middle
		}
	}
	if n > bound {
		z, c, err := s.attempts(cuttings, n-1, 1, tries)
		if err != nil || z != nil {
			return z, c, err
		}
	}
	return solved, of, nil
}

// attempts tries each cutting that may do with n planks, first with every rule
// kept, then with joints two rows apart left free. Every further try takes other
// random numbers and more steps.
func (s *search) attempts(cuttings []cutting, n, first, tries int) (*puzzle, *cutting, error) {
	for try := first; try < tries; try++ {
		for i := range cuttings {
			c := &cuttings[i]
			if s.work > allWork && (try > 0 || i > 0) {
				return nil, nil, nil
			}
			if c.bound() > n {
				continue
			}
			if err := s.ctx.Err(); err != nil {
				return nil, nil, err
			}
			z := newPuzzle(s.saw, c.grids, c.pairs, s.pool.Seed+int64(try))
			steps := z.steps() * (1 + try)
			s.work += steps * len(z.elements)
			for _, lineUp := range []bool{true, false} {
				if z.solve(n, steps, lineUp) {
					z.spread(n, lineUp)
					return z, c, nil
				}
				if z.strain(true) > 2*z.plank.Length {
					break
				}
				steps /= 2
			}
		}
	}
	return nil, nil, nil
}

// steps is how many steps one attempt takes.
func (z *puzzle) steps() int {
	size := max(1, len(z.elements))
	return max(500, min(leastSteps+stepsAPiece*size, mostWork/size))
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
