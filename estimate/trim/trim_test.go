package trim

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/measure"
)

// flaw checks a plan piece by piece against its order, sharing no code with
// the solver; it returns "" when all is well.
func flaw(o Order, p Plan) string {
	need := map[measure.Length]int{}
	for _, c := range o.Cuts {
		need[c.Length] += c.Count
	}
	if f := flawOfRuns(o, p.Runs, need); f != "" {
		return f
	}
	taken := make([]int, len(o.Stocks))
	cost := int64(0)
	for _, b := range p.Bars {
		if b.Count <= 0 || len(b.Cuts) == 0 {
			return fmt.Sprintf("an empty bar: %v", b)
		}
		taken[b.Stock] += b.Count
		cost += int64(b.Count) * o.Stocks[b.Stock].Price
		used := measure.Length(len(b.Cuts)-1) * o.Kerf
		for i, l := range b.Cuts {
			used += l
			need[l] -= b.Count
			if i > 0 && l > b.Cuts[i-1] {
				return fmt.Sprintf("cuts not longest first: %v", b.Cuts)
			}
		}
		if used > o.Stocks[b.Stock].Length {
			return fmt.Sprintf("cuts and kerfs of %d on a bar of %d", used, o.Stocks[b.Stock].Length)
		}
		if left := o.Stocks[b.Stock].Length - used - o.Kerf; b.Offcut != max(0, left) {
			return fmt.Sprintf("off-cut %d, want %d", b.Offcut, max(0, left))
		}
	}
	for l, n := range need {
		if n != 0 {
			return fmt.Sprintf("%d pieces of %d missing", n, l)
		}
	}
	for k, s := range o.Stocks {
		if s.Limit > 0 && taken[k] > s.Limit {
			return fmt.Sprintf("%d bars of stock %d, there are %d", taken[k], k, s.Limit)
		}
	}
	if cost != p.Cost {
		return fmt.Sprintf("cost %d, bars sum to %d", p.Cost, cost)
	}
	if p.LowerBound > p.Cost || p.Proven != (p.LowerBound == p.Cost) || p.Cost > p.GreedyCost {
		return fmt.Sprintf("cost %d, bound %d, greedy %d, proven %v", p.Cost, p.LowerBound, p.GreedyCost, p.Proven)
	}
	return ""
}

// flawOfRuns checks how runs are split and adds their parts to the need.
func flawOfRuns(o Order, splits []SplitRun, need map[measure.Length]int) string {
	longest := o.longestStock()
	left := map[measure.Length]int{}
	for _, r := range o.Runs {
		if r.Length <= longest {
			need[r.Length] += r.Count
			continue
		}
		left[r.Length] += r.Count
	}
	for _, s := range splits {
		left[s.Length] -= s.Count
		sum := measure.Length(0)
		for _, part := range s.Parts {
			sum += part
			need[part] += s.Count
			if part < o.LeastPart || part > longest {
				return fmt.Sprintf("a part of %d, allowed are %d to %d", part, o.LeastPart, longest)
			}
		}
		if n := (s.Length + longest - 1) / longest; sum != s.Length || len(s.Parts) != int(n) {
			return fmt.Sprintf("a run of %d in %d, want %d parts", s.Length, s.Parts, n)
		}
	}
	for l, n := range left {
		if n != 0 {
			return fmt.Sprintf("%d runs of %d missing", n, l)
		}
	}
	return ""
}

func mustSolve(t testing.TB, o Order) Plan {
	t.Helper()
	p, faults := Solve(o)
	if len(faults) > 0 {
		t.Fatalf("faults: %v", faults)
	}
	if f := flaw(o, p); f != "" {
		t.Fatal(f)
	}
	return p
}

