package notes

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"laybill/estimate/problem"
	"laybill/sheet/book"
)

// lively is a workbook as people keep them: title rows over a merged heading, a
// hidden row, a person's notes, a chart, a list of choices, conditional
// formats, a table, a defined name and a filter.
func lively(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer func() { _ = f.Close() }()
	cells := map[string]any{"A1": "Block 4, rooms", "A3": "Room", "B3": "Length", "A4": "Bed", "B4": "3,8x", "A5": "Bath", "B5": 2.4, "B6": 2.5, "A7": "Hall", "B7": 19.989999999999998}
	var errs []error
	do := func(err error) { errs = append(errs, err) }
	do(f.SetSheetName("Sheet1", "Rooms"))
	for at, value := range cells {
		do(f.SetCellValue("Rooms", at, value))
	}
	_, err := f.NewSheet("Tom's prices")
	do(err)
	do(f.SetCellValue("Tom's prices", "C2", "=1+1"))
	_, err = f.NewSheet("Problems")
	do(err)
	do(f.MergeCell("Rooms", "A1", "B1"))
	do(f.MergeCell("Rooms", "A5", "A6"))
	do(f.SetRowVisible("Rooms", 7, false))
	do(f.AddComment("Rooms", excelize.Comment{Cell: "B4", Author: "Kim", Text: "measured twice"}))
	do(f.AddComment("Rooms", excelize.Comment{Cell: "B7", Author: "Kim", Text: "ask Lee"}))
	do(f.AddChart("Rooms", "F2", &excelize.Chart{Type: excelize.Bar, Series: []excelize.ChartSeries{{Values: "Rooms!$B$4:$B$7"}}}))
	list := excelize.NewDataValidation(true)
	list.SetSqref("C4:C9")
	do(list.SetDropList([]string{"yes", "no"}))
	do(f.AddDataValidation("Rooms", list))
	red, err := f.NewConditionalStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFC7CE"}}})
	do(err)
	do(f.SetConditionalFormat("Rooms", "B4:B9", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Value: "2", Format: &red}}))
	do(f.SetDefinedName(&excelize.DefinedName{Name: "lengths", RefersTo: "Rooms!$B$4:$B$7"}))
	do(f.AddTable("Tom's prices", &excelize.Table{Range: "A1:C3", Name: "prices"}))
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func at(sheet string, row, col int) problem.Ref { return problem.Ref{Sheet: sheet, Row: row, Col: col} }

// faults are in every kind of place.
func faults() problem.List {
	var list problem.List
	list.Add(problem.Problem{Code: problem.CurrencyUnknown, Found: "nothing", Want: "a currency", Fix: "write one"})
	list.Add(problem.Problem{Code: problem.SheetMissing, At: at("Products", 0, 0), Found: "no such sheet", Want: "a sheet", Fix: "add it"})
	list.Add(problem.Problem{Code: problem.HiddenRead, At: at("Rooms", 0, 0), Found: "a hidden sheet", Want: "to be seen", Fix: "unhide it"})
	list.Add(problem.Problem{Code: problem.HeadingMissing, At: at("Rooms", 3, 0), Found: "no column", Want: "a heading", Fix: "add it"})
	list.Add(problem.Problem{Code: problem.CellUnreadable, At: at("Rooms", 4, 2), Found: `"3,8x"`, Want: "a length <m>", Fix: "write one & only one"})
	list.Add(problem.Problem{Code: problem.RoomSizeDoubtful, At: at("Rooms", 4, 2), Found: "_x0041_", Want: "less", Fix: "look"})
	list.Add(problem.Problem{Code: problem.NameRepeated, At: at("Rooms", 6, 1), Also: []problem.Ref{at("Rooms", 4, 1)}, Found: `"Bath"`, Want: "once", Fix: "rename one"})
	list.Add(problem.Problem{Code: problem.PriceZero, At: at("Tom's prices", 2, 3), Found: "=1+1", Want: "a price", Fix: "fill it in"})
	return list
}

