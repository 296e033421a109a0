package proof

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
)

// meeting is where two pieces of a floor touch along a straight line: the first
// is to the left of the second, or below it.
type meeting struct {
	first, second int    // indexes of pieces
	at            length // x of the line along the row, y of the line across
	from, to      length // stretch of the line
}

// facing is a side of a piece that another piece may meet.
type facing struct {
	piece        int
	at, from, to length
}

// meet finds all meetings from the pieces' outlines alone.
func (f *floor) meet() {
	var s sides
	for i := range f.entry.Pieces {
		p := &f.entry.Pieces[i]
		for _, r := range append([]ring{p.At}, p.Holes...) {
			s.add(i, r)
		}
	}
	f.along = meetings(s.rights, s.lefts, f.slackOf())
	f.across = meetings(s.tops, s.bottoms, f.slackOf())
}

// sides are the sides of pieces by the way they face.
type sides struct{ rights, lefts, tops, bottoms []facing }

// add adds the sides of a ring that has its piece on the left.
func (s *sides) add(piece int, r ring) {
	for j, a := range r {
		b := r[(j+1)%len(r)]
		switch {
		case a.x == b.x && b.y > a.y:
			s.rights = append(s.rights, facing{piece, a.x, a.y, b.y})
		case a.x == b.x && b.y < a.y:
			s.lefts = append(s.lefts, facing{piece, a.x, b.y, a.y})
		case a.y == b.y && b.x > a.x:
			s.bottoms = append(s.bottoms, facing{piece, a.y, a.x, b.x})
		case a.y == b.y && b.x < a.x:
			s.tops = append(s.tops, facing{piece, a.y, b.x, a.x})
		}
	}
}

// meetings pairs sides on the same line that overlap by more than least.
func meetings(firsts, seconds []facing, least length) []meeting {
	order := func(a, b facing) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.from, b.from)) }
	slices.SortFunc(firsts, order)
	slices.SortFunc(seconds, order)
	var found []meeting
	for i, j := 0, 0; i < len(firsts) && j < len(seconds); {
		a, b := firsts[i], seconds[j]
		if a.at != b.at {
			if a.at < b.at {
				i++
			} else {
				j++
			}
			continue
		}
		if from, to := max(a.from, b.from), min(a.to, b.to); to-from > least {
			found = append(found, meeting{a.piece, b.piece, a.at, from, to})
		}
		if a.to < b.to {
			i++
		} else {
			j++
		}
	}
	return found
}

// checkOrder checks that pieces that meet end to end follow one another in one
// row, in line, that pieces that meet edge to edge are in successive rows, and
// that places in a row rise with x. Where a notch cuts a plank into parts they
// may begin at one x, and another of them may be numbered between two that meet.
func (f *floor) checkOrder(t *tally, where string) {
	pieces := f.entry.Pieces
	for _, m := range f.along {
		f.checkEnds(m, t, where)
	}
	for _, m := range f.across {
		a, b := &pieces[m.first], &pieces[m.second]
		if !t.hold(a.Row+1 == b.Row) {
			t.broken(where, a.sign()+" below "+b.sign(), "rows one apart", "pieces meet edge to edge")
		}
	}
	order := f.inOrder()
	for k := 1; k < len(order); k++ {
		a, b := &pieces[order[k-1]], &pieces[order[k]]
		rises := a.Seq+1 == b.Seq && f.bounds[order[k-1]].x0 <= f.bounds[order[k]].x0
		if !t.hold(a.Row == b.Row && rises || a.Row+1 == b.Row) {
			t.broken(where, a.sign()+" and "+b.sign(), "numbered by 1", "pieces or rows out of order")
		}
	}
}

// checkEnds checks two pieces that meet end to end.
func (f *floor) checkEnds(m meeting, t *tally, where string) {
	a, b := &f.entry.Pieces[m.first], &f.entry.Pieces[m.second]
	if !t.hold(a.Row == b.Row && a.Seq < b.Seq) {
		t.broken(where, a.sign()+" and "+b.sign(), "one after the other", "pieces meet end to end")
	}
	if !t.hold(m.at == f.bounds[m.first].x1 && m.at == f.bounds[m.second].x0) {
		t.broken(where, a.sign(), "square ends", "a piece meets the next one inside its length")
	}
	if !f.entry.handed() {
		return
	}
	lineA, lineB := f.bounds[m.first].y0-a.InStock.y0, f.bounds[m.second].y0-b.InStock.y0
	if !t.hold(abs(int64(lineA-lineB)) <= int64(f.slackOf())) {
		t.broken(where, lineA.mm(), lineB.mm(), "the planks of "+a.sign()+" and the next piece are not in line")
	}
}

