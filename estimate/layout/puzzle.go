package layout

import (
	"cmp"
	"slices"

	"laybill/estimate/measure"
)

// puzzle is the choice of every starter of a pool whose rows are cut: as few
// planks as asked for, with joints staggered.
type puzzle struct {
	*saw
	room     measure.Length // what starter and end piece of one plank come to at most
	grids    []grid
	elements []element
	moving   []int            // elements the search may change
	fillers  []place          // short pieces between two walls, cut from what is left over
	pieces   int              // planks if none served twice
	starters []measure.Length // ascending; with free ends the end pieces too
	ends     []measure.Length
	random   random
	step     measure.Length // starters are rounded to it
}

// place is a segment of a grid.
type place struct{ grid, segment int }

// element is a segment longer than a plank, or one plank of pieces between two
// walls.
type element struct {
	at     place
	others []place // further pieces between walls cut from the same plank
	x0     measure.Length
	length measure.Length // of the row, or of the pieces with kerfs between them
	single bool
	right  bool // of a single: cut from the right end of its plank, like a starter
	short  interval
	long   interval
	state  course
	links  []link
	alike  []int // other elements of the same length that may take its starter
	host   int   // element whose strip it is ripped from, -1 for none
	rider  int   // element ripped from its strip, -1 for none
}

// course is how a long segment is laid.
type course struct {
	starter, end measure.Length
	whole        int
	joints       joints
}

// link is a rule between the joints of two elements.
type link struct {
	other int
	apart measure.Length
	far   bool // two rows apart
}

// pair is a strip of one row ripped from planks of another.
type pair struct{ host, rider place }

func newPuzzle(s *saw, grids []grid, pairs []pair, seed int64) *puzzle {
	z := &puzzle{saw: s, room: s.plank.Length - s.kerf, grids: grids, random: random(seed), step: roundStep(s.plank)}
	at := make([][]int, len(grids))
	var short []place
	for i := range grids {
		at[i] = make([]int, len(grids[i].segments))
		for j := range grids[i].segments {
			seg := &grids[i].segments[j]
			at[i][j] = -1
			switch {
			case seg.length() > s.plank.Length:
				at[i][j] = len(z.elements)
				z.addLong(place{i, j}, seg)
			case isRider(pairs, place{i, j}) || isHost(pairs, place{i, j}) || 2*seg.length()+s.kerf > s.plank.Length:
				at[i][j] = len(z.elements)
				z.elements = append(z.elements, element{at: place{i, j}, length: seg.length(), single: true, host: -1, rider: -1})
			case seg.length() <= s.leastEnd:
				z.fillers = append(z.fillers, place{i, j})
			default:
				short = append(short, place{i, j})
			}
		}
	}
	z.addShort(short)
	for i := range grids {
		z.linkRows(&grids[i], at[i])
	}
	for _, p := range pairs {
		host, rider := at[p.host.grid][p.host.segment], at[p.rider.grid][p.rider.segment]
		z.elements[host].rider, z.elements[rider].host = rider, host
	}
	z.findAlike()
	z.gather()
	return z
}

// findAlike finds the rows of one length whose starters may be exchanged: both
// count planks, and where they lie in one room they begin at one line, so that a
// rule between the two is kept as well as before.
func (z *puzzle) findAlike() {
	byLength := map[measure.Length][]int{}
	for i := range z.elements {
		if e := &z.elements[i]; !e.single && e.host < 0 {
			byLength[e.length] = append(byLength[e.length], i)
		}
	}
	for i := range z.elements {
		e := &z.elements[i]
		if e.single || e.host >= 0 {
			continue
		}
		for _, j := range byLength[e.length] {
			if f := &z.elements[j]; j != i && (f.at.grid != e.at.grid || f.x0 == e.x0) {
				e.alike = append(e.alike, j)
			}
		}
	}
}

func isRider(pairs []pair, p place) bool {
	return slices.ContainsFunc(pairs, func(q pair) bool { return q.rider == p })
}

func isHost(pairs []pair, p place) bool {
	return slices.ContainsFunc(pairs, func(q pair) bool { return q.host == p })
}

// roundStep is what lengths are rounded to that a crew reads from its tape:
// millimetres for planks of whole millimetres, else 32nds of an inch, else
// nothing.
func roundStep(p Plank) measure.Length {
	for _, step := range []measure.Length{measure.Millimetre, measure.Inch / 32} {
		if p.Length%step == 0 && p.Width%step == 0 {
			return step
		}
	}
	return 1
}

func (z *puzzle) addLong(at place, seg *segment) {
	e := element{at: at, x0: seg.x0, length: seg.length(), host: -1, rider: -1}
	e.short, e.long = z.saw.starters(e.length)
	z.elements = append(z.elements, e)
	z.set(len(z.elements)-1, e.long.hi)
}

// addShort packs pieces between two walls, none longer than half a plank, the
// longest first, each into the first plank that still has room.
func (z *puzzle) addShort(short []place) {
	slices.SortStableFunc(short, func(a, b place) int { return cmp.Compare(z.lengthAt(b), z.lengthAt(a)) })
	first := len(z.elements)
next:
	for _, p := range short {
		length := z.lengthAt(p)
		for i := first; i < len(z.elements); i++ {
			if e := &z.elements[i]; e.length+z.kerf+length <= z.plank.Length {
				e.length += z.kerf + length
				e.others = append(e.others, p)
				continue next
			}
		}
		z.elements = append(z.elements, element{at: p, length: length, single: true, host: -1, rider: -1})
	}
}

