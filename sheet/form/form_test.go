package form

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/sheet/table"
)

// filled opens a new workbook as a person would.
func filled(t *testing.T, fill Fill) *excelize.File {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, fill); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&out)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	return f
}

func TestEveryColumnHasItsHeadingNoteAndMark(t *testing.T) {
	f := filled(t, Fill{Title: "Job", LengthUnit: measure.MM})
	for i := range table.Tables {
		each := &table.Tables[i]
		comments, err := f.GetComments(each.Sheet)
		if err != nil {
			t.Fatal(err)
		}
		notes := map[string]string{}
		for _, comment := range comments {
			notes[comment.Cell] = comment.Text
			for _, run := range comment.Paragraph {
				notes[comment.Cell] += run.Text
			}
		}
		for col, column := range each.Columns {
			cell := cellName(headingRow, col+1)
			shown, err := f.GetCellValue(each.Sheet, cell, excelize.Options{RawCellValue: true})
			if err != nil {
				t.Fatal(err)
			}
			if shown != column.Heading {
				t.Errorf("%s!%s holds %q, want %q", each.Sheet, cell, shown, column.Heading)
			}
			if got := formatAt(t, f, each.Sheet, cell) == `@" *"`; got != column.Required {
				t.Errorf("%s!%s is marked as required: %t, want %t", each.Sheet, cell, got, column.Required)
			}
			for _, part := range []string{column.Help, column.Default} {
				if !strings.Contains(notes[cell], part) {
					t.Errorf("the note of %s!%s is %q and lacks %q", each.Sheet, cell, notes[cell], part)
				}
			}
		}
	}
}

// formatAt is the number format of a cell.
func formatAt(t *testing.T, f *excelize.File, sheet, cell string) string {
	t.Helper()
	id, err := f.GetCellStyle(sheet, cell)
	if err != nil {
		t.Fatal(err)
	}
	style, err := f.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	if style.CustomNumFmt == nil {
		return ""
	}
	return *style.CustomNumFmt
}