// small draws orders of up to eleven pieces, so that brute force can judge.
func small(t *rapid.T) Order {
	o := Order{Kerf: measure.Length(rapid.IntRange(0, 4).Draw(t, "kerf"))}
	longest := 0
	for range rapid.IntRange(1, 3).Draw(t, "stocks") {
		s := Stock{Length: measure.Length(rapid.IntRange(20, 120).Draw(t, "stock")), Price: int64(rapid.IntRange(1, 40).Draw(t, "price"))}
		o.Stocks = append(o.Stocks, s)
		longest = max(longest, int(s.Length))
	}
	if rapid.Bool().Draw(t, "remnants") {
		o.Stocks = append(o.Stocks, Stock{measure.Length(rapid.IntRange(5, 60).Draw(t, "remnant")), 0, rapid.IntRange(1, 2).Draw(t, "limit")})
	}
	pieces := rapid.IntRange(0, 11).Draw(t, "pieces")
	for pieces > 0 {
		n := rapid.IntRange(1, min(3, pieces)).Draw(t, "count")
		o.Cuts = append(o.Cuts, Cut{measure.Length(rapid.IntRange(max(4, longest/10), longest).Draw(t, "length")), n})
		pieces -= n
	}
	return o
}

// noPlanCost is what brute force says when no plan exists, or more.
const noPlanCost = int64(1) << 60

// bruteForce is the least cost of an order, by dynamic programming over the
// subsets of its pieces: 3^n steps.
func bruteForce(o Order) int64 {
	var lengths []measure.Length
	for _, c := range o.Cuts {
		for range c.Count {
			lengths = append(lengths, c.Length)
		}
	}
	full := 1<<len(lengths) - 1
	cost := make([]int64, full+1)
	for s := 1; s <= full; s++ {
		cost[s] = noPlanCost
	}
	fits := func(set int, s Stock) bool {
		used := -o.Kerf
		for i, l := range lengths {
			if set>>i&1 == 1 {
				used += l + o.Kerf
			}
		}
		return used <= s.Length
	}
	relax := func(from []int64, to []int64, s Stock) {
		for set := 1; set <= full; set++ {
			if !fits(set, s) {
				continue
			}
			for rest := full &^ set; ; rest = (rest - 1) & (full &^ set) {
				to[rest|set] = min(to[rest|set], from[rest]+s.Price)
				if rest == 0 {
					break
				}
			}
		}
	}
	for _, s := range o.Stocks {
		for range s.Limit {
			next := slices.Clone(cost)
			relax(cost, next, s)
			cost = next
		}
	}
	for range lengths { // unlimited bars: one more each time
		before := slices.Clone(cost)
		for _, s := range o.Stocks {
			if s.Limit == 0 {
				relax(before, cost, s)
			}
		}
		if slices.Equal(before, cost) {
			break
		}
	}
	return cost[full]
}

func TestSmallOrdersAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := small(t)
		p, faults := Solve(o)
		if len(faults) > 0 {
			t.Fatalf("faults: %v", faults)
		}
		if f := flaw(o, p); f != "" {
			t.Fatal(f)
		}
		want := bruteForce(o)
		if p.LowerBound > want || p.Cost < want {
			t.Fatalf("cost %d, bound %d, brute force %d", p.Cost, p.LowerBound, want)
		}
		if p.Certificate != nil && p.Certificate.Bound(o) > want {
			t.Fatalf("the certificate proves %d, brute force finds %d", p.Certificate.Bound(o), want)
		}
		if p.Cost != want || !p.Proven {
			t.Fatalf("cost %d, proven %v, brute force %d", p.Cost, p.Proven, want)
		}
		greedy, _ := Greedy(o)
		if f := flaw(o, Plan{Bars: greedy.Bars, Cost: greedy.Cost, GreedyCost: greedy.GreedyCost, Proven: greedy.Cost == 0}); f != "" {
			t.Fatal("greedy:", f)
		}
	})
}

// With nothing but remnants there may be no plan at all; the solver must find
// one exactly when brute force does.
func TestRemnantsOnlyAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := small(t)
		for k := range o.Stocks {
			if o.Stocks[k].Limit == 0 {
				o.Stocks[k].Limit = rapid.IntRange(1, 4).Draw(t, "limit of the stock")
			}
		}
		p, faults := Solve(o)
		want := bruteForce(o)
		switch {
		case len(faults) > 0:
			if want < noPlanCost {
				t.Fatalf("faults %v, though a plan costs %d", faults, want)
			}
		case flaw(o, p) != "":
			t.Fatal(flaw(o, p))
		case p.Cost != want || p.LowerBound > want:
			t.Fatalf("cost %d, bound %d, brute force %d", p.Cost, p.LowerBound, want)
		}
	})
}

func TestOrderOfCutsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := small(t)
		p, _ := Solve(o)
		o.Cuts = rapid.Permutation(o.Cuts).Draw(t, "shuffled")
		q, _ := Solve(o)
		if !reflect.DeepEqual(p, q) {
			t.Fatalf("another order of cuts, another plan:\n%v\n%v", p, q)
		}
	})
}

// The widths of a paper mill's rolls of 5600 mm, a textbook case with 13 widths
// whose least number of rolls is 73 (Wikipedia, "Cutting stock problem").
func TestPaperMill(t *testing.T) {
	o := Order{Stocks: []Stock{{5600 * mm, 1, 0}}}
	for _, c := range [][2]int{
		{1380, 22}, {1520, 25}, {1560, 12}, {1710, 14}, {1820, 18}, {1880, 18}, {1930, 20},
		{2000, 10}, {2050, 12}, {2100, 14}, {2140, 16}, {2150, 18}, {2200, 20},
	} {
		o.Cuts = append(o.Cuts, Cut{measure.Length(c[0]) * mm, c[1]})
	}
	p := mustSolve(t, o)
	if p.Cost != 73 || !p.Proven {
		t.Errorf("%d rolls, proven %v, want 73 proven", p.Cost, p.Proven)
	}
	if got := p.Certificate.Bound(o); got != 73 {
		t.Errorf("the certificate proves %d rolls, want 73", got)
	}
}

func TestFaults(t *testing.T) {
	stock := []Stock{{2400, 1, 0}}
	tests := []struct {
		name string
		o    Order
		want []Fault
	}{
		{"no stock", Order{Cuts: []Cut{{100, 1}}}, []Fault{{NoStock, NoIndex, NoIndex}}},
		{"piece too long", Order{Stocks: stock, Cuts: []Cut{{100, 1}, {2401, 1}}}, []Fault{{PieceTooLong, 1, NoIndex}}},
		{"no length and less", Order{Stocks: stock, Cuts: []Cut{{0, 1}, {-5, 1}}}, []Fault{{LengthNotPositive, 0, NoIndex}, {LengthNotPositive, 1, NoIndex}}},
		{"negative count", Order{Stocks: stock, Cuts: []Cut{{10, -1}}}, []Fault{{CountNegative, 0, NoIndex}}},
		{"kerf wider than the piece", Order{Stocks: stock, Kerf: 3, Cuts: []Cut{{3, 1}, {2, 1}}}, []Fault{{KerfTooLarge, 1, NoIndex}}},
		{"negative kerf", Order{Stocks: stock, Kerf: -1, Cuts: []Cut{{3, 1}}}, []Fault{{KerfNegative, NoIndex, NoIndex}}},
		{"bad stocks", Order{Stocks: []Stock{{0, 1, 0}, {100, -1, 0}, {100, 1, -1}}, Cuts: []Cut{{3, 1}}},
			[]Fault{{StockNotPositive, NoIndex, 0}, {PriceOutOfRange, NoIndex, 1}, {LimitNegative, NoIndex, 2}}},
		{"millions of pieces", Order{Stocks: stock, Cuts: []Cut{{3, maxPieces}, {4, 1}}}, []Fault{{TooManyPieces, 1, NoIndex}}},
		{"remnants do not do", Order{Stocks: []Stock{{100, 1, 2}}, Cuts: []Cut{{60, 3}}}, []Fault{{NotEnoughStock, NoIndex, NoIndex}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for name, f := range map[string]func(Order) (Plan, []Fault){"Solve": Solve, "Greedy": Greedy} {
				if _, got := f(tt.o); !slices.Equal(got, tt.want) {
					t.Errorf("%s: faults %v, want %v", name, got, tt.want)
				}
			}
		})
	}
}
