package trim

import (
	"cmp"
	"math"
	"slices"

	"laybill/estimate/measure"
)

// task is an order for the solver: the kerf is part of every piece and bar,
// equal pieces are merged, and lengths are whole multiples of one unit as large
// as the pieces allow.
type task struct {
	sizes  []int // falling
	demand []int // pieces wanted of each size, those of runs apart
	runs   []run
	most   []int // pieces of each size in any plan
	bars   []bar // falling sizes; every size fits at least one unlimited bar
	step   int64 // every attainable cost is a multiple of it
}

// bar is one stock of a task.
type bar struct {
	size  int
	price int64
	limit int // 0 = any number, none = not to be used
	stock int // index into Order.Stocks, NoIndex for the bars of last resort
}

// cut is some pieces of one size within a bar.
type cut struct{ piece, n int }

// setup is a pattern of cuts, made as many times over.
type setup struct {
	bar   int   // index into task.bars
	cuts  []cut // rising piece index, so falling size
	times int
}

// cutting is a plan for a task.
type cutting []setup

// cost is the price of all bars of a plan.
func (c cutting) cost(t *task) int64 {
	var sum int64
	for _, s := range c {
		sum += int64(s.times) * t.bars[s.bar].price
	}
	return sum
}

// scheme is a whole plan for a task: how its runs are split and what is cut.
type scheme struct {
	setups cutting
	splits []splitRuns
}

// folding is a task and the way back to its order.
type folding struct {
	task    *task
	lengths []measure.Length // of each size
	unit    measure.Length   // of the sizes
	runs    []divided        // of each run of the task
	byRule  []SplitRun       // runs that are pieces of the task already
}

// size is a length with its kerf in whole units of the task.
func (f *folding) size(l measure.Length) int { return int(l / f.unit) }

// fold makes the task of an order. Pieces l1..lm with m-1 kerfs k fit a bar L
// exactly when the sum of l+k is at most L+k; with g the greatest common
// divisor of all l+k, the bar can be rounded down to a multiple of g.
func fold(o Order) folding {
	counts := map[measure.Length]int{}
	for _, c := range o.Cuts {
		if c.Count > 0 {
			counts[c.Length] += c.Count
		}
	}
	f := folding{task: &task{}}
	chosen := f.foldRuns(o, counts)
	for l := range counts {
		f.lengths = append(f.lengths, l)
		f.unit = measure.Length(gcd(int64(f.unit), int64(l+o.Kerf)))
	}
	slices.SortFunc(f.lengths, func(a, b measure.Length) int { return cmp.Compare(b, a) })
	for _, l := range f.lengths {
		f.task.sizes = append(f.task.sizes, f.size(l+o.Kerf))
		f.task.demand = append(f.task.demand, counts[l])
	}
	f.addRuns(o, chosen)
	f.task.most = f.task.need().most(f.task)
	if len(f.lengths) > 0 {
		f.foldStocks(o)
	}
	return f
}

// foldStocks sets the bars of the task, without those that no good plan needs.
func (f *folding) foldStocks(o Order) {
	t := f.task
	smallest := t.sizes[len(t.sizes)-1]
	for k, s := range o.Stocks {
		b := bar{size: f.size(s.Length + o.Kerf), price: s.Price, limit: s.Limit, stock: k}
		if b.size >= smallest {
			t.bars = append(t.bars, b)
		}
	}
	slices.SortStableFunc(t.bars, func(a, b bar) int {
		return cmp.Or(cmp.Compare(b.size, a.size), cmp.Compare(a.price, b.price), cmp.Compare(a.limit, b.limit))
	})
	t.bars = undominated(t.bars)
	for _, b := range t.bars {
		t.step = gcd(t.step, b.price)
	}
	t.step = max(t.step, 1)
	t.addLastResort()
}

// undominated drops every bar for which an unlimited one at least as long
// costs no more. Bars must come longest first, then cheapest first.
func undominated(bars []bar) []bar {
	kept := bars[:0]
	cheapest := int64(-1)
	for _, b := range bars {
		if cheapest >= 0 && b.price >= cheapest {
			continue
		}
		if b.limit == 0 {
			cheapest = b.price
		}
		kept = append(kept, b)
	}
	return kept
}

// addLastResort adds an unlimited bar at a price above any plan's when some
// size fits limited bars only, so that a plan always exists; one that uses it
// means that the stock on hand does not do.
func (t *task) addLastResort() {
	for _, b := range t.bars {
		if b.limit == 0 && b.size >= t.sizes[0] {
			return
		}
	}
	pieces, dearest := int64(0), int64(0)
	for _, d := range t.most {
		pieces += int64(d)
	}
	for _, b := range t.bars {
		dearest = max(dearest, b.price)
	}
	price := min(pieces*dearest+t.step, math.MaxInt64/4/pieces) // a bar a piece still makes a sum
	last := bar{size: t.bars[0].size, price: price / t.step * t.step, stock: NoIndex}
	t.bars = append([]bar{last}, t.bars...)
}

// short says that the plan needs bars that do not exist.
func (f folding) short(c cutting) bool {
	return slices.ContainsFunc(c, func(s setup) bool { return f.task.bars[s.bar].stock == NoIndex })
}

// plan turns a scheme into the bars and runs of the order.
func (f folding) plan(o Order, c scheme) Plan {
	p := Plan{Runs: f.splitRuns(c.splits)}
	if len(c.setups) > 0 {
		p.Cost = c.setups.cost(f.task)
	}
	for _, s := range c.setups {
		b := Bar{Stock: f.task.bars[s.bar].stock, Count: s.times}
		used := measure.Length(0)
		for _, k := range s.cuts {
			for range k.n {
				b.Cuts = append(b.Cuts, f.lengths[k.piece])
				used += f.lengths[k.piece] + o.Kerf
			}
		}
		b.Offcut = max(0, o.Stocks[b.Stock].Length-used)
		b.Kept = o.LeastUseful > 0 && b.Offcut >= o.LeastUseful
		p.Bars = append(p.Bars, b)
	}
	p.Bars = mergeBars(p.Bars)
	return p
}

// mergeBars sorts bars and joins those cut alike.
func mergeBars(bars []Bar) []Bar {
	slices.SortFunc(bars, func(a, b Bar) int {
		return cmp.Or(cmp.Compare(a.Stock, b.Stock), slices.Compare(b.Cuts, a.Cuts))
	})
	var merged []Bar
	for _, b := range bars {
		last := len(merged) - 1
		if last >= 0 && merged[last].Stock == b.Stock && slices.Equal(merged[last].Cuts, b.Cuts) {
			merged[last].Count += b.Count
			continue
		}
		merged = append(merged, b)
	}
	return merged
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
