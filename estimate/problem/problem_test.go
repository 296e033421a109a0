package problem

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Sheet names are quoted as formulas quote them (ECMA-376 part 1, 18.17: a name
// that is not plain stands in apostrophes, an apostrophe in it doubled).
func TestPlacesAreWrittenAsInFormulas(t *testing.T) {
	for _, c := range []struct {
		at   Ref
		want string
	}{
		{Ref{"Rooms", 14, 4}, "Rooms!D14"},
		{Ref{"Price breaks", 3, 2}, "'Price breaks'!B3"},
		{Ref{"O'Hara", 1, 28}, "'O''Hara'!AB1"},
		{Ref{"2nd floor", 1, 1}, "'2nd floor'!A1"},
		{Ref{"Build-ups", 0, 0}, "'Build-ups'"},
		{Ref{"Rooms", 2, 0}, "Rooms!2"},
		{Ref{}, "job"},
	} {
		if got := c.at.String(); got != c.want {
			t.Errorf("%+v is written %s, want %s", c.at, got, c.want)
		}
	}
}

func TestColumnNames(t *testing.T) {
	// The last column of a sheet is XFD, the 16,384th (ECMA-376 part 1).
	for col, want := range map[int]string{1: "A", 26: "Z", 27: "AA", 52: "AZ", 702: "ZZ", 703: "AAA", 16384: "XFD"} {
		if got := ColumnName(col); got != want {
			t.Errorf("column %d is %s, want %s", col, got, want)
		}
	}
}

func TestSortedBySheetRowColumnAndWithoutRepeats(t *testing.T) {
	at := func(sheet string, row, col int) Problem { return Problem{Code: CellMissing, At: Ref{sheet, row, col}} }
	list := List{at("Rooms", 3, 1), at("Job", 9, 2), at("Rooms", 2, 5), at("Other", 1, 1), at("Rooms", 2, 4), at("", 0, 0), at("Rooms", 3, 1)}
	var got []string
	for _, p := range list.Sorted([]string{"Job", "Rooms"}) {
		got = append(got, p.At.String())
	}
	want := []string{"job", "Job!B9", "Rooms!D2", "Rooms!E2", "Rooms!A3", "Other!A1"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
}

func TestSeverityComesFromTheCatalogue(t *testing.T) {
	var list List
	list.Add(Problem{Code: CellMissing})
	list.Add(Problem{Code: HeavyPack})
	if !list.HasErrors() || list.Count(Caution) != 1 || list.Count(Warning) != 0 {
		t.Errorf("severities of %v", list)
	}
	if list[1:].HasErrors() {
		t.Error("a caution stops the job")
	}
}

// Codes keep to one form, and every entry says what, why and what to do.
func TestCatalogueIsComplete(t *testing.T) {
	for _, code := range Codes() {
		entry, known := Explain(string(code))
		if !known || entry.Title == "" || entry.Cause == "" || entry.Fix == "" {
			t.Errorf("%s: %+v", code, entry)
		}
		if strings.Trim(string(code), "abcdefghijklmnopqrstuvwxyz-") != "" {
			t.Errorf("%s is not lower-case words joined by hyphens", code)
		}
	}
	if _, known := Explain("no-such-code"); known {
		t.Error("an unknown code is explained")
	}
}
