package proof

import (
	"encoding/json"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func decode(t *testing.T, text string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), into); err != nil {
		t.Fatal(err)
	}
}

// cutRow is one way to lay a row: whole planks, and the rest as a starter and an
// end piece or as a single piece that needs no factory end.
type cutRow struct {
	whole               int
	starter, end, alone length
}

// waysToLay lists every way to lay a row of planks.
func waysToLay(row, plank, leastEnd length) []cutRow {
	var ways []cutRow
	if row <= plank {
		return []cutRow{{alone: row}}
	}
	for whole := 0; length(whole)*plank < row; whole++ {
		rest := row - length(whole)*plank
		for a := leastEnd; rest-a >= leastEnd; a++ {
			if a <= plank && rest-a <= plank {
				ways = append(ways, cutRow{whole: whole, starter: a, end: rest - a})
			}
		}
	}
	return ways
}

// cutPlank is a plank that is being cut, and what of its two factory ends is used
// up.
type cutPlank struct {
	left          length
	starters, end int
	cut           bool
}

// spent tells a plank with more starters and end pieces than it has factory ends
// for them: one each where they are handed, else two in all.
func (p cutPlank) spent(free bool) bool {
	if free {
		return p.starters+p.end > 2
	}
	return p.starters > 1 || p.end > 1
}

// fewestPlanks is the least number of planks for pieces already chosen, by
// trying every plank for every piece.
func fewestPlanks(pieces []cutRow, plank, kerf length, free bool, open []cutPlank, best *int) {
	if len(open) >= *best {
		return
	}
	if len(pieces) == 0 {
		*best = len(open)
		return
	}
	p, rest := pieces[0], pieces[1:]
	size := p.starter + p.end + p.alone
	place := func(i int) {
		was := open[i]
		need := size
		if was.cut {
			need += kerf
		}
		now := cutPlank{was.left - need, was.starters, was.end, true}
		if p.starter > 0 {
			now.starters++
		}
		if p.end > 0 {
			now.end++
		}
		if need > was.left || now.spent(free) {
			return
		}
		open[i] = now
		fewestPlanks(rest, plank, kerf, free, open, best)
		open[i] = was
	}
	for i := range open {
		place(i)
	}
	open = append(open, cutPlank{left: plank})
	place(len(open) - 1)
}

// optimum is the fewest planks for rows, by trying everything.
func optimum(rows []length, plank, kerf, leastEnd length, free bool) int {
	best := 1 << 30
	var choose func(i, whole int, pieces []cutRow)
	choose = func(i, whole int, pieces []cutRow) {
		if whole >= best {
			return
		}
		if i == len(rows) {
			most := best - whole
			fewestPlanks(pieces, plank, kerf, free, nil, &most)
			best = min(best, whole+most)
			return
		}
		for _, way := range waysToLay(rows[i], plank, leastEnd) {
			more := pieces
			for _, one := range []cutRow{{starter: way.starter}, {end: way.end}, {alone: way.alone}} {
				if one != (cutRow{}) {
					more = append(more[:len(more):len(more)], one)
				}
			}
			choose(i+1, whole+way.whole, more)
		}
	}
	choose(0, 0, nil)
	return best
}

// TestCertificatesNeverOverstate: whatever rising values a certificate gives to
// off-cuts, the least prices of its rows never add up to more planks than the
// fewest found by trying every cut, with handed ends and without.
func TestCertificatesNeverOverstate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := value{plank: 60, long: length(rapid.IntRange(6, 12).Draw(t, "plank")), kerf: length(rapid.IntRange(0, 2).Draw(t, "kerf")),
			leastEnd: length(rapid.IntRange(1, 3).Draw(t, "least end"))}
		weight := int64(0)
		for l := length(1); l <= v.long; l++ {
			weight = min(v.plank, weight+int64(rapid.IntRange(0, 20).Draw(t, "step")))
			v.steps = append(v.steps, valueStep{l, weight})
		}
		rows := make([]length, rapid.IntRange(1, 3).Draw(t, "rows"))
		sum := int64(0)
		for i := range rows {
			rows[i] = length(rapid.IntRange(1, 20).Draw(t, "row"))
			if len(waysToLay(rows[i], v.long, v.leastEnd)) == 0 {
				t.Skip("a row that cannot be laid")
			}
			least := v.least(rows[i])
			if want := leastByTrying(&v, rows[i]); least != want {
				t.Fatalf("row %d costs %d at least, by trying every off-cut %d", rows[i], least, want)
			}
			sum += least
		}
		bound := ceiling(big.NewInt(max(0, sum)), big.NewInt(v.plank))
		for _, free := range []bool{false, true} {
			if best := optimum(rows, v.long, v.kerf, v.leastEnd, free); bound > int64(best) {
				t.Fatalf("rows %v, free ends %t: bound %d, but %d planks do", rows, free, bound, best)
			}
		}
	})
}

// leastByTrying evaluates the three lines of certificateEntry at every off-cut.
func leastByTrying(v *value, row length) int64 {
	q := (row - 1) / v.long
	r := row - q*v.long
	least := int64(1) << 62
	for a := length(1); a <= v.long; a++ {
		if row > v.long && a >= max(r, v.leastEnd) && a <= r+v.long-v.leastEnd {
			least = min(least, int64(q)*v.plank+v.of(a)-v.of(a-r-v.kerf))
		}
		if row > v.long && a >= v.leastEnd && a <= r-v.leastEnd {
			least = min(least, int64(q+1)*v.plank+v.of(a)-v.of(v.long-v.kerf-r+a))
		}
		if row <= v.long && a >= row {
			least = min(least, v.of(a)-v.of(a-row-v.kerf))
		}
	}
	return least
}

