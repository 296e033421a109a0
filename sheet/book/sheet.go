package book

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"laybill/estimate/problem"
)

// sheetReader turns sheet parts into rows of cells.
type sheetReader struct {
	book    *Book
	styled  bool     // the workbook has styles
	styles  []uint16 // format of each cell style
	strings []string
	texts   textStore
	joined  []byte // text of the cell being read
	cells   []Cell // cells of the row being read and, before them, of rows done
	count   int    // cells of the whole workbook
}

// slab is how many cells are allotted at once.
const slab = 4096

// readSheet reads one sheet in one pass.
func (r *sheetReader) readSheet(p *parcel, part string, tab tab) (*Sheet, error) {
	s := &Sheet{Name: tab.name, Visibility: tab.visibility}
	if !p.has(part) {
		return nil, damaged(tab.name, "its part %s is missing", part)
	}
	err := p.each(part, func(x *xmlReader) error {
		if t := x.next(); t != opened || string(x.name) != "worksheet" {
			if t == failed {
				return x.err
			}
			return damaged(tab.name, "its part %s is not a sheet", part)
		}
		for {
			switch x.next() {
			case failed:
				return x.err
			case partEnd:
				return nil
			case opened:
				if err := r.readBlock(x, s); err != nil {
					return err
				}
			}
		}
	})
	if refusal, ok := err.(*Refusal); ok && refusal.Sheet == part {
		refusal.Sheet = tab.name
	}
	return s, err
}

// readBlock reads what one child of the worksheet element holds.
func (r *sheetReader) readBlock(x *xmlReader, s *Sheet) error {
	switch string(x.name) {
	case "sheetData":
		if s.Rows != nil {
			return damaged(s.Name, "its rows stand in two places")
		}
		return r.readRows(x, s)
	case "cols":
		return children(x, func() error {
			first, err1 := strconv.Atoi(string(x.raw("min")))
			last, err2 := strconv.Atoi(string(x.raw("max")))
			if string(x.name) != "col" || err1 != nil || err2 != nil || len(s.hiddenCols) >= maxCol {
				return damaged(s.Name, "its column settings cannot be read")
			}
			if x.isTrue("hidden") {
				s.hiddenCols = append(s.hiddenCols, columns{first, last})
			}
			return nil
		})
	case "mergeCells":
		return children(x, func() error {
			block, ok := parseRange(x.raw("ref"))
			if !ok || len(s.Merged) >= maxMerged {
				return damaged(s.Name, "its merged cells cannot be read")
			}
			s.Merged = append(s.Merged, block)
			return nil
		})
	}
	if !x.skip() {
		return x.err
	}
	return nil
}

// children calls visit for each child of the element just opened.
func children(x *xmlReader, visit func() error) error {
	depth := x.depth()
	for {
		switch x.next() {
		case failed:
			return x.err
		case opened:
			if x.depth() == depth+1 {
				if err := visit(); err != nil {
					return err
				}
			}
		case closed:
			if x.depth() < depth {
				return nil
			}
		}
	}
}

func (r *sheetReader) readRows(x *xmlReader, s *Sheet) error {
	s.Rows = []Row{}
	last := 0
	for {
		switch x.next() {
		case failed:
			return x.err
		case closed:
			return nil
		case opened:
			if string(x.name) != "row" {
				return damaged(s.Name, "a <%s> stands among its rows", x.name)
			}
			number := last + 1
			if raw := x.raw("r"); raw != nil {
				var ok bool
				if number, ok = parseCount(raw); !ok || number < 1 {
					return damaged(s.Name, "%q is not a row number", raw)
				}
			}
			if number <= last {
				return damaged(s.Name, "row %d stands after row %d: rows are out of order or stand twice", number, last)
			}
			if number > maxRow {
				return damaged(s.Name, "row %d is beyond the last row of a sheet", number)
			}
			last = number
			row := Row{Number: number, Hidden: x.isTrue("hidden")}
			if err := r.readRow(x, s, &row); err != nil {
				return err
			}
			if len(row.Cells) > 0 {
				s.Rows = append(s.Rows, row)
			}
		}
	}
}

