package in

import (
	"fmt"
	"sort"
	"strings"

	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/table"
)

// part is a table on one sheet.
type part struct {
	table   *table.Table
	sheet   *book.Sheet
	heading headingRow
	columns map[string]int // column of the sheet for each key of the table
	doubted map[string]int // columns whose heading may mean this key
	units   map[string]headingUnit
	merged  map[int][]book.Range // blocks of several rows, by their column
}

// findTables finds every table of the workbook and says what is missing.
func (r *reader) findTables() {
	claimed := map[*book.Sheet]bool{}
	for i := range table.Tables {
		t := &table.Tables[i]
		for s := range r.book.Sheets {
			sheet := &r.book.Sheets[s]
			if claimed[sheet] || !namedLike(sheet.Name, t) {
				continue
			}
			if p := matchTable(sheet, headingRows(sheet), t); p != nil {
				r.parts[t.Key] = append(r.parts[t.Key], p)
				claimed[sheet] = true
			} else if fold(sheet.Name) == fold(t.Sheet) {
				r.noHeadings(sheet, t)
				claimed[sheet] = true
			}
		}
	}
	r.findByHeadings(claimed)
	for i := range table.Tables {
		r.checkTable(&table.Tables[i])
	}
}

// namedLike tells whether a sheet's name is one of the table's, alone or with
// more words behind it: Rooms, Rooms level 2.
func namedLike(sheet string, t *table.Table) bool {
	folded := strings.Join(foldedWords(sheet), " ")
	for _, name := range append([]string{t.Sheet}, t.Also...) {
		known := strings.Join(foldedWords(name), " ")
		if folded == known || fold(sheet) == fold(name) || strings.HasPrefix(folded, known+" ") {
			return true
		}
	}
	return false
}

// mostOtherSheets is how many sheets of other names are looked through.
const mostOtherSheets = 200

// findByHeadings reads sheets of other names that have a table's headings,
// where no sheet of the table's name was found.
func (r *reader) findByHeadings(claimed map[*book.Sheet]bool) {
	looked := 0
	for s := range r.book.Sheets {
		sheet := &r.book.Sheets[s]
		if claimed[sheet] || sheet.Visibility != book.Visible || looked == mostOtherSheets {
			continue
		}
		looked++
		var best *part
		rows := headingRows(sheet)
		for i := range table.Tables {
			p := matchTable(sheet, rows, &table.Tables[i])
			if p != nil && p.complete() && (best == nil || len(p.columns) > len(best.columns)) {
				best = p
			}
		}
		switch {
		case best == nil:
			r.otherSheet(sheet)
		case len(r.parts[best.table.Key]) > 0 || r.blank[best.table.Key]:
			r.problems.add("", problem.Problem{Code: problem.SheetIgnored, At: problem.Ref{Sheet: sheet.Name},
				Found: fmt.Sprintf("a sheet with the headings of %s", best.table.Sheet),
				Want:  fmt.Sprintf("its rows under another name, because sheet %s is there", best.table.Sheet),
				Fix:   fmt.Sprintf("rename it %s to have it read too, or leave it", quote(best.table.Sheet+" 2"))})
		default:
			r.parts[best.table.Key] = append(r.parts[best.table.Key], best)
		}
	}
}

// otherSheet warns of a sheet that holds no table but has nearly the name of
// one.
func (r *reader) otherSheet(sheet *book.Sheet) {
	for _, name := range near(sheet.Name, sheetNames()) {
		if t := tableNamed(name); len(r.parts[t.Key]) == 0 && !t.Required {
			r.problems.add("", problem.Problem{Code: problem.SheetIgnored, At: problem.Ref{Sheet: sheet.Name},
				Found: "a sheet that is not read", Want: "a sheet named " + quote(name),
				Fix: fmt.Sprintf("rename it %s and give it that table's headings, if it is meant", quote(name))})
			return
		}
	}
}

func sheetNames() []string {
	var names []string
	for i := range table.Tables {
		names = append(names, table.Tables[i].Sheet)
	}
	return names
}

func tableNamed(name string) *table.Table {
	for i := range table.Tables {
		if table.Tables[i].Sheet == name {
			return &table.Tables[i]
		}
	}
	return nil
}

// noHeadings says that a sheet has the table's name but not its headings.
func (r *reader) noHeadings(sheet *book.Sheet, t *table.Table) {
	r.blank[t.Key] = true
	if len(sheet.Rows) == 0 {
		if t.Required {
			r.problems.add("", problem.Problem{Code: problem.HeadingMissing, At: problem.Ref{Sheet: sheet.Name}, Found: "an empty sheet",
				Want: "a row of headings: " + andList(requiredHeadings(t)), Fix: "fill in the table, or start from a new workbook"})
		}
		return
	}
	r.problems.add("", problem.Problem{Code: problem.HeadingMissing, At: problem.Ref{Sheet: sheet.Name, Row: sheet.Rows[0].Number},
		Found: "no row of headings", Want: "a row of headings: " + andList(requiredHeadings(t)), Fix: "write the headings above the rows"})
}