// TestCapacityNeverOverstates does the same for the bound without values.
func TestCapacityNeverOverstates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plank, kerf := length(rapid.IntRange(4, 12).Draw(t, "plank")), length(rapid.IntRange(0, 2).Draw(t, "kerf"))
		rows := make([]length, rapid.IntRange(1, 3).Draw(t, "rows"))
		var all []course
		for i := range rows {
			rows[i] = length(rapid.IntRange(1, 20).Draw(t, "row"))
			all = append(all, course{length: rows[i], width: 1, edges: "both"})
		}
		if bound, best := capacityBound(all, plank, 1, kerf, true), optimum(rows, plank, kerf, 1, true); bound > int64(best) {
			t.Fatalf("rows %v of planks %d: bound %d, but %d planks do", rows, plank, bound, best)
		}
	})
}

// TestKnapsackByTrying compares the knapsack with every choice of items.
func TestKnapsackByTrying(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		items := make([]item, rapid.IntRange(0, 4).Draw(t, "kinds"))
		for i := range items {
			items[i] = item{int64(rapid.IntRange(1, 9).Draw(t, "size")), int64(rapid.IntRange(1, 9).Draw(t, "weight")), int64(rapid.IntRange(1, 5).Draw(t, "count"))}
		}
		room := int64(rapid.IntRange(1, 40).Draw(t, "room"))
		var try func(i int, room int64) int64
		try = func(i int, room int64) int64 {
			if i == len(items) {
				return 0
			}
			best := int64(0)
			for n := int64(0); n <= items[i].count && n*items[i].size <= room; n++ {
				best = max(best, n*items[i].weight+try(i+1, room-n*items[i].size))
			}
			return best
		}
		got, ok := knapsack(items, room)
		if want := try(0, room); !ok || got != want {
			t.Fatalf("%v in %d: %d, want %d", items, room, got, want)
		}
	})
}

// TestSideBySide: two ripped rows share a plank only when their widths and a
// kerf fit and one keeps the near, the other the far edge.
func TestSideBySide(t *testing.T) {
	row := func(width length, edges string) course { return course{width: width, edges: edges} }
	cases := []struct {
		name   string
		rows   []course
		handed bool
		want   bool
	}{
		{"near and far that fit", []course{row(90, "near"), row(107, "far")}, true, true},
		{"near and far, no room for the saw", []course{row(90, "near"), row(108, "far")}, true, false},
		{"two near", []course{row(50, "near"), row(50, "near")}, true, false},
		{"two near of planks without handed edges", []course{row(50, "near"), row(50, "near")}, false, true},
		{"two only rows", []course{row(90, "none"), row(107, "none")}, true, true},
		{"an only row beside a last one", []course{row(90, "none"), row(107, "near")}, true, true},
		{"inner rows", []course{row(200, "both"), row(200, "both"), row(10, "far")}, true, false},
	}
	for _, c := range cases {
		if got := sideBySide(c.rows, 200, 3, c.handed); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// TestParted: saw cuts from side to side, a kerf of 2 wide.
func TestParted(t *testing.T) {
	cases := []struct {
		name       string
		rectangles []box
		want       bool
	}{
		{"one", []box{{0, 0, 10, 10}}, true},
		{"end to end", []box{{0, 0, 10, 10}, {12, 0, 20, 10}}, true},
		{"too close", []box{{0, 0, 10, 10}, {11, 0, 20, 10}}, false},
		{"side by side", []box{{0, 0, 10, 4}, {0, 6, 10, 10}}, true},
		{"a rip after a cut", []box{{0, 0, 10, 10}, {12, 0, 20, 4}, {12, 6, 20, 10}}, true},
		{"round a middle piece, no first cut", []box{{0, 0, 12, 4}, {14, 0, 18, 12}, {6, 14, 18, 18}, {0, 6, 4, 18}, {6, 6, 12, 12}}, false},
		{"overlapping", []box{{0, 0, 10, 10}, {5, 5, 15, 15}}, false},
	}
	for _, c := range cases {
		if got := parted(c.rectangles, 2); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// TestUncertifiedBounds: a bound above what area and rows prove counts for
// nothing without a certificate, and is said to.
func TestUncertifiedBounds(t *testing.T) {
	result := fixture()
	at(result, "pools", 0)["certificate"] = nil
	at(result, "pools", 0)["lower_bound_planks"] = 6 // the area proves it
	if c := claimOf(t, check(t, result), claimPlankBound); !c.OK || c.Detail != "" {
		t.Errorf("%+v", c)
	}
	trim := at(result, "trims", 0)
	trim["certificate"] = nil // by length 6940 + 16 over 2402 proves 3 bars, not 4
	if c := claimOf(t, check(t, result), claimBarBound); !c.OK || c.Detail == "" {
		t.Errorf("%+v", c)
	}
	trim["certificate"] = obj{"bar": 1, "cuts": list{}}
	if c := claimOf(t, check(t, result), claimBarBound); c.OK {
		t.Errorf("%+v", c)
	}
	trim["searched"] = true
	if c := claimOf(t, check(t, result), claimBarBound); !c.OK || c.Detail == "" {
		t.Errorf("%+v", c)
	}
}