func (r *sheetReader) readRow(x *xmlReader, s *Sheet, row *Row) error {
	start, lastCol := len(r.cells), 0
	for {
		switch x.next() {
		case failed:
			return x.err
		case closed:
			row.Cells = r.cells[start:len(r.cells):len(r.cells)]
			return nil
		case opened:
			if string(x.name) != "c" {
				return damaged(s.Name, "a <%s> stands among the cells of row %d", x.name, row.Number)
			}
			col, refusal := cellColumn(x, s.Name, row.Number, lastCol)
			if refusal != nil {
				return refusal
			}
			lastCol = col
			cell := Cell{Col: int32(col)}
			if err := r.readCell(x, &cell); err != nil {
				if x.err != nil {
					return x.err
				}
				return &Refusal{Reason: IsDamaged, Sheet: s.Name, Cell: cellName(row.Number, col), Detail: err.Error()}
			}
			if cell.Kind == Empty {
				continue
			}
			if r.count++; r.count > maxCells {
				return tooLarge("", "it has more than %d filled cells", maxCells)
			}
			if r.texts.size > maxText {
				return tooLarge("", "its texts are longer than %d MB", maxText>>20)
			}
			start = r.room(start)
			r.cells = append(r.cells, cell)
		}
	}
}

// room makes sure that one more cell fits; the cells of a row stay together,
// so those from start on move to a new slab when the old one is full.
func (r *sheetReader) room(start int) int {
	if len(r.cells) < cap(r.cells) {
		return start
	}
	begun := r.cells[start:]
	r.cells = append(make([]Cell, 0, max(slab, 2*len(begun))), begun...)
	return 0
}

// cellColumn is the column of the cell just opened, checked to follow the one
// before it.
func cellColumn(x *xmlReader, sheet string, row, last int) (int, *Refusal) {
	raw := x.raw("r")
	if raw == nil {
		if last+1 > maxCol {
			return 0, damaged(sheet, "row %d has cells beyond the last column of a sheet", row)
		}
		return last + 1, nil
	}
	inRow, col, ok := parseRef(raw)
	switch {
	case !ok:
		return 0, damaged(sheet, "%q is not a cell of a sheet", raw)
	case inRow != row:
		return 0, damaged(sheet, "cell %s stands in row %d", raw, row)
	case col == last:
		return 0, damaged(sheet, "cell %s stands twice", raw)
	case col < last:
		return 0, damaged(sheet, "cell %s stands after %s: cells are out of order or stand twice", raw, cellName(row, last))
	}
	return col, nil
}

// rawCell is what a cell element holds, before it is made a value; its value's
// text is in sheetReader.joined.
type rawCell struct {
	kind                         stored
	hasValue, hasFormula, inline bool
	formula                      string
}

// readCell reads the cell just opened to its end. An error without one of x
// is about the cell.
func (r *sheetReader) readCell(x *xmlReader, cell *Cell) error {
	var raw rawCell
	var err error
	if raw.kind, err = storedKind(x.raw("t")); err != nil {
		return err
	}
	if cell.format, err = r.style(x.raw("s")); err != nil {
		return err
	}
	r.joined = r.joined[:0]
	for {
		switch x.next() {
		case failed:
			return x.err
		case closed:
			return r.finishCell(cell, raw)
		case opened:
			if err := r.readInside(x, cell, &raw); err != nil {
				return err
			}
		}
	}
}

// readInside reads a child of a cell: its value, formula or inline text.
func (r *sheetReader) readInside(x *xmlReader, cell *Cell, raw *rawCell) (err error) {
	switch string(x.name) {
	case "v":
		if raw.hasValue || raw.inline {
			return fmt.Errorf("it has two values")
		}
		raw.hasValue = true
		r.joined, err = collect(x, r.joined)
		return err
	case "f":
		raw.hasFormula = true
		text, err := collect(x, nil)
		raw.formula = string(text)
		return err
	case "is":
		if raw.kind != storedInline || raw.inline {
			return fmt.Errorf("it has a text in a place for other values")
		}
		raw.inline = true
		text, ok := r.readRichText(x)
		if !ok {
			return x.err
		}
		setText(cell, text)
		return nil
	}
	if !x.skip() {
		return x.err
	}
	return nil
}

// finishCell makes the cell's value. A formula with a number to come and
// nothing stored has no value; one that gave an empty text is an empty cell.
func (r *sheetReader) finishCell(cell *Cell, raw rawCell) error {
	switch {
	case raw.inline:
		return nil
	case raw.hasFormula && (!raw.hasValue || len(r.joined) == 0 && raw.kind != storedText):
		cell.Kind, cell.Text = Formula, raw.formula
		return nil
	case !raw.hasValue:
		return nil
	}
	cell.Computed = raw.hasFormula
	return r.setValue(cell, raw.kind)
}

// collect joins the text of the element just opened, which has no children.
func collect(x *xmlReader, into []byte) ([]byte, error) {
	for {
		switch x.next() {
		case failed:
			return nil, x.err
		case chars:
			into = append(into, x.text...)
		case opened:
			return nil, fmt.Errorf("its value holds a <%s>", x.name)
		case closed:
			return into, nil
		}
	}
}

// stored is how a file says what a cell's value is (ECMA-376 part 1,
// 18.18.11 ST_CellType).
type stored uint8

