package in

import (
	"fmt"
	"strings"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/table"
)

// Limits on looking for headings, so that a sheet of thousands of columns
// costs no more than others.
const (
	mostTitleRows  = 60 // filled rows that may stand above a heading row
	mostHeadings   = 300
	longestHeading = 80
)

// headingRow is a row that may hold headings.
type headingRow struct {
	cells    book.Row
	headings []heading
}

// heading is a cell that may be one, with the ways to read it.
type heading struct {
	col      int
	text     string
	bare     string // without what stands in brackets
	readings []headingReading
}

// headingReading is a heading's name, folded, and the unit it gives.
type headingReading struct {
	name string
	unit headingUnit
}

// headingUnit is the unit that a heading names in brackets or behind its name.
type headingUnit struct {
	length    measure.Unit
	area      measure.AreaUnit
	hasLength bool
	hasArea   bool
}

// columnNames finds a table's column by a folded heading. A heading of a
// column wins over another one's alternative.
var columnNames = func() map[*table.Table]map[string]*table.Column {
	all := map[*table.Table]map[string]*table.Column{}
	for i := range table.Tables {
		t := &table.Tables[i]
		names := map[string]*table.Column{}
		for k := range t.Columns {
			names[fold(t.Columns[k].Heading)] = &t.Columns[k]
		}
		for k := range t.Columns {
			for _, also := range t.Columns[k].Also {
				if _, taken := names[fold(also)]; !taken {
					names[fold(also)] = &t.Columns[k]
				}
			}
		}
		all[t] = names
	}
	return all
}()