// inOrder is the pieces' indexes by row and place.
func (f *floor) inOrder() []int {
	order := make([]int, len(f.entry.Pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := &f.entry.Pieces[i], &f.entry.Pieces[j]
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Seq, b.Seq))
	})
	return order
}

func (e *layoutEntry) handed() bool { return e.Joint == "click" || e.Joint == "tongue-groove" }

// segment is an unbroken chain of pieces along a row.
type segment struct {
	row    int
	pieces []int // from left to right
	length length
}

// findSegments follows the meetings along the rows.
func (f *floor) findSegments() {
	next, led := map[int]int{}, map[int]bool{}
	for _, m := range f.along {
		if _, known := next[m.first]; !known {
			next[m.first] = m.second
			led[m.second] = true
		}
	}
	taken := make([]bool, len(f.entry.Pieces))
	for _, i := range f.inOrder() {
		if led[i] || taken[i] {
			continue
		}
		s := segment{row: f.entry.Pieces[i].Row}
		for at, more := i, true; more && !taken[at]; at, more = step(next, at) {
			taken[at] = true
			s.pieces = append(s.pieces, at)
		}
		s.length = f.bounds[s.pieces[len(s.pieces)-1]].x1 - f.bounds[i].x0
		f.segments = append(f.segments, s)
	}
}

func step(next map[int]int, at int) (int, bool) {
	to, more := next[at]
	return to, more
}

// plankSize is the size of all planks of a product; a side is 0 where they differ.
type plankSize struct{ long, wide length }

// plankSizes are the sizes of the planks in stock, by product.
func (c *checker) plankSizes() map[string]plankSize {
	if c.sizes != nil {
		return c.sizes
	}
	c.sizes = map[string]plankSize{}
	for i := range c.f.Stock {
		s := &c.f.Stock[i]
		size, known := c.sizes[s.Product]
		if !known {
			size = plankSize{s.Length, s.Width}
		}
		if size.long != s.Length {
			size.long = 0
		}
		if size.wide != s.Width {
			size.wide = 0
		}
		c.sizes[s.Product] = size
	}
	return c.sizes
}

// checkBands checks that rows are bands as wide as the plank: that the lines
// between successive rows are straight through the floor and a plank apart, and
// that no piece crosses one.
func (f *floor) checkBands(wide length, t *tally, where string) {
	lines := map[int]length{} // above each row
	for _, m := range f.across {
		row := f.entry.Pieces[m.first].Row
		line, known := lines[row]
		if !known {
			line, lines[row] = m.at, m.at
		}
		if !t.hold(line == m.at) {
			t.broken(where, m.at.mm(), line.mm(), fmt.Sprintf("row %d ends at two heights", row))
		}
	}
	for _, row := range slices.Sorted(maps.Keys(lines)) {
		line := lines[row]
		below, known := lines[row-1]
		if known && !t.hold(line-below == wide) {
			t.broken(where, (line - below).mm(), wide.mm(), fmt.Sprintf("row %d is not as wide as the plank", row))
		}
	}
	for i, b := range f.bounds {
		p := &f.entry.Pieces[i]
		above, known := lines[p.Row]
		below, based := lines[p.Row-1]
		if !t.hold((!known || b.y1 <= above) && (!based || b.y0 >= below)) {
			t.broken(where, fmt.Sprintf("%s to %s", b.y0.mm(), b.y1.mm()), fmt.Sprintf("%s to %s", below.mm(), above.mm()), p.sign()+" leaves its row")
		}
	}
}

// breach is a place where a rule is not kept.
type breach struct{ found, least length }

// checkRules compares every row with the layout's rules. A rule that is not
// kept needs, in every room with the layout, an entry that names it.
func (c *checker) checkRules(f *floor, claims *floorClaims) {
	joints := f.joints()
	c.excuse(f, claims.end, "end", f.shortEnds())
	c.excuse(f, claims.stagger, "stagger", f.closeJoints(joints, 1, f.entry.Rules.LeastStagger, &c.steps))
	c.excuse(f, claims.lineUp, "line-up", f.closeJoints(joints, 2, f.entry.Rules.LeastLineUp, &c.steps))
	c.checkPattern(f, claims.pattern)
	c.excuse(f, claims.row, "row", f.narrowRows())
}

