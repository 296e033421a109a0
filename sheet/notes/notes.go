// Package notes copies a workbook and marks in the copy what is wrong: a note
// and a tint on every cell that a problem names, and a sheet Problems that
// lists them all with links.
//
// The copy is the user's own workbook. It is made on the package's parts and
// not by reading the workbook in and writing it out: a part that takes no mark
// is copied byte for byte, packed as it was, and in the others the marks are
// put between bytes that stay as they were. No cell is touched: the tint is a
// conditional format.
package notes

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"laybill/estimate/problem"
	"laybill/sheet/book"
)

// Unfit is the error of a workbook that reads but takes no notes.
type Unfit struct{ Why string }

func (u *Unfit) Error() string { return "no notes can be put into a copy of the workbook: " + u.Why }

func unfit(format string, args ...any) *Unfit { return &Unfit{fmt.Sprintf(format, args...)} }

// Write writes a copy of the workbook with the problems marked. The error of a
// workbook that cannot be marked is an *Unfit.
func Write(w io.Writer, b *book.Book, problems problem.List) error {
	source := b.Source()
	if source == nil {
		return unfit("it is a folder of CSV files")
	}
	p, err := openParcel(source, source.Size())
	if err != nil {
		return err
	}
	c, err := openCopy(p)
	if err != nil {
		return err
	}
	look, err := c.addStyles()
	if err != nil {
		return err
	}
	if err := c.addList(look, problems); err != nil {
		return err
	}
	for _, m := range marksOf(b, problems) {
		if err := c.mark(m, look); err != nil {
			return err
		}
	}
	return p.writeTo(w)
}

// cell is a place on a sheet, row and column from 1.
type cell struct{ row, col int }

func (c cell) String() string { return fmt.Sprintf("%s%d", problem.ColumnName(c.col), c.row) }

// marks are the notes of one sheet and the cells that are tinted.
type marks struct {
	sheet  string
	notes  map[cell][]remark
	tinted map[cell]bool
}

// remark is what a note says of a problem: all of it at its own cell, the rest
// at the other cells that it names.
type remark struct {
	*problem.Problem
	own bool
}

func (r remark) title() string { return fmt.Sprintf("%s: %s\n", r.Severity, r.Code) }

func (r remark) text() string {
	if r.own {
		return shortened(fmt.Sprintf("Found: %s\nExpected: %s\nFix: %s", r.Found, r.Want, r.Fix))
	}
	return shortened(fmt.Sprintf("See %s.\nFix: %s", r.At, r.Fix))
}

// marksOf sorts the problems by the sheets and cells they name, in the order
// of the workbook's sheets.
func marksOf(b *book.Book, problems problem.List) []*marks {
	all := make([]*marks, len(b.Sheets))
	bySheet := map[string]*marks{}
	for i := range b.Sheets {
		all[i] = &marks{sheet: b.Sheets[i].Name, notes: map[cell][]remark{}, tinted: map[cell]bool{}}
		bySheet[b.Sheets[i].Name] = all[i]
	}
	put := func(ref problem.Ref, said remark) {
		m := bySheet[ref.Sheet]
		if m == nil {
			return // a sheet that is missing, or the job as a whole
		}
		at := seenAt(b.Sheet(ref.Sheet), ref)
		m.notes[at] = append(m.notes[at], said)
		if ref.Row > 0 {
			m.tinted[at] = true
		}
	}
	for i := range problems {
		p := &problems[i]
		put(p.At, remark{p, true})
		for _, other := range p.Also {
			if other != p.At {
				put(other, remark{p, false})
			}
		}
	}
	return slices.DeleteFunc(all, func(m *marks) bool { return len(m.notes) == 0 })
}

// seenAt is the cell where a person looks for a place: the first of a merged
// block, the first of a row, the first of the sheet.
func seenAt(sheet *book.Sheet, ref problem.Ref) cell {
	at := cell{max(ref.Row, 1), max(ref.Col, 1)}
	for _, block := range sheet.Merged {
		if block.Row1 <= at.row && at.row <= block.Row2 && block.Col1 <= at.col && at.col <= block.Col2 {
			return cell{block.Row1, block.Col1}
		}
	}
	return at
}

// inOrder is the cells of a set by row and column.
func inOrder[T any](set map[cell]T) []cell {
	cells := make([]cell, 0, len(set))
	for at := range set {
		cells = append(cells, at)
	}
	slices.SortFunc(cells, func(a, b cell) int { return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col)) })
	return cells
}
