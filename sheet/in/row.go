package in

import (
	"fmt"
	"strings"
	"time"
	"unicode"

	"github.com/shopspring/decimal"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/table"
)

// row is one row of a table below its headings.
type row struct {
	*reader
	part  *part
	cells book.Row
}

// state is how sure a value is.
type state int

const (
	blank   state = iota // the cell is empty; the value is the column's default or nothing
	given                // the cell was read
	unknown              // the cell could not be read, or is not there; the problem is reported
)

// kindWords says for each kind of cell what is accepted.
var kindWords = map[table.Kind]string{
	table.Text:        "a text",
	table.Name:        "a name or code",
	table.Reference:   "a name or code of another sheet",
	table.Length:      "a length such as %s",
	table.Millimetres: "millimetres, or a length with its unit such as 5 mm",
	table.Area:        "an area such as 12.5 m2 or 134.5 ft2",
	table.Number:      "a number of 0 or more, such as 12.5",
	table.Whole:       "a whole number of 0 or more, such as 12",
	table.Percent:     "per cent, such as 7.25",
	table.Amount:      "an amount of money, such as 1234.50",
	table.Price:       "a price, such as 12.345",
	table.Choice:      "one of the words of the list",
	table.YesNo:       "yes or no",
	table.Date:        "a date such as 2026-03-31",
	table.Legs:        "a walk round the room such as E 5.2, N 2.4, W 5.2, S 2.4",
	table.Direction:   "along length, along width, degrees, toward light: N (E, S, W), or auto",
	table.Wall:        "N, E, S, W or the number of a leg",
	table.Coordinate:  "a length, which may be negative, such as %s",
	table.Value:       "the setting's value",
}

// wants says what a column accepts, with lengths in the job's own unit.
func (r *reader) wants(kind table.Kind) string {
	words := kindWords[kind]
	if kind == table.Length || kind == table.Coordinate {
		example := "3.82 m, 382 cm or 3820 mm"
		if r.job.Settings.LengthUnit.Imperial() {
			example = `12' 6 1/2" or 150 1/2 in`
		}
		return fmt.Sprintf(words, example)
	}
	return words
}

// at is the place of the row's cell in a column of the table; the heading's
// column is 0 when the sheet has no such column.
func (r row) at(key string) problem.Ref {
	return problem.Ref{Sheet: r.part.sheet.Name, Row: r.cells.Number, Col: r.part.columns[key]}
}

// cell is the row's cell in a column as the person sees it; formulas without a
// stored value are calculated.
func (r row) cell(key string) (book.Cell, bool) {
	col, found := r.part.columns[key]
	if !found {
		return book.Cell{}, false
	}
	cell := r.part.cell(r.cells, col)
	if cell.Kind == book.Formula {
		cell = r.calculated(r.at(key), cell)
	}
	if cell.Kind == book.Text && isSpace(cell.Text) {
		cell.Kind = book.Empty
	}
	return cell, true
}

// read reads a cell by its column's declaration. An empty cell takes the
// column's default when parse can read it, else nothing.
func read[T any](r row, key string, parse func(input) (T, *fault)) (T, state) {
	var none T
	column := r.part.table.Column(key)
	if column == nil {
		panic("in: table " + r.part.table.Key + " has no column " + key)
	}
	cell, found := r.cell(key)
	if _, doubted := r.part.doubted[key]; doubted || !found && column.Required {
		return none, unknown // said at the heading
	}
	if cell.Kind == book.Empty {
		if column.Required {
			r.missing(key, column)
			return none, unknown
		}
		return defaultOf(r.reader, column, parse), blank
	}
	in, ok := r.input(cell, column.Kind, r.part.units[key])
	if !ok {
		r.problems.unknown[r.at(key)] = true
		return none, unknown // its unit is not known, which is said at the setting
	}
	if cell.Kind == book.Error && cell.Text == "" {
		return none, unknown // a formula that cannot be calculated
	}
	if cell.Kind == book.Error {
		r.fault(key, column, cell, unreadable("the spreadsheet shows an error there: mend its formula, or write the value"))
		return none, unknown
	}
	value, flaw := parse(in)
	if flaw != nil {
		r.fault(key, column, cell, flaw)
		return none, unknown
	}
	if money := column.Kind == table.Amount || column.Kind == table.Price; money && !isSignOf(in.format.Currency, in.currency.Code) {
		r.doubt(problem.CurrencyDiffers, key, "an amount in "+in.currency.Code, fmt.Sprintf("convert the amount, or take %s out of the cell's format", quote(in.format.Currency)))
	}
	return value, given
}

// input is a cell with what a plain number in it means; ok is false when that
// is not known because its setting is not.
func (r *reader) input(cell book.Cell, kind table.Kind, unit headingUnit) (in input, ok bool) {
	s := &r.job.Settings
	ok = true
	in = input{kind: cell.Kind, text: cell.Text, format: r.book.Format(cell), length: s.LengthUnit, area: s.AreaUnit, currency: s.Currency}
	bare := r.isBare(cell)
	switch kind {
	case table.Millimetres:
		in.length = measure.MM
	case table.Length, table.Coordinate:
		ok = !r.noLengthUnit || unit.hasLength || !bare
	case table.Legs:
		ok = !r.noLengthUnit || unit.hasLength
	case table.Area:
		ok = !r.noAreaUnit || unit.hasArea || !bare
	}
	if unit.hasLength {
		in.length = unit.length
	}
	if unit.hasArea {
		in.area = unit.area
	}
	return in, ok
}

