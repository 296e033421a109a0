package trim

import (
	"cmp"
	"math"
	"slices"

	"laybill/estimate/measure"
)

// The split of a run is chosen together with the cutting. It need not be sought
// among all lengths: where two parts of a run are cut from bars that they do not
// fill, the one can grow to fill its bar while the other shrinks, and what was
// cut beside the first fits where the second left room, kerfs included. So some
// best plan splits every run into whole bars and one rest. Only where that rest
// would be shorter than the least part must bars give way to it; then whole bars
// and the short rest prove bounds, but something else is cut.

// run is a length longer than the stock, and the ways to split it.
type run struct {
	count  int
	splits []split // that of the crew's rule first: see Split
	cheap  int     // the split with the lowest price for its length
	most   []int   // parts of each size in any split
}

// split is one way to split a run.
type split struct {
	parts []cut // rising piece index
	use   use
}

// use is what a split is good for.
type use int

const (
	anyUse    use = iota // whole bars and a rest
	boundOnly            // whole bars and a rest that is too short to be cut
	planOnly             // bars give way to the rest
)

// splitRuns is some runs of a task that are split alike.
type splitRuns struct{ run, split, times int }

func (r run) byRule() int   { return 0 }
func (r run) cheapest() int { return r.cheap }

// least is the weight of the lightest split.
func (r run) least(weights []int64) int64 {
	least := int64(math.MaxInt64)
	for _, s := range r.splits {
		if s.use != planOnly {
			sum := int64(0)
			for _, c := range s.parts {
				sum += int64(c.n) * weights[c.piece]
			}
			least = min(least, sum)
		}
	}
	return least
}

// division is a split in lengths.
type division struct {
	parts []measure.Length // longest first
	use   use
}

// divided is a run and its divisions.
type divided struct {
	length    measure.Length
	count     int
	divisions []division
	cheap     int // the one with the lowest price for its length
}

const (
	maxDivisions   = 300 // of one run; with more it is split by rule
	maxPartLengths = 800 // of all runs; with more all are split by rule
	maxShifts      = 60  // divisions in which bars give way, of all runs
)

// longestStock is the longest length that there is any number of, or the
// longest of all.
func (o Order) longestStock() measure.Length {
	longest, any := measure.Length(0), measure.Length(0)
	for _, s := range o.Stocks {
		longest = max(longest, s.Length)
		if s.Limit == 0 {
			any = max(any, s.Length)
		}
	}
	if any > 0 {
		return any
	}
	return longest
}

// foldRuns sorts the runs into those whose split is chosen and those that are
// pieces of known lengths; all lengths that may be cut are put among the counts.
func (f *folding) foldRuns(o Order, counts map[measure.Length]int) []divided {
	runs := map[measure.Length]int{}
	for _, r := range o.Runs {
		if r.Count > 0 {
			runs[r.Length] += r.Count
		}
	}
	stock := o.longestStock()
	var chosen []divided
	lengths := map[measure.Length]bool{}
	for l, n := range runs {
		if l <= stock {
			counts[l] += n
			continue
		}
		d := o.divide(l, n)
		chosen = append(chosen, d)
		for _, division := range d.divisions {
			for _, part := range division.parts {
				lengths[part] = true
			}
		}
	}
	slices.SortFunc(chosen, func(a, b divided) int { return cmp.Compare(b.length, a.length) })
	o.shift(chosen)
	chosen = slices.DeleteFunc(chosen, func(d divided) bool {
		if len(d.divisions) > 1 && len(lengths) <= maxPartLengths {
			return false
		}
		parts := d.divisions[d.cheap].parts
		f.byRule = append(f.byRule, SplitRun{d.length, parts, d.count, true})
		for _, part := range parts {
			counts[part] += d.count
		}
		return true
	})
	for _, d := range chosen {
		for _, division := range d.divisions {
			for _, part := range division.parts {
				counts[part] += 0
			}
		}
	}
	return chosen
}

// divide lists the divisions of a run into whole bars and a rest, after the one
// of the crew's rule.
func (o Order) divide(length measure.Length, count int) divided {
	stock := o.longestStock()
	d := divided{length: length, count: count}
	d.divisions = []division{{parts: Split(length, stock, o.LeastPart), use: planOnly}}
	w := wholeBars{stock: stock, least: o.LeastPart}
	for _, s := range o.Stocks {
		if s.Length > stock {
			return d
		}
		if s.Length >= o.LeastPart {
			w.add(s)
		}
	}
	slices.SortFunc(w.lengths, func(a, b limited) int { return cmp.Compare(b.length, a.length) })
	if !w.fill(0, int((length-1)/stock), length, nil) {
		return d
	}
	for _, division := range w.divisions {
		if slices.Equal(division.parts, d.divisions[0].parts) {
			d.divisions[0].use = anyUse
			continue
		}
		d.divisions = append(d.divisions, division)
	}
	d.cheap = o.cheapest(d.divisions)
	return d
}

// limited is a stock length of which there are only so many.
type limited struct {
	length measure.Length
	n      int
}

// wholeBars lists divisions into whole bars and a rest.
type wholeBars struct {
	lengths   []limited // longest first
	stock     measure.Length
	least     measure.Length
	divisions []division
}

// add makes a stock one of the bars.
func (w *wholeBars) add(s Stock) {
	n := s.Limit
	if n == 0 {
		n = unlimited
	}
	for i := range w.lengths {
		if w.lengths[i].length == s.Length {
			w.lengths[i].n = min(unlimited, w.lengths[i].n+n)
			return
		}
	}
	w.lengths = append(w.lengths, limited{s.Length, n})
}

