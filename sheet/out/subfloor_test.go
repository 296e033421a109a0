package out_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// surveyedJob is the tiny job with the store of every apartment surveyed: level
// corners and a hollow of 15 mm in the middle, and compound in the build-up.
func surveyedJob(t *testing.T) *job.Job {
	j := tinyJob(t)
	mm := measure.Millimetre
	store := j.Rooms[0]
	for _, r := range [][3]measure.Length{{0, 0, 0}, {1200, 0, 0}, {1200, 984, 0}, {0, 984, 0}, {600, 492, -15}} {
		store.Readings = append(store.Readings, job.Reading{At: shape.Point{X: r[0] * mm, Y: r[1] * mm}, Height: r[2] * mm})
	}
	store.Flatness = job.Group3
	compound := &job.Product{Code: "LEV", Kind: job.Compound, SoldBy: job.PerBag, PricePer: job.PerBag, Price: decimal.NewFromInt(20), OrderStep: decimal.NewFromInt(1),
		Weight: decimal.NewFromInt(25), Spread: decimal.New(17, -1), Supplier: j.Suppliers[0]}
	j.Products = append(j.Products, compound)
	b := j.BuildUps[0]
	b.Lines = append(b.Lines, &job.Line{Order: 9, Product: compound, Measure: job.AreaDepth, Factor: decimal.NewFromInt(1)})
	return j
}

// rowOf is the cells of a list's row by their headings.
func rowOf(t *testing.T, f *excelize.File, sheet string, row int) map[string]string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	if err != nil || len(rows) < row {
		t.Fatalf("%s has no row %d: %v", sheet, row, err)
	}
	cells := map[string]string{}
	for i, heading := range rows[3] {
		if i < len(rows[row-1]) && strings.Trim(rows[row-1][i], "0.") != "" { // noughts are not shown
			cells[heading] = rows[row-1][i]
		}
	}
	return cells
}

// Over the diagonal of 1.552 m group 3 allows 4 + 6 x 0.552 / 3 = 5.1, rounded
// 5 mm, and the hollow is 15 mm deep. The plane lies 3 mm below the corners;
// under it is a pyramid of 12 mm over 1.1808 x (12/15)2 m2: 3.0228 m2 x mm, at
// 1.7 kg 5.14 kg, 0.21 bags, at 20.00 less 5 % a bag 3.91. 12 mm dry 1 + 9 days (common
// practice). The other room of the apartment is not surveyed.
func TestSubfloorSheets(t *testing.T) {
	f := open(t, write(t, run(t, surveyedJob(t))))
	got := rowOf(t, f, "Subfloor", 6) // after the box
	want := map[string]string{"Apartment": "101", "Room": "Store", "Subfloor": "not said", "Floor m2": "1.18", "Film": "open", "Readings": "5", "Group": "group 3", "Break it, of all": "2 of 10",
		"Worst off by": "-15.0", "Allowed": "5.0", "Over m": "1.55", "Plane": "-3.0 mm", "Mean depth": "2.6", "Most depth": "12.0", "Drying days": "10",
		"Compound x mm": "3.02", "Compound kg": "5.14", "Bags": "0.21", "Cost only filled": "3.91", "Cost as counted": "3.91"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("Subfloor (-want +got):\n%s", diff)
	}
	// One survey for the type, one for its mirror image.
	if rows, _ := f.GetRows("Flatness"); len(rows) != 4+4 || rows[4][0] != "type A" || rows[6][0] != "type A, mirrored" {
		t.Errorf("Flatness has the rows %v", rows[4:])
	}
	if diff := cmp.Diff(map[string]string{"Place": "101", "Rooms": "2", "Subfloor m2": "1.71", "Tests": "3"}, rowOf(t, f, "Moisture tests", 5)); diff != "" {
		t.Errorf("Moisture tests (-want +got):\n%s", diff)
	}
	if matter := rowOf(t, f, "Hold points", 7)["Matter"]; matter != "drying" {
		t.Errorf("the third hold point is about %s", matter)
	}
}

// The formulas of the sheets give what is stored beside them.
func TestSubfloorFormulasHoldTheirResults(t *testing.T) {
	f := open(t, write(t, run(t, surveyedJob(t))))
	formulas := 0
	eachCell(t, f, func(sheet, cell, value, formula string) {
		if formula == "" || sheet != "Subfloor" && sheet != "Flatness" && sheet != "Moisture tests" {
			return
		}
		formulas++
		if got, err := f.CalcCellValue(sheet, cell, excelize.Options{RawCellValue: true}); err != nil || got != value {
			t.Errorf("%s!%s: %s gives %s, stored %s (%v)", sheet, cell, formula, got, value, err)
		}
	})
	if formulas < 15 {
		t.Errorf("%d formulas only", formulas)
	}
}

// A job that says nothing of its subfloors has none of the sheets.
func TestNoSubfloorSheetsWithoutCause(t *testing.T) {
	for _, sheet := range open(t, tinyWorkbook(t)).GetSheetList() {
		if sheet == "Subfloor" || sheet == "Flatness" || sheet == "Hold points" {
			t.Errorf("there is a sheet %s", sheet)
		}
	}
}
