package book

import (
	"fmt"
	"strconv"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// dump writes a book as text: one line a cell.
func dump(b *Book) []string {
	kinds := [...]string{"empty", "text", "number", "bool", "error", "date", "time", "formula"}
	var lines []string
	for _, s := range b.Sheets {
		for _, row := range s.Rows {
			for _, c := range row.Cells {
				line := fmt.Sprintf("%s!%s %s %q", s.Name, cellName(row.Number, int(c.Col)), kinds[c.Kind], b.Shown(c))
				if c.Computed {
					line += " computed"
				}
				if row.Hidden {
					line += " hidden"
				}
				lines = append(lines, line)
			}
		}
	}
	return lines
}

func TestSheetCells(t *testing.T) {
	tests := []struct {
		name, data string
		want       []string
	}{
		{"shared text", `<row r="1"><c r="A1" t="s"><v>0</v></c></row>`, []string{`Rooms!A1 text "Bed 1"`}},
		{"rich text without phonetic reading", `<row r="1"><c r="A1" t="s"><v>1</v></c></row>`, []string{`Rooms!A1 text "Bed 2"`}},
		{"inline text", `<row r="2"><c r="C2" t="inlineStr"><is><r><t>a &amp; </t></r><r><t>b&#xB2;</t></r></is></c></row>`, []string{`Rooms!C2 text "a & b²"`}},
		{"escaped character", `<row r="1"><c r="A1" t="inlineStr"><is><t>a_x000D_b_x005F_x0041_</t></is></c></row>`, []string{`Rooms!A1 text "a\rb_x0041_"`}},
		{"character data section", `<row r="1"><c r="A1" t="str"><f>x</f><v><![CDATA[a<b]]></v></c></row>`, []string{`Rooms!A1 text "a<b" computed`}},
		{"no r attributes", `<row><c><v>1</v></c><c/><c><v>2</v></c></row><row><c><v>3</v></c></row>`,
			[]string{`Rooms!A1 number "1"`, `Rooms!C1 number "2"`, `Rooms!A2 number "3"`}},
		{"comments and white space", "<!-- > <row --> \n<row r='7'><!-- x --><c r='B7' ><v > 5 </v ></c ></row >", []string{`Rooms!B7 number "5"`}},
		{"percent", `<row r="1"><c r="A1" s="1"><v>8.2500000000000004E-2</v></c></row>`, []string{`Rooms!A1 number "8.25 %"`}},
		{"unit in the format", `<row r="1"><c r="A1" s="3"><v>3.82</v></c></row>`, []string{`Rooms!A1 number "3.82 m"`}},
		{"date", `<row r="1"><c r="A1" s="2"><v>45292</v></c></row>`, []string{`Rooms!A1 date "2024-01-01"`}},
		{"date in an unquoted format", `<row r="1"><c r="A1" s="4"><v>45292.5</v></c></row>`, []string{`Rooms!A1 date "2024-01-01T12:00:00"`}},
		{"day that never was", `<row r="1"><c r="A1" s="2"><v>60</v></c></row>`, []string{`Rooms!A1 date "1900-02-29"`}},
		{"time", `<row r="1"><c r="A1" s="5"><v>0.3333333333333333</v></c></row>`, []string{`Rooms!A1 time "8:00:00"`}},
		{"ISO date of a strict file", `<row r="1"><c r="A1" t="d"><v>2026-03-01</v></c></row>`, []string{`Rooms!A1 date "2026-03-01"`}},
		{"boolean", `<row r="1"><c r="A1" t="b"><v>1</v></c><c r="B1" t="b"><v>false</v></c></row>`, []string{`Rooms!A1 bool "TRUE"`, `Rooms!B1 bool "FALSE"`}},
		{"error", `<row r="1"><c r="A1" t="e"><f>A0</f><v>#REF!</v></c></row>`, []string{`Rooms!A1 error "#REF!" computed`}},
		{"formula with a value", `<row r="1"><c r="A1"><f>1+1</f><v>2</v></c></row>`, []string{`Rooms!A1 number "2" computed`}},
		{"formula without a value", `<row r="1"><c r="A1"><f>1+1</f></c></row>`, []string{`Rooms!A1 formula "=1+1"`}},
		{"formula with an empty value", `<row r="1"><c r="A1"><f>1+1</f><v></v></c></row>`, []string{`Rooms!A1 formula "=1+1"`}},
		{"formula that gave an empty text", `<row r="1"><c r="A1" t="str"><f>""</f><v></v></c></row>`, nil},
		{"hidden row", `<row r="1" hidden="1"><c r="A1"><v>1</v></c></row>`, []string{`Rooms!A1 number "1" hidden`}},
		{"styled empty cells", `<row r="1"><c r="A1" s="1"/><c r="XFD1" s="2"></c></row>`, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b, err := OpenBytes(minimal(test.data).zip(t))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, dump(b)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestWorkbookForms(t *testing.T) {
	data := `<row r="1"><c r="A1" s="2"><v>43830</v></c></row>`
	want := []string{`Rooms!A1 date "2019-12-31"`}
	base := minimal(data)
	sheet := base["xl/worksheets/sheet1.xml"]
	tests := []struct {
		name  string
		parts parts
		want  []string
	}{
		{"plain", base, want},
		{"absolute part path", base.replaced(t, "xl/_rels/workbook.xml.rels", `"worksheets/`, `"/xl/worksheets/`), want},
		{"capitals in part names", base.replaced(t, "xl/_rels/workbook.xml.rels", `"worksheets/`, `"Worksheets/`), want},
		{"strict namespaces", base.replaced(t, "xl/_rels/workbook.xml.rels", "http://schemas.openxmlformats.org/officeDocument/2006/relationships", "http://purl.oclc.org/ooxml/officeDocument/relationships"), want},
		{"byte order mark", base.with("xl/worksheets/sheet1.xml", "\xef\xbb\xbf"+sheet), want},
		{"UTF-16 part", base.with("xl/worksheets/sheet1.xml", utf16LE("\ufeff<?xml version=\"1.0\" encoding=\"UTF-16\"?><worksheet><sheetData>"+data+"</sheetData></worksheet>")), want},
		{"prefixed names", base.with("xl/worksheets/sheet1.xml", `<x:worksheet xmlns:x="m"><x:sheetData><x:row r="1"><x:c r="A1" s="2"><x:v>43830</x:v></x:c></x:row></x:sheetData></x:worksheet>`), want},
		{"dimension that lies", base.with("xl/worksheets/sheet1.xml", `<worksheet><dimension ref="A1:XFD1048576"/><sheetData>`+data+`</sheetData></worksheet>`), want},
		// The two date systems lie 1,462 days apart (ECMA-376 part 1, 18.17.4.1): 2019-12-31 + 1462 d = 2024-01-01.
		{"1904 dates", base.replaced(t, "xl/workbook.xml", "<sheets>", `<workbookPr date1904="1"/><sheets>`), []string{`Rooms!A1 date "2024-01-01"`}},
		{"no styles", base.without("xl/styles.xml").replaced(t, "xl/_rels/workbook.xml.rels", "relationships/styles", "relationships/other"), []string{`Rooms!A1 number "43830"`}},
		{"name with entities", base.replaced(t, "xl/workbook.xml", `"Rooms"`, `"A &amp; B"`), []string{`A & B!A1 date "2019-12-31"`}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b, err := OpenBytes(test.parts.zip(t))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, dump(b)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func utf16LE(s string) string {
	var out []byte
	for _, u := range utf16.Encode([]rune(s)) {
		out = append(out, byte(u), byte(u>>8))
	}
	return string(out)
}

func TestSheetSurroundings(t *testing.T) {
	p := minimal("").with("xl/worksheets/sheet1.xml", `<worksheet><cols><col min="2" max="3" hidden="1"/><col min="5" max="5"/></cols>`+
		`<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData><mergeCells><mergeCell ref="A1:B4"/></mergeCells></worksheet>`)
	p = p.replaced(t, "xl/workbook.xml", `sheetId="1"`, `sheetId="1" state="veryHidden"`)
	b, err := OpenBytes(p.zip(t))
	if err != nil {
		t.Fatal(err)
	}
	s := b.Sheet("ROOMS")
	if s == nil || s.Visibility != VeryHidden {
		t.Fatalf("sheet: %+v", s)
	}
	if diff := cmp.Diff([]Range{{1, 1, 4, 2}}, s.Merged); diff != "" {
		t.Error(diff)
	}
	for col, want := range map[int]bool{1: false, 2: true, 3: true, 4: false, 5: false} {
		if s.ColumnHidden(col) != want {
			t.Errorf("column %d hidden: %v", col, !want)
		}
	}
	if got := s.Row(1).Cell(1).Text; got != "1" {
		t.Errorf("A1 = %q", got)
	}
	if s.Row(1).Cell(2).Kind != Empty || s.Row(9).Cell(1).Kind != Empty {
		t.Error("cells that are not there are not empty")
	}
}

// TestExcelizeFiles reads files that the library wrote, with every kind of
// value, against what was put in.
func TestExcelizeFiles(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(f.SetSheetName("Sheet1", "Products"))
	percent, err := f.NewStyle(&excelize.Style{NumFmt: 10})
	must(err)
	must(f.SetCellValue("Products", "A1", "Oak <rustic> & plain"))
	must(f.SetCellValue("Products", "B1", 19.99))
	must(f.SetCellValue("Products", "C1", 0.0825))
	must(f.SetCellStyle("Products", "C1", "C1", percent))
	must(f.SetCellValue("Products", "D1", true))
	must(f.SetCellFormula("Products", "E1", "B1*2"))
	must(f.SetCellRichText("Products", "F1", []excelize.RichTextRun{{Text: "two "}, {Text: "runs"}}))
	_, err = f.NewSheet("Rooms level 2")
	must(err)
	must(f.SetCellValue("Rooms level 2", "B3", "x"))
	must(f.SetSheetVisible("Rooms level 2", false))
	data, err := f.WriteToBuffer()
	must(err)
	b, err := OpenBytes(data.Bytes())
	must(err)
	want := []string{
		`Products!A1 text "Oak <rustic> & plain"`, `Products!B1 number "19.99"`, `Products!C1 number "8.25 %"`,
		`Products!D1 bool "TRUE"`, `Products!E1 formula "=B1*2"`, `Products!F1 text "two runs"`, `Rooms level 2!B3 text "x"`,
	}
	if diff := cmp.Diff(want, dump(b)); diff != "" {
		t.Error(diff)
	}
	if b.Sheets[1].Visibility != Hidden {
		t.Error("the second sheet is not hidden")
	}
}

func TestDecimalRule(t *testing.T) {
	tests := []struct{ raw, want string }{
		{"19.989999999999998", "19.99"}, // the double nearest to 19.99, printed with 17 digits
		{"4.8899999999999997", "4.89"},
		{"0.30000000000000004", "0.3"}, // 0.1 + 0.2 in doubles
		{"8.2500000000000004E-2", "0.0825"},
		{"1234567.89", "1234567.89"},
		{"3.50", "3.5"}, {"007", "7"}, {"+5", "5"}, {"-0", "0"}, {"-0.0", "0"}, {".5", "0.5"}, {"5.", "5"},
		{"1E3", "1000"}, {"1.5e-3", "0.0015"}, {"123456789012345678", "123456789012346000"},
		{"1E300", "1E300"}, {"-2.5E-100", "-25E-101"}, {"1000000000000000000", "1000000000000000000"},
	}
	for _, test := range tests {
		got, ok := appendDecimal(nil, []byte(test.raw))
		if !ok || string(got) != test.want {
			t.Errorf("%s: got %s %v, want %s", test.raw, got, ok, test.want)
		}
	}
	for _, raw := range []string{"", "-", ".", "e5", "1e", "1,5", "INF", "NaN", "0x10", "1 2", "١", "1e99999", "99999999999999999e999"} {
		if got, ok := appendDecimal(nil, []byte(raw)); ok {
			t.Errorf("%q was read as %s", raw, got)
		}
	}
}

// Every decimal of up to 15 digits comes back from the double nearest to it,
// however many digits of the double are stored.
func TestDecimalsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-999_999_999_999_999, 999_999_999_999_999).Draw(t, "n")
		places := rapid.IntRange(0, 15).Draw(t, "places")
		want := movePoint(strconv.FormatInt(n, 10), -places)
		x, err := strconv.ParseFloat(want, 64)
		if err != nil {
			t.Fatal(err)
		}
		for _, digits := range []int{-1, 16} {
			raw := strconv.FormatFloat(x, 'e', digits, 64)
			got, ok := appendDecimal(nil, []byte(raw))
			if !ok || string(got) != want {
				t.Fatalf("%s stored as %s: got %s", want, raw, got)
			}
		}
	})
}

func TestFormatCodes(t *testing.T) {
	tests := []struct {
		code string
		want Format
	}{
		{"General", Format{}}, {"0.00", Format{}}, {"#,##0.00", Format{}}, {"@", Format{}}, {"", Format{}}, {"# ?/?", Format{}},
		{"0.00E+00", Format{}}, {"[Red]0;[Blue]-0", Format{}}, {"0;d", Format{}}, {`"`, Format{}}, {`\`, Format{}}, {"[", Format{}},
		{"0%", Format{Kind: Percent}}, {"0.00 %", Format{Kind: Percent}}, {`0"%"`, Format{Unit: "%"}},
		{"yyyy-mm-dd", Format{Kind: DateForm}}, {"d.m", Format{Kind: DateForm}}, {"mmm", Format{Kind: DateForm}},
		{"[$-409]d-mmm-yy;@", Format{Kind: DateForm}}, {"dd/mm/yyyy hh:mm", Format{Kind: DateForm}},
		{"h:mm AM/PM", Format{Kind: TimeForm}}, {"[h]:mm", Format{Kind: TimeForm}}, {"mm:ss.0", Format{Kind: TimeForm}},
		{`0.00" m"`, Format{Unit: "m"}}, {`#,##0\ \m\m`, Format{Unit: "mm"}}, {`0.0" m²";-0.0" m²"`, Format{Unit: "m²"}}, {`General" ft"`, Format{Unit: "ft"}},
		{`[$€-407]#,##0.00`, Format{Currency: "€"}}, {`"$"#,##0.00`, Format{}}, {`$#,##0.00`, Format{Currency: "$"}}, {`#,##0.00 [$CHF]`, Format{Currency: "CHF"}},
	}
	for _, test := range tests {
		if got := parseFormat(test.code); got != test.want {
			t.Errorf("%s: got %+v, want %+v", test.code, got, test.want)
		}
	}
}
