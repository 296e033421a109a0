package layout

import (
	"context"
	"slices"

	"laybill/estimate/measure"
)

// ByEye lays a pool as a good crew does without a plan: room by room and row by
// row, each row begun with the newest off-cut that makes a legal joint, shortened
// where that is needed, else with a new plank, whole or cut to two thirds, a half
// or a third. The first row is a whole plank wide unless the last would be too
// narrow. What is cut off starters and ripped rows is thrown away.
//
// Every rule is kept where the room allows it; joints two rows apart give way
// first, then stagger. The error is that of the context alone.
func ByEye(ctx context.Context, p Pool) (Plan, error) {
	t := newTable(&p)
	d, err := t.crewDraft(ctx)
	if err != nil {
		return Plan{}, err
	}
	plan := t.plan(d)
	plan.ByEye = plan.Planks
	return plan, nil
}

// crew is the state of the work: the pile of off-cuts, newest last, and the
// joints of the two rows laid before.
type crew struct {
	*saw
	d      *draft
	pile   []offcut
	before [2]rowJoints
	row    rowJoints

	lattice lattice // of the room, in a fixed pattern
}

// offcut is the right-hand rest of a plank from x on.
type offcut struct {
	plank int
	from  measure.Length
}

// rowJoints are the joints of a row, segment by segment.
type rowJoints []joints

// deepest is how many off-cuts of the pile, newest first, the crew looks at.
const deepest = 40

func (t *table) crewDraft(ctx context.Context) (*draft, error) {
	d := &draft{}
	c := crew{saw: t.saw, d: d}
	for i := range t.rooms {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		f := t.floor(i, byEyeDirection(t.rooms[i]))
		var g grid
		if len(f.region) > 0 {
			g = f.cut(i, crewFirstRow(f.width(), t.saw.plank.Width, t.saw.leastRow), t.saw.plank.Width)
		} else {
			g = grid{room: i, direction: f.direction}
		}
		d.grids = append(d.grids, g)
		d.slots = append(d.slots, c.layRoom(&d.grids[i]))
	}
	return d, nil
}

func (c *crew) layRoom(g *grid) [][]slot {
	slots := make([][]slot, len(g.segments))
	c.before = [2]rowJoints{}
	c.row = nil
	if c.pattern != Random {
		g.phase = c.crewPhase(g)
		c.lattice = c.saw.lattice(g.phase)
	}
	for i := range g.segments {
		seg := &g.segments[i]
		if i > 0 && seg.row != g.segments[i-1].row {
			c.nextRow()
		}
		slots[i] = c.laySegment(seg)
	}
	return slots
}

func (c *crew) nextRow() {
	c.before[1], c.before[0], c.row = c.before[0], c.row, c.before[1][:0]
}

func (c *crew) laySegment(seg *segment) []slot {
	if seg.length() <= c.plank.Length {
		return []slot{c.single(seg)}
	}
	starter, taken := c.starter(seg)
	var plank int
	if taken < 0 {
		plank = c.d.newPlank()
	} else {
		plank = c.pile[taken].plank
		c.pile = slices.Delete(c.pile, taken, taken+1)
	}
	slots := c.d.courseSlots(c.saw, seg, starter, plank)
	end := slots[len(slots)-1]
	c.keep(end.plank, end.x1-end.x0+c.kerf)
	c.row = append(c.row, c.jointsOf(seg, starter))
	return slots
}

// single lays a piece between two walls, from the newest off-cut long enough.
func (c *crew) single(seg *segment) slot {
	length := seg.length()
	for i := len(c.pile) - 1; i >= max(0, len(c.pile)-deepest); i-- {
		if o := c.pile[i]; c.plank.Length-o.from >= length {
			c.pile = slices.Delete(c.pile, i, i+1)
			c.keep(o.plank, o.from+length+c.kerf)
			return slot{seg.x0, seg.x1, o.plank, o.from}
		}
	}
	plank := c.d.newPlank()
	c.keep(plank, length+c.kerf)
	return slot{seg.x0, seg.x1, plank, 0}
}

