package trim

import (
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/measure"
)

// The exact search on its own must find a plan at the optimum of brute force,
// and none below it.
func TestExhaustAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Order{Stocks: []Stock{{measure.Length(rapid.IntRange(30, 60).Draw(t, "stock")), 1, 0}}}
		for range rapid.IntRange(3, 9).Draw(t, "pieces") {
			o.Cuts = append(o.Cuts, Cut{measure.Length(rapid.IntRange(6, 30).Draw(t, "length")), 1})
		}
		optimum := bruteForce(o)
		tk := fold(o).task
		for target := optimum; target >= optimum-1; target-- {
			result, plan := exhaust(newMaster(tk), target, settleWork)
			want := planFound
			if target < optimum {
				want = noPlan
			}
			if result != want {
				t.Fatalf("target %d, optimum %d: outcome %d, want %d", target, optimum, result, want)
			}
			if result == planFound && plan.cost(tk) > target {
				t.Fatalf("plan of %d for a target of %d", plan.cost(tk), target)
			}
		}
	})
}

// What the list leaves out must be dominated: every pattern within the slack
// can be turned into a listed one by adding pieces or making them longer.
func TestListedPatternsDominateAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var o Order
		o.Stocks = []Stock{{measure.Length(rapid.IntRange(20, 50).Draw(t, "stock")), 1, 0}}
		for range rapid.IntRange(2, 7).Draw(t, "sizes") {
			o.Cuts = append(o.Cuts, Cut{measure.Length(rapid.IntRange(5, 20).Draw(t, "length")), rapid.IntRange(1, 2).Draw(t, "count")})
		}
		tk := fold(o).task
		w := tk.byLength()
		slack := int64(rapid.IntRange(0, tk.bars[0].size).Draw(t, "slack"))
		n := tk.need()
		n.bars[0] = 1
		e := enumeration{task: tk, need: n, weighings: []weighing{w}, slack: []int64{slack}}
		listed, ok := e.list()
		if !ok {
			t.Fatal("too many patterns")
		}
		var try func(i, room int, cuts []int)
		try = func(i, room int, cuts []int) {
			if i == len(tk.sizes) {
				if int64(room) <= slack && !dominated(cuts, listed) {
					t.Fatalf("sizes %v, bar %d: no listed pattern is as good as %v", tk.sizes, tk.bars[0].size, cuts)
				}
				return
			}
			for k := 0; k <= tk.demand[i] && k*tk.sizes[i] <= room; k++ {
				try(i+1, room-k*tk.sizes[i], append(cuts[:i:i], k))
			}
		}
		try(0, tk.bars[0].size, nil)
	})
}

// dominated says that a listed pattern has, down to every size, at least as
// many pieces.
func dominated(cuts []int, listed []setup) bool {
	for _, s := range listed {
		have := make([]int, len(cuts))
		for _, c := range s.cuts {
			have[c.piece] = c.n
		}
		good, lead := true, 0
		for i := range cuts {
			lead += have[i] - cuts[i]
			good = good && lead >= 0
		}
		if good {
			return true
		}
	}
	return false
}
