// Package in turns a workbook into a job: it finds the tables by their
// headings, reads every cell as what its column declares, follows the
// references and says everything that is wrong, each thing at its cell, in one
// pass. Nothing is guessed: a value that cannot be read, or can be read in two
// ways, is a problem and stays unknown, and no later check speaks of it.
package in

import (
	"strings"

	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/table"
)

// reader carries a workbook on its way to a job.
type reader struct {
	book     *book.Book
	job      *job.Job
	problems *collector
	parts    map[string][]*part // by table
	blank    map[string]bool    // tables whose sheet has no headings

	noLengthUnit, noAreaUnit bool // the unit is not known, said at its setting
	calculator               calculator
	formulas                 map[problem.Ref]book.Cell
	defaults                 map[*table.Column]any
	choiceReaders            map[*table.Column]func(input) (int, *fault)

	settings   *settings
	suppliers  *names[*job.Supplier]
	products   *names[*job.Product]
	trades     *names[*job.Trade]
	operations *names[*job.Operation]
	buildUps   *names[*job.BuildUp]
	oldFloors  *names[*job.OldFloor]
	rooms      *roomNames
	takeoff    map[roomKey]row       // the row of each room of the takeoff
	rows       map[problem.Ref]*part // the part each record stands in, by its row
	suggested  int                   // unknown names that got suggestions
	lacking    map[string]bool       // sheets without rows that others refer to
	cut        map[string]bool       // tables with more rows than are read
}

// Read turns a workbook into a job. The job is only fit for use when the
// problems have no errors among them. Problems are in the order of the sheets,
// rows and columns.
func Read(b *book.Book) (*job.Job, problem.List) {
	r := newReader(b)
	defer r.calculator.close()
	r.findTables()
	r.readSettings()
	r.readSuppliers()
	r.readProducts()
	r.readPriceBreaks()
	r.readTrades()
	r.readOperations()
	r.readBuildUps()
	r.readTakeoff()
	r.readOldFloors()
	r.readRooms()
	r.readApartments()
	r.readLevels()
	r.readOptions()
	r.placeTakeoff()
	r.readExtras()
	r.readLooseLengths()
	r.readRemnants()
	r.readRepairs()
	r.readHolidays()
	r.checkJob()
	return r.job, r.problems.list().Sorted(r.job.Sheets)
}

func newReader(b *book.Book) *reader {
	r := &reader{
		book: b, job: &job.Job{}, problems: newCollector(),
		parts: map[string][]*part{}, blank: map[string]bool{},
		calculator: calculator{source: b}, formulas: map[problem.Ref]book.Cell{},
		defaults: map[*table.Column]any{}, choiceReaders: map[*table.Column]func(input) (int, *fault){},
		rows: map[problem.Ref]*part{}, lacking: map[string]bool{}, cut: map[string]bool{},
	}
	for i := range b.Sheets {
		r.job.Sheets = append(r.job.Sheets, b.Sheets[i].Name)
	}
	return r
}

// mostRows is how many rows of a table are read: more than any building has, so
// that a hostile file costs bounded time and memory.
const mostRows = 200_000

// each calls visit for every row of a table, sheet after sheet, without blank
// rows, repeated headings and totals.
func (r *reader) each(key string, visit func(row)) {
	read := 0
	for _, p := range r.parts[key] {
		for _, cells := range p.sheet.Rows {
			if cells.Number <= p.heading.cells.Number {
				continue
			}
			row := row{reader: r, part: p, cells: cells}
			switch row.sort() {
			case blankRow, repeatedHeadings, exampleRow:
			case totalsRow:
				r.problems.add("totals "+key, problem.Problem{Code: problem.RowSkipped, At: row.start(), Found: "a row of totals",
					Want: "rows of " + p.table.Sheet, Fix: "nothing, if it is one; else give it a name that does not begin with Total or Sum"})
			default:
				if read++; read > mostRows {
					r.tooManyRows(row)
					return
				}
				visit(row)
			}
		}
	}
}

// tooManyRows says once where the reading of a table ends.
func (r *reader) tooManyRows(first row) {
	name := first.part.table.Sheet
	if r.cut[name] {
		return
	}
	r.cut[name] = true
	r.problems.add("", problem.Problem{Code: problem.ValueOutOfRange, At: first.start(), Found: fmt.Sprintf("row %d of %s", mostRows+1, name),
		Want: fmt.Sprintf("at most %d rows in a table", mostRows), Fix: "split the job; this row and those below it are not read"})
}

// rowSort is what a row below the headings is.
type rowSort int

const (
	tableRow rowSort = iota
	blankRow
	repeatedHeadings
	totalsRow
	exampleRow
)

func (r row) sort() rowSort {
	filled, headings, formulas, others := 0, 0, 0, 0
	var first book.Cell
	for _, cell := range r.cells.Cells {
		if !r.part.has(int(cell.Col)) || cell.Kind == book.Text && isSpace(cell.Text) {
			continue
		}
		if filled++; filled == 1 {
			first = cell
		}
		switch {
		case cell.Kind == book.Text && cell.Text == r.part.heading.cells.Cell(int(cell.Col)).Text:
			headings++
		case cell.Computed || cell.Kind == book.Formula:
			formulas++
		default:
			others++
		}
	}
	switch {
	case filled == 0:
		return blankRow
	case headings == filled && filled > 1:
		return repeatedHeadings
	case first.Kind == book.Text && isExample(first.Text):
		return exampleRow
	case first.Kind == book.Text && isTotal(first.Text), formulas > 0 && others == 0:
		return totalsRow
	}
	return tableRow
}

// has tells whether the table has a column of the sheet.
func (p *part) has(col int) bool {
	for _, c := range p.columns {
		if c == col {
			return true
		}
	}
	return false
}

// isExample tells whether a text begins an example row of a new workbook.
func isExample(text string) bool {
	text = strings.TrimSpace(text)
	return len(text) >= len(table.ExampleMark) && strings.EqualFold(text[:len(table.ExampleMark)], table.ExampleMark)
}

// isTotal tells whether a text begins a row of totals.
func isTotal(text string) bool {
	words := foldedWords(text)
	if len(words) > 1 && (words[0] == "grand" || words[0] == "sub") {
		words = words[1:]
	}
	switch {
	case len(words) == 0 || len(words) > 3:
		return false
	case words[0] == "total" || words[0] == "subtotal" || words[0] == "sum" || words[0] == "summe":
		return true
	}
	return false
}

// start is the row's first filled cell.
func (r row) start() problem.Ref {
	return problem.Ref{Sheet: r.part.sheet.Name, Row: r.cells.Number, Col: int(r.cells.Cells[0].Col)}
}

func isSpace(text string) bool {
	for _, r := range text {
		if plainSpace(r) != ' ' && r != '\n' && r != '\t' && r != '\r' {
			return false
		}
	}
	return true
}
