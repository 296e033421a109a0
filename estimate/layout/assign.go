package layout

import (
	"slices"

	"laybill/estimate/measure"
)

// draft gives every piece of the solved puzzle its plank.
func (z *puzzle) draft() *draft {
	d := &draft{grids: z.grids, slots: make([][][]slot, len(z.grids))}
	for i := range z.grids {
		d.slots[i] = make([][]slot, len(z.grids[i].segments))
	}
	a := assigning{puzzle: z, draft: d}
	a.matched()
	for i := range z.elements {
		if e := &z.elements[i]; e.host < 0 {
			a.lay(i)
		}
	}
	for i := range z.elements {
		if e := &z.elements[i]; e.host >= 0 {
			a.ride(e, &z.elements[e.host])
		}
	}
	a.fill()
	return d
}

// assigning is the work of giving planks.
type assigning struct {
	*puzzle
	*draft
	uses    []use    // starters and end pieces of elements
	partner []int    // of each use: the use cut from the same plank, -1 for none
	plankOf []int    // of each use, -1 until it has one
	useOf   [][2]int // of each element: its starter's and its end piece's use, -1 for none
}

// use is a starter or an end piece.
type use struct {
	length  measure.Length
	element int
	end     bool
}

// matched pairs starters and end pieces.
func (a *assigning) matched() {
	a.useOf = make([][2]int, len(a.elements))
	var starters, ends []int
	add := func(list *[]int, u use) {
		*list = append(*list, len(a.uses))
		side := 0
		if u.end {
			side = 1
		}
		a.useOf[u.element][side] = len(a.uses)
		a.uses = append(a.uses, u)
	}
	for i := range a.elements {
		e := &a.elements[i]
		a.useOf[i] = [2]int{-1, -1}
		switch {
		case e.host >= 0:
		case e.single && e.right:
			add(&starters, use{e.length, i, false})
		case e.single:
			add(&ends, use{e.length, i, true})
		default:
			add(&starters, use{e.state.starter, i, false})
			add(&ends, use{e.state.end, i, true})
		}
	}
	a.partner = make([]int, len(a.uses))
	a.plankOf = make([]int, len(a.uses))
	for i := range a.partner {
		a.partner[i], a.plankOf[i] = -1, -1
	}
	a.pairUp(starters, ends)
}

func (a *assigning) pairUp(starters, ends []int) {
	if a.saw.ends == Free {
		all := a.sorted(append(starters, ends...))
		for _, p := range freeMatching(a.lengthsOf(all), a.room) {
			a.join(all[p[0]], all[p[1]])
		}
		return
	}
	starters, ends = a.sorted(starters), a.sorted(ends)
	for _, p := range matching(a.lengthsOf(starters), a.lengthsOf(ends), a.room) {
		a.join(starters[p[0]], ends[p[1]])
	}
}

func (a *assigning) join(x, y int) { a.partner[x], a.partner[y] = y, x }

func (a *assigning) sorted(uses []int) []int {
	slices.SortStableFunc(uses, func(x, y int) int { return int(a.uses[x].length - a.uses[y].length) })
	return uses
}

func (a *assigning) lengthsOf(uses []int) []measure.Length {
	lengths := make([]measure.Length, len(uses))
	for i, u := range uses {
		lengths[i] = a.uses[u].length
	}
	return lengths
}

// plankFor is the plank of a use, shared with its partner's, and where in it the
// use begins: an end piece at the left, a starter at the right. Of two of a kind
// that share a plank with free ends the second takes the other end.
func (a *assigning) plankFor(u int) (plank int, at measure.Length) {
	partner := a.partner[u]
	left := a.uses[u].end
	if partner >= 0 && a.uses[partner].end == left {
		left = u < partner
	}
	if partner >= 0 && a.plankOf[partner] >= 0 {
		a.plankOf[u] = a.plankOf[partner]
	} else {
		a.plankOf[u] = a.newPlank()
	}
	if left {
		return a.plankOf[u], 0
	}
	return a.plankOf[u], a.plank.Length - a.uses[u].length
}

func (a *assigning) put(p place, slots []slot) { a.slots[p.grid][p.segment] = slots }

// lay gives an element its planks.
func (a *assigning) lay(i int) {
	e := &a.elements[i]
	if !e.single {
		a.layLong(i, e)
		return
	}
	plank, at := a.plankFor(max(a.useOf[i][0], a.useOf[i][1]))
	for _, p := range append([]place{e.at}, e.others...) {
		seg := a.segmentAt(p)
		a.put(p, []slot{{seg.x0, seg.x1, plank, at}})
		at += seg.length() + a.kerf
	}
}

