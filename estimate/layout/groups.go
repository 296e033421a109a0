package layout

// groupSegments is about how many segments are searched together. A larger pool
// is searched in groups of rooms; all its planks are matched together in the
// end.
const groupSegments = 120

// groups are the rooms that are searched together, in order.
func (s *search) groups() [][]int {
	var groups [][]int
	size := groupSegments
	for i := range s.rooms {
		n := 1
		if len(s.choices[i]) > 0 {
			n = len(s.choices[i][0].grid.segments)
		}
		if size+n > groupSegments {
			groups = append(groups, nil)
			size = 0
		}
		last := len(groups) - 1
		groups[last] = append(groups[last], i)
		size += n
	}
	return groups
}

// solveGroups searches each group for itself and puts the results together.
func (s *search) solveGroups(groups [][]int) (*puzzle, cutting, error) {
	var whole cutting
	var parts []*puzzle
	var first []int // grid of each part
	for _, group := range groups {
		z, pairs, err := s.solveGroup(group)
		if err != nil {
			return nil, cutting{}, err
		}
		before := len(whole.grids)
		parts, first = append(parts, z), append(first, before)
		for i, g := range z.grids {
			g.room = group[i]
			whole.grids = append(whole.grids, g)
		}
		for _, p := range pairs {
			p.host.grid += before
			p.rider.grid += before
			whole.pairs = append(whole.pairs, p)
		}
	}
	s.price(&whole)
	z := newPuzzle(s.saw, whole.grids, whole.pairs, s.pool.Seed)
	for i, part := range parts {
		z.copyStates(part, first[i])
	}
	if s.saw.pattern == Random && z.count() > s.eye.Planks {
		return nil, whole, nil
	}
	return z, whole, nil
}

// solveGroup searches rooms as a pool of their own; where the crew's plan is as
// good it is taken.
func (s *search) solveGroup(group []int) (*puzzle, []pair, error) {
	p := *s.pool
	p.Rooms = nil
	for _, i := range group {
		p.Rooms = append(p.Rooms, *s.rooms[i])
	}
	t := newTable(&p)
	crew, err := t.crewDraft(s.ctx)
	if err != nil {
		return nil, nil, err
	}
	eye := t.plan(crew)
	part := search{table: t, ctx: s.ctx, eye: &eye, whole: s.whole}
	for _, i := range group {
		part.choices = append(part.choices, s.choices[i])
	}
	part.reroom()
	cuttings := part.cuttings()
	z, c, err := part.solve(cuttings, part.lowerBound(cuttings))
	if err != nil {
		return nil, nil, err
	}
	if z == nil {
		return newPuzzle(s.saw, crew.grids, nil, 0).withStarters(crew), nil, nil
	}
	return z, c.pairs, nil
}

// reroom numbers the rooms of borrowed choices as this search does.
func (s *search) reroom() {
	for i, choices := range s.choices {
		own := make([]choice, len(choices))
		for j, c := range choices {
			c.grid.room = i
			own[j] = c
		}
		s.choices[i] = own
	}
}

// withStarters takes the starters of a draft of the same grids.
func (z *puzzle) withStarters(d *draft) *puzzle {
	for i := range z.elements {
		if e := &z.elements[i]; !e.single {
			first := d.slots[e.at.grid][e.at.segment][0]
			z.set(i, first.x1-first.x0)
		}
	}
	z.gather()
	return z
}

// copyStates takes the states of a part whose first grid is the one given here.
func (z *puzzle) copyStates(part *puzzle, first int) {
	at := map[place]*element{}
	for i := range part.elements {
		e := &part.elements[i]
		at[place{e.at.grid + first, e.at.segment}] = e
	}
	for i := range z.elements {
		e := &z.elements[i]
		if from := at[e.at]; from != nil {
			e.state, e.right = from.state, from.right
		}
	}
	z.gather()
}