func requiredHeadings(t *table.Table) []string {
	var names []string
	for _, c := range t.Columns {
		if c.Required {
			names = append(names, c.Heading)
		}
	}
	return names
}

// roomless tells whether the job can do without the table because it is one of
// loose lengths or repairs alone: loose lengths need neither rooms nor
// build-ups, repairs need build-ups for their methods.
func (r *reader) roomless(t *table.Table) bool {
	has := func(key string) bool { return len(r.parts[key]) > 0 }
	switch {
	case has("rooms"):
		return false
	case t.Key == "rooms":
		return has("repairs") || has("loose") && !has("buildups")
	}
	return t.Key == "buildups" && has("loose") && !has("repairs")
}

// checkTable says whether a table or a column that the job needs is missing.
func (r *reader) checkTable(t *table.Table) {
	parts := r.parts[t.Key]
	if len(parts) == 0 && t.Required && !r.blank[t.Key] && !r.roomless(t) {
		found, fix := "no such sheet", fmt.Sprintf("add a sheet %s with the headings %s", quote(t.Sheet), andList(requiredHeadings(t)))
		for s := range r.book.Sheets {
			if name := r.book.Sheets[s].Name; len(near(name, []string{t.Sheet})) > 0 {
				found, fix = "sheet "+quote(name), fmt.Sprintf("rename sheet %s %s, if that is meant", quote(name), quote(t.Sheet))
			}
		}
		r.problems.add("", problem.Problem{Code: problem.SheetMissing, Found: found, Want: fmt.Sprintf("a sheet %s: %s in each row", quote(t.Sheet), t.Row), Fix: fix,
			At: problem.Ref{Sheet: t.Sheet}})
	}
	for _, p := range parts {
		r.checkHeadings(p)
		r.checkHidden(p)
	}
}

// complete tells whether every column the table needs was found.
func (p *part) complete() bool {
	for _, c := range p.table.Columns {
		if _, found := p.columns[c.Key]; c.Required && !found {
			return false
		}
	}
	return true
}

// indexMerged sorts out the merged blocks below the headings that reach over
// several rows: their value stands for each of the rows.
func (p *part) indexMerged() {
	p.merged = map[int][]book.Range{}
	for _, block := range p.sheet.Merged {
		if block.Row2 > block.Row1 && block.Row1 > p.heading.cells.Number {
			p.merged[block.Col1] = append(p.merged[block.Col1], block)
		}
	}
	for _, blocks := range p.merged {
		sort.Slice(blocks, func(i, j int) bool { return blocks[i].Row1 < blocks[j].Row1 })
	}
}

// cell is the cell of a row and column as the person sees it: one inside a
// merged block of rows has the block's value.
func (p *part) cell(row book.Row, col int) book.Cell {
	cell := row.Cell(col)
	blocks := p.merged[col]
	if cell.Kind != book.Empty || len(blocks) == 0 {
		return cell
	}
	i := sort.Search(len(blocks), func(i int) bool { return blocks[i].Row1 > row.Number }) - 1
	if i >= 0 && row.Number <= blocks[i].Row2 {
		return p.sheet.Row(blocks[i].Row1).Cell(col)
	}
	return cell
}

// checkHidden says which hidden rows, columns and sheets are read all the
// same: what a person does not see still counts.
func (r *reader) checkHidden(p *part) {
	hidden := func(at problem.Ref, what string) {
		r.problems.add("", problem.Problem{Code: problem.HiddenRead, At: at, Found: what, Want: "what is read to be seen", Fix: "unhide it and look, or delete it if it is not meant"})
	}
	if p.sheet.Visibility != book.Visible {
		hidden(problem.Ref{Sheet: p.sheet.Name}, "a hidden sheet, which is read")
	}
	if p.sheet.Guessed {
		r.problems.add("", problem.Problem{Code: problem.EncodingGuessed, At: problem.Ref{Sheet: p.sheet.Name}, Found: "a text file that is not in UTF-8, read as Windows-1252",
			Want: "a text file in UTF-8", Fix: "look at accented letters and currency signs, or save the file as UTF-8"})
	}
	rows, first := 0, 0
	for _, row := range p.sheet.Rows {
		if row.Hidden && row.Number > p.heading.cells.Number {
			if rows++; first == 0 {
				first = row.Number
			}
		}
	}
	if rows > 0 {
		hidden(problem.Ref{Sheet: p.sheet.Name, Row: first}, fmt.Sprintf("%d hidden rows, which are read", rows))
	}
	for i := range p.table.Columns {
		if col, found := p.columns[p.table.Columns[i].Key]; found && p.sheet.ColumnHidden(col) {
			hidden(problem.Ref{Sheet: p.sheet.Name, Row: p.heading.cells.Number, Col: col}, "a hidden column, which is read")
		}
	}
}