// unnamed are the rows that no entry of the file names for a rule.
func (c *checker) unnamed(room *roomEntry, rule string, rows []int) []int {
	return slices.DeleteFunc(slices.Clone(rows), func(row int) bool { return c.excused(room, rule, row) })
}

// checkHoles wants every piece that goes all round a fixture to be named: no board
// is put over a column whole.
func (c *checker) checkHoles(f *floor, t *tally) {
	var rows []int
	for i := range f.entry.Pieces {
		if p := &f.entry.Pieces[i]; len(p.Holes) > 0 {
			rows = append(rows, p.Row)
		}
	}
	for _, room := range f.rooms {
		if unnamed := c.unnamed(room, "hole", rows); !t.hold(len(unnamed) == 0) {
			t.broken(room.sign(), "a hole", "a notch or a caution", fmt.Sprintf("row %d has a piece all round a fixture, and no caution says so under %q", unnamed[0], "hole"))
		}
	}
}

func (c *checker) excuse(f *floor, t *tally, rule string, breaches map[int]breach) {
	rows := slices.Sorted(maps.Keys(breaches))
	for _, room := range f.rooms {
		unnamed := c.unnamed(room, rule, rows)
		if t.hold(len(unnamed) == 0) {
			continue
		}
		b := breaches[unnamed[0]]
		t.broken(room.sign(), b.found.mm(), "at least "+b.least.mm(),
			fmt.Sprintf("row %d does not keep the rule (%d rows), and no caution says so under %q", unnamed[0], len(unnamed), rule))
	}
}

// shortEnds is the rows of two or more pieces with an end piece too short.
func (f *floor) shortEnds() map[int]breach {
	least := f.entry.Rules.LeastEnd
	short := map[int]breach{}
	for _, s := range f.segments {
		if len(s.pieces) < 2 {
			continue
		}
		first, last := f.bounds[s.pieces[0]], f.bounds[s.pieces[len(s.pieces)-1]]
		if end := min(first.width(), last.width()); end < least {
			short[s.row] = breach{end, least}
		}
	}
	return short
}

// joints is where pieces meet end to end, by row from left to right.
func (f *floor) joints() map[int][]meeting {
	joints := map[int][]meeting{}
	for _, m := range f.along {
		row := f.entry.Pieces[m.first].Row
		joints[row] = append(joints[row], m)
	}
	for _, row := range joints {
		slices.SortFunc(row, func(a, b meeting) int { return cmp.Compare(a.at, b.at) })
	}
	return joints
}

// closeJoints is the rows with a joint closer than least to one so many rows
// below. In neighbouring rows only joints count that both reach the line
// between the rows.
func (f *floor) closeJoints(joints map[int][]meeting, apart int, least length, steps *int) map[int]breach {
	tooClose := map[int]breach{}
	if least <= 0 {
		return tooClose
	}
	for row, below := range joints {
		above := joints[row+apart]
		start := 0
		for _, m := range below {
			for start < len(above) && above[start].at <= m.at-least {
				start++
			}
			if n, found := closeTo(m, above[start:], apart, least, steps); found {
				tooClose[row+apart] = breach{length(abs(int64(n.at - m.at))), least}
				break
			}
		}
	}
	return tooClose
}

// closeTo is the first of the joints from m.at - least on that is too close.
func closeTo(m meeting, above []meeting, apart int, least length, steps *int) (meeting, bool) {
	for _, n := range above {
		if n.at >= m.at+least {
			break
		}
		if *steps--; *steps < 0 || apart > 1 || m.to == n.from {
			return n, true
		}
	}
	return meeting{}, false
}

// narrowRows is the first and last row where too narrow, at the widest piece.
func (f *floor) narrowRows() map[int]breach {
	narrow := map[int]breach{}
	least := f.entry.Rules.LeastRow
	widths := f.rowWidths()
	first, last := f.firstAndLast()
	for _, row := range []int{first, last} {
		if width, known := widths[row]; known && width < least {
			narrow[row] = breach{width, least}
		}
	}
	return narrow
}

// firstAndLast are the lowest and the highest number of a row.
func (f *floor) firstAndLast() (first, last int) {
	for i := range f.entry.Pieces {
		row := f.entry.Pieces[i].Row
		if i == 0 {
			first, last = row, row
		}
		first, last = min(first, row), max(last, row)
	}
	return first, last
}

// rowWidths is the width of every row, at its widest piece.
func (f *floor) rowWidths() map[int]length {
	widths := map[int]length{}
	for i := range f.entry.Pieces {
		row := f.entry.Pieces[i].Row
		widths[row] = max(widths[row], f.bounds[i].height())
	}
	return widths
}