// headingRows is the first filled rows of a sheet with their texts as
// headings.
func headingRows(sheet *book.Sheet) []headingRow {
	var rows []headingRow
	for _, cells := range sheet.Rows[:min(len(sheet.Rows), mostTitleRows)] {
		row := headingRow{cells: cells}
		for _, cell := range cells.Cells {
			if cell.Kind == book.Text && len(cell.Text) <= longestHeading && len(row.headings) < mostHeadings {
				row.headings = append(row.headings, parseHeading(int(cell.Col), cell.Text))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// parseHeading reads a heading: its name, a unit in brackets, or a unit as its
// last one or two words: Length (cm), Length cm, Area in sq ft.
func parseHeading(col int, text string) heading {
	bare, inBrackets := cutBrackets(text)
	h := heading{col: col, text: text, bare: bare, readings: []headingReading{{fold(bare), parseHeadingUnit(inBrackets)}}}
	words := strings.Fields(strings.TrimRight(bare, " *:."))
	for n := len(words) - 1; n > 0 && n >= len(words)-3; n-- {
		if unit := parseHeadingUnit(strings.Join(words[n:], " ")); unit.hasLength || unit.hasArea {
			h.readings = append(h.readings, headingReading{fold(strings.Join(words[:n], " ")), unit})
		}
	}
	return h
}

// cutBrackets takes (cm), [cm] and the like out of a heading.
func cutBrackets(heading string) (bare, inside string) {
	open := strings.IndexAny(heading, "([{")
	if open < 0 {
		return heading, ""
	}
	end := strings.IndexAny(heading[open:], ")]}")
	if end < 0 {
		return heading[:open], heading[open+1:]
	}
	return heading[:open] + " " + heading[open+end+1:], heading[open+1 : open+end]
}

func parseHeadingUnit(text string) headingUnit {
	var unit headingUnit
	text = strings.TrimPrefix(strings.ToLower(strings.TrimSpace(text)), "in ")
	unit.length, unit.hasLength = measure.ParseUnit(text)
	unit.area, unit.hasArea = measure.ParseAreaUnit(text)
	return unit
}

// names finds the column of a table that a heading names, and its unit; nil
// when it names none.
func (h heading) names(t *table.Table) (*table.Column, headingUnit) {
	for _, reading := range h.readings {
		if column := columnNames[t][reading.name]; column != nil && reading.name != "" {
			return column, reading.unit
		}
	}
	return nil, headingUnit{}
}

// matchTable finds the heading row of a table on a sheet: of the first filled
// rows the one with the most of its headings, at least two. Nil when there is
// none.
func matchTable(sheet *book.Sheet, rows []headingRow, t *table.Table) *part {
	var best *part
	for _, row := range rows {
		p := matchRow(sheet, t, row)
		if len(p.columns) >= 2 && (best == nil || len(p.columns) > len(best.columns)) {
			best = p
		}
	}
	if best != nil {
		best.doubt()
		best.indexMerged()
	}
	return best
}

// matchRow finds the table's headings in one row.
func matchRow(sheet *book.Sheet, t *table.Table, row headingRow) *part {
	p := &part{table: t, sheet: sheet, heading: row, columns: map[string]int{}, doubted: map[string]int{}, units: map[string]headingUnit{}}
	for _, h := range row.headings {
		column, unit := h.names(t)
		if column == nil {
			continue
		}
		if _, twice := p.columns[column.Key]; !twice {
			p.columns[column.Key] = h.col
			p.units[column.Key] = unit
		}
	}
	return p
}

// doubt looks among the headings that name no column for those that nearly
// name one that was not found.
func (p *part) doubt() {
	for _, h := range p.heading.headings {
		if column, _ := h.names(p.table); column != nil {
			continue
		}
		if key := p.nearColumn(h.bare); key != "" {
			p.doubted[key] = h.col
		}
	}
}

// nearColumn is the column without a heading that a text nearly names; "" when
// there is none. Columns of remarks are never missed.
func (p *part) nearColumn(text string) string {
	var names []string
	keys := map[string]string{}
	for _, c := range p.table.Columns {
		_, found := p.columns[c.Key]
		if _, doubted := p.doubted[c.Key]; found || doubted || c.Kind == table.Text && !c.Required {
			continue
		}
		for _, name := range append([]string{c.Heading}, c.Also...) {
			names = append(names, name)
			keys[name] = c.Key
		}
	}
	if nearest := near(text, names); len(nearest) > 0 {
		return keys[nearest[0]]
	}
	return ""
}

// checkHeadings reports missing, doubtful and repeated headings of a part.
func (r *reader) checkHeadings(p *part) {
	for i := range p.table.Columns {
		c := &p.table.Columns[i]
		_, found := p.columns[c.Key]
		if col, doubted := p.doubted[c.Key]; doubted {
			r.problems.add("", problem.Problem{Code: problem.HeadingUnknown, At: p.headingAt(col), Found: quote(p.heading.cells.Cell(col).Text),
				Want: "the heading " + quote(c.Heading), Fix: fmt.Sprintf("write %s, or another heading if the column is not meant", quote(c.Heading))})
		} else if c.Required && !found {
			r.problems.add("", problem.Problem{Code: problem.HeadingMissing, At: p.headingAt(0), Found: "no column " + quote(c.Heading),
				Want: fmt.Sprintf("a heading %s, with %s in each row", orList(append([]string{c.Heading}, c.Also...)), r.wants(c.Kind)), Fix: "add the column to the table"})
		}
	}
	first := map[string]int{}
	for _, h := range p.heading.headings {
		column, unit := h.names(p.table)
		if column == nil {
			continue
		}
		if earlier, twice := first[column.Key]; twice {
			r.problems.add("", problem.Problem{Code: problem.HeadingRepeated, At: p.headingAt(h.col), Also: []problem.Ref{p.headingAt(earlier)},
				Found: fmt.Sprintf("%s a second time", quote(h.text)), Want: "each heading once", Fix: "rename or delete the column that is not meant"})
			continue
		}
		first[column.Key] = h.col
		if unit.hasArea && isLength(column.Kind) || unit.hasLength && column.Kind == table.Area {
			r.problems.add("", problem.Problem{Code: problem.HeadingUnknown, At: p.headingAt(h.col), Found: quote(h.text),
				Want: "a unit for " + r.wants(column.Kind), Fix: "correct the unit in the heading"})
		}
	}
}

// headingAt is the place of a heading; of the whole row for column 0.
func (p *part) headingAt(col int) problem.Ref {
	return problem.Ref{Sheet: p.sheet.Name, Row: p.heading.cells.Number, Col: col}
}

func isLength(kind table.Kind) bool {
	return kind == table.Length || kind == table.Millimetres || kind == table.Coordinate
}