func (a *assigning) layLong(i int, e *element) {
	seg := a.segmentAt(e.at)
	slots := make([]slot, 0, e.state.whole+2)
	plank, at := a.plankFor(a.useOf[i][0])
	x := seg.x0 + e.state.starter
	slots = append(slots, slot{seg.x0, x, plank, at})
	for range e.state.whole {
		slots = append(slots, slot{x, x + a.plank.Length, a.newPlank(), 0})
		x += a.plank.Length
	}
	plank, at = a.plankFor(a.useOf[i][1])
	a.put(e.at, append(slots, slot{x, seg.x1, plank, at}))
}

// ride cuts a row from the strips that another row's planks leave.
func (a *assigning) ride(e, host *element) {
	from := a.slots[host.at.grid][host.at.segment]
	seg := a.segmentAt(e.at)
	if e.single {
		a.put(e.at, []slot{a.rideSingle(seg, from)})
		return
	}
	first, last := from[0], from[len(from)-1]
	whole := from[1 : len(from)-1]
	next := 0
	spare := func() int {
		next++
		return whole[next-1].plank
	}
	length := a.plank.Length
	slots := make([]slot, e.state.whole+2)
	x := seg.x0 + e.state.starter
	for i := range e.state.whole {
		slots[1+i] = slot{x, x + length, spare(), 0}
		x += length
	}
	left := len(whole) - next
	starts, ends := e.state.starter <= host.state.starter, e.state.end <= host.state.end
	starter := slot{seg.x0, seg.x0 + e.state.starter, first.plank, a.besideStarter(first, e.state.starter)}
	end := slot{x, seg.x1, last.plank, a.besideEnd(last, e.state.end)}
	fromSpare := func(s *slot, at measure.Length) { s.plank, s.at = spare(), at }
	switch {
	case starts && ends:
	case starts && left > 0:
		fromSpare(&end, 0)
	case ends && left > 0:
		fromSpare(&starter, length-e.state.starter)
	default:
		fromSpare(&starter, length-e.state.starter)
		if left > 1 {
			spare()
		}
		end.plank, end.at = whole[next-1].plank, 0
	}
	slots[0], slots[len(slots)-1] = starter, end
	a.put(e.at, slots)
}

// besideStarter is where in the plank a shorter starter lies beside one: at the
// plank's right end, but where that one is cut from the left.
func (a *assigning) besideStarter(host slot, length measure.Length) measure.Length {
	if host.at == 0 && host.x1-host.x0 < a.plank.Length {
		return 0
	}
	return a.plank.Length - length
}

// besideEnd is where in the plank a shorter end piece lies beside one.
func (a *assigning) besideEnd(host slot, length measure.Length) measure.Length {
	if host.at > 0 {
		return a.plank.Length - length
	}
	return 0
}

// rideSingle takes the first strip that is long enough, at the same place in
// the plank as the piece beside it.
func (a *assigning) rideSingle(seg *segment, from []slot) slot {
	for _, s := range from {
		if s.x1-s.x0 >= seg.length() {
			return slot{seg.x0, seg.x1, s.plank, s.at}
		}
	}
	return slot{seg.x0, seg.x1, a.newPlank(), 0}
}

// fill cuts short pieces between two walls from the middle of planks in use,
// the longest first, else from new ones.
func (a *assigning) fill() {
	if len(a.fillers) == 0 {
		return
	}
	slices.SortStableFunc(a.fillers, func(p, q place) int { return int(a.lengthAt(q) - a.lengthAt(p)) })
	free := a.middles()
	for _, p := range a.fillers {
		seg := a.segmentAt(p)
		best := -1
		for plank, m := range free {
			if m.hi-m.lo >= seg.length() && (best < 0 || m.hi-m.lo < free[best].hi-free[best].lo) {
				best = plank
			}
		}
		if best < 0 {
			best = a.newPlank()
			free = append(free, interval{0, a.plank.Length})
		}
		a.put(p, []slot{{seg.x0, seg.x1, best, free[best].lo}})
		free[best].lo += seg.length() + a.kerf
	}
}

// middles are the stretches of planks between what is cut from their ends, a
// kerf off each.
func (a *assigning) middles() []interval {
	free := make([]interval, a.planks)
	for i := range free {
		free[i] = interval{0, a.plank.Length}
	}
	for _, segments := range a.slots {
		for _, slots := range segments {
			for _, s := range slots {
				m := &free[s.plank]
				if s.at > 0 && s.at+s.x1-s.x0 == a.plank.Length {
					m.hi = min(m.hi, s.at-a.kerf)
				} else {
					m.lo = max(m.lo, s.at+s.x1-s.x0+a.kerf)
				}
			}
		}
	}
	return free
}
