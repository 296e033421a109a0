package proof

import (
	"fmt"
	"maps"
	"slices"
	"sort"
)

// mostPatternRows is the most rows after which a pattern may begin again.
const mostPatternRows = 12

// patterned is a layout's fixed pattern: where the joints of its rows should
// lie.
type patterned struct {
	phase, plank length
	shifts       []length
}

// patternOf is the layout's pattern; ok is false when it has none or none that
// makes sense, why then says what is wrong.
func (c *checker) patternOf(f *floor) (p patterned, ok bool, why string) {
	e := f.entry.Pattern
	if e == nil {
		return p, false, ""
	}
	p = patterned{e.Phase, c.plankSizes()[f.entry.Product].long, e.Shifts}
	n := length(len(e.Shifts))
	if n < 2 || n > mostPatternRows || p.plank <= 0 {
		return p, false, fmt.Sprintf("a pattern of %d rows, or planks of several lengths", n)
	}
	for i, shift := range e.Shifts {
		if exact := p.plank * length(i) / n; abs(int64(shift-exact)) > slack {
			return p, false, fmt.Sprintf("row %d shifted by %s, not by %d/%d of %s", i+1, shift.mm(), i, n, p.plank.mm())
		}
	}
	return p, true, ""
}

// wrap takes whole planks off a place along a row: 0 to less than a plank.
func (p patterned) wrap(x length) length { return (x%p.plank + p.plank) % p.plank }

// shift is how far the joints of a row, counted from the first, lie beyond those
// of the first, less whole planks.
func (p patterned) shift(row int) length { return p.shifts[row%len(p.shifts)] }

// off is how far a joint of a row lies from its place in the pattern.
func (p patterned) off(x length, row int) length {
	d := p.wrap(x - p.phase - p.shift(row))
	return min(d, p.plank-d)
}

// checkPattern compares every joint with the layout's pattern.
func (c *checker) checkPattern(f *floor, t *tally) {
	p, ok, why := c.patternOf(f)
	if !ok {
		t.want(why == "", f.sign(), why, "a pattern", "the pattern cannot be checked")
		return
	}
	first, _ := f.firstAndLast()
	out := map[int]breach{}
	for _, m := range f.along {
		row := f.entry.Pieces[m.first].Row
		if off := p.off(m.at, row-first); off > f.slackOf() {
			out[row] = breach{off, 0}
		}
	}
	rows := slices.Sorted(maps.Keys(out))
	for _, room := range f.rooms {
		unnamed := c.unnamed(room, "pattern", rows)
		if t.hold(len(unnamed) == 0) {
			continue
		}
		row := unnamed[0]
		t.broken(room.sign(), out[row].found.mm()+" off", "in pattern", fmt.Sprintf("row %d leaves the pattern, and no caution says so under %q", row, "pattern"))
	}
}

// phased is the least number of planks that the rows of a pool's only floor take
// in their pattern, at any phase: starters and end pieces follow from it, and
// their number of planks only changes where one of them reaches its least or a
// whole plank. Every such phase is counted and one between any two. why says
// what stands against it.
func (c *checker) phased(pool *pool) (least int64, why string) {
	if len(pool.floors) != 1 {
		return 0, "phases are counted in pools of one room"
	}
	f := pool.floors[0]
	if !f.sound || len(f.segments) == 0 {
		return 0, "the floor cannot be read"
	}
	p, ok, why := c.patternOf(f)
	if !ok {
		return 0, "a pool laid by phases has no pattern " + why
	}
	long, wide, _ := pool.size()
	if courses := pool.courses(long); sideBySide(courses, wide, pool.kerf(), pool.handed()) {
		return 0, "two rows may be ripped from one plank"
	}
	least = -1
	for _, phase := range f.turningPoints(p) {
		if c.steps -= len(f.segments); c.steps < 0 {
			return 0, "the floor has too many rows"
		}
		p.phase = phase
		if n, kept := f.planksAt(p); kept && (least < 0 || n < least) {
			least = n
		}
	}
	if least < 0 {
		return 0, "no phase keeps the least end pieces"
	}
	return least, ""
}

// turningPoints are the phases at which an end piece of some row is a whole
// plank or the least end piece, and one between any two neighbours.
func (f *floor) turningPoints(p patterned) []length {
	first, _ := f.firstAndLast()
	var points []length
	for _, s := range f.segments {
		shift := p.shift(s.row - first)
		from := f.bounds[s.pieces[0]].x0
		for _, x := range []length{from, from + f.entry.Rules.LeastEnd, from + s.length, from + s.length - f.entry.Rules.LeastEnd} {
			points = append(points, p.wrap(x-shift))
		}
	}
	slices.Sort(points)
	points = slices.Compact(points)
	for i, n := 0, len(points); i < n; i++ {
		next := points[(i+1)%n]
		if next <= points[i] {
			next += p.plank
		}
		points = append(points, p.wrap((points[i]+next)/2))
	}
	return points
}

// planksAt counts the planks of the floor's rows at a phase; kept tells whether
// every end piece is long enough.
func (f *floor) planksAt(p patterned) (n int64, kept bool) {
	first, _ := f.firstAndLast()
	var starters, ends []length
	for _, s := range f.segments {
		from := f.bounds[s.pieces[0]].x0
		joint := p.wrap(p.phase + p.shift(s.row-first) - from)
		if joint == 0 {
			joint = p.plank
		}
		rest := s.length - joint
		if rest <= 0 {
			return 0, false
		}
		whole := (rest - 1) / p.plank
		end := rest - whole*p.plank
		if min(joint, end) < f.entry.Rules.LeastEnd {
			return 0, false
		}
		n += int64(whole)
		starters, ends = append(starters, joint), append(ends, end)
	}
	room := p.plank - f.entry.Kerf
	if !f.entry.handed() {
		all := append(starters, ends...)
		return n + int64(len(all)-pairsOfOne(all, room)), true
	}
	return n + int64(2*len(starters)-pairsOfTwo(starters, ends, room)), true
}

// pairsOfTwo is the most pairs of a starter and an end piece that fit one plank:
// so many of the shortest starters can be paired with as many of the shortest
// end pieces if they can be with the longest beside the shortest.
func pairsOfTwo(starters, ends []length, room length) int {
	slices.Sort(starters)
	slices.Sort(ends)
	return mostPairs(min(len(starters), len(ends)), func(n, i int) bool { return starters[i]+ends[n-1-i] <= room })
}

// pairsOfOne is the most pairs of any two pieces that fit one plank.
func pairsOfOne(pieces []length, room length) int {
	slices.Sort(pieces)
	return mostPairs(len(pieces)/2, func(n, i int) bool { return pieces[i]+pieces[2*n-1-i] <= room })
}

// mostPairs is the most pairs that all fit, up to most; fewer then fit too.
func mostPairs(most int, fit func(n, i int) bool) int {
	return sort.Search(most, func(fewer int) bool {
		for i := range fewer + 1 {
			if !fit(fewer+1, i) {
				return true
			}
		}
		return false
	})
}
