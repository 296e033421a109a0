// Package table declares every table of the job workbook once: its sheet, its
// columns, what each cell may hold and what an empty one means. The reader,
// the templates, the problems and the README are all made from these
// declarations.
package table

// Kind is what a column's cells hold.
type Kind int

// The kinds of cell.
const (
	Text        Kind = iota // any text, kept as it stands
	Name                    // a name or code that other tables refer to; capitals do not matter
	Reference               // a name or code of another table, see Column.Refers
	Length                  // in the job's length unit, or with its own unit
	Millimetres             // a plain number is millimetres whatever the job's unit
	Area                    // in the job's area unit, or with its own unit
	Number                  // decimal, not negative
	Whole                   // whole number, not negative
	Percent                 // 7.25 or 7.25 %
	Amount                  // money, no finer than the currency's minor unit
	Price                   // unit price, may have more decimals than the currency
	Choice                  // one of Column.Choices
	YesNo
	Date
	Legs       // outline: E 5.2, N 2.4, ...
	Direction  // along length, along width, degrees, toward light: N, auto
	Wall       // N, E, S, W or the number of a leg
	Coordinate // a length that may be negative
	Value      // the Value column of the Job sheet; its kind is the setting's
)

// Column is one column of a table.
type Column struct {
	Key      string   // stable name within the table, for code
	Heading  string   // as written in a new workbook
	Also     []string // other headings that are accepted
	Kind     Kind
	Required bool
	Refers   string   // key of the table a Reference points to; several separated by |
	Choices  []string // for Choice
	Default  string   // what an empty cell means, in words; empty: nothing
	Help     string   // one or two sentences, shown as the heading's note
}

// Table is one table of the workbook.
type Table struct {
	Key      string
	Sheet    string   // sheet name in a new workbook
	Also     []string // other sheet names that are accepted
	Row      string   // what one row is
	Required bool
	Columns  []Column
	Help     string
}

// Row is one row of a table in writing: the text of each cell by the key of its
// column. A cell that is not there is empty.
type Row map[string]string

// ExampleMark begins the first cell of a row that is an example: the reader
// leaves the row out.
const ExampleMark = "Example:"

// Column finds a column by its key; nil when there is none.
func (t *Table) Column(key string) *Column {
	for i := range t.Columns {
		if t.Columns[i].Key == key {
			return &t.Columns[i]
		}
	}
	return nil
}

// ByKey finds a table by its key; nil when there is none.
func ByKey(key string) *Table {
	for i := range Tables {
		if Tables[i].Key == key {
			return &Tables[i]
		}
	}
	return nil
}