func copyOf(t *testing.T, original []byte, problems problem.List) []byte {
	t.Helper()
	b, err := book.OpenBytes(original)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Write(&out, b, problems); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// parts are the bytes of a package's parts, unpacked.
func parts(t *testing.T, data []byte) (names []string, byName map[string]string) {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	byName = map[string]string{}
	for _, f := range archive.File {
		body, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(body)
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, f.Name)
		byName[f.Name] = string(content)
	}
	return names, byName
}

func TestOnlyMarkedPartsChange(t *testing.T) {
	original := lively(t)
	before, old := parts(t, original)
	after, now := parts(t, copyOf(t, original, faults()))
	var changed []string
	for _, name := range before {
		if old[name] != now[name] {
			changed = append(changed, name)
		}
	}
	slices.Sort(changed)
	want := []string{"[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/comments1.xml", "xl/drawings/vmlDrawing1.vml", "xl/styles.xml",
		"xl/workbook.xml", "xl/worksheets/_rels/sheet2.xml.rels", "xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml"}
	if diff := cmp.Diff(want, changed); diff != "" {
		t.Errorf("changed parts (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"xl/worksheets/sheet4.xml", "xl/comments2.xml", "xl/drawings/vmlDrawing2.vml"}, after[len(before):]); diff != "" {
		t.Errorf("added parts (-want +got):\n%s", diff)
	}
	for _, name := range changed {
		if left := withoutMarks(now[name], old[name]); left != "" {
			t.Errorf("%s lost %q", name, left)
		}
	}
	for _, name := range []string{"xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml"} {
		cells, _, _ := strings.Cut(old[name], "</sheetData>")
		if !strings.HasPrefix(now[name], cells) {
			t.Errorf("the cells of %s changed", name)
		}
	}
}

// withoutMarks is what a marked part lacks of the original: every byte of it
// must be there in its order, but for counts and the places of conditional
// formats.
func withoutMarks(now, old string) string {
	plain := func(text string) string {
		text = countMark.ReplaceAllString(text, "")
		return strings.ReplaceAll(strings.ReplaceAll(text, ` priority="1"`, ""), ` priority="2"`, "")
	}
	now, old = plain(now), plain(old)
	i := 0
	for j := 0; i < len(old) && j < len(now); j++ {
		if old[i] == now[j] {
			i++
		}
	}
	return old[i:]
}

func TestMarksAreThere(t *testing.T) {
	original := lively(t)
	f, err := excelize.OpenReader(bytes.NewReader(copyOf(t, original, faults())))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	if diff := cmp.Diff([]string{"Rooms", "Tom's prices", "Problems", "Problems 2"}, f.GetSheetList()); diff != "" {
		t.Fatal(diff)
	}
	wantNotes(t, f, "Rooms", map[string][]string{
		"A1": {"caution: hidden-read", "a hidden sheet"},
		"A3": {"error: heading-missing"},
		"A4": {"error: name-repeated", "See Rooms!A6."},
		"A5": {"error: name-repeated", `Found: "Bath"`},
		"B4": {"measured twice", "error: cell-unreadable", "Expected: a length <m>", "Fix: write one & only one", "warning: room-size-doubtful", "_x0041_"},
		"B7": {"ask Lee"},
	})
	wantNotes(t, f, "Tom's prices", map[string][]string{"C2": {"warning: price-zero", "Found: =1+1"}})
	formats, err := f.GetConditionalFormats("Rooms")
	if err != nil {
		t.Fatal(err)
	}
	if len(formats) != 2 || len(formats["A3 A4 B4 A5"]) != 1 {
		t.Errorf("conditional formats %v", formats)
	}
	wantList(t, f)
}

func wantNotes(t *testing.T, f *excelize.File, sheet string, want map[string][]string) {
	t.Helper()
	comments, err := f.GetComments(sheet)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, c := range comments {
		text := c.Text
		for _, run := range c.Paragraph {
			text += run.Text
		}
		got[c.Cell] = text
	}
	for cell, parts := range want {
		for _, part := range parts {
			if !strings.Contains(strings.ReplaceAll(got[cell], "_x005F_", "_"), part) {
				t.Errorf("the note of %s!%s is %q and lacks %q", sheet, cell, got[cell], part)
			}
		}
	}
	if len(got) != len(want) {
		t.Errorf("%s has %d notes, want %d: %v", sheet, len(got), len(want), got)
	}
}

func wantList(t *testing.T, f *excelize.File) {
	t.Helper()
	rows, err := f.GetRows("Problems 2")
	if err != nil {
		t.Fatal(err)
	}
	var brief []string
	for i, row := range rows {
		_, link, err := f.GetCellHyperLink("Problems 2", fmt.Sprintf("A%d", i+1))
		if err != nil {
			t.Fatal(err)
		}
		brief = append(brief, strings.Join(row[:4], " | ")+" > "+link)
	}
	want := []string{
		"Place | Severity | Problem | Found > ",
		"job | error | currency-unknown | nothing > ",
		"Products | error | sheet-missing | no such sheet > ",
		"Rooms | caution | hidden-read | a hidden sheet > Rooms!A1",
		"Rooms!3 | error | heading-missing | no column > Rooms!A3",
		`Rooms!B4 | error | cell-unreadable | "3,8x" > Rooms!B4`,
		"Rooms!B4 | warning | room-size-doubtful | _x0041_ > Rooms!B4",
		`Rooms!A6 | error | name-repeated | "Bath" > Rooms!A6`,
		"'Tom''s prices'!C2 | warning | price-zero | =1+1 > 'Tom''s prices'!C2",
	}
	if diff := cmp.Diff(want, brief); diff != "" {
		t.Errorf("the list (-want +got):\n%s", diff)
	}
	panes, err := f.GetPanes("Problems 2")
	if err != nil {
		t.Fatal(err)
	}
	if !panes.Freeze || panes.YSplit != 1 {
		t.Errorf("panes %+v", panes)
	}
}

// What the workbook holds is read the same from the copy.
func TestCopyHoldsTheSameCells(t *testing.T) {
	original := lively(t)
	before, err := book.OpenBytes(original)
	if err != nil {
		t.Fatal(err)
	}
	after, err := book.OpenBytes(copyOf(t, original, faults()))
	if err != nil {
		t.Fatal(err)
	}
	for i := range before.Sheets {
		if diff := cmp.Diff(before.Sheets[i].Rows, after.Sheets[i].Rows, cmp.AllowUnexported(book.Cell{})); diff != "" {
			t.Errorf("%s (-before +after):\n%s", before.Sheets[i].Name, diff)
		}
	}
}

func TestCopyOfACopy(t *testing.T) {
	twice := copyOf(t, copyOf(t, lively(t), faults()), faults())
	f, err := excelize.OpenReader(bytes.NewReader(twice))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	if got := f.GetSheetList(); got[len(got)-1] != "Problems 3" {
		t.Errorf("sheets %v", got)
	}
}

func TestSameBytesEachTime(t *testing.T) {
	original := lively(t)
	if !bytes.Equal(copyOf(t, original, faults()), copyOf(t, original, faults())) {
		t.Error("two copies differ")
	}
}

func TestNoProblemsIsSaid(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(copyOf(t, lively(t), nil)))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	if got, _ := f.GetCellValue("Problems 2", "A2"); got != "No problems were found." {
		t.Errorf("A2 is %q", got)
	}
}

