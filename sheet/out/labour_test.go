package out_test

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// Every apartment's hours of a trade are those of its labour lines, and the trades
// together are all its hours.
func TestHoursByApartmentAndTrade(t *testing.T) {
	f := open(t, tinyWorkbook(t))
	type key struct{ apartment, trade string }
	want := map[key]decimal.Decimal{}
	for _, line := range listRows(t, f, "Labour") {
		for _, trade := range []string{line["Trade"], ""} {
			k := key{line["Apartment"], trade}
			want[k] = want[k].Add(decimal.RequireFromString(line["Hours"]))
		}
	}
	apartments := listRows(t, f, "Labour by apartment")
	if len(apartments) < 3 {
		t.Fatalf("%d apartments", len(apartments))
	}
	for _, row := range apartments {
		trades := 0
		for k, hours := range want {
			heading := "Hours"
			if k.trade != "" {
				heading = "Hours, " + k.trade
				trades++
			}
			if k.apartment == row["Apartment"] && row[heading] != hours.String() {
				t.Errorf("%s, %s: %s h, want %s", k.apartment, heading, row[heading], hours)
			}
		}
		if trades == 0 {
			t.Errorf("%s has hours of no trade", row["Apartment"])
		}
	}
}

// With learning, the lines of every apartment after the first of its type carry
// its number and a factor below 1.
func TestRepeatAndFactorAreShown(t *testing.T) {
	j := tinyJob(t)
	j.Settings.LearningPercent = decimal.NewFromInt(80)
	second := 0
	for _, line := range listRows(t, open(t, write(t, run(t, j))), "Labour") {
		if line["Repeat"] == "2" {
			second++
			if line["Factor"] != "0.8" {
				t.Errorf("%s %s: factor %s, want 0.8", line["Apartment"], line["Operation"], line["Factor"])
			}
		}
	}
	if second == 0 {
		t.Error("no line of a second apartment")
	}
}

// listRows are the rows of a list by its headings, which stand in row 4.
func listRows(t *testing.T, f *excelize.File, sheet string) []map[string]string {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	var list []map[string]string
	for _, row := range rows[4:] {
		named := map[string]string{}
		for i, value := range row {
			named[rows[3][i]] = value
		}
		list = append(list, named)
	}
	return list
}
