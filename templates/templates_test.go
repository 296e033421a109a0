package templates

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/measure"
	"laybill/sheet/form"
	"laybill/sheet/table"
)

func TestDemoUsesEveryTable(t *testing.T) {
	fill := Demo(Metric)
	for _, each := range table.Tables {
		if len(fill.Rows[each.Key]) == 0 {
			t.Errorf("the demo has no rows for the sheet %s", each.Sheet)
		}
	}
}

func TestDemoGivesEverySetting(t *testing.T) {
	given := map[string]bool{}
	for _, row := range Demo(Metric).Rows["job"] {
		given[row["setting"]] = true
	}
	for _, setting := range table.Settings {
		if !given[setting.Name] {
			t.Errorf("the demo does not set %q", setting.Name)
		}
	}
}

// The building of the demo as its story tells it.
func TestDemoBuilding(t *testing.T) {
	rows := Demo(Metric).Rows
	types, mirrored := map[string]int{}, map[string]int{}
	for _, row := range rows["apartments"] {
		types[row["type"]]++
		if row["mirrored"] == "yes" {
			mirrored[row["type"]]++
		}
	}
	if diff := cmp.Diff(map[string]int{"A": 8, "B": 8, "C": 4, "D": 4}, types); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(map[string]int{"A": 4, "B": 4, "C": 2, "D": 2}, mirrored); diff != "" {
		t.Error(diff)
	}
	kinds := map[string]int{}
	for _, row := range rows["products"] {
		kinds[row["kind"]]++
	}
	if kinds["plank"] != 3 {
		t.Errorf("%d plank products, want 3", kinds["plank"])
	}
	if got := len(rows["suppliers"]); got != 3 {
		t.Errorf("%d suppliers, want 3", got)
	}
}

// An outline of the demo closes in both systems: the legs east and west, and
// north and south, add up alike.
func TestOutlinesCloseInBothSystems(t *testing.T) {
	for _, system := range Systems {
		for _, row := range Demo(system).Rows["rooms"] {
			legs := map[string]measure.Length{}
			for _, leg := range strings.FieldsFunc(row["outline"], func(r rune) bool { return r == ',' }) {
				way, text, _ := strings.Cut(strings.TrimSpace(leg), " ")
				length, err := measure.ParseLength(text, measure.MM)
				if err != nil {
					t.Fatal(err)
				}
				legs[way] += length
			}
			if legs["E"] != legs["W"] || legs["N"] != legs["S"] {
				t.Errorf("%s: %s of %s does not close: %v", system, row["room"], row["type"], legs)
			}
		}
	}
}

// 2860 mm is 112.598 in, to the nearest eighth 9 ft 4 5/8 in; 14.90 a m2 is
// 14.90 x 0.09290304 = 1.3843 a ft2 (1 ft = 0.3048 m exactly, NIST SP 811
// appendix B).
func TestImperialValues(t *testing.T) {
	rows := Demo(Imperial).Rows
	living := rows["rooms"][0]["outline"]
	if want := `N 9' 4 5/8"`; !strings.Contains(living, want) {
		t.Errorf("outline %s does not hold %s", living, want)
	}
	if got := rows["products"][0]["price"]; got != "1.3843" {
		t.Errorf("price per ft2 %s, want 1.3843", got)
	}
	if got := rows["products"][0]["length"]; got != `50 19/32"` {
		t.Errorf("plank length %s, want 50 19/32\"", got)
	}
}

func TestSameBytesEveryTime(t *testing.T) {
	for _, fill := range []func(System) form.Fill{Blank, Demo} {
		for _, system := range Systems {
			first := written(t, fill(system))
			for range 5 {
				if !bytes.Equal(first, written(t, fill(system))) {
					t.Fatalf("%s: two writings differ", system)
				}
			}
		}
	}
}

func written(t *testing.T, fill form.Fill) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := form.Write(&out, fill); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
