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
	strips := s.strips(c.grids)
	for i, a := range strips {
		for _, b := range strips[:i] {
			if out[a.at] || out[b.at] || !s.together(a, b) {
				continue
			}
			if a.length < b.length {
				out[a.at] = true
			} else {
				out[b.at] = true
			}
		}
	}
	return s.pricedRows(c.grids, out)
}

// pricedRows are the rows of grids but some, alike ones counted together.
func (s *search) pricedRows(grids []grid, out map[place]bool) []PricedRow {
	var rows []PricedRow
	for i := range grids {
		g := &grids[i]
		for j := range g.segments {
			if !out[place{i, j}] {
				rows = append(rows, PricedRow{Length: g.segments[j].length(), Width: s.widthOf(g, j), Edges: edgesOfRow(g, j), Count: 1})
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

// widthOf is the width of a segment's row.
func (s *search) widthOf(g *grid, segment int) measure.Length {
	row := g.rows[g.segments[segment].row]
	return row.Y1 - row.Y0
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

// certificate is the proof of a cutting's bound; none with free ends.
func (s *search) certificate(c *cutting) *Certificate {
	if s.saw.ends == Free {
		return nil
	}
	return &Certificate{Plank: plankWeight, Values: c.value, Rows: c.rows}
}