// Other programs write other XML: prefixed names, the strict namespaces, no
// styles, nothing behind the cells, parts with absolute names.
func TestOtherWritersFiles(t *testing.T) {
	for _, test := range []struct{ name, prefix, cells, relations string }{
		{"plain", "", cellsOf, relationOf},
		{"prefixed", "x:", cellsOf, relationOf},
		{"strict", "", strictCells, strictOf},
	} {
		t.Run(test.name, func(t *testing.T) {
			marked := copyOf(t, bare(t, test.prefix, test.cells, test.relations), problem.List{{Code: problem.CellMissing, At: at("Rooms", 2, 2), Found: "nothing"}})
			b, err := book.OpenBytes(marked)
			if err != nil {
				t.Fatal(err)
			}
			if got := b.Sheet("Problems").Row(2).Cell(1).Text; got != "Rooms!B2" {
				t.Errorf("the list says %q", got)
			}
			_, now := parts(t, marked)
			for part, want := range map[string]string{
				"xl/comments1.xml":        `ref="B2"`,
				"xl/styles1.xml":          "<dxfs",
				"xl/rooms.xml":            "<" + test.prefix + `conditionalFormatting sqref="B2">`,
				"xl/_rels/rooms.xml.rels": test.relations + "/comments",
			} {
				if !strings.Contains(now[part], want) {
					t.Errorf("%s lacks %s: %s", part, want, now[part])
				}
			}
		})
	}
}

