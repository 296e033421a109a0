package booklet

import "strings"

// demand is how wide the columns of a table must be, in heights of its type: for
// the longest of their words, and for no cell to take a second line.
type demand struct{ words, lines []float64 }

func (d *document) demand(t table) demand {
	w := demand{make([]float64, len(t.columns)), make([]float64, len(t.columns))}
	look := func(i int, words string, bold bool) {
		line := d.unitWidth(words, bold)
		w.lines[i] = max(w.lines[i], line)
		if line <= w.words[i] {
			return
		}
		for _, word := range strings.FieldsFunc(words, breakable) {
			w.words[i] = max(w.words[i], d.unitWidth(word, bold))
		}
	}
	for i, c := range t.columns {
		look(i, c.heading, true)
	}
	for _, cells := range t.rows {
		for i, words := range cells {
			look(i, words, t.columns[i].bold)
		}
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

// share gives the columns their part of a width: what their lines need and a
// like share of the rest, or what their words need and as much more as there
// is. It tells whether there is enough for the words.
func (w demand) share(t *table, width float64) bool {
	words, lines := 0.0, 0.0
	for i := range t.columns {
		words += w.words[i]*t.size + 2*t.cellPad + columnSlack
		lines += w.lines[i]*t.size + 2*t.cellPad + columnSlack
	}
	t.columns = append([]column(nil), t.columns...)
	for i := range t.columns {
		least, most := w.words[i]*t.size+2*t.cellPad+columnSlack, w.lines[i]*t.size+2*t.cellPad+columnSlack
		switch {
		case lines <= width:
			t.columns[i].width = most * width / lines
		case words < width:
			t.columns[i].width = least + (most-least)*(width-words)/(lines-words)
		default:
			t.columns[i].width = least
		}
	}
	return words <= width
}

// columnSlack is for widths that are rounded in the document's own units.
const columnSlack = 0.05
