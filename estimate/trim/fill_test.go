package trim

import (
	"testing"

	"pgregory.net/rapid"
)

// By hand: bars of 4.2 m in units of 1/320 mm are 1,344,000. Lengths in whole
// millimetres are multiples of 320; one in ten that is not is rounded up to them.
// Of lengths that are all odd nothing is common, and short bars need no grain.
func TestGrain(t *testing.T) {
	const bar = 4200 * 320
	for _, row := range []struct {
		name    string
		sizes   []int
		longest int
		want    int
	}{
		{"millimetres", []int{2400 * 320, 1250 * 320, 607 * 320}, bar, 320},
		{"one odd length", []int{2400 * 320, 1250*320 + 77, 607 * 320, 601 * 320, 500 * 320}, bar, 320},
		{"centimetres and one odd length first", []int{2400*320 + 1, 1250 * 320, 640 * 320, 610 * 320, 500 * 320}, bar, 3200},
		{"all odd", []int{767_999, 400_007, 194_239}, bar, 1},
		{"short bars", []int{600, 450, 301}, 1000, 1},
	} {
		if got := grain(row.sizes, row.longest); got != row.want {
			t.Errorf("%s: grain %d, want %d", row.name, got, row.want)
		}
	}
}

// Whatever is odd, a filling cuts every piece once and no bar beyond its end; also
// a piece as long as the bar, which rounded up is longer than it.
func TestFillingsInGrainsAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tk := &task{step: 1, bars: []bar{{size: 4200*320 + 13, price: 7}, {size: 3000 * 320, price: 5}}}
		tk.sizes, tk.demand = []int{tk.bars[0].size}, []int{1}
		for size := 4200; size > 300; size -= rapid.IntRange(1, 600).Draw(t, "step") {
			odd := rapid.SampledFrom([]int{0, 0, 0, 0, 0, 0, 0, 0, 0, 123}).Draw(t, "odd")
			if next := size*320 - odd; next < tk.sizes[len(tk.sizes)-1] {
				tk.sizes, tk.demand = append(tk.sizes, next), append(tk.demand, rapid.IntRange(1, 9).Draw(t, "pieces"))
			}
		}
		f := newFiller(tk)
		cut := make([]int, len(tk.sizes))
		for _, s := range f.fillAll(tk.need()) {
			used := 0
			for _, c := range s.cuts {
				cut[c.piece] += c.n * s.times
				used += c.n * tk.sizes[c.piece]
			}
			if used > tk.bars[s.bar].size {
				t.Fatalf("%d cut from a bar of %d", used, tk.bars[s.bar].size)
			}
		}
		for i, n := range cut {
			if n != tk.demand[i] {
				t.Fatalf("%d pieces of %d, want %d (grain %d)", n, tk.sizes[i], tk.demand[i], f.grain)
			}
		}
	})
}
