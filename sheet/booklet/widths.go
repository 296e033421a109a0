package booklet

import (
	"cmp"
	"slices"

	"laybill/sheet/wrap"
)

// demand is how wide the columns of a table must be, in heights of its type: for
// the longest of their words, and for each of their cells to take one line,
// the widest first.
type demand struct {
	words []float64
	lines [][]float64
}

func (d *document) demand(t table) demand {
	w := demand{make([]float64, len(t.columns)), make([][]float64, len(t.columns))}
	look := func(i int, words string, bold bool) {
		line := d.unitWidth(words, bold)
		w.lines[i] = append(w.lines[i], line)
		if line <= w.words[i] {
			return
		}
		for _, word := range wrap.Words(words) {
			w.words[i] = max(w.words[i], d.unitWidth(word.Letters, bold))
		}
	}
	for i, c := range t.columns {
		look(i, c.heading, true)
		for _, cells := range t.rows {
			look(i, cells[i], c.bold)
		}
		slices.SortFunc(w.lines[i], func(a, b float64) int { return cmp.Compare(b, a) })
	}
	return w
}

// unitWidth is the width of a text in type of 1 mm. Numbers come again and again,
// so it is kept.
func (d *document) unitWidth(words string, bold bool) float64 {
	key := setText{words: words, bold: bold}
	width, known := d.widths[key]
	if !known {
		width = d.measure(words, 1, bold)
		d.widths[key] = width
	}
	return width
}

// share gives the columns their part of a width: what their cells need, and a
// like share of the rest. Where that is too much, those cells take a second line
// that give most width for it. It tells whether there is enough for the words.
func (w demand) share(t *table, width float64) bool {
	free := width/t.size - float64(len(t.columns))*(2*t.cellPad+columnSlack)/t.size
	taken := 0.0
	at := make([]int, len(t.columns)) // the widest cell that takes one line
	wide := make([]float64, len(t.columns))
	for i, lines := range w.lines {
		wide[i] = lines[0]
		taken += wide[i]
	}
	for taken > free {
		best, gain, next := -1, 0.0, 0
		for i, lines := range w.lines {
			to := at[i]
			for to < len(lines)-1 && lines[to] >= wide[i] {
				to++
			}
			if g := (wide[i] - max(lines[to], w.words[i])) / float64(max(to-at[i], 1)); g > gain {
				best, gain, next = i, g, to
			}
		}
		if best < 0 {
			break
		}
		taken -= wide[best]
		at[best], wide[best] = next, max(w.lines[best][next], w.words[best])
		taken += wide[best]
	}
	t.columns = slices.Clone(t.columns)
	for i := range t.columns {
		t.columns[i].width = wide[i]*max(1, free/taken)*t.size + 2*t.cellPad + columnSlack
	}
	return taken <= free
}

// columnSlack is for widths that are rounded in the document's own units.
const columnSlack = 0.05
