package layout

import (
	"cmp"
	"slices"

	"laybill/estimate/measure"
)

// phased is a puzzle whose rooms are laid in a fixed pattern: the phase of a
// room fixes every starter in it.
type phased struct {
	*puzzle
	long   [][]int  // of each grid, its elements longer than a plank, by row
	merits []merit  // of each grid at its phase
	pairs  [][2]int // elements whose strips may share planks: host and rider
	given  []pair   // the same as places
	guided bool     // of layouts with equal planks the one nearer to a plank fewer is better
}

// merit is how well the rows of a room keep to its pattern.
type merit struct {
	broken   int            // rows whose stagger is not kept
	out      int            // rows out of pattern
	shortest measure.Length // starter or end piece
}

func (m merit) keeps(o merit) int {
	return cmp.Or(cmp.Compare(m.broken, o.broken), cmp.Compare(m.out, o.out))
}

func (s *search) phased(c *cutting) *phased {
	p := &phased{puzzle: newPuzzle(s.saw, slices.Clone(c.grids), c.pairs, s.pool.Seed), given: c.pairs}
	p.long = make([][]int, len(c.grids))
	p.merits = make([]merit, len(c.grids))
	at := map[place]int{}
	for i := range p.elements {
		e := &p.elements[i]
		at[e.at] = i
		if !e.single {
			p.long[e.at.grid] = append(p.long[e.at.grid], i)
		}
	}
	for _, pair := range c.pairs {
		p.pairs = append(p.pairs, [2]int{at[pair.host], at[pair.rider]})
	}
	return p
}

// lay lays a room in pattern at a phase. A row whose end pieces would be too
// short leaves the pattern by as little as keeps them and the stagger.
func (p *phased) lay(grid int, phase measure.Length) {
	p.grids[grid].phase = p.within(phase)
	l := p.lattice(phase)
	m := merit{shortest: far}
	for _, i := range p.long[grid] {
		e := &p.elements[i]
		starter := l.starter(p.segmentAt(e.at))
		if !e.short.has(starter) && !e.long.has(starter) {
			m.out++
			starter = p.leave(e, l, starter)
		}
		e.state = p.courseOf(e, starter)
		m.shortest = min(m.shortest, e.state.starter, e.state.end)
		if m.out > 0 && p.tension(e, &e.state, false) > 0 {
			m.broken++
		}
	}
	p.merits[grid] = m
}

// leave is the legal starter nearest to the one in pattern that keeps the
// stagger to the row before as it is laid and to the row after in pattern; when
// there is none, the one with its joints farthest from theirs.
func (p *phased) leave(e *element, l lattice, in measure.Length) measure.Length {
	seg := p.segmentAt(e.at)
	others := p.beside(e, l)
	choices := []measure.Length{e.short.lo, e.short.hi, e.long.lo, e.long.hi}
	for _, other := range others {
		for _, x := range []measure.Length{other.first - p.stagger, other.first + p.stagger} {
			choices = append(choices, p.within(x-seg.x0-1)+1)
		}
	}
	best, most, nearest := measure.Length(0), measure.Length(-1), far
	for _, a := range choices {
		if !e.short.has(a) && !e.long.has(a) {
			continue
		}
		apart := p.stagger
		own := p.courseOf(e, a).joints
		for _, other := range others {
			apart = min(apart, p.nearest(own, other))
		}
		if away := p.away(a, in); apart > most || apart == most && away < nearest {
			best, most, nearest = a, apart, away
		}
	}
	return best
}

// beside are the joints of the rows before and after an element, the latter in
// pattern.
func (p *phased) beside(e *element, l lattice) []joints {
	row := p.segmentAt(e.at).row
	var found []joints
	for _, link := range e.links {
		other := &p.elements[link.other]
		switch seg := p.segmentAt(other.at); {
		case link.far:
		case seg.row < row:
			found = append(found, other.state.joints)
		default:
			found = append(found, p.courseOf(other, l.starter(seg)).joints)
		}
	}
	return found
}

// ride lets a row go free where its strips come from another's planks.
func (p *phased) ride() {
	for _, pair := range p.pairs {
		host, rider := &p.elements[pair[0]], &p.elements[pair[1]]
		host.rider, rider.host = -1, -1
		if p.misfit(host, rider) == 0 {
			host.rider, rider.host = pair[1], pair[0]
		}
	}
}

// riding are the places of the rows that go free.
func (p *phased) riding() []pair {
	var found []pair
	for i, pair := range p.pairs {
		if p.elements[pair[1]].host >= 0 {
			found = append(found, p.given[i])
		}
	}
	return found
}

// phases are the phases of a room worth trying: where an end piece of some row
// in pattern reaches its least or the whole plank, and halfway between two of
// these. Between them no row leaves the pattern or comes back to it, and a
// starter and an end piece of two rows in pattern add up to the same length; so
// no phase of a room laid alone takes fewer planks with as many rows in pattern.
func (p *phased) phases(grid int) []measure.Length {
	l := p.lattice(0)
	var found []measure.Length
	for _, i := range p.long[grid] {
		e := &p.elements[i]
		seg := p.segmentAt(e.at)
		for _, in := range []interval{e.short, e.long} {
			if !in.empty() {
				found = append(found, p.within(seg.x0+in.lo-l.shift(seg.row)), p.within(seg.x0+in.hi-l.shift(seg.row)))
			}
		}
	}
	if len(found) == 0 {
		return []measure.Length{0}
	}
	slices.Sort(found)
	found = slices.Compact(found)
	for i, n := 0, len(found); i < n; i++ {
		next := found[(i+1)%n]
		if i == n-1 {
			next += p.plank.Length
		}
		if middle := (found[i] + next) / 2; middle > found[i] {
			found = append(found, p.within(p.tidy(middle, found[i], next)))
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// tidy rounds a place for the tape where that stays strictly between two others.
func (p *phased) tidy(x, after, before measure.Length) measure.Length {
	if round := x - x%p.puzzle.step; round > after && round < before {
		return round
	}
	return x
}

// crossings are the phases of a room at which a starter or an end piece of it
// just fits one plank with an end piece or a starter of another room, or with
// one of its own out of pattern.
func (p *phased) crossings(grid int) []measure.Length {
	l := p.lattice(0)
	var starters, ends []measure.Length // in pattern at phase 0, as places along the row
	for _, i := range p.long[grid] {
		seg := p.segmentAt(p.elements[i].at)
		starters = append(starters, p.within(l.shift(seg.row)-seg.x0))
		ends = append(ends, p.within(seg.x1-l.shift(seg.row)))
	}
	starters, ends = distinct(starters), distinct(ends)
	var found []measure.Length
	add := func(starters, ends, partnersOfStarters, partnersOfEnds []measure.Length) {
		for _, a := range starters {
			for _, b := range partnersOfStarters {
				found = append(found, p.within(p.room-b-a))
			}
		}
		for _, b := range ends {
			for _, a := range partnersOfEnds {
				found = append(found, p.within(b+a-p.room))
			}
		}
	}
	otherEnds, otherStarters := distinct(p.puzzle.ends), distinct(p.puzzle.starters)
	if p.saw.ends == Free {
		otherEnds = otherStarters
	}
	add(starters, ends, otherEnds, otherStarters)
	return distinct(found)
}

func distinct(list []measure.Length) []measure.Length {
	list = slices.Clone(list)
	slices.Sort(list)
	return slices.Compact(list)
}
