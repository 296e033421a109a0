package trim

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// The search over counts against all counts up to 12 of two or three kinds.
func TestCountingAgainstAllCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tk := &task{sizes: []int{1}, demand: []int{1}, step: 1}
		for range rapid.IntRange(2, 3).Draw(t, "kinds") {
			tk.bars = append(tk.bars, bar{size: 10, price: int64(rapid.IntRange(1, 9).Draw(t, "price")), limit: 12})
		}
		var proofs []weighing
		for range rapid.IntRange(1, 3).Draw(t, "weighings") {
			w := weighing{weights: []int64{int64(rapid.IntRange(1, 30).Draw(t, "weight"))}}
			for range tk.bars {
				w.most = append(w.most, int64(rapid.IntRange(1, 9).Draw(t, "most")))
			}
			proofs = append(proofs, w)
		}
		c := newCounting(tk, tk.need(), proofs)
		for range 4 { // the cheapest, then the next cheapest, ...
			want := cheapestOfAll(tk, proofs, c.barred)
			if ok := c.search(math.MaxInt64 / 4); !ok || c.cost != want && c.found != nil {
				t.Fatalf("cost %d, want %d (barred %v)", c.cost, want, c.barred)
			}
			if c.found == nil {
				return
			}
			c.barred = append(c.barred, c.found)
		}
	})
}

func cheapestOfAll(t *task, proofs []weighing, barred [][]int64) int64 {
	cheapest := int64(math.MaxInt64)
	var try func(counts []int64)
	try = func(counts []int64) {
		if len(counts) < len(t.bars) {
			for n := int64(0); n <= 12; n++ {
				try(append(counts[:len(counts):len(counts)], n))
			}
			return
		}
		if slices.ContainsFunc(barred, func(b []int64) bool { return slices.Equal(b, counts) }) {
			return
		}
		cost := int64(0)
		for _, w := range proofs {
			carried := int64(0)
			for k, n := range counts {
				carried += n * w.most[k]
			}
			if carried < w.weights[0] {
				return
			}
		}
		for k, n := range counts {
			cost += n * t.bars[k].price
		}
		cheapest = min(cheapest, cost)
	}
	try(nil)
	return cheapest
}
