package trim

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/measure"
)

const mm = measure.Millimetre

func TestSplit(t *testing.T) {
	tests := []struct {
		name              string
		run, stock, least measure.Length
		want              []measure.Length
	}{
		{"fits", 2000, 2400, 300, []measure.Length{2000}},
		{"fits exactly", 2400, 2400, 300, []measure.Length{2400}},
		{"short run stays whole", 120, 2400, 300, []measure.Length{120}},
		{"whole bar and remainder", 4000, 2400, 300, []measure.Length{2400, 1600}},
		// 2500 - 2400 = 100 is 200 short of 300: the bar gives 200.
		{"bar gives way", 2500, 2400, 300, []measure.Length{2200, 300}},
		{"two bars and remainder", 5500, 2400, 300, []measure.Length{2400, 2400, 700}},
		// Three pieces of at least 2000 from 6100: 2050 can only come from both bars.
		{"both bars give way", 6100, 3000, 2000, []measure.Length{2100, 2000, 2000}},
		{"exact multiple", 4800, 2400, 300, []measure.Length{2400, 2400}},
		{"least above half the bar", 2500, 2400, 1300, nil},
		{"least above the bar", 2500, 2400, 2500, nil},
		{"no run", 0, 2400, 300, nil},
		{"no stock", 100, 0, 300, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Split(tt.run*mm, tt.stock*mm, tt.least*mm)
			for i := range got {
				got[i] /= mm
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("Split(%d, %d, %d) = %d, want %d", tt.run, tt.stock, tt.least, got, tt.want)
			}
		})
	}
}

func TestSplitKeepsItsRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		run := measure.Length(rapid.IntRange(1, 20000).Draw(t, "run"))
		stock := measure.Length(rapid.IntRange(1, 3000).Draw(t, "stock"))
		least := measure.Length(rapid.IntRange(0, 3000).Draw(t, "least"))
		got := Split(run, stock, least)
		fewest := (run + stock - 1) / stock
		if got == nil {
			if fewest == 1 || fewest*least <= run && least <= stock {
				t.Fatal("no split, though there is one")
			}
			return
		}
		sum := measure.Length(0)
		for _, p := range got {
			sum += p
			if p > stock || p < least && fewest > 1 {
				t.Fatalf("piece %d breaks the rule: %d", p, got)
			}
		}
		if sum != run || measure.Length(len(got)) != fewest || !slices.IsSortedFunc(got, func(a, b measure.Length) int { return int(b - a) }) {
			t.Fatalf("%d is no split of %d in %d pieces, longest first", got, run, fewest)
		}
	})
}
