package proof

import "testing"

// choiceWithRun is a run of 4800 mm from stock of 3000 mm at 35 and 2400 mm at
// 27: two bars of 2400 mm cost 54, one of 3000 mm and a rest of 1800 mm 62. With
// weights of 27 for 2400 and 1800 mm and 35 for 3000 mm no bar holds more than
// its price, and the lightest way to split the run weighs 54.
func choiceWithRun() (choiceEntry, map[poolName]*trimEntry) {
	const mm = unit
	choice := choiceEntry{Product: "S", Pool: "1", Kerf: 3 * mm, Cost: 54, LowerBound: 54, Proven: true,
		Stocks: []stockChoice{{Product: "L", Pool: "1", Length: 3000 * mm, Price: 35}, {Product: "S", Pool: "1", Length: 2400 * mm, Price: 27}},
		Runs:   []runEntry{{Length: 4800 * mm, Least: 300 * mm, Parts: []length{2400 * mm, 2400 * mm}, Count: 1}},
		Certificate: &choiceCertificate{Bars: []int64{35, 27},
			Cuts: []weightEntry{{3000 * mm, 35}, {2400 * mm, 27}, {1800 * mm, 27}}},
	}
	bars := trimEntry{Product: "S", Pool: "1", StockLength: 2400 * mm, Kerf: 3 * mm, Bars: []barEntry{{Cuts: []length{2400 * mm}, Count: 2}}}
	return choice, map[poolName]*trimEntry{{"S", "1"}: &bars}
}

func TestRunsInParts(t *testing.T) {
	const mm = unit
	tests := []struct {
		name  string
		fault func(*choiceEntry)
		holds bool
	}{
		{"as it is", func(*choiceEntry) {}, true},
		{"parts too short in all", func(c *choiceEntry) { c.Runs[0].Length = 4801 * mm }, false},
		{"a part under the least", func(c *choiceEntry) { c.Runs[0].Least = 2401 * mm }, false},
		{"a part that is not cut", func(c *choiceEntry) { c.Runs[0].Parts = []length{2500 * mm, 2300 * mm} }, false},
		{"more parts than needed", func(c *choiceEntry) { c.Runs[0].Parts = []length{2400 * mm, 1200 * mm, 1200 * mm} }, false},
		{"a run that fits the stock", func(c *choiceEntry) { c.Runs[0].Length, c.Runs[0].Parts = 2400*mm, []length{2400 * mm} }, false},
		{"no runs", func(c *choiceEntry) { c.Runs[0].Count = 0 }, false},
		{"more runs than cuts", func(c *choiceEntry) { c.Runs[0].Count = 2 }, false},
		// 35 + 0: one bar of 3000 mm carries that.
		{"a lighter way to split it", func(c *choiceEntry) { c.Certificate.Cuts[2].Weight = 0 }, false},
		{"a rest that weighs nothing", func(c *choiceEntry) { c.Certificate.Cuts = c.Certificate.Cuts[:2] }, false},
		{"the split is taken as it is", func(c *choiceEntry) { c.Runs[0].ByRule, c.Certificate.Cuts = true, c.Certificate.Cuts[:2] }, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			choice, bars := choiceWithRun()
			tt.fault(&choice)
			bound := &tally{name: claimBarBound}
			if choice.gather(bars, bound, "S 1") {
				choice.checkCost(bound, "S 1")
			}
			if claim := bound.claim(); claim.OK != tt.holds {
				t.Errorf("holds %v, want %v: %+v", claim.OK, tt.holds, claim)
			}
		})
	}
}
