package layout

import (
	"cmp"
	"context"
	"slices"

	"laybill/estimate/measure"
)

// Lay lays a pool with as few planks as it can find: it chooses directions,
// widths of first rows, rows that share ripped planks, and every starter. It
// takes no more planks than ByEye, but where the crew's method breaks a rule
// that can be kept. The same pool gives the same plan; work is limited by
// counts. The error is that of the context alone.
//
// Fields of a floor are laid like rooms of their own.
func Lay(ctx context.Context, p Pool) (Plan, error) {
	parts, of := byField(p)
	plan, err := layParts(ctx, parts)
	if err != nil {
		return Plan{}, err
	}
	return gathered(plan, p, of), nil
}

// layParts lays a pool of floors that are each laid in one piece.
func layParts(ctx context.Context, p Pool) (Plan, error) {
	t := newTable(&p)
	crew, err := t.crewDraft(ctx)
	if err != nil {
		return Plan{}, err
	}
	eye := t.plan(crew)
	eye.ByEye = eye.Planks
	s := search{table: t, ctx: ctx, eye: &eye}
	best, err := s.run()
	if err != nil {
		return Plan{}, err
	}
	return best, nil
}

// cutting is a pool with its rows cut and strips paired, and what its rows cost
// at least.
type cutting struct {
	grids  []grid
	pairs  []pair
	rows   []PricedRow // no two of which can be ripped from one plank
	value  worth
	weight int64 // least sum of prices of the rows
	next   int   // planks that may do, as far as attempts have shown
	tried  int   // planks of the last attempt, that failed
	near   bool  // it came near
}

func (c *cutting) bound() int { return planks(c.weight) }

// search is the search for a pool's plan.
type search struct {
	*table
	ctx     context.Context
	eye     *Plan
	choices [][]choice // by room, the cheapest first
	work    int        // done so far, in steps times elements
	whole   bool       // the choices are all there are
	// inPattern is the number of planks that no layout in the pool's fixed
	// pattern undercuts, found by trying all of them; 0 when not known.
	inPattern int
}

func (s *search) run() (Plan, error) {
	if err := s.choose(); err != nil {
		return Plan{}, err
	}
	best := *s.eye
	cuttings, solved, at, err := s.solution()
	if err != nil {
		return Plan{}, err
	}
	lower := max(s.lowerBound(cuttings), s.inPattern)
	if solved != nil {
		best = s.plan(solved.draft())
		best.ByEye = s.eye.Planks
		best.Certificate = s.certificate(at)
		best.RowBound = at.bound()
		if s.inPattern > 0 && s.inPattern == best.Planks && len(best.Layouts[0].Pieces) == solved.pieces {
			best.InPattern = s.inPattern
		}
	}
	best.LowerBound = lower
	best.RowBound = max(best.RowBound, lower)
	best.Proven = best.Planks == lower
	if len(best.Layouts) == 1 {
		best.Layouts[0].LowerBound = lower
	}
	return best, nil
}

// choose finds the ways to cut each room.
func (s *search) choose() error {
	s.whole = true
	s.choices = make([][]choice, len(s.rooms))
	for i := range s.rooms {
		if err := s.ctx.Err(); err != nil {
			return err
		}
		of, whole := s.choicesOf(i)
		s.choices[i] = of
		s.whole = s.whole && whole
	}
	return nil
}

// solution is the best puzzle found, the cutting it is of, and all cuttings
// looked at; no puzzle when the crew's plan is as good.
func (s *search) solution() ([]cutting, *puzzle, *cutting, error) {
	if groups := s.groups(); len(groups) > 1 {
		z, c, err := s.solveGroups(groups)
		return []cutting{c}, z, &c, err
	}
	cuttings := s.cuttings()
	z, c, err := s.solve(cuttings, s.lowerBound(cuttings))
	return cuttings, z, c, err
}

// mostCuttings is how many ways to cut the rows of a pool are tried.
const mostCuttings = 6

// cuttings are the ways to cut the pool's rows that are worth a search, the
// cheapest first.
func (s *search) cuttings() []cutting {
	var found []cutting
	if len(s.rooms) == 1 {
		found = s.roomCuttings(0)
	} else {
		found = s.poolCuttings()
	}
	for i := range found {
		s.price(&found[i])
	}
	slices.SortStableFunc(found, func(a, b cutting) int {
		return cmp.Or(cmp.Compare(a.bound(), b.bound()), cmp.Compare(a.weight, b.weight))
	})
	return found[:min(len(found), mostCuttings)]
}

// roomCuttings are the choices of a single room that differ in their rows.
func (s *search) roomCuttings(i int) []cutting {
	var found []cutting
	seen := map[string]bool{}
	for j := range s.choices[i] {
		c := &s.choices[i][j]
		key := rowsKey(c)
		if seen[key] {
			continue
		}
		seen[key] = true
		found = append(found, s.cut([]*choice{c}, []measure.Length{0}))
		if len(found) == mostCuttings {
			break
		}
	}
	return found
}

func rowsKey(c *choice) string {
	lengths := make([]measure.Length, 0, len(c.grid.segments))
	for k := range c.grid.segments {
		lengths = append(lengths, c.grid.segments[k].length())
	}
	slices.Sort(lengths)
	key := make([]byte, 0, 8*len(lengths))
	for _, l := range lengths {
		for shift := 0; shift < 40; shift += 8 {
			key = append(key, byte(l>>shift))
		}
	}
	return string(key)
}

// cut makes a cutting of one choice a room with the given first rows, 0 for the
// choice's own, and pairs the strips that save most. Rooms without floor have
// no choice.
func (s *search) cut(choices []*choice, firsts []measure.Length) cutting {
	var c cutting
	for i, of := range choices {
		switch {
		case of == nil:
			c.grids = append(c.grids, grid{room: i, direction: byEyeDirection(s.rooms[i])})
		case firsts[i] == 0:
			c.grids = append(c.grids, of.grid)
		default:
			c.grids = append(c.grids, of.at(firsts[i], s.saw.plank.Width))
		}
	}
	c.pairs = s.pairStrips(c.grids)
	return c
}

// lowerBound is the number of planks that no layout of the pool undercuts.
func (s *search) lowerBound(cuttings []cutting) int {
	var area int64
	for i := range s.choices {
		if len(s.choices[i]) > 0 {
			area += s.choices[i][0].area
		}
	}
	plank := 2 * int64(s.saw.plank.Length) * int64(s.saw.plank.Width)
	bound := int((area + plank - 1) / plank)
	if !s.whole || len(cuttings) == 0 {
		return bound
	}
	if len(s.rooms) == 1 {
		return max(bound, s.roomBound(cuttings))
	}
	return max(bound, planks(s.sharedBound(cuttings[0].value)))
}

// roomBound is the least bound of any way to cut a single room.
func (s *search) roomBound(cuttings []cutting) int {
	least := cuttings[0].bound()
	closer := mostCuttings
	for j := range s.choices[0] {
		c := s.cut([]*choice{&s.choices[0][j]}, []measure.Length{0})
		rows := lengthsOf(s.independent(&c))
		if b := planks(s.saw.sum(cuttings[0].value, rows)); b < least {
			if closer--; closer >= 0 {
				_, weight := s.saw.bestWorth(rows)
				b = max(b, planks(weight))
			}
			least = min(least, b)
		}
	}
	return least
}