// isBare tells whether a cell names no unit of its own.
func (r *reader) isBare(cell book.Cell) bool {
	return r.book.Format(cell).Unit == "" && (cell.Kind == book.Number || strings.IndexFunc(cell.Text, namesUnit) < 0)
}

// namesUnit tells the marks that name a unit of length or area.
func namesUnit(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("'\"′″’”", r) }

// defaultOf reads the default that a column declares in words; a default that
// is no value of the kind ("the supplier's") gives nothing.
func defaultOf[T any](r *reader, column *table.Column, parse func(input) (T, *fault)) T {
	if known, ok := r.defaults[column]; ok {
		return known.(T)
	}
	var value T
	if column.Default != "" {
		if read, flaw := parse(input{kind: book.Text, text: column.Default, currency: r.job.Settings.Currency}); flaw == nil {
			value = read
		}
	}
	r.defaults[column] = value
	return value
}

func (r row) missing(key string, column *table.Column) {
	r.problems.add(r.part.table.Key+" "+key, problem.Problem{Code: problem.CellMissing, At: r.at(key), Found: "nothing",
		Want: fmt.Sprintf("%s: %s", column.Heading, r.wants(column.Kind)), Fix: "fill in the cell" + r.named()})
}

// named says which row is meant, by the name in its first column of names.
func (r row) named() string {
	for i := range r.part.table.Columns {
		c := &r.part.table.Columns[i]
		if c.Kind != table.Name {
			continue
		}
		if cell, found := r.cell(c.Key); found && cell.Kind != book.Empty {
			return fmt.Sprintf(" of %s", quote(cell.Text))
		}
	}
	return ""
}

// fault reports why a cell has no value. Cells of one column with the same
// text share the cause.
func (r row) fault(key string, column *table.Column, cell book.Cell, flaw *fault) {
	want := flaw.want
	if want == "" {
		want = r.wants(column.Kind)
	}
	shown := r.book.Shown(cell)
	r.problems.add(r.part.table.Key+" "+key+" "+shown, problem.Problem{Code: flaw.code, At: r.at(key), Found: quote(shown),
		Want: want, Fix: fmt.Sprintf("%s%s", flaw.fix, r.ofRow(column))})
}

// ofRow ends a remedy with the value and the row it is for.
func (r row) ofRow(column *table.Column) string {
	if column.Kind == table.Name {
		return ""
	}
	if name := r.named(); name != "" {
		return fmt.Sprintf(" (%s%s)", column.Heading, name)
	}
	return ""
}

// doubt reports something about a cell that was read.
func (r row) doubt(code problem.Code, key, want, fix string) {
	cell, _ := r.cell(key)
	found := "nothing"
	if cell.Kind != book.Empty {
		found = quote(r.book.Shown(cell))
	}
	r.problems.add(r.part.table.Key+" "+key+" "+found, problem.Problem{Code: code, At: r.at(key), Found: found, Want: want, Fix: fix})
}

func (r row) text(key string) string {
	value, _ := read(r, key, asText)
	return value
}

func (r row) number(key string) decimal.Decimal {
	value, _ := read(r, key, asQuantity)
	return value
}

// whole reads a whole number up to a most, far above what is ever meant, so
// that a slip cannot ask for more work than a machine can do.
func (r row) whole(key string, most int64) int {
	value, _ := read(r, key, asWholeUpTo(most))
	return value
}

// percent reads per cents. A plain number between 0 and 1 is usually meant as
// a share: it is doubted, not changed.
func (r row) percent(key string) decimal.Decimal {
	value, _ := r.percentOr(key)
	return value
}

func (r row) percentOr(key string) (decimal.Decimal, state) {
	value, s := read(r, key, asPercent)
	cell, _ := r.cell(key)
	if s == given && cell.Kind == book.Number && r.book.Format(cell).Kind != book.Percent && value.Sign() > 0 && value.Cmp(decimal.New(1, 0)) < 0 {
		r.doubt(problem.PercentDoubtful, key, fmt.Sprintf("per cent: %s is taken as %s %%", value, value),
			fmt.Sprintf("write %s if %s %% is meant, or format the cell as a percentage", value.Shift(2), value.Shift(2)))
	}
	return value, s
}

func (r row) price(key string) (decimal.Decimal, state) { return read(r, key, asPrice) }

func (r row) amount(key string) decimal.Decimal {
	value, _ := read(r, key, asAmount)
	return value
}

func (r row) length(key string) measure.Length {
	value, _ := read(r, key, asLength)
	return value
}

func (r row) yes(key string) bool {
	value, _ := read(r, key, asYesNo)
	return value
}

func (r row) date(key string) time.Time {
	value, _ := read(r, key, asDate)
	return value
}

// choice reads the place of a word in the column's list; an unknown one is
// the first.
func (r row) choice(key string) (int, state) {
	return read(r, key, r.choices(r.part.table.Column(key)))
}

// choices is the column's reader of choices, made once.
func (r *reader) choices(column *table.Column) func(input) (int, *fault) {
	if r.choiceReaders[column] == nil {
		r.choiceReaders[column] = asChoice(column.Choices)
	}
	return r.choiceReaders[column]
}
