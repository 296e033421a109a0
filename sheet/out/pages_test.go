package out_test

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
	"laybill/sheet/book"
	"laybill/sheet/crew"
	"laybill/sheet/in"
)

// worksheet is what a sheet's part says of its printed pages.
type worksheet struct {
	Cols []struct {
		Min   int     `xml:"min,attr"`
		Max   int     `xml:"max,attr"`
		Width float64 `xml:"width,attr"`
	} `xml:"cols>col"`
	Rows    []sheetRow `xml:"sheetData>row"`
	Margins struct {
		Left   float64 `xml:"left,attr"`
		Right  float64 `xml:"right,attr"`
		Top    float64 `xml:"top,attr"`
		Bottom float64 `xml:"bottom,attr"`
	} `xml:"pageMargins"`
	Breaks []struct {
		After int `xml:"id,attr"`
	} `xml:"rowBreaks>brk"`
}

type sheetRow struct {
	Number int     `xml:"r,attr"`
	Height float64 `xml:"ht,attr"`
}

// height is the row's in points; one that states none has the usual fifteen.
func (w worksheet) height(row int) float64 {
	i := slices.IndexFunc(w.Rows, func(r sheetRow) bool { return r.Number == row })
	if i < 0 || w.Rows[i].Height == 0 {
		return 15
	}
	return w.Rows[i].Height
}

// worksheets reads the sheets of a workbook by their names.
func worksheets(t *testing.T, workbook []byte) map[string]worksheet {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		t.Fatal(err)
	}
	f := open(t, workbook)
	sheets := map[string]worksheet{}
	for i, name := range f.GetSheetList() {
		var sheet worksheet
		part, err := r.Open(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1))
		if err != nil {
			t.Fatal(err)
		}
		data, _ := io.ReadAll(part)
		if err := xml.Unmarshal(data, &sheet); err != nil {
			t.Fatal(err)
		}
		sheets[name] = sheet
	}
	return sheets
}

// demoJob is the job that every copy of Laybill carries.
func demoJob(t *testing.T) *job.Job {
	t.Helper()
	b, err := book.OpenFolder(os.DirFS("../../templates/demo"))
	if err != nil {
		t.Fatal(err)
	}
	j, problems := in.Read(b)
	if problems.HasErrors() {
		t.Fatalf("the demo has errors: %v", problems)
	}
	return j
}

// Between two page breaks of a cut list stands no more than a page of paper
// holds, so that a page never ends where a printer happens to; each room of the
// demo has one page, and what to bring stands below the last or has its own. Only
// type B's living room of 23 rows has two on Letter, which is shorter: on one the
// numbers of its pieces would not fit into a drawing so low. The owner's summary
// has two pages.
// Worked from the file alone: ISO 216 A4 is 210 x 297 mm, ANSI Letter 8 1/2 x 11
// in; a column's unit is 7 dots of 96 an inch (ECMA-376 part 1, 18.3.1.13, with
// a digit of 7 dots); row 1 is repeated on every page; a sheet wider than the
// page is made smaller by whole per cent.
func TestPages(t *testing.T) {
	for _, paper := range []struct {
		unit          measure.Unit
		width, height float64 // in
		said          string
		more          map[string]int // pages
	}{
		{unit: measure.MM, width: 210 / 25.4, height: 297 / 25.4},
		{measure.Ft, 8.5, 11, "Room 4: Living (2 pages for this room)", map[string]int{"Cuts B": 1, "Cuts B mirrored": 1}},
	} {
		j := demoJob(t)
		j.Settings.LengthUnit = paper.unit
		r := run(t, j)
		rooms := map[string]int{}
		for _, p := range crew.Of(r).Plans() {
			rooms["Cuts "+p.Name()] = len(p.Rooms)
		}
		workbook := write(t, r)
		if said := saysPages(t, workbook); said != paper.said {
			t.Errorf("%v: says %q, want %q", paper.unit, said, paper.said)
		}
		sheets := worksheets(t, workbook)
		for name, want := range map[string]int{"Summary": 2, "Cost breakdown": 1} {
			if pages := sheets[name].pages(t, name, 3, paper.height, paper.width); pages != want {
				t.Errorf("%v: %s has %d pages, want %d", paper.unit, name, pages, want)
			}
		}
		for name, sheet := range sheets {
			if !strings.HasPrefix(name, "Cuts ") {
				continue
			}
			pages := sheet.pages(t, name, 1, paper.width, paper.height)
			if want := rooms[name] + paper.more[name]; pages != want && pages != want+1 {
				t.Errorf("%v, %s: %d pages for %d rooms", paper.unit, name, pages, rooms[name])
			}
		}
	}
}

// saysPages is the first text that says how many pages a room has; nothing when
// every room has one.
func saysPages(t *testing.T, workbook []byte) string {
	t.Helper()
	f := open(t, workbook)
	for _, name := range f.GetSheetList() {
		rows, err := f.GetRows(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows {
			for _, words := range row {
				if strings.HasSuffix(words, " pages for this room)") {
					return words
				}
			}
		}
	}
	return ""
}

// A room of 64 rows in two fields, 64 x 12.75 points in the smallest type, says how
// many pages it has: the drawing's with the first rows, and another.
func TestRoomOfSeveralPages(t *testing.T) {
	j := demoJob(t)
	room := *j.Rooms[slices.IndexFunc(j.Rooms, func(r *job.Room) bool { return r.Name == "Living" })]
	room.Outline = shape.Rectangle(shape.Box{X1: 9 * measure.Metre, Y1: 6 * measure.Metre})
	room.Fixtures, room.Openings = nil, nil
	j.Rooms = []*job.Room{&room}
	j.Apartments = slices.DeleteFunc(j.Apartments, func(a *job.Apartment) bool { return a.Type != room.Type })
	j.Takeoff, j.Repairs = nil, nil
	workbook := write(t, run(t, j))
	if got, want := saysPages(t, workbook), "Room 1: Living (2 pages for this room)"; got != want {
		t.Errorf("the room says %q, want %q", got, want)
	}
	for name, sheet := range worksheets(t, workbook) {
		if pages := 0; strings.HasPrefix(name, "Cuts ") {
			if pages = sheet.pages(t, name, 1, 210/25.4, 297/25.4); pages != 2 && pages != 3 {
				t.Errorf("%s has %d pages, want 2 and one of what to bring", name, pages)
			}
		}
	}
}

// pages is how many pages are printed of the sheet on paper of a size in inches,
// each with the sheet's first rows repeated.
func (sheet worksheet) pages(t *testing.T, name string, repeated int, width, height float64) int {
	t.Helper()
	const perInch = 72.0
	across := 0.0
	for _, c := range sheet.Cols {
		across += float64(c.Max-c.Min+1) * c.Width * 7 * perInch / 96
	}
	m := sheet.Margins
	percent := min(100, math.Floor(100*(width-m.Left-m.Right)*perInch/across))
	page := (height - m.Top - m.Bottom) * perInch * 100 / percent
	breaks := map[int]bool{}
	for _, b := range sheet.Breaks {
		breaks[b.After] = true
	}
	filled, pages := 0.0, 1
	for row := 1; row <= sheet.Rows[len(sheet.Rows)-1].Number; row++ {
		filled += sheet.height(row)
		if filled > page {
			t.Errorf("%s: page %d is full at row %d: %.0f points on a page of %.0f", name, pages, row, filled, page)
			break
		}
		if breaks[row] {
			filled, pages = 0, pages+1
			for title := range repeated {
				filled += sheet.height(title + 1)
			}
		}
	}
	return pages
}
