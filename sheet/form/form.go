// Package form makes a job workbook to fill in: a sheet for each table of the
// job, made from the declarations in sheet/table, with a note on every heading,
// drop-down lists, number formats and a sheet that says how to go on.
//
// The same fill gives the same bytes.
package form

import (
	"io"
	"strings"

	"github.com/xuri/excelize/v2"

	"laybill/estimate/measure"
	"laybill/sheet/archive"
	"laybill/sheet/table"
)

// Row is one row of a table. A text that is a plain number becomes a number
// where the column takes one.
type Row = table.Row

// Fill is what a new workbook starts with.
type Fill struct {
	Title      string       // shown on the How-to sheet
	LengthUnit measure.Unit // what a plain number in a length cell will mean
	AreaUnit   measure.AreaUnit
	Rows       map[string][]Row // by the key of the table
	Examples   map[string]Row   // by the key of the table: a value for each column's note
	Samples    map[string]Row   // by the key of the table: a row shown as an example where a table starts empty
}

// The rows of a table sheet.
const (
	titleRow   = 1
	headingRow = 2
	firstRow   = 3
	spareRows  = 500 // rows below the filled ones that have drop-down lists
)

// Write writes the workbook.
func Write(w io.Writer, fill Fill) (err error) {
	f := excelize.NewFile()
	defer func() {
		if closed := f.Close(); err == nil {
			err = closed
		}
	}()
	f.SetZipWriter(func(w io.Writer) excelize.ZipWriter { return archive.New(w) })
	b := &builder{file: f, fill: fill, styles: newStyles(f)}
	b.workbook()
	if b.err != nil {
		return b.err
	}
	return f.Write(w)
}

// builder makes the sheets. The first error is kept and what follows it is left
// out.
type builder struct {
	file   *excelize.File
	fill   Fill
	styles *styles
	err    error

	measureWords string // the cells of the How-to sheet that hold them
}

func (b *builder) do(err error) {
	if b.err == nil {
		b.err = err
	}
}

func (b *builder) workbook() {
	b.do(b.file.SetDefaultFont(fontFamily))
	b.do(b.file.SetSheetName("Sheet1", howToSheet))
	for i := range table.Tables {
		_, err := b.file.NewSheet(table.Tables[i].Sheet)
		b.do(err)
	}
	b.howTo()
	for i := range table.Tables {
		b.tableSheet(&table.Tables[i])
	}
	b.do(b.file.SetDocProps(&excelize.DocProperties{Title: b.fill.Title, Creator: "Laybill"}))
	b.file.SetActiveSheet(0)
	b.do(b.styles.err)
}

// rows are the rows of a table in the new workbook. The Job sheet has a row for
// every setting, filled or not.
func (f Fill) rows(t *table.Table) []Row {
	given := f.Rows[t.Key]
	if t.Key != "job" {
		return given
	}
	rows := make([]Row, len(table.Settings))
	for i, setting := range table.Settings {
		rows[i] = f.settingRow(setting, given)
	}
	return rows
}

// settingRow is the row of a setting: as given, else with its default where the
// default is a value.
func (f Fill) settingRow(setting table.Setting, given []Row) Row {
	row := Row{"setting": setting.Name, "value": f.startValue(setting), "note": settingNote(setting)}
	for _, other := range given {
		if strings.EqualFold(other["setting"], setting.Name) {
			row["value"] = other["value"]
		}
	}
	return row
}

// startValue is what a setting's Value holds in a new workbook: the units, or
// the default where it is a value and not words about one.
func (f Fill) startValue(setting table.Setting) string {
	switch {
	case setting.Key == "lengthunit":
		return f.LengthUnit.String()
	case setting.Key == "areaunit":
		return f.AreaUnit.String()
	case setting.Kind == table.Amount:
		return ""
	}
	return setting.Default
}
