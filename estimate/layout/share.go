package layout

import "laybill/estimate/measure"

// Counts that limit the search for rows that share planks.
const (
	sharingChoices = 8     // ways to cut each room
	sharingWork    = 6_000 // orders of rooms times rooms
)

// poolCuttings are ways to cut the rows of several rooms that share planks: the
// one that saves most by ripping first and last rows from common planks, and
// every room's own cheapest.
func (s *search) poolCuttings() []cutting {
	alone := make([]*choice, len(s.rooms))
	var laid []int
	for i := range alone {
		if len(s.choices[i]) > 0 {
			alone[i] = &s.choices[i][0]
			laid = append(laid, i)
		}
	}
	found := []cutting{s.cut(alone, make([]measure.Length, len(alone)))}
	if len(laid) < 2 {
		return found
	}
	c := chain{search: s, order: laid, choices: make([]*choice, len(s.rooms)), firsts: make([]measure.Length, len(s.rooms))}
	c.improve()
	return append(found, s.cut(c.choices, c.firsts))
}

// chain is an order of rooms in which the last row of each may be ripped from
// the planks of the first row of the next. Along a chain the first rows are as
// wide as the last row before leaves them, so that what all last rows take above
// whole rows adds up until a plank's width is used.
type chain struct {
	*search
	order   []int
	choices []*choice
	firsts  []measure.Length
	random  random
}

// improve exchanges rooms of the order as long as that costs no more.
func (c *chain) improve() {
	c.random = random(c.pool.Seed)
	best := c.follow()
	choices, firsts := append([]*choice(nil), c.choices...), append([]measure.Length(nil), c.firsts...)
	for range sharingWork / len(c.order) {
		i, j := c.random.below(len(c.order)), c.random.below(len(c.order))
		c.order[i], c.order[j] = c.order[j], c.order[i]
		cost := c.follow()
		if cost > best {
			c.order[i], c.order[j] = c.order[j], c.order[i]
			continue
		}
		if cost < best {
			copy(choices, c.choices)
			copy(firsts, c.firsts)
		}
		best = cost
	}
	c.choices, c.firsts = choices, firsts
}

// follow chooses the rows of each room in order and gives their cost less what
// the shared strips save.
func (c *chain) follow() int64 {
	var sum int64
	before := strip{}
	for _, i := range c.order {
		cost, last := c.next(i, before)
		sum += cost
		before = last
	}
	return sum
}

// next chooses the rows of a room after a last row that may share its planks.
func (c *chain) next(i int, before strip) (int64, strip) {
	plank := c.saw.plank.Width
	least, after := int64(-1), strip{}
	try := func(of *choice, first measure.Length, saves int64) {
		last := strip{}
		if length, segment := of.grid.edgeRow(true); segment >= 0 {
			last = strip{length: length, width: of.rest - first, price: c.saw.capacityPrice(length)}
		}
		cost := of.cost - saves
		if least >= 0 && (cost > least || cost == least && last.width >= after.width) {
			return
		}
		least, after = cost, last
		c.choices[i], c.firsts[i] = of, first
	}
	of := c.search.choices[i]
	for k := range of[:min(len(of), sharingChoices)] {
		try(&of[k], of[k].first.hi, 0)
		length, segment := of[k].grid.edgeRow(false)
		first := min(of[k].first.hi, plank-c.saw.kerf-before.width)
		if segment >= 0 && before.price > 0 && first >= of[k].first.lo {
			try(&of[k], first, min(before.price, c.saw.capacityPrice(length)))
		}
	}
	return least, after
}
