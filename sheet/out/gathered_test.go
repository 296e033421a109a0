package out_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// columnSums adds up a list's column by its items. Headings stand in row 4.
func columnSums(t *testing.T, f *excelize.File, sheet, items, values string) map[string]string {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	item, value := -1, -1
	for i, heading := range rows[3] {
		switch heading {
		case items:
			item = i
		case values:
			value = i
		}
	}
	sums := map[string]decimal.Decimal{}
	for _, row := range rows[4:] {
		d, err := decimal.NewFromString(row[value])
		if err != nil {
			t.Fatalf("%s: %v", sheet, err)
		}
		sums[row[item]] = sums[row[item]].Add(d)
	}
	words := map[string]string{}
	for item, sum := range sums {
		words[item] = sum.Round(4).String()
	}
	return words
}

// What is printed once for all apartments of a type comes to the same, item by
// item, as the rooms one by one.
func TestGatheredLines(t *testing.T) {
	f := open(t, write(t, run(t, demoJob(t))))
	for _, tt := range []struct{ whole, items, values, byType, inAll string }{
		{"Quantities", "Item", "Quantity", "Quantities by type", "In all"},
		{"Labour", "Operation", "Hours", "Labour by type", "Hours"},
		{"Trim lengths", "Product", "Length m", "Trim lengths by type", "In all"},
		{"Labour", "Operation", "Cost", "Labour by type", "Cost"},
	} {
		want, got := columnSums(t, f, tt.whole, tt.items, tt.values), columnSums(t, f, tt.byType, tt.items, tt.inAll)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s of %s and of %s (-rooms +types):\n%s", tt.values, tt.whole, tt.byType, diff)
		}
	}
}
