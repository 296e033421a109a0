package form

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"laybill/estimate/problem"
	"laybill/sheet/table"
)

// tableSheet makes the sheet of one table: a line that says what it holds, the
// headings, the rows.
func (b *builder) tableSheet(t *table.Table) {
	rows := b.fill.rows(t)
	last := firstRow + len(rows) - 1
	b.columnStyles(t, rows)
	b.set(t.Sheet, titleRow, 1, sheetTitle(t), b.styles.help)
	for i, column := range t.Columns {
		b.heading(t, i+1, column)
	}
	for i, row := range rows {
		b.row(t, firstRow+i, row)
	}
	if len(rows) == 0 {
		b.sample(t)
	}
	b.frame(t.Sheet, len(t.Columns), max(last, firstRow))
	if t.Key == "job" {
		b.settingLists(t.Sheet)
		return
	}
	for i, column := range t.Columns {
		b.dropDown(t, column, i+1, last+spareRows)
	}
}

// sheetTitle is the line above the headings.
func sheetTitle(t *table.Table) string {
	text := fmt.Sprintf("%s: each row is %s. %s", t.Sheet, t.Row, t.Help)
	return strings.TrimSpace(text) + " A heading with * must be filled in; point at a heading to read its note."
}

func (b *builder) columnStyles(t *table.Table, rows []Row) {
	for i, column := range t.Columns {
		name := problem.ColumnName(i + 1)
		b.do(b.file.SetColStyle(t.Sheet, name, b.styles.number[formatOf(column.Kind)]))
		b.do(b.file.SetColWidth(t.Sheet, name, name, columnWidth(column, rows)))
	}
}

// columnWidth fits the heading with its mark and the longest text, in
// characters.
func columnWidth(column table.Column, rows []Row) float64 {
	const least = 10
	most := longestWidth(column)
	width := max(least, utf8.RuneCountInString(column.Heading)+4)
	for _, row := range rows {
		width = max(width, min(most, utf8.RuneCountInString(row[column.Key])+2))
	}
	if column.Kind == table.Legs {
		width = most
	}
	return float64(width)
}

// longestWidth is where the width of a column stops, in characters.
func longestWidth(column table.Column) int {
	if column.Key == "note" {
		return noteWidth
	}
	return 44
}

// noteWidth is the most characters that a line of a note column holds.
const noteWidth = 80

// fitHeight makes a row as high as a wrapped text in a column of this width
// needs: the library does not measure text.
func (b *builder) fitHeight(sheet string, row int, text string, width int) {
	const lineHeight = 15 // points, for 11 point text
	if lines := 1 + utf8.RuneCountInString(text)/width; lines > 1 {
		b.do(b.file.SetRowHeight(sheet, row, float64(lines*lineHeight)))
	}
}

func (b *builder) heading(t *table.Table, col int, column table.Column) {
	style := b.styles.heading
	if column.Required {
		style = b.styles.required
	}
	b.set(t.Sheet, headingRow, col, column.Heading, style)
	b.comment(t.Sheet, headingRow, col, b.columnNote(t, column))
}

// comment puts a note on a cell, large enough for its text.
func (b *builder) comment(sheet string, row, col int, text string) {
	const charactersALine, width, lineHeight = 44, 300, 17
	lines := 1
	for _, line := range strings.Split(text, "\n") {
		lines += 1 + utf8.RuneCountInString(line)/charactersALine
	}
	b.do(b.file.AddComment(sheet, excelize.Comment{
		Cell: cellName(row, col), Author: "Laybill", Width: width, Height: uint(lines * lineHeight),
		Paragraph: []excelize.RichTextRun{{Text: text, Font: &excelize.Font{Family: fontFamily, Size: 10}}},
	}))
}

func (b *builder) row(t *table.Table, row int, values Row) {
	for i, column := range t.Columns {
		kind, style := kindOf(t, column, values), 0
		if t.Key == "job" {
			style = b.settingStyle(column, values)
		}
		if style == 0 {
			style = b.styles.number[formatOf(kind)]
		}
		b.value(t.Sheet, row, i+1, kind, values[column.Key], style)
	}
	if t.Key == "job" {
		b.fitHeight(t.Sheet, row, values["note"], noteWidth)
	}
}

