package in

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"laybill/estimate/measure"
	"laybill/sheet/book"
)

// changed builds the sound job, lets change work on the file, and reads it
// again.
func changed(t *testing.T, change func(*excelize.File) error) *book.Book {
	t.Helper()
	var f *excelize.File
	text := workbook(t, small)
	f, err := excelize.OpenReader(text.Source())
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := change(f); err != nil {
		t.Fatal(err)
	}
	data, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.Open(bytes.NewReader(data.Bytes()), int64(data.Len()))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func styled(f *excelize.File, sheet, at, code string, value any) error {
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
	if err != nil {
		return err
	}
	if err := f.SetCellValue(sheet, at, value); err != nil {
		return err
	}
	return f.SetCellStyle(sheet, at, at, style)
}

// What only a workbook holds: formats, merged blocks, hidden rows, dates.
func TestWhatThePersonSees(t *testing.T) {
	tests := []struct {
		name   string
		change func(*excelize.File) error
		want   []string
	}{
		{"binary noise in a price", func(f *excelize.File) error { return f.SetCellDefault("Products", "J3", "19.989999999999998") }, nil},
		{"unit in the cell's format", func(f *excelize.File) error { return styled(f, "Rooms", "D3", `0.00" cm"`, 410) }, nil},
		{"unknown unit in the format", func(f *excelize.File) error { return styled(f, "Rooms", "D3", `0.00" ells"`, 4.1) }, []string{"Rooms!D3 cell-unreadable"}},
		{"length taken for a date", func(f *excelize.File) error { return styled(f, "Rooms", "D3", "d.m", 45292) }, []string{"Rooms!D3 cell-unreadable"}},
		{"price in another currency's format", func(f *excelize.File) error { return styled(f, "Extras", "C2", `[$£-809]#,##0.00`, 240) }, []string{"Extras!C2 currency-differs"}},
		{"price in the job's format", func(f *excelize.File) error { return styled(f, "Extras", "C2", `[$€-407]#,##0.00`, 240) }, nil},
		{"date cell", func(f *excelize.File) error { return styled(f, "Job", "B10", "dd.mm.yyyy", 46112) }, nil},
		{"day that never was", func(f *excelize.File) error { return styled(f, "Job", "B10", "dd.mm.yyyy", 60) }, []string{"Job!B10 cell-unreadable"}},
		{"merged apartment type", func(f *excelize.File) error {
			if err := f.SetCellValue("Rooms", "A3", nil); err != nil {
				return err
			}
			return f.MergeCell("Rooms", "A2", "A3")
		}, nil},
		{"hidden row", func(f *excelize.File) error { return f.SetRowVisible("Rooms", 3, false) }, []string{"Rooms!3 hidden-read"}},
		{"hidden column", func(f *excelize.File) error { return f.SetColVisible("Trades", "B", false) }, []string{"Trades!B1 hidden-read"}},
		{"hidden sheet", func(f *excelize.File) error { return f.SetSheetVisible("Trades", false) }, []string{"Trades hidden-read"}},
		{"spreadsheet's error", func(f *excelize.File) error {
			return f.SetCellDefault("Rooms", "D3", "#REF!")
		}, []string{"Rooms!D3 cell-unreadable"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, problems := Read(changed(t, test.change))
			if diff := cmp.Diff(test.want, brief(problems)); diff != "" {
				t.Error(diff, problems)
			}
		})
	}
}

func TestValuesArriveExactly(t *testing.T) {
	j, problems := Read(changed(t, func(f *excelize.File) error {
		if err := f.SetCellDefault("Products", "J3", "19.989999999999998"); err != nil {
			return err
		}
		return styled(f, "Rooms", "D3", `0.00" cm"`, 410)
	}))
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	if got := j.Products[1].Price.String(); got != "19.99" {
		t.Errorf("price %s, want 19.99", got)
	}
	if got := j.Rooms[1].Outline.Bounds().X1; got != 41*measure.Metre/10 {
		t.Errorf("length %s, want 4100 mm", got)
	}
}

// A folder of text files says the same as the workbook.
func TestFolderOfTextFiles(t *testing.T) {
	folder := fstest.MapFS{}
	for _, part := range strings.Split(small, "-- \n")[0:1] {
		for _, sheet := range strings.Split(part, "-- ")[1:] {
			name, rows, _ := strings.Cut(sheet, " --\n")
			folder[name+".csv"] = &fstest.MapFile{Data: []byte(rows)}
		}
	}
	b, err := book.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	fromFolder, problems := Read(b)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	fromBook, _ := Read(workbook(t, small))
	if len(fromFolder.Rooms) != len(fromBook.Rooms) {
		t.Fatalf("%d rooms, want %d", len(fromFolder.Rooms), len(fromBook.Rooms))
	}
	for i, room := range fromFolder.Rooms {
		if diff := cmp.Diff(fromBook.Rooms[i].Outline, room.Outline); diff != "" {
			t.Error(room.Name, diff)
		}
	}
	folder["Trades.csv"] = &fstest.MapFile{Data: []byte("Trade,Wage\nLayer,24.5\nH\xe4nger,1\n")}
	if b, err = book.OpenFolder(folder); err != nil {
		t.Fatal(err)
	}
	_, problems = Read(b)
	if diff := cmp.Diff([]string{"Trades encoding-guessed"}, brief(problems)); diff != "" {
		t.Error(diff)
	}
}

// A hundred thousand cells with one cause are one problem with a count.
func TestOneProblemForOneCause(t *testing.T) {
	var rows strings.Builder
	for i := range 300 {
		rows.WriteString("A,Extra " + string(rune('a'+i%26)) + strings.Repeat("x", i/26) + ",Walnut floor,4,3\n")
	}
	_, problems := Read(workbook(t, strings.Replace(small, "A,Bed,", rows.String()+"A,Bed,", 1)))
	if len(problems) != 1 || problems[0].Found != `"Walnut floor" (in 300 cells)` || len(problems[0].Also) != mostAlso {
		t.Errorf("%d problems: %v", len(problems), problems)
	}
}
