package term

import (
	"io"
	"strings"

	"golang.org/x/text/width"
)

// gap stands between two columns.
const gap = "  "

// Table is rows of text in columns: the first column to the left, the others to
// the right as numbers are, the last to the left again when it has no heading.
type Table struct {
	headings []string
	rows     [][]string
	text     bool
}

// NewTable makes a table with these headings.
func NewTable(headings ...string) *Table { return &Table{headings: headings} }

// TextColumns puts every column to the left.
func (t *Table) TextColumns() { t.text = true }

// Empty tells whether the table has no rows.
func (t *Table) Empty() bool { return len(t.rows) == 0 }

// Row adds a row.
func (t *Table) Row(cells ...string) { t.rows = append(t.rows, cells) }

// Write writes the table, indented.
func (t *Table) Write(w io.Writer) {
	all := append([][]string{t.headings}, t.rows...)
	widths := make([]int, len(t.headings))
	for _, row := range all {
		for i, cell := range row {
			widths[i] = max(widths[i], cells(cell))
		}
	}
	for _, row := range all {
		var line strings.Builder
		for i, cell := range row {
			line.WriteString(gap)
			blank := strings.Repeat(" ", widths[i]-cells(cell))
			if t.toTheLeft(i) {
				line.WriteString(cell + blank)
			} else {
				line.WriteString(blank + cell)
			}
		}
		_, _ = io.WriteString(w, strings.TrimRight(line.String(), " ")+"\n")
	}
}

func (t *Table) toTheLeft(column int) bool {
	last := column == len(t.headings)-1
	return t.text || column == 0 || last && t.headings[column] == ""
}

// cells is how many cells of a terminal a text takes: wide characters take two.
func cells(text string) int {
	n := 0
	for _, r := range text {
		n += runeCells(r)
	}
	return n
}

func runeCells(r rune) int {
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}

// cut is the start of a text that fits into so many cells.
func cut(text string, most int) string {
	taken := 0
	for i, r := range text {
		if taken += runeCells(r); taken > most {
			return text[:i]
		}
	}
	return text
}