// fill chooses n bars from the i-th length on, and the rest. It returns false
// when there are too many divisions.
func (w *wholeBars) fill(i, n int, rest measure.Length, bars []measure.Length) bool {
	switch {
	case n == 0 && rest > 0 && rest <= w.stock:
		d := division{parts: append(slices.Clone(bars), rest)}
		if rest < w.least {
			d.use = boundOnly
		}
		slices.SortFunc(d.parts, func(a, b measure.Length) int { return cmp.Compare(b, a) })
		if !slices.ContainsFunc(w.divisions, func(e division) bool { return slices.Equal(e.parts, d.parts) }) {
			w.divisions = append(w.divisions, d)
		}
		return len(w.divisions) <= maxDivisions
	case n == 0 || i == len(w.lengths) || rest > measure.Length(n)*w.lengths[i].length+w.stock:
		return true
	}
	of := w.lengths[i]
	for k := min(n, of.n); k >= 0; k-- {
		with := append(slices.Clone(bars), slices.Repeat([]measure.Length{of.length}, k)...)
		if left := rest - measure.Length(k)*of.length; left > 0 && !w.fill(i+1, n-k, left, with) {
			return false
		}
	}
	return true
}

// cheapest is the division that is cut with the lowest price, when the rest
// costs what its length does from the stock cheapest for its length. Only stock
// of any number counts.
func (o Order) cheapest(divisions []division) int {
	price := map[measure.Length]float64{}
	rate := math.Inf(1)
	for _, s := range o.Stocks {
		if s.Limit == 0 {
			if p, known := price[s.Length]; !known || float64(s.Price) < p {
				price[s.Length] = float64(s.Price)
			}
			rate = min(rate, float64(s.Price)/float64(s.Length))
		}
	}
	best, least := 0, math.Inf(1)
	for i, d := range divisions {
		if d.use == boundOnly {
			continue
		}
		sum, others := 0.0, 0
		for _, part := range d.parts {
			if p, whole := price[part]; whole {
				sum += p
				continue
			}
			sum += rate * float64(part)
			others++
		}
		if d.use == anyUse && others > 1 { // whole bars of limited stock
			continue
		}
		if sum < least-1e-9 {
			best, least = i, sum
		}
	}
	return best
}

// shift adds divisions in which one bar gives way to a rest that is too short:
// what stays of the bar is filled by a length that is to be cut.
func (o Order) shift(runs []divided) {
	short := 0
	for _, d := range runs {
		for _, division := range d.divisions {
			if division.use == boundOnly {
				short++
			}
		}
	}
	if short == 0 {
		return
	}
	beside := o.spread(max(1, maxShifts/short))
	for i := range runs {
		d := &runs[i]
		for _, from := range d.divisions {
			if from.use == boundOnly {
				d.divisions = append(d.divisions, o.giveWay(from.parts, beside)...)
			}
		}
	}
}

// spread is up to n of the lengths to be cut, spread evenly over them.
func (o Order) spread(n int) []measure.Length {
	var all []measure.Length
	for _, c := range o.Cuts {
		if c.Count > 0 {
			all = append(all, c.Length)
		}
	}
	slices.Sort(all)
	all = slices.Compact(all)
	if len(all) <= n {
		return all
	}
	picked := make([]measure.Length, n)
	for i := range picked {
		picked[i] = all[(2*i+1)*len(all)/(2*n)]
	}
	return picked
}

// giveWay divides the longest bar and the short rest anew: the rest grows to
// the least part, or until one of the lengths fits beside what is left of the bar.
func (o Order) giveWay(parts, beside []measure.Length) []division {
	bar, rest := parts[0], parts[len(parts)-1]
	var all []division
	for _, grown := range append([]measure.Length{o.LeastPart}, beside...) {
		if len(all) > 0 {
			grown += o.Kerf + rest
		}
		left := bar + rest - grown
		if grown < o.LeastPart || left < o.LeastPart {
			continue
		}
		d := division{parts: append(slices.Clone(parts[1:len(parts)-1]), left, grown), use: planOnly}
		slices.SortFunc(d.parts, func(a, b measure.Length) int { return cmp.Compare(b, a) })
		all = append(all, d)
	}
	return all
}

// addRuns makes the divided runs part of the task.
func (f *folding) addRuns(o Order, chosen []divided) {
	for _, d := range chosen {
		r := run{count: d.count, cheap: d.cheap, most: make([]int, len(f.lengths))}
		for _, division := range d.divisions {
			s := split{use: division.use}
			for _, part := range division.parts {
				at, _ := slices.BinarySearchFunc(f.lengths, part, func(a, b measure.Length) int { return cmp.Compare(b, a) })
				if n := len(s.parts); n > 0 && s.parts[n-1].piece == at {
					s.parts[n-1].n++
					continue
				}
				s.parts = append(s.parts, cut{at, 1})
			}
			for _, c := range s.parts {
				r.most[c.piece] = max(r.most[c.piece], c.n)
			}
			r.splits = append(r.splits, s)
		}
		f.task.runs = append(f.task.runs, r)
		f.runs = append(f.runs, d)
	}
}

// splitRuns turns the splits of a scheme, and those made by rule, into runs of
// the order.
func (f *folding) splitRuns(splits []splitRuns) []SplitRun {
	times := make([][]int, len(f.runs))
	for j, d := range f.runs {
		times[j] = make([]int, len(d.divisions))
	}
	for _, s := range splits {
		times[s.run][s.split] += s.times
	}
	all := slices.Clone(f.byRule)
	for j, d := range f.runs {
		for k, n := range times[j] {
			if n > 0 {
				all = append(all, SplitRun{d.length, d.divisions[k].parts, n, false})
			}
		}
	}
	slices.SortFunc(all, func(a, b SplitRun) int {
		return cmp.Or(cmp.Compare(b.Length, a.Length), slices.Compare(b.Parts, a.Parts))
	})
	return all
}
