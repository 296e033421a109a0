package layout

import (
	"cmp"
	"slices"

	"laybill/estimate/measure"
)

// Counts that limit the search for the phases of several rooms (found by trial
// on the rooms of the goals).
const (
	phaseStarts = 6 // at random, besides each room's own best
	phaseSweeps = 5 // over the rooms of one start
)

// solvePattern chooses the phase of every room in a fixed pattern: as few rows
// out of pattern as can be, then as few planks. A room alone is searched
// through: every way to cut it, at every phase that matters.
func (s *search) solvePattern(cuttings []cutting) (*puzzle, *cutting, error) {
	if len(cuttings) == 0 {
		return nil, nil, nil
	}
	own, err := s.ownBest()
	if err != nil {
		return nil, nil, err
	}
	best, of := s.phased(&own), own
	least := best.descend(len(s.rooms) > 1)
	if len(s.rooms) == 1 {
		if s.whole && least.out == 0 && best.plain() {
			s.inPattern = least.planks
		}
		cuttings = nil
	}
	for i := range cuttings {
		if err := s.ctx.Err(); err != nil {
			return nil, nil, err
		}
		p := s.phased(&cuttings[i])
		if cost := p.descend(true); cost.compare(least) < 0 {
			best, of, least = p, cuttings[i], cost
		}
	}
	best.turnSingles()
	of.pairs = best.riding()
	s.price(&of)
	return best.puzzle, &of, nil
}

// ownBest cuts every room as is best for it alone, at its best phase.
func (s *search) ownBest() (cutting, error) {
	choices := make([]*choice, len(s.rooms))
	phases := make([]measure.Length, len(s.rooms))
	for i := range s.choices {
		var least patternCost
		for j := range s.choices[i] {
			if err := s.ctx.Err(); err != nil {
				return cutting{}, err
			}
			c := cutting{grids: []grid{s.choices[i][j].grid}}
			p := s.phased(&c)
			if cost := p.improve(0); choices[i] == nil || cost.compare(least) < 0 {
				choices[i], phases[i], least = &s.choices[i][j], p.grids[0].phase, cost
			}
		}
	}
	c := s.cut(choices, make([]measure.Length, len(choices)))
	for i := range c.grids {
		c.grids[i].phase = phases[i]
	}
	return c, nil
}

// patternCost is what is made least, in this order; of the shortest end piece
// the most.
type patternCost struct {
	merit
	planks int
	over   measure.Length // by which pieces are too long for a plank fewer
}

func (c patternCost) compare(o patternCost) int {
	return cmp.Or(c.keeps(o.merit), cmp.Compare(c.planks, o.planks), cmp.Compare(c.over, o.over), cmp.Compare(o.shortest, c.shortest))
}

// cost is that of all rooms at their phases.
func (p *phased) cost() patternCost {
	c := patternCost{merit: p.merit()}
	p.ride()
	p.gather()
	c.planks = p.count()
	if p.guided {
		c.over = p.over(c.planks-1, far)
	}
	return c
}

// merit is that of all rooms together.
func (p *phased) merit() merit {
	sum := merit{shortest: far}
	for _, m := range p.merits {
		sum.broken += m.broken
		sum.out += m.out
		sum.shortest = min(sum.shortest, m.shortest)
	}
	return sum
}

// descend moves one room after the other to its best phase beside the others,
// from the phases it has and, of several rooms, from some at random.
func (p *phased) descend(several bool) patternCost {
	p.settle(several)
	least, phases := p.cost(), p.phasesNow()
	for range phaseStarts {
		if !several {
			break
		}
		for grid := range p.grids {
			p.lay(grid, p.rounded(p.random.length(p.plank.Length)))
		}
		p.settle(several)
		if cost := p.cost(); cost.compare(least) < 0 {
			least, phases = cost, p.phasesNow()
		}
	}
	for grid, phase := range phases {
		p.lay(grid, phase)
	}
	return p.cost()
}

// settle improves room after room until none gains. Of several rooms it does so
// first towards a plank fewer, then for longer end pieces.
func (p *phased) settle(several bool) {
	for grid := range p.grids {
		p.lay(grid, p.grids[grid].phase)
	}
	p.guided = several
	for range phaseSweeps {
		before := p.cost()
		for grid := range p.grids {
			p.improve(grid)
		}
		if p.cost().compare(before) == 0 {
			break
		}
	}
	p.guided = false
	for grid := range p.grids {
		p.improve(grid)
	}
}

// improve lays a room at the best of the phases worth trying.
func (p *phased) improve(grid int) patternCost {
	p.lay(grid, p.grids[grid].phase)
	least, best := p.cost(), p.grids[grid].phase
	tried := p.phases(grid)
	if len(p.grids) > 1 || least.out > 0 {
		tried = append(tried, p.crossings(grid)...)
	}
	for _, phase := range tried {
		p.lay(grid, phase)
		if p.merit().keeps(least.merit) > 0 {
			continue
		}
		if cost := p.cost(); cost.compare(least) < 0 {
			least, best = cost, phase
		}
	}
	p.lay(grid, best)
	return p.cost()
}

func (p *phased) phasesNow() []measure.Length {
	phases := make([]measure.Length, len(p.grids))
	for i := range p.grids {
		phases[i] = p.grids[i].phase
	}
	return phases
}

func (p *phased) rounded(l measure.Length) measure.Length { return l - l%p.puzzle.step }

// plain tells whether every row is longer than a plank and no two are ripped from
// one: then the planks of a phase are counted exactly.
func (p *phased) plain() bool {
	for i := range p.grids {
		rows := p.grids[i].rows
		first, last := rows[0], rows[len(rows)-1]
		if len(rows) > 1 && first.Y1-first.Y0+last.Y1-last.Y0+p.kerf <= p.plank.Width {
			return false
		}
	}
	return len(p.fillers) == 0 && !slices.ContainsFunc(p.elements, func(e element) bool { return e.single })
}

// turnSingles cuts pieces between two walls from the other end of their planks
// where that saves one.
func (p *phased) turnSingles() {
	planks := p.cost().planks
	for _, i := range p.moving {
		e := &p.elements[i]
		if !e.single {
			continue
		}
		p.flip(e)
		if fewer := p.count(); fewer < planks {
			planks = fewer
		} else {
			p.flip(e)
		}
	}
}
