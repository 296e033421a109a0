package out

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"laybill/estimate/problem"
)

// column is one column of a list of R.
type column[R any] struct {
	heading string
	width   float64 // letters
	cell    func(r R, row int) cell
	above   cell  // stands above the heading as it is
	total   cell  // sum of the column above the heading; its formula is made here
	places  int32 // that the sum is rounded to
}

// list is a sheet that is one table: a title, a note, totals, headings and
// rows. Totals stand above the headings, where sorting and filtering leave
// them alone.
type list[R any] struct {
	title     string
	note      string
	columns   []column[R]
	landscape bool
	dense     bool   // rows as low as one line of type
	elsewhere string // sheet that its lines are printed on; "" when here
}

// Rows of a list's sheet.
const (
	listNote     = 2
	listTotals   = 3
	listHeadings = 4
	listFirst    = 5
)

// listing is a list in its sheet, for formulas elsewhere.
type listing struct {
	sheet       string
	headings    []string
	first, last int
}

// listed is where a list of so many rows will stand.
func (l *list[R]) listed(sheet string, rows int) listing {
	at := listing{sheet: sheet, first: listFirst, last: listFirst + max(rows, 1) - 1}
	for _, c := range l.columns {
		at.headings = append(at.headings, c.heading)
	}
	return at
}

// number is the place of a column, from 1.
func (l listing) number(heading string) int {
	for i, h := range l.headings {
		if h == heading {
			return i + 1
		}
	}
	panic("out: no column " + heading + " in " + l.sheet)
}

// column is the cells of a column, as a formula on any sheet writes them.
func (l listing) column(heading string) string {
	n := l.number(heading)
	return reference(l.sheet) + "!" + fixed(n, l.first) + ":" + fixed(n, l.last)
}

// block is the cells from one column to another, as a formula on any sheet writes
// them.
func (l listing) block(from, to string) string {
	return reference(l.sheet) + "!" + fixed(l.number(from), l.first) + ":" + fixed(l.number(to), l.last)
}

// letter is the letter of a column, for formulas within the list.
func (l listing) letter(heading string) string { return problem.ColumnName(l.number(heading)) }

// look is the formula that finds a row by the key in a cell and gives its value
// in another column. It holds when the list is sorted.
func (l listing) look(key, keys, heading string) string {
	return fmt.Sprintf("INDEX(%s,MATCH(%s,%s,0))", l.column(heading), key, l.column(keys))
}

// write fills a sheet with the list.
func (l *list[R]) write(b *book, sheet string, rows []R) listing {
	at := l.listed(sheet, len(rows))
	p := page{landscape: l.landscape, frozen: listHeadings, titles: listHeadings}
	note := l.note
	if l.elsewhere != "" {
		p.printed = listNote
		note += fmt.Sprintf(" On paper, what apartments of a type have in common stands once, on %s; to print this list too, clear its print area.", l.elsewhere)
	}
	for _, c := range l.columns {
		p.widths = append(p.widths, c.width)
	}
	s := b.open(sheet, p)
	s.title(l.title)
	s.note(note)
	s.put(l.totals(at)...)
	s.putWhole(27, l.headings(rows)...)
	for _, row := range rows {
		l.row(s, row)
	}
	if len(rows) == 0 {
		s.put(text("None."))
	} else {
		l.table(s, at)
	}
	s.close()
	return at
}

// headings stand over the middle of columns of numbers and at the left of
// texts; at the right they would lie under the filter buttons.
func (l *list[R]) headings(rows []R) []cell {
	cells := make([]cell, len(l.columns))
	for i, c := range l.columns {
		look := headingStyle
		look.align = middle
		if len(rows) == 0 || c.cell(rows[0], listFirst).isText() {
			look.align, look.indent = left, true
		}
		cells[i] = text(c.heading).in(look)
	}
	return cells
}

func (l *list[R]) totals(at listing) []cell {
	cells := make([]cell, len(l.columns))
	summed := false
	for i, c := range l.columns {
		cells[i] = c.above
		if c.total.value == nil {
			continue
		}
		summed = true
		sum := fmt.Sprintf("ROUND(SUM(%s:%s),%d)", address(i+1, at.first), address(i+1, at.last), c.places)
		cells[i] = c.total.from(sum).total()
	}
	if summed && cells[0].value == nil {
		cells[0] = text("Total").strong()
	}
	return cells
}

// denseHeight is that of a row just as high as its type.
const denseHeight = 12

// row writes one row, as high as its texts need.
func (l *list[R]) row(s *sheet, r R) {
	cells := make([]cell, len(l.columns))
	for i, c := range l.columns {
		cells[i] = c.cell(r, s.row+1).indented()
	}
	least := 0.0
	if l.dense {
		least = denseHeight
	}
	s.putWhole(least, cells...)
}

// table gives the rows filter buttons and stripes.
func (l *list[R]) table(s *sheet, at listing) {
	if s.book.err != nil {
		return
	}
	headings := make([]any, len(l.columns)) // by which the library names the columns
	for i, c := range l.columns {
		headings[i] = c.heading
	}
	s.book.keep(s.w.SetRow(address(1, listHeadings), headings))
	stripes := true
	s.book.keep(s.w.AddTable(&excelize.Table{
		Range:          address(1, listHeadings) + ":" + address(len(l.columns), at.last),
		Name:           tableName(s.name),
		StyleName:      "TableStyleLight1",
		ShowRowStripes: &stripes,
	}))
}

// tableName is a name for the table of a sheet: letters only, and not to be
// mistaken for a cell.
func tableName(sheet string) string {
	letters := strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			return r
		}
		return '_'
	}, sheet)
	return "List_" + letters
}