func (z *puzzle) segmentAt(p place) *segment { return &z.grids[p.grid].segments[p.segment] }

func (z *puzzle) lengthAt(p place) measure.Length { return z.segmentAt(p).length() }

// linkRows links the long segments of a room with those one and two rows on.
func (z *puzzle) linkRows(g *grid, at []int) {
	for i := range g.segments {
		if at[i] < 0 || z.elements[at[i]].single {
			continue
		}
		for j := i + 1; j < len(g.segments) && g.segments[j].row <= g.segments[i].row+2; j++ {
			back := g.segments[j].row - g.segments[i].row
			if back == 0 || at[j] < 0 || z.elements[at[j]].single {
				continue
			}
			apart := z.stagger
			if back == 2 {
				apart = z.lineUp
			}
			if apart == 0 || g.segments[i].x0 > g.segments[j].x1+apart || g.segments[j].x0 > g.segments[i].x1+apart {
				continue
			}
			a, b := at[i], at[j]
			z.elements[a].links = append(z.elements[a].links, link{b, apart, back == 2})
			z.elements[b].links = append(z.elements[b].links, link{a, apart, back == 2})
		}
	}
}

// gather makes the lists of starters and end pieces and finds what may move.
func (z *puzzle) gather() {
	z.starters, z.ends, z.pieces = z.starters[:0], z.ends[:0], 0
	z.moving = z.moving[:0]
	for i := range z.elements {
		e := &z.elements[i]
		if !e.single || z.saw.ends == Handed && e.host < 0 && e.length+z.kerf+z.leastEnd <= z.plank.Length {
			z.moving = append(z.moving, i)
		}
		if e.host >= 0 {
			continue
		}
		if e.single {
			z.pieces++
			if e.right || z.saw.ends == Free {
				z.starters = append(z.starters, e.length)
			} else {
				z.ends = append(z.ends, e.length)
			}
			continue
		}
		z.pieces += e.state.whole + 2
		z.starters = append(z.starters, e.state.starter)
		if z.saw.ends == Free {
			z.starters = append(z.starters, e.state.end)
		} else {
			z.ends = append(z.ends, e.state.end)
		}
	}
	slices.Sort(z.starters)
	slices.Sort(z.ends)
}

// set lays a long element with a starter.
func (z *puzzle) set(i int, starter measure.Length) {
	e := &z.elements[i]
	e.state = z.courseOf(e, starter)
}

// byTurns lays the rows by turns with their shortest and their longest starter.
// Where rows are little longer than a plank nothing else keeps the stagger, and
// no small changes lead there: every row would have to change at once.
func (z *puzzle) byTurns() {
	for i := range z.elements {
		e := &z.elements[i]
		switch {
		case e.single:
		case z.segmentAt(e.at).row%2 == 1:
			z.set(i, e.long.hi)
		case e.short.empty():
			z.set(i, e.long.lo)
		default:
			z.set(i, e.short.lo)
		}
	}
	z.gather()
}

func (z *puzzle) courseOf(e *element, starter measure.Length) course {
	whole, end := z.saw.course(e.length, starter)
	return course{starter, end, whole, joints{e.x0 + starter, whole + 1}}
}

// over is by how much the pieces are too long for n planks. Counting ends once
// it is over most.
func (z *puzzle) over(n int, most measure.Length) measure.Length {
	if z.saw.ends == Free {
		return freeOverflow(z.starters, z.pieces-n, z.room, most)
	}
	return overflow(z.starters, z.ends, z.pieces-n, z.room, most)
}

// count is how many planks the state takes, short fillers aside.
func (z *puzzle) count() int {
	if z.saw.ends == Free {
		return z.pieces - len(freeMatching(z.starters, z.room))
	}
	return z.pieces - len(matching(z.starters, z.ends, z.room))
}

// tension is by how much a state of an element breaks the rules of its links.
func (z *puzzle) tension(e *element, state *course, lineUp bool) measure.Length {
	var sum measure.Length
	for i := range e.links {
		l := &e.links[i]
		if l.far && !lineUp {
			continue
		}
		sum += max(0, l.apart-z.nearest(state.joints, z.elements[l.other].state.joints))
	}
	return sum
}

// misfit is by how much a strip of a shorter row does not go into the strips
// left over from the planks of a longer one.
func (z *puzzle) misfit(host, rider *element) measure.Length {
	if host.single {
		return max(0, rider.length-host.length)
	}
	h, r := &host.state, &rider.state
	if rider.single {
		if h.whole > 0 {
			return 0
		}
		return max(0, rider.length-max(h.starter, h.end))
	}
	start, end := max(0, r.starter-h.starter), max(0, r.end-h.end)
	switch spare := h.whole - r.whole; {
	case spare >= 2:
		return 0
	case spare == 1:
		return min(start, end, max(0, r.starter+r.end-z.room))
	case spare == 0:
		return start + end
	default:
		return z.plank.Length * measure.Length(1-spare)
	}
}
