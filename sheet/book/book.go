// Package book reads a workbook into a checked grid of typed cells.
//
// It is written for files people made: it keeps what a plain reading of cell
// texts loses (the kind of a cell, percent and date formats, formulas without
// a stored value, hidden rows, merged cells) and it refuses, by name and
// place, every file that is damaged, cut short, encrypted or of another kind,
// so that part of a workbook never passes as the whole. Time and memory are
// bounded by counts (see the limits in refusal.go), whatever the file claims.
//
// A workbook in the ECMA-376 package form (.xlsx, .xlsm, .xltx, transitional
// or strict) is read by Open, a folder of CSV files, one a sheet, by
// OpenFolder; both give the same Book.
package book

import (
	"io"
	"sort"
	"strings"
)

// Kind says what a cell holds.
type Kind uint8

// The kinds of cells.
const (
	Empty   Kind = iota // nothing, or a formula that gave an empty text
	Text                // text as stored, rich text joined
	Number              // Text is the exact decimal, see Cell
	Bool                // Text is TRUE or FALSE
	Error               // Text is the spreadsheet's error, such as #REF!
	Date                // a number shown as a date; Text is ISO 8601
	Time                // a number shown as a time of day or a span; Text is h:mm:ss
	Formula             // a formula without a stored value; Text is the formula, if known
)

// Cell is one cell that is not empty.
//
// The text of a number is its exact decimal by the 15-digit rule: files hold
// doubles as text with up to 17 digits, and a typed 19.99 may be stored as
// 19.989999999999998. At most 15 significant digits are taken as they stand,
// more are rounded to 15, which gives back every decimal of up to 15 digits
// (IEEE 754-2008, 5.12.2: DBL_DIG is 15).
type Cell struct {
	Text     string
	Col      int32  // counted from 1
	format   uint16 // index into Book.formats
	Kind     Kind
	Computed bool // the value is a formula's stored result
}

// Row is one row that has at least one cell.
type Row struct {
	Number int // counted from 1
	Hidden bool
	Cells  []Cell // by ascending column
}

// Cell is the row's cell in a column; an Empty cell when there is none.
func (r Row) Cell(col int) Cell {
	i := sort.Search(len(r.Cells), func(i int) bool { return int(r.Cells[i].Col) >= col })
	if i < len(r.Cells) && int(r.Cells[i].Col) == col {
		return r.Cells[i]
	}
	return Cell{Col: int32(col)}
}

// Visibility says whether a person can see a sheet.
type Visibility uint8

// The visibilities of a sheet.
const (
	Visible Visibility = iota
	Hidden
	VeryHidden // hidden so that the program's menu does not show it
)

// Range is a block of cells, both corners included.
type Range struct{ Row1, Col1, Row2, Col2 int }

// Sheet is one grid of the workbook. Chart and dialog sheets are left out.
type Sheet struct {
	Name       string
	Visibility Visibility
	Rows       []Row   // rows with cells, by ascending number
	Merged     []Range // each holds its value in the first cell
	hiddenCols []columns
	// Guessed tells that a text file's encoding was not certain: it is
	// neither UTF-8 nor marked, and was read as Windows-1252.
	Guessed bool
}

type columns struct{ first, last int }

// Row is the row of that number; one without cells when there is none.
func (s *Sheet) Row(number int) Row {
	i := sort.Search(len(s.Rows), func(i int) bool { return s.Rows[i].Number >= number })
	if i < len(s.Rows) && s.Rows[i].Number == number {
		return s.Rows[i]
	}
	return Row{Number: number}
}

// ColumnHidden tells whether a column is hidden.
func (s *Sheet) ColumnHidden(col int) bool {
	for _, c := range s.hiddenCols {
		if c.first <= col && col <= c.last {
			return true
		}
	}
	return false
}

// Book is a workbook as it was read.
type Book struct {
	Sheets   []Sheet // in the order of the tabs
	Date1904 bool    // dates count from 1904-01-01, not from 1900
	formats  []Format

	source     io.ReaderAt // the file, nil for a folder of text files
	sourceSize int64
}

// Source is the file the workbook was read from, for a second reader that
// calculates formulas or copies it; nil when it was a folder of text files.
func (b *Book) Source() *io.SectionReader {
	if b.source == nil {
		return nil
	}
	return io.NewSectionReader(b.source, 0, b.sourceSize)
}

// Format is the number format of a cell.
func (b *Book) Format(c Cell) Format {
	if int(c.format) < len(b.formats) {
		return b.formats[c.format]
	}
	return Format{}
}

// Shown is the cell as the person sees it, so far as the kind of its format
// goes: a percentage as a percentage, a date as a date, a unit of the format
// after the number. Decimals are not rounded as the format would.
func (b *Book) Shown(c Cell) string {
	format := b.Format(c)
	switch {
	case c.Kind == Number && format.Kind == Percent:
		return movePoint(c.Text, 2) + " %"
	case c.Kind == Number && format.Unit != "":
		return c.Text + " " + format.Unit
	case c.Kind == Formula:
		return "=" + c.Text
	}
	return c.Text
}

// Sheet finds a sheet by its name, capitals not counted; nil when there is
// none.
func (b *Book) Sheet(name string) *Sheet {
	for i := range b.Sheets {
		if strings.EqualFold(b.Sheets[i].Name, name) {
			return &b.Sheets[i]
		}
	}
	return nil
}

// Size is the number of bytes of the file that Source reads; 0 for a folder.
func (b *Book) Size() int64 { return b.sourceSize }

// WithValue is a formula's cell with its value worked out by somebody else:
// a number, TRUE or FALSE, an error or a text.
func (c Cell) WithValue(value string) Cell {
	c.Computed = true
	number, isNumber := appendDecimal(nil, []byte(value))
	switch {
	case value == "":
		c.Kind, c.Text = Empty, ""
	case isNumber:
		c.Kind, c.Text = Number, string(number)
	case value == "TRUE" || value == "FALSE":
		c.Kind, c.Text = Bool, value
	case value[0] == '#':
		c.Kind, c.Text = Error, value
	default:
		c.Kind, c.Text = Text, value
	}
	return c
}
