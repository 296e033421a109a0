package trim

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/measure"
)

// withRuns draws orders of a few pieces and one or two runs longer than the
// longest stock, so that brute force can try every split.
func withRuns(t *rapid.T) Order {
	o := Order{Kerf: measure.Length(rapid.IntRange(0, 2).Draw(t, "kerf"))}
	longest := 0
	for range rapid.IntRange(1, 3).Draw(t, "stocks") {
		length := rapid.IntRange(12, 26).Draw(t, "stock")
		o.Stocks = append(o.Stocks, Stock{Length: measure.Length(length), Price: int64(rapid.IntRange(5, 15).Draw(t, "price"))})
		longest = max(longest, length)
	}
	if rapid.Bool().Draw(t, "remnants") {
		o.Stocks = append(o.Stocks, Stock{measure.Length(rapid.IntRange(6, longest).Draw(t, "remnant")), 0, rapid.IntRange(1, 2).Draw(t, "limit")})
	}
	o.LeastPart = measure.Length(rapid.IntRange(2, 9).Draw(t, "least part"))
	for range rapid.IntRange(0, 3).Draw(t, "cuts") {
		o.Cuts = append(o.Cuts, Cut{measure.Length(rapid.IntRange(3, longest).Draw(t, "length")), 1})
	}
	run := func(most int) {
		length := measure.Length(rapid.IntRange(longest+1, most).Draw(t, "run"))
		if Split(length, measure.Length(longest), o.LeastPart) != nil {
			o.Runs = append(o.Runs, Run{length, 1})
		}
	}
	run(3 * longest)
	if rapid.Bool().Draw(t, "two runs") {
		run(2 * longest)
	}
	return o
}

// allSplits lists every division of the run into n parts between least and
// most, longest first.
func allSplits(run, least, most measure.Length, n int) [][]measure.Length {
	if n == 1 {
		if run < least || run > most {
			return nil
		}
		return [][]measure.Length{{run}}
	}
	var all [][]measure.Length
	for first := min(most, run); first*measure.Length(n) >= run; first-- {
		for _, rest := range allSplits(run-first, least, first, n-1) {
			all = append(all, append([]measure.Length{first}, rest...))
		}
	}
	return all
}

// bruteForceRuns is the least cost of an order over every split of its runs.
func bruteForceRuns(o Order) int64 {
	if len(o.Runs) == 0 {
		return bruteForce(o)
	}
	run, longest := o.Runs[0].Length, o.longestStock()
	best := noPlanCost
	for _, parts := range allSplits(run, o.LeastPart, longest, int((run+longest-1)/longest)) {
		split := o
		split.Runs = o.Runs[1:]
		split.Cuts = slices.Clone(o.Cuts)
		for _, part := range parts {
			split.Cuts = append(split.Cuts, Cut{part, 1})
		}
		best = min(best, bruteForceRuns(split))
	}
	return best
}

func TestSplitsAgainstBruteForce(t *testing.T) {
	open, n := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		o := withRuns(t)
		p, faults := Solve(o)
		if len(faults) > 0 {
			t.Fatalf("faults: %v", faults)
		}
		if f := flaw(o, p); f != "" {
			t.Fatal(f)
		}
		want := bruteForceRuns(o)
		if p.LowerBound > want || p.Cost < want {
			t.Fatalf("cost %d, bound %d, brute force %d", p.Cost, p.LowerBound, want)
		}
		if p.Certificate != nil && p.Certificate.Bound(o) > want {
			t.Fatalf("the certificate proves %d, brute force finds %d", p.Certificate.Bound(o), want)
		}
		n++
		if p.Cost != want {
			open++
		}
	})
	// Where a rest would be too short not every split is tried.
	if open*200 > n {
		t.Errorf("%d of %d plans are not the best", open, n)
	}
}