// bare is a workbook with as few parts as one may have.
func bare(t testing.TB, prefix, cells, relations string) []byte {
	t.Helper()
	xmlns := `xmlns="` + cells + `"`
	if prefix != "" {
		xmlns = `xmlns:x="` + cells + `"`
	}
	replace := strings.NewReplacer("P:", prefix, "XMLNS", xmlns, "REL", relations)
	return packed(t, [][2]string{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="` + workbookType + `"/><Override PartName="/xl/rooms.xml" ContentType="` + worksheetType + `"/></Types>`},
		{"_rels/.rels", replace.Replace(`<Relationships xmlns="` + packageOf + `"><Relationship Id="r" Type="REL/officeDocument" Target="/xl/workbook.xml"/></Relationships>`)},
		{"xl/workbook.xml", replace.Replace(`<P:workbook XMLNS xmlns:q="REL"><P:sheets><P:sheet name="Rooms" sheetId="7" q:id="a"/></P:sheets></P:workbook>`)},
		{"xl/_rels/workbook.xml.rels", replace.Replace(`<Relationships xmlns="` + packageOf + `"><Relationship Id="a" Type="REL/worksheet" Target="rooms.xml"/></Relationships>`)},
		{"xl/rooms.xml", replace.Replace(`<P:worksheet XMLNS><P:sheetData><P:row r="1"><P:c r="A1" t="inlineStr"><P:is><P:t>Room</P:t></P:is></P:c></P:row></P:sheetData></P:worksheet>`)},
	})
}

func packed(t testing.TB, files [][2]string) []byte {
	t.Helper()
	var out bytes.Buffer
	archive := zip.NewWriter(&out)
	for _, file := range files {
		w, err := archive.Create(file[0])
		if err == nil {
			_, err = io.WriteString(w, file[1])
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// A workbook that cannot be marked without harm is refused with the reason.
func TestRefusedWorkbooks(t *testing.T) {
	names, sound := parts(t, bare(t, "", cellsOf, relationOf))
	changed := func(name, old, with string, more ...[2]string) []byte {
		var files [][2]string
		for _, n := range names {
			text := sound[n]
			if n == name {
				text = strings.ReplaceAll(text, old, with)
			}
			files = append(files, [2]string{n, text})
		}
		return packed(t, append(files, more...))
	}
	for _, test := range []struct {
		name, why string
		data      []byte
	}{
		{"macros", "macros", changed("[Content_Types].xml", workbookType, "application/vnd.ms-excel.sheet.macroEnabled.main+xml")},
		{"a template", "template", changed("[Content_Types].xml", workbookType, strings.Replace(workbookType, "sheet.main", "template.main", 1))},
		{"a signature", "signed", changed("", "", "", [2]string{"_xmlsignatures/origin.sigs", ""})},
	} {
		t.Run(test.name, func(t *testing.T) {
			b, err := book.OpenBytes(test.data)
			if err != nil {
				t.Fatal(err)
			}
			var fault *Unfit
			if err := Write(io.Discard, b, nil); !errors.As(err, &fault) || !strings.Contains(fault.Why, test.why) {
				t.Errorf("got %v, want a refusal that names %s", err, test.why)
			}
		})
	}
	if err := Write(io.Discard, &book.Book{}, nil); err == nil {
		t.Error("a folder was marked")
	}
}