func TestJobListsEverySetting(t *testing.T) {
	f := filled(t, Fill{Title: "Job", LengthUnit: measure.Ft, AreaUnit: measure.Ft2,
		Rows: map[string][]Row{"job": {{"setting": "overhead %", "value": "9"}}}})
	values := map[string]string{}
	for i := range table.Settings {
		name, _ := f.GetCellValue("Job", cellName(firstRow+i, 1), excelize.Options{RawCellValue: true})
		values[name], _ = f.GetCellValue("Job", cellName(firstRow+i, 2))
	}
	for name, want := range map[string]string{"Overhead %": "9", "Length unit": "ft", "Area unit": "ft2", "Crews": "1", "Off-cut sharing": "apartment", "Price rounding step": ""} {
		if got, listed := values[name]; !listed || got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	if len(values) != len(table.Settings) {
		t.Errorf("%d settings, want %d", len(values), len(table.Settings))
	}
}

// 16 November 2026 is day 46342: 46 023 is 1 January 2026, and 319 days follow.
func TestCellsHoldWhatTheirKindTakes(t *testing.T) {
	f := filled(t, Fill{Title: "Job", Rows: map[string][]Row{
		"rooms":      {{"room": "007", "length": "3820", "width": `12' 6 1/2"`}},
		"apartments": {{"apartment": "1-2", "type": "A", "start": "2026-11-16"}},
		"products":   {{"code": "P", "price": "4.8375"}},
	}})
	for _, test := range []struct{ sheet, column, kind, raw string }{
		{"Rooms", "room", "text", "007"},
		{"Rooms", "length", "number", "3820"},
		{"Rooms", "width", "text", `12' 6 1/2"`},
		{"Apartments", "apartment", "text", "1-2"},
		{"Apartments", "start", "number", "46342"},
		{"Products", "price", "number", "4.8375"},
	} {
		cell := cellName(firstRow, columnOf(t, test.sheet, test.column))
		raw, err := f.GetCellValue(test.sheet, cell, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		kind, err := f.GetCellType(test.sheet, cell)
		if err != nil {
			t.Fatal(err)
		}
		isText := kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString
		if raw != test.raw || isText != (test.kind == "text") {
			t.Errorf("%s!%s holds %q (type %v), want the %s %q", test.sheet, cell, raw, kind, test.kind, test.raw)
		}
	}
}

func columnOf(t *testing.T, sheet, key string) int {
	t.Helper()
	for i := range table.Tables {
		if table.Tables[i].Sheet != sheet {
			continue
		}
		for col, column := range table.Tables[i].Columns {
			if column.Key == key {
				return col + 1
			}
		}
	}
	t.Fatalf("sheet %s has no column %s", sheet, key)
	return 0
}

// The measures are too many for a cell's rule: their list is that of the How-to
// sheet, word by word, and no other list refers there.
func TestMeasuresAreListedOnTheHowToSheet(t *testing.T) {
	if len(table.MeasureHelp) != len(job.Measures) {
		t.Fatalf("%d measures explained, %d declared", len(table.MeasureHelp), len(job.Measures))
	}
	f := filled(t, Fill{Title: "Job"})
	lists := 0
	for i := range table.Tables {
		rules, err := f.GetDataValidations(table.Tables[i].Sheet)
		if err != nil {
			t.Fatal(err)
		}
		for _, rule := range rules {
			var first, last int
			if n, _ := fmt.Sscanf(rule.Formula1, "'How to'!$A$%d:$A$%d", &first, &last); n < 2 {
				continue
			}
			lists++
			for k, word := range job.Measures {
				if got, _ := f.GetCellValue("How to", fmt.Sprintf("A%d", first+k)); got != word || first+len(job.Measures)-1 != last {
					t.Errorf("%s: %q, want %q", rule.Formula1, got, word)
				}
			}
		}
	}
	if want := 2; lists != want {
		t.Errorf("%d lists of measures, want those of Build-ups and Operations", lists)
	}
}

// ECMA-376 part 1, 18.3.1.32 keeps a list written into the cell rule under 256
// characters, and a comma parts its items.
func TestWordListsFit(t *testing.T) {
	f := filled(t, Fill{Title: "Job"})
	for i := range table.Tables {
		rules, err := f.GetDataValidations(table.Tables[i].Sheet)
		if err != nil {
			t.Fatal(err)
		}
		for _, rule := range rules {
			if n := len(utf16.Encode([]rune(rule.Formula1))); rule.Type == "list" && strings.HasPrefix(rule.Formula1, `"`) && n > 257 {
				t.Errorf("%s %s: a list of %d characters", table.Tables[i].Sheet, rule.Sqref, n)
			}
		}
		for _, column := range table.Tables[i].Columns {
			words, closed := listed(column.Kind, column.Choices)
			for _, word := range words {
				if strings.Contains(word, ",") {
					t.Errorf("%s %s: %q would be parted", table.Tables[i].Sheet, column.Heading, word)
				}
			}
			if column.Kind == table.Choice && !closed {
				t.Errorf("%s %s takes words outside its list", table.Tables[i].Sheet, column.Heading)
			}
		}
	}
}

// Every column that refers to another table offers its codes, or asks about
// unknown ones where there are two tables.
func TestCodeLists(t *testing.T) {
	f := filled(t, Fill{Title: "Job"})
	for i := range table.Tables {
		each := &table.Tables[i]
		rules, err := f.GetDataValidations(each.Sheet)
		if err != nil {
			t.Fatal(err)
		}
		for col, column := range each.Columns {
			if column.Kind != table.Reference {
				continue
			}
			found := false
			for _, rule := range rules {
				if strings.HasPrefix(rule.Sqref, cellName(firstRow, col+1)+":") {
					found = true
					for _, sheet := range referredSheets(column) {
						if !strings.Contains(rule.Formula1, quoted(sheet)) {
							t.Errorf("%s %s: the list %q does not reach %s", each.Sheet, column.Heading, rule.Formula1, sheet)
						}
					}
				}
			}
			if !found {
				t.Errorf("%s %s has no list", each.Sheet, column.Heading)
			}
		}
	}
}
