package out_test

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// headings is the row of a list that holds them.
const headings = 3

// sumBelow sums the numbers of a column below a row of headings, down to the first
// row that has none there.
func sumBelow(t *testing.T, rows [][]string, heading, column int) decimal.Decimal {
	t.Helper()
	sum := decimal.Zero
	for _, row := range rows[heading+1:] {
		if column >= len(row) || row[column] == "" {
			break
		}
		sum = sum.Add(decimal.RequireFromString(row[column]))
	}
	return sum
}

// headed is the row whose first cell says so.
func headed(t *testing.T, rows [][]string, words string) int {
	t.Helper()
	for i, row := range rows {
		if len(row) > 0 && row[0] == words {
			return i
		}
	}
	t.Fatalf("no row %q", words)
	return 0
}

// However the price and its cost are divided, the parts are the whole to the
// cent: nothing is counted twice or left out. The demo has types, floors, blocks,
// coverings, suppliers, trades and repairs.
func TestEveryDivisionOfThePriceIsWhole(t *testing.T) {
	r := run(t, demoJob(t))
	f := open(t, write(t, r))
	ladder, two := r.Price.Ladder, decimal.NewFromInt(2)
	rowsOf := func(sheet string) [][]string {
		rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		return rows
	}
	same := func(what string, got, want decimal.Decimal) {
		t.Helper()
		if !got.Equal(want) {
			t.Errorf("%s add up to %s, want %s", what, got, want)
		}
	}
	summary := rowsOf("Summary")
	breakdown := rowsOf("Cost breakdown")
	for title, rows := range map[string][][]string{"By apartment type": summary, "By floor": breakdown, "By block": summary, "By covering": summary} {
		at := headed(t, rows, title)
		for column, want := range map[int]decimal.Decimal{3: ladder.Material.Decimal(), 4: ladder.Labour.Decimal(), 5: ladder.Other.Decimal(),
			6: ladder.Contingency.Add(ladder.Overhead).Decimal(), 7: ladder.Profit.Decimal(), 8: ladder.Net.Decimal()} {
			same(title+", "+rows[at][column]+" and its total", sumBelow(t, rows, at, column), want.Mul(two))
		}
	}
	made := headed(t, summary, "What the cost is made of")
	same("what the cost is made of and its total", sumBelow(t, summary, made, 2), ladder.Cost.Decimal().Mul(two))
	lists := map[string]struct {
		heading string
		want    decimal.Decimal
	}{
		"Prices by apartment": {"Price", ladder.Net.Decimal()},
		"Prices by room":      {"Price", ladder.Net.Decimal()},
		"Order totals":        {"Net", ladder.Material.Decimal()},
	}
	for sheet, of := range lists {
		rows := rowsOf(sheet)
		column := slices.Index(rows[headings], of.heading)
		if column < 0 {
			t.Fatalf("%s has no column %s", sheet, of.heading)
		}
		same(sheet, sumBelow(t, rows, headings, column), of.want)
	}
}
