package proof

import (
	"cmp"
	"math/big"
	"slices"
)

// wanted is what a plan must cut, however it splits its runs.
type wanted struct {
	cuts []cutCount // longest first
	runs []dividedRun
	most []cutCount // pieces of each length in any plan
}

// dividedRun is a number of runs of one length and the ways in which they need
// be split only, for a bound: into whole bars and a rest. For where two parts of
// a run are cut from bars that they do not fill, the one can grow to fill its
// bar while the other shrinks, and what was cut beside the first fits beside the
// second. In this way a rest may become shorter than any part may be, which
// makes no bound too high.
type dividedRun struct {
	count int64
	ways  [][]length
}

// runStock is a length that parts of runs may be cut from.
type runStock struct {
	length length
	limit  int64 // 0: any number
}

// mostWays bounds the ways to split one run that are gone through.
const mostWays = 10_000

// longestAny is the longest stock of any number, or the longest of all.
func longestAny(stocks []runStock) (longest length) {
	for _, limited := range []bool{false, true} {
		for _, s := range stocks {
			if limited || s.limit == 0 {
				longest = max(longest, s.length)
			}
		}
		if longest > 0 {
			break
		}
	}
	return longest
}

// checkRuns checks that the parts of every run make it up, keep the rule for
// parts and are among the cuts. It returns false when the runs make no sense.
func checkRuns(runs []runEntry, demand []cutCount, stocks []runStock, t *tally, where string) bool {
	longest := longestAny(stocks)
	left := map[length]int64{}
	for _, d := range demand {
		left[d.length] = d.count
	}
	for _, r := range runs {
		if r.Count < 1 || r.Count > mostBars || r.Length <= longest || longest <= 0 || len(r.Parts) == 0 {
			t.fail(where, "a run without count or parts, or that fits the stock")
			return false
		}
		sum := length(0)
		for _, part := range r.Parts {
			sum += part
			left[part] -= r.Count
			t.want(part >= r.Least && part <= longest, where, part.mm(), r.Least.mm()+" to "+longest.mm(), "a part of a run is too short or too long")
			t.want(left[part] >= 0, where, part.mm(), "cut", "a part of a run is not among the cuts")
		}
		t.want(sum == r.Length, where, sum.mm(), r.Length.mm(), "the parts of a run do not make it up")
		fewest := (r.Length + longest - 1) / longest
		t.same(where, big.NewInt(int64(len(r.Parts))).String(), big.NewInt(int64(fewest)).String(), "a run is not split into the fewest parts")
	}
	return true
}

// wantedOf takes the parts of the runs out of the cuts and lists the ways to split
// the runs; ok is false when they are too many.
func wantedOf(cuts []cutCount, runs []runEntry, stocks []runStock) (w wanted, ok bool) {
	left, most := map[length]int64{}, map[length]int64{}
	for _, c := range cuts {
		left[c.length] += c.count
	}
	for _, r := range runs {
		if r.ByRule {
			continue
		}
		for _, part := range r.Parts {
			left[part] -= r.Count
		}
		d := dividedRun{count: r.Count, ways: waysToSplit(r, stocks)}
		if len(d.ways) == 0 || len(d.ways) > mostWays {
			return w, false
		}
		for l, n := range mostParts(d.ways) {
			most[l] += n * r.Count
		}
		w.runs = append(w.runs, d)
	}
	for l, n := range left {
		if n > 0 {
			w.cuts = append(w.cuts, cutCount{l, n})
			most[l] += n
		}
	}
	for l, n := range most {
		w.most = append(w.most, cutCount{l, n})
	}
	byLength := func(a, b cutCount) int { return cmp.Compare(b.length, a.length) }
	slices.SortFunc(w.cuts, byLength)
	slices.SortFunc(w.most, byLength)
	return w, true
}

// waysToSplit lists all ways to split a run into as many parts as it has, all
// but one of them whole bars; at most one more than mostWays.
func waysToSplit(r runEntry, stocks []runStock) [][]length {
	longest := longestAny(stocks)
	var bars []runStock
	for _, s := range stocks {
		if s.length >= r.Least && s.length <= longest {
			bars = append(bars, s)
		}
	}
	var ways [][]length
	var choose func(at, whole int, rest length, parts []length)
	choose = func(at, whole int, rest length, parts []length) {
		if rest <= 0 || len(ways) > mostWays {
			return
		}
		if whole == 0 {
			if rest <= longest {
				ways = append(ways, append(slices.Clone(parts), rest))
			}
			return
		}
		if at == len(bars) {
			return
		}
		for n := 0; n <= whole; n++ {
			if bars[at].limit > 0 && int64(n) > bars[at].limit {
				break
			}
			choose(at+1, whole-n, rest-length(n)*bars[at].length, append(slices.Clone(parts), slices.Repeat([]length{bars[at].length}, n)...))
		}
	}
	choose(0, len(r.Parts)-1, r.Length, nil)
	return ways
}

// mostParts is the most parts of each length in any one of the ways.
func mostParts(ways [][]length) map[length]int64 {
	most := map[length]int64{}
	for _, parts := range ways {
		n := map[length]int64{}
		for _, part := range parts {
			n[part]++
			most[part] = max(most[part], n[part])
		}
	}
	return most
}

// weightsOf reads the weights of a certificate.
func weightsOf(cuts []weightEntry) (weights map[length]int64, why string) {
	weights = map[length]int64{}
	for _, w := range cuts {
		if w.Weight < 0 || w.Weight > mostWeight {
			return nil, "a weight of the certificate is out of range"
		}
		weights[w.Length] = w.Weight
	}
	return weights, ""
}

// total is the weight of all that is wanted, runs being split so that they weigh
// least.
func (w wanted) total(weights map[length]int64) *big.Int {
	total := new(big.Int)
	add := func(weight, count int64) {
		total.Add(total, new(big.Int).Mul(big.NewInt(weight), big.NewInt(count)))
	}
	for _, c := range w.cuts {
		add(weights[c.length], c.count)
	}
	for _, r := range w.runs {
		least := int64(-1)
		for _, parts := range r.ways {
			sum := int64(0)
			for _, part := range parts {
				sum += weights[part]
			}
			if least < 0 || sum < least {
				least = sum
			}
		}
		add(least, r.count)
	}
	return total
}

// items are the pieces with a weight that may be cut from the stock.
func (w wanted) items(weights map[length]int64, stock, kerf length) []item {
	var items []item
	for _, m := range w.most {
		if weight := weights[m.length]; weight > 0 && m.length <= stock {
			items = append(items, item{int64(m.length + kerf), weight, m.count})
		}
	}
	return items
}
