package in

import (
	"bytes"
	"errors"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/form"
	"laybill/sheet/table"
)

// A workbook with everything that a file of plain texts does not have says the
// same in writing.
func TestTextsSayTheSame(t *testing.T) {
	b := changed(t, func(f *excelize.File) error {
		return errors.Join(
			f.SetCellStr("Rooms", "D1", "Length (cm)"), f.SetCellValue("Rooms", "D3", 410),
			f.SetCellStr("Rooms", "F1", "Outline in cm"), f.SetCellStr("Rooms", "F2", "E 520, N 240; W 1.2 m, N 120 W 4 m"),
			f.SetCellStr("Rooms", "G1", "Area (ft2)"), f.SetCellStr("Rooms", "G3", "168.6"),
			styled(f, "Rooms", "E3", `0.00" m"`, 3.82),
			styled(f, "Job", "B5", "0.00%", 0.19), styled(f, "Job", "B10", "dd.mm.yyyy", 46112),
			f.SetCellStr("Job", "A9", "PACK ROUNDING"), f.SetCellStr("Job", "A11", "Kerf (in)"), f.SetCellStr("Job", "B11", "1/8"),
			f.SetCellValue("Rooms", "A3", nil), f.MergeCell("Rooms", "A2", "A3"),
			f.SetCellStr("Trades", "A3", "Total"), f.SetCellStr("Trades", "D1", "Mine"), f.SetCellValue("Trades", "D2", 7),
		)
	})
	want, problems := Read(b)
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	fill := form.Fill{LengthUnit: want.Settings.LengthUnit, AreaUnit: want.Settings.AreaUnit, Rows: Texts(b)}
	folder := fstest.MapFS{}
	for i := range table.Tables {
		var file bytes.Buffer
		if err := form.WriteCSV(&file, fill, &table.Tables[i]); err != nil {
			t.Fatal(err)
		}
		folder[table.Tables[i].Sheet+".csv"] = &fstest.MapFile{Data: file.Bytes()}
	}
	files, err := book.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	got, problems := Read(files)
	if len(problems) > 0 {
		t.Error(problems)
	}
	if diff := cmp.Diff(want, got, cmpopts.IgnoreTypes(problem.Ref{}), cmpopts.IgnoreFields(job.Job{}, "Sheets")); diff != "" {
		t.Error(diff)
	}
	if rows := Texts(b)["trades"]; len(rows) != 1 {
		t.Errorf("%d trades, want 1: the total is no trade", len(rows))
	}
}

func TestLegsWithUnits(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"E 5.2, N 2.4, W 5.2", "E 5.2 cm, N 2.4 cm, W 5.2 cm"},
		{"E5 N2;W 1,2 south 3", "E5 cm N2 cm;W 1,2 cm south 3 cm"},
		{"E 5 1/2, N 2 m, W 3 ft 2 in", "E 5 1/2 cm, N 2 m, W 3 ft 2 in"},
		{`E 5' 2", N 2`, `E 5' 2", N 2 cm`},
	} {
		if got := legsWith("cm", test.text); got != test.want {
			t.Errorf("%q became %q, want %q", test.text, got, test.want)
		}
	}
}