const (
	storedNumber stored = iota
	storedShared
	storedText // of a formula
	storedInline
	storedBool
	storedError
	storedDate
)

func storedKind(raw []byte) (stored, error) {
	switch string(raw) {
	case "", "n":
		return storedNumber, nil
	case "s":
		return storedShared, nil
	case "str":
		return storedText, nil
	case "inlineStr":
		return storedInline, nil
	case "b":
		return storedBool, nil
	case "e":
		return storedError, nil
	case "d":
		return storedDate, nil
	}
	return 0, fmt.Errorf("its type %q is not known", raw)
}

// style is the format of a cell style.
func (r *sheetReader) style(raw []byte) (uint16, error) {
	if raw == nil || !r.styled {
		return 0, nil
	}
	i, ok := parseCount(raw)
	if !ok || i >= len(r.styles) {
		return 0, fmt.Errorf("its style %q is missing", raw)
	}
	return r.styles[i], nil
}

// setValue turns a stored value into the cell's kind and text.
func (r *sheetReader) setValue(cell *Cell, kind stored) error {
	raw := r.joined
	if kind != storedText {
		raw = bytes.TrimSpace(raw)
	}
	if len(raw) == 0 {
		if kind == storedShared {
			return fmt.Errorf("its text is missing")
		}
		return nil
	}
	switch kind {
	case storedNumber:
		return r.setNumber(cell, raw)
	case storedShared:
		i, ok := parseCount(raw)
		if !ok || i >= len(r.strings) {
			return fmt.Errorf("its text, number %s of the shared texts, is missing", raw)
		}
		setText(cell, r.strings[i])
	case storedBool:
		switch string(raw) {
		case "1", "true":
			cell.Kind, cell.Text = Bool, "TRUE"
		case "0", "false":
			cell.Kind, cell.Text = Bool, "FALSE"
		default:
			return fmt.Errorf("%q is neither true nor false", raw)
		}
	case storedError:
		cell.Kind, cell.Text = Error, r.texts.keep(raw)
	case storedDate:
		if !isISODate(string(raw)) {
			return fmt.Errorf("%q is not a date", raw)
		}
		cell.Kind, cell.Text = Date, r.texts.keep(raw)
	default:
		setText(cell, r.texts.keep(unescapeBytes(raw)))
	}
	return nil
}

func (r *sheetReader) setNumber(cell *Cell, raw []byte) error {
	var space [48]byte
	text, ok := appendDecimal(space[:0], raw)
	if !ok {
		return fmt.Errorf("%q is not a number", raw)
	}
	switch r.book.formats[cell.format].Kind {
	case DateForm:
		cell.Kind, cell.Text = Date, dateText(string(text), r.book.Date1904)
	case TimeForm:
		cell.Kind, cell.Text = Time, timeText(string(text))
	default:
		cell.Kind, cell.Text = Number, r.texts.keep(text)
	}
	return nil
}

func setText(cell *Cell, text string) {
	if text != "" {
		cell.Kind, cell.Text = Text, text
	}
}

// textStore keeps many small texts in few large pieces of memory.
type textStore struct {
	piece strings.Builder
	size  int
}

func (t *textStore) keep(text []byte) string {
	if t.piece.Cap()-t.piece.Len() < len(text) {
		t.piece = strings.Builder{}
		t.piece.Grow(max(64<<10, len(text)))
	}
	t.size += len(text)
	start := t.piece.Len()
	t.piece.Write(text)
	return t.piece.String()[start:]
}

func cellName(row, col int) string { return problem.ColumnName(col) + strconv.Itoa(row) }

// parseRef reads a cell's name, such as AB12.
func parseRef(raw []byte) (row, col int, ok bool) {
	i := 0
	for i < len(raw) && i < 4 {
		c := raw[i] &^ 0x20
		if c < 'A' || c > 'Z' {
			break
		}
		col = col*26 + int(c-'A'+1)
		i++
	}
	row, ok = parseCount(raw[i:])
	return row, col, ok && i > 0 && row > 0 && row <= maxRow && col <= maxCol
}

func parseRange(raw []byte) (Range, bool) {
	from, to, found := bytes.Cut(raw, []byte(":"))
	if !found {
		to = from
	}
	row1, col1, ok1 := parseRef(from)
	row2, col2, ok2 := parseRef(to)
	return Range{row1, col1, row2, col2}, ok1 && ok2 && row1 <= row2 && col1 <= col2
}

// parseCount reads a whole number of up to nine digits.
func parseCount(raw []byte) (n int, ok bool) {
	if len(raw) == 0 || len(raw) > 9 {
		return 0, false
	}
	for _, c := range raw {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, true
}
