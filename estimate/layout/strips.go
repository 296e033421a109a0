package layout

import (
	"cmp"
	"slices"

	"laybill/estimate/measure"
)

// strip is a first or last row that may be ripped from planks it shares.
type strip struct {
	at     place
	length measure.Length
	width  measure.Length
	last   bool
	price  int64
}

// strips are the first and last rows of grids that may be ripped from shared
// planks.
func (s *search) strips(grids []grid) []strip {
	var found []strip
	for i := range grids {
		g := &grids[i]
		for _, last := range []bool{false, true} {
			length, segment := g.edgeRow(last)
			if segment < 0 {
				continue
			}
			row := g.rows[g.segments[segment].row]
			found = append(found, strip{place{i, segment}, length, row.Y1 - row.Y0, last, s.saw.capacityPrice(length)})
		}
	}
	return found
}

// together reports whether one plank gives both strips: one keeps its far edge,
// the other its near one.
func (s *search) together(a, b strip) bool {
	return a.last != b.last && a.width+b.width+s.saw.kerf <= s.saw.plank.Width
}

// pairStrips pairs strips, those that save most first.
func (s *search) pairStrips(grids []grid) []pair {
	strips := s.strips(grids)
	type option struct {
		a, b  int
		saves int64
		slack measure.Length
	}
	var options []option
	for i, a := range strips {
		for j, b := range strips[:i] {
			if s.together(a, b) {
				options = append(options, option{i, j, min(a.price, b.price), s.saw.plank.Width - a.width - b.width})
			}
		}
	}
	slices.SortStableFunc(options, func(a, b option) int {
		return cmp.Or(cmp.Compare(b.saves, a.saves), cmp.Compare(a.slack, b.slack))
	})
	used := make([]bool, len(strips))
	var pairs []pair
	for _, o := range options {
		if used[o.a] || used[o.b] {
			continue
		}
		used[o.a], used[o.b] = true, true
		host, rider := strips[o.a], strips[o.b]
		if host.length < rider.length {
			host, rider = rider, host
		}
		pairs = append(pairs, pair{host.at, rider.at})
	}
	return pairs
}

// price works out what the rows of a cutting cost at least.
func (s *search) price(c *cutting) {
	c.rows = s.independent(c)
	lengths := lengthsOf(c.rows)
	c.value, c.weight = s.saw.bestWorth(lengths)
	for i := range c.rows {
		c.rows[i].Price = s.saw.price(c.value, c.rows[i].Length)
	}
}

// independent are rows of a cutting of which no two can be ripped from one
// plank: riders are left out, and of any other two that could share the shorter.
func (s *search) independent(c *cutting) []PricedRow {
	out := map[place]bool{}
	for _, p := range c.pairs {
		out[p.rider] = true
	}
	edges := s.edgeRows(c.grids)
	for i, a := range edges {
		for _, b := range edges[:i] {
			if out[a.at] || out[b.at] || !s.sideBySide(a, b) {
				continue
			}
			if a.Length < b.Length {
				out[a.at] = true
			} else {
				out[b.at] = true
			}
		}
	}
	return s.pricedRows(c.grids, out)
}

// edgeRow is a segment of a first or last row.
type edgeRow struct {
	PricedRow
	at place
}

func (s *search) edgeRows(grids []grid) []edgeRow {
	var rows []edgeRow
	for i := range grids {
		g := &grids[i]
		for j := range g.segments {
			if edges := edgesOfRow(g, j); edges != EdgesBoth {
				rows = append(rows, edgeRow{PricedRow{Length: g.segments[j].length(), Width: widthOf(g, j), Edges: edges}, place{i, j}})
			}
		}
	}
	return rows
}

// sideBySide reports whether one plank can give both rows: they do not need the
// same edge of it, and their widths and a saw cut fit.
func (s *search) sideBySide(a, b edgeRow) bool {
	return (a.Edges != b.Edges || a.Edges == EdgesNone) && a.Width+b.Width+s.saw.kerf <= s.saw.plank.Width
}

// pricedRows are the rows of grids but some, alike ones counted together.
func (s *search) pricedRows(grids []grid, out map[place]bool) []PricedRow {
	var rows []PricedRow
	for i := range grids {
		g := &grids[i]
		for j := range g.segments {
			if length := s.provable(&g.segments[j]); length > 0 && !out[place{i, j}] {
				rows = append(rows, PricedRow{Length: length, Width: widthOf(g, j), Edges: edgesOfRow(g, j), Count: 1})
			}
		}
	}
	slices.SortStableFunc(rows, func(a, b PricedRow) int {
		return cmp.Or(cmp.Compare(a.Length, b.Length), cmp.Compare(a.Width, b.Width), cmp.Compare(a.Edges, b.Edges))
	})
	kept := rows[:0]
	for _, row := range rows {
		if n := len(kept); n > 0 && kept[n-1].Length == row.Length && kept[n-1].Width == row.Width && kept[n-1].Edges == row.Edges {
			kept[n-1].Count++
			continue
		}
		kept = append(kept, row)
	}
	return kept
}

// provable is the length of a segment that a bound may count. Of one that a wall
// along the row divides it is the longest part: others may be cut from the same
// planks. No length is sure when that part is shorter than a plank and a joint
// of the segment may fall into it.
func (s *search) provable(seg *segment) measure.Length {
	if len(seg.parts) == 1 {
		return seg.length()
	}
	var longest measure.Length
	for _, part := range seg.parts {
		box := part.Bounds()
		longest = max(longest, box.X1-box.X0)
	}
	if longest <= s.saw.plank.Length && seg.length() > s.saw.plank.Length {
		return 0
	}
	return longest
}

// widthOf is the width of a segment's row. First and last rows, which may be
// ripped, are as wide as their widest part.
func widthOf(g *grid, segment int) measure.Length {
	row := g.segments[segment].row
	if edgesOfRow(g, segment) == EdgesBoth {
		return g.rows[row].Y1 - g.rows[row].Y0
	}
	from, step := 0, 1
	if row > 0 {
		from, step = len(g.segments)-1, -1
	}
	var width measure.Length
	for i := from; i >= 0 && i < len(g.segments) && g.segments[i].row == row; i += step {
		for _, part := range g.segments[i].parts {
			box := part.Bounds()
			width = max(width, box.Y1-box.Y0)
		}
	}
	return width
}

func edgesOfRow(g *grid, segment int) Edges {
	switch row := g.segments[segment].row; {
	case len(g.rows) == 1:
		return EdgesNone
	case row == 0:
		return EdgesFar
	case row == len(g.rows)-1:
		return EdgesNear
	}
	return EdgesBoth
}

// lengthsOf are the lengths of rows, each as often as it counts.
func lengthsOf(rows []PricedRow) []measure.Length {
	var lengths []measure.Length
	for _, row := range rows {
		for range row.Count {
			lengths = append(lengths, row.Length)
		}
	}
	return lengths
}

// certificate is the proof of a cutting's bound.
func (s *search) certificate(c *cutting) *Certificate {
	return &Certificate{Plank: plankWeight, Values: c.value, Rows: c.rows}
}
