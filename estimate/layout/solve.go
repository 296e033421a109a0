package layout

import "laybill/estimate/measure"

// Counts that limit the search for starters.
const (
	leastSteps  = 10_000 // of one attempt
	stepsAPiece = 250
	mostWork    = 60_000_000 // steps times elements of one attempt
	tries       = 6          // more attempts at one plank fewer than was found
	extraPlanks = 3          // over the crew's, where its method breaks a rule
)

// solve looks for the fewest planks, upwards from the bound, then spends its
// last attempts on one fewer. It gives nil when nothing is better than the
// crew's plan.
func (s *search) solve(cuttings []cutting, bound int) (*puzzle, *cutting, error) {
	most := s.eye.Planks
	if s.eye.broken() {
		most += extraPlanks
	}
	n := max(bound, 0)
	for ; n <= most; n++ {
		z, c, err := s.attempts(cuttings, n, 1)
		if err != nil || z != nil {
			if z == nil || n == bound {
				return z, c, err
			}
			better, of, err := s.attempts(cuttings, n-1, tries)
			if better != nil {
				return better, of, err
			}
			return z, c, err
		}
	}
	return nil, nil, nil
}

// attempts tries each cutting that may do with n planks, first with every rule
// kept, then with joints two rows apart left free.
func (s *search) attempts(cuttings []cutting, n, tries int) (*puzzle, *cutting, error) {
	for try := range tries {
		for i := range cuttings {
			c := &cuttings[i]
			if c.bound() > n {
				continue
			}
			if err := s.ctx.Err(); err != nil {
				return nil, nil, err
			}
			z := newPuzzle(s.saw, c.grids, c.pairs, s.pool.Seed+int64(try))
			if z.solve(n, z.steps(), true) || z.strainLeft() < 2*z.plank.Length && z.solve(n, z.steps()/2, false) {
				return z, c, nil
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

// strainLeft is by how much the state breaks rules with a plank to each piece.
func (z *puzzle) strainLeft() measure.Length { return z.strain(true) }

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
