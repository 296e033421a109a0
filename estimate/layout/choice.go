package layout

import (
	"cmp"
	"slices"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// choice is a way to cut a room into rows: a direction and the widths of first
// row that all give the same segments.
type choice struct {
	floor *floor
	first interval
	grid  grid           // cut at one of those widths
	area  int64          // double the floor's area
	rest  measure.Length // width of first and last row together, or of the only row
	cost  int64          // of its rows by capacity, in weights of a plank
}

// mostEdges is how many corners of a room, by their place across the planks,
// are brought into line with a row's edge.
const mostEdges = 16

// slantedChoices is how many first rows are tried in a range where slanted
// walls make each one different.
const slantedChoices = 3

// choicesOf are the ways to cut a room, in all its directions, the cheapest
// first. complete says that no other way to cut it gives other segments.
func (t *table) choicesOf(i int) (choices []choice, complete bool) {
	complete = true
	for _, direction := range directionsOf(t.rooms[i]) {
		f := t.floor(i, direction)
		if len(f.region) == 0 {
			continue
		}
		of, all := t.choicesAlong(i, &f)
		choices = append(choices, of...)
		complete = complete && all
	}
	slices.SortStableFunc(choices, func(a, b choice) int { return cmp.Compare(a.cost, b.cost) })
	return choices, complete
}

func (t *table) choicesAlong(i int, f *floor) (choices []choice, complete bool) {
	plank := t.saw.plank.Width
	if f.width() <= plank {
		return []choice{t.newChoice(i, f, interval{f.width(), f.width()}, f.width())}, true
	}
	plain := len(f.region) == 1 && isRectangle(f.region[0])
	square := f.region.AxisParallel()
	edges := edgesOf(f, plank)
	complete = square && len(edges) <= mostEdges
	for _, widths := range t.firstRows(f, plain) {
		for _, span := range divide(widths, thin(edges)) {
			for _, span := range sample(span, square) {
				choices = append(choices, t.newChoice(i, f, span, bestFirst(span, plank)))
			}
		}
	}
	return choices, complete
}

// firstRows are the ranges of first-row widths that leave the last row wide
// enough: without and, but for plain rectangles, with one row more than needed.
func (t *table) firstRows(f *floor, plain bool) []interval {
	plank, least := t.saw.plank.Width, t.saw.leastRow
	rest := (f.width()-1)%plank + 1
	usual := interval{max(rest, least), min(plank, plank+rest-least)}
	if usual.empty() {
		even := (plank + rest + 1) / 2
		usual = interval{even, even}
	}
	more := interval{least, rest - least}
	if plain || more.empty() {
		return []interval{usual}
	}
	return []interval{usual, more}
}

// edgesOf are the widths of first row that bring a row's edge in line with a
// corner of the room.
func edgesOf(f *floor, plank measure.Length) []measure.Length {
	var edges []measure.Length
	add := func(r shape.Ring) {
		for _, p := range r {
			if p.Y > f.bounds.Y0 && p.Y < f.bounds.Y1 {
				edges = append(edges, (p.Y-f.bounds.Y0-1)%plank+1)
			}
		}
	}
	for _, part := range f.region {
		add(part.Outer)
		for _, hole := range part.Holes {
			add(hole)
		}
	}
	slices.Sort(edges)
	return slices.Compact(edges)
}

// thin takes evenly from many edges.
func thin(edges []measure.Length) []measure.Length {
	if len(edges) <= mostEdges {
		return edges
	}
	var kept []measure.Length
	for i := range mostEdges {
		kept = append(kept, edges[i*len(edges)/mostEdges])
	}
	return kept
}

// divide splits a range at edges: each edge alone and what lies between.
func divide(whole interval, edges []measure.Length) []interval {
	var spans []interval
	from := whole.lo
	for _, e := range edges {
		if !whole.has(e) {
			continue
		}
		if from < e {
			spans = append(spans, interval{from, e - 1})
		}
		spans = append(spans, interval{e, e})
		from = e + 1
	}
	if from <= whole.hi {
		spans = append(spans, interval{from, whole.hi})
	}
	return spans
}

// sample takes single widths from a range where slanted walls make every width
// different.
func sample(span interval, square bool) []interval {
	if square || span.lo == span.hi {
		return []interval{span}
	}
	var spans []interval
	for i := range measure.Length(slantedChoices) {
		at := span.hi - (span.hi-span.lo)*i/slantedChoices
		spans = append(spans, interval{at, at})
	}
	return spans
}

// bestFirst is the first row to take of a range: a whole plank, else the middle,
// which keeps row edges away from corners of the room.
func bestFirst(span interval, plank measure.Length) measure.Length {
	if span.hi == plank {
		return plank
	}
	return (span.lo + span.hi) / 2
}

func (t *table) newChoice(i int, f *floor, first interval, at measure.Length) choice {
	c := choice{floor: f, first: first, grid: f.cut(i, at, t.saw.plank.Width)}
	c.area = f.region.DoubleArea()
	rows := c.grid.rows
	c.rest = rows[0].Y1 - rows[0].Y0
	if last := len(rows) - 1; last > 0 {
		c.rest += rows[last].Y1 - rows[last].Y0
	}
	for j := range c.grid.segments {
		c.cost += t.saw.capacityPrice(c.grid.segments[j].length())
	}
	return c
}

// capacityPrice is a row's price by bare capacity.
func (s *saw) capacityPrice(row measure.Length) int64 {
	return plankWeight * int64(row+s.kerf) / int64(s.plank.Length+s.kerf)
}

// at is the choice's grid with a first row of another width of its range.
func (c *choice) at(first, plank measure.Length) grid {
	rows := c.grid.rows
	if first == rows[0].Y1-rows[0].Y0 {
		return c.grid
	}
	return c.floor.cut(c.grid.room, first, plank)
}

// edgeRow is the length of the only segment of the first or last row, 0 when it
// has several or is the only row: such rows are not ripped from shared planks.
func (g *grid) edgeRow(last bool) (length measure.Length, segment int) {
	n := len(g.segments)
	if len(g.rows) < 2 || n < 2 {
		return 0, -1
	}
	at, beside := 0, 1
	row := 0
	if last {
		at, beside, row = n-1, n-2, len(g.rows)-1
	}
	if g.segments[at].row != row || g.segments[beside].row == row || len(g.segments[at].parts) != 1 {
		return 0, -1
	}
	return g.segments[at].length(), at
}