// sample writes the table's example row. It is grey, and its first cell begins
// with a mark by which the reader leaves the row out until that cell is
// overwritten.
func (b *builder) sample(t *table.Table) {
	values, there := b.fill.Samples[t.Key]
	if !there {
		return
	}
	for i, column := range t.Columns {
		if i == 0 {
			b.value(t.Sheet, firstRow, 1, table.Text, table.ExampleMark+" "+values[column.Key], b.styles.sample[textFormat])
			continue
		}
		b.value(t.Sheet, firstRow, i+1, column.Kind, values[column.Key], b.styles.sample[formatOf(column.Kind)])
	}
}

// kindOf is what a cell holds: what its column says, or its setting.
func kindOf(t *table.Table, column table.Column, values Row) table.Kind {
	if setting := settingNamed(values["setting"]); t.Key == "job" && column.Kind == table.Value && setting != nil {
		return setting.Kind
	}
	return column.Kind
}

// settingStyle is the style of a cell of the Job sheet; 0 for the usual one.
func (b *builder) settingStyle(column table.Column, values Row) int {
	setting := settingNamed(values["setting"])
	switch {
	case column.Key == "value" && setting != nil:
		return b.styles.setting[formatOf(setting.Kind)]
	case column.Key == "setting" && setting != nil && setting.Required:
		return b.styles.mustBeSet
	case column.Key == "note":
		return b.styles.note
	}
	return 0
}

func settingNamed(name string) *table.Setting {
	for i := range table.Settings {
		if strings.EqualFold(table.Settings[i].Name, name) {
			return &table.Settings[i]
		}
	}
	return nil
}

// value writes one cell: a number or a date where the kind takes one and the
// text is one, else text.
func (b *builder) value(sheet string, row, col int, kind table.Kind, text string, style int) {
	cell := cellName(row, col)
	if text != "" {
		b.do(b.content(sheet, cell, kind, text))
	}
	b.do(b.file.SetCellStyle(sheet, cell, cell, style))
}

func (b *builder) content(sheet, cell string, kind table.Kind, text string) error {
	switch {
	case kind == table.Date:
		if day, err := time.Parse(time.DateOnly, text); err == nil {
			return b.file.SetCellDefault(sheet, cell, serial(day))
		}
	case formatOf(kind) != textFormat:
		if number, err := decimal.NewFromString(text); err == nil {
			return b.file.SetCellDefault(sheet, cell, number.String())
		}
	}
	return b.file.SetCellStr(sheet, cell, text)
}

// serial is the day as a workbook counts days: 1 is the first of January 1900,
// and from March 1900 on one more, for a leap day that never was.
func serial(day time.Time) string {
	origin := time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC)
	return fmt.Sprint(int(day.Sub(origin).Hours() / 24))
}

func (b *builder) set(sheet string, row, col int, text string, style int) {
	cell := cellName(row, col)
	b.do(b.file.SetCellStr(sheet, cell, text))
	b.do(b.file.SetCellStyle(sheet, cell, cell, style))
}

// frame freezes the headings, lets the rows be filtered and sets the page up.
func (b *builder) frame(sheet string, columns, last int) {
	b.do(b.file.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: headingRow, TopLeftCell: cellName(firstRow, 1), ActivePane: "bottomLeft"}))
	headings := cellName(headingRow, 1) + ":" + cellName(last, columns)
	b.do(b.file.AutoFilter(sheet, headings, nil))
	b.do(b.file.SetDefinedName(&excelize.DefinedName{
		Name: "_xlnm.Print_Titles", Scope: sheet,
		RefersTo: fmt.Sprintf("%s!$%d:$%d", quoted(sheet), headingRow, headingRow),
	}))
	b.page(sheet, "landscape")
}

func (b *builder) page(sheet, orientation string) {
	fit, a4, once, anyNumber := true, 9, 1, 0
	b.do(b.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.do(b.file.SetPageLayout(sheet, &excelize.PageLayoutOptions{Size: &a4, Orientation: &orientation, FitToWidth: &once, FitToHeight: &anyNumber}))
	b.do(b.file.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"}))
}

func cellName(row, col int) string { return fmt.Sprintf("%s%d", problem.ColumnName(col), row) }

// quoted is a sheet's name as formulas write it, always in quotes.
func quoted(sheet string) string { return "'" + strings.ReplaceAll(sheet, "'", "''") + "'" }