// keep puts the rest of a plank on the pile when it is worth it.
func (c *crew) keep(plank int, from measure.Length) {
	if c.plank.Length-from >= c.leastKept {
		c.pile = append(c.pile, offcut{plank, from})
	}
}

// starter chooses the starter of a segment and the off-cut it is cut from, -1
// for a new plank.
func (c *crew) starter(seg *segment) (length measure.Length, taken int) {
	if c.pattern != Random {
		return c.inPattern(seg)
	}
	choices := c.choices(seg)
	length = c.plank.Length
	for _, rules := range []laxity{allRules, noLineUp} {
		for i := len(c.pile) - 1; i >= max(0, len(c.pile)-deepest); i-- {
			if a, ok := c.longest(seg, choices, length-c.pile[i].from, rules); ok {
				return a, i
			}
		}
		for _, a := range []measure.Length{length, length * 2 / 3, length / 2, length / 3} {
			if c.legal(seg, a, rules) {
				return a, -1
			}
		}
		if a, ok := c.longest(seg, choices, length, rules); ok {
			return a, -1
		}
	}
	return c.mostStaggered(seg, choices), -1
}

// laxity is how many rules have given way.
type laxity int

const (
	allRules laxity = iota
	noLineUp
	noStagger
)

func (c *crew) legal(seg *segment, starter measure.Length, rules laxity) bool {
	short, long := c.starters(seg.length())
	if !short.has(starter) && !long.has(starter) {
		return false
	}
	return c.staggered(seg, starter, rules)
}

func (c *crew) staggered(seg *segment, starter measure.Length, rules laxity) bool {
	own := c.jointsOf(seg, starter)
	if rules < noStagger && c.distance(own, c.before[0]) < c.stagger {
		return false
	}
	return rules > allRules || c.distance(own, c.before[1]) >= c.lineUp
}

func (c *crew) distance(own joints, row rowJoints) measure.Length {
	least := far
	for _, other := range row {
		least = min(least, c.nearest(own, other))
	}
	return least
}

// choices are the starters of a segment worth trying, longest first: the limits
// of what the ends allow and of what the joints of the rows before allow.
func (c *crew) choices(seg *segment) []measure.Length {
	short, long := c.starters(seg.length())
	choices := []measure.Length{short.lo, short.hi, long.lo, long.hi, (short.lo + short.hi) / 2, (long.lo + long.hi) / 2}
	for back, row := range c.before {
		apart := c.stagger
		if back == 1 {
			apart = c.lineUp
		}
		for _, other := range row {
			for _, x := range []measure.Length{other.first - apart, other.first + apart} {
				a := (x - seg.x0) % c.plank.Length
				if a <= 0 {
					a += c.plank.Length
				}
				choices = append(choices, a)
			}
		}
	}
	choices = slices.DeleteFunc(choices, func(a measure.Length) bool { return !short.has(a) && !long.has(a) })
	slices.SortFunc(choices, func(a, b measure.Length) int { return int(b - a) })
	return choices
}

// longest is the longest legal starter that an off-cut of a length gives.
func (c *crew) longest(seg *segment, choices []measure.Length, offcut measure.Length, rules laxity) (measure.Length, bool) {
	if c.legal(seg, offcut, rules) {
		return offcut, true
	}
	for _, a := range choices {
		if a <= offcut && c.staggered(seg, a, rules) {
			return a, true
		}
	}
	return 0, false
}

// mostStaggered is the starter whose joints lie farthest from those of the row
// before.
func (c *crew) mostStaggered(seg *segment, choices []measure.Length) measure.Length {
	best, most := choices[0], measure.Length(-1)
	for _, a := range choices {
		if d := c.distance(c.jointsOf(seg, a), c.before[0]); d > most {
			best, most = a, d
		}
	}
	return best
}
