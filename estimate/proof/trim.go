package proof

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
)

// cutCount is how many pieces of one length are cut.
type cutCount struct {
	length length
	count  int64
}

// mostBars bounds counts so that no sum overflows.
const mostBars = 1 << 31

// checkTrims recounts every pool of goods cut to length.
func (c *checker) checkTrims() {
	bars, bound := c.claim(claimBars), c.claim(claimBarBound)
	open := 0
	names := map[poolName]bool{}
	for i := range c.f.Trims {
		e := &c.f.Trims[i]
		name := poolName{e.Product, e.Pool}
		bars.want(!names[name], name.sign(), "listed twice", "listed once", "two pools of cuts have one name")
		names[name] = true
		if !e.checkBars(bars, name.sign()) || !checkRuns(e.Runs, e.demand(), []runStock{{e.StockLength, 0}}, bars, name.sign()) {
			continue
		}
		c.report.Bars += int(e.count())
		if !e.checkBound(bound, name.sign()) {
			open++
		}
	}
	open += c.checkChoices(bound)
	bound.remark = remarkOpen(open, "pools of cuts")
}

// count is the number of bars.
func (e *trimEntry) count() int64 {
	n := int64(0)
	for _, b := range e.Bars {
		n += b.Count
	}
	return n
}

// checkBars checks that every bar holds its cuts; it returns false when the
// pool makes no sense.
func (e *trimEntry) checkBars(t *tally, where string) bool {
	if e.StockLength <= 0 || e.Kerf < 0 {
		t.fail(where, "the stock length or the kerf is out of range")
		return false
	}
	for i, b := range e.Bars {
		bar := fmt.Sprintf("%s bar %d", where, i+1)
		if b.Count < 1 || b.Count > mostBars || len(b.Cuts) == 0 {
			t.fail(bar, "a bar without count or cuts")
			return false
		}
		used := length(len(b.Cuts)-1) * e.Kerf
		for _, l := range b.Cuts {
			if l <= 0 {
				t.fail(bar, "a cut without length")
				return false
			}
			used += l
		}
		t.want(used <= e.StockLength, bar, used.mm(), e.StockLength.mm(), "cuts and kerfs are longer than the bar")
	}
	return true
}

// checkBound compares bars and bound. It returns false when a bound is stated
// that nothing in the file proves.
func (e *trimEntry) checkBound(t *tally, where string) (certified bool) {
	if e.LowerBound == nil {
		t.want(!e.Proven, where, "proven", "no bound", "a plan without a bound cannot be proven")
		return true
	}
	bars := e.count()
	t.want(*e.LowerBound <= bars, where, fmt.Sprintf("%d bars", bars), fmt.Sprintf("at least %d", *e.LowerBound),
		"fewer bars than the lower bound")
	t.want(!e.Proven || *e.LowerBound == bars, where, fmt.Sprintf("%d bars", bars), fmt.Sprintf("bound %d", *e.LowerBound),
		"proven, but bars and bound differ")
	proven := e.lengthBound()
	if e.Certificate != nil {
		bound, why := e.certified(e.Certificate)
		if why == tooLarge {
			return *e.LowerBound <= proven
		}
		if !t.want(why == "", where, "certificate", "a proof", why) {
			return true
		}
		proven = max(proven, bound)
	}
	if *e.LowerBound <= proven {
		return true
	}
	if e.Certificate == nil || e.Searched {
		return false
	}
	t.want(false, where, fmt.Sprintf("%d stated", *e.LowerBound), fmt.Sprintf("%d proven", proven),
		"the certificate proves less than the bound")
	return true
}

// demand is how many pieces of each length are cut, longest first.
func (e *trimEntry) demand() []cutCount {
	counts := map[length]int64{}
	for _, b := range e.Bars {
		for _, l := range b.Cuts {
			counts[l] += b.Count
		}
	}
	demand := make([]cutCount, 0, len(counts))
	for l, n := range counts {
		demand = append(demand, cutCount{l, n})
	}
	slices.SortFunc(demand, func(a, b cutCount) int { return cmp.Compare(b.length, a.length) })
	return demand
}

// lengthBound counts bars by length alone: a piece takes its length and a kerf
// of a bar a kerf longer.
func (e *trimEntry) lengthBound() int64 {
	need := new(big.Int)
	for _, d := range e.demand() {
		need.Add(need, new(big.Int).Mul(big.NewInt(int64(d.length+e.Kerf)), big.NewInt(d.count)))
	}
	return ceiling(need, big.NewInt(int64(e.StockLength+e.Kerf)))
}

// tooLarge is why a certificate counts as none: weighing it anew would take more
// work than a proof is allowed.
const tooLarge = "the certificate is too large to check"

// certified is the best bound of a certificate and its further ones.
func (e *trimEntry) certified(certificate *trimCertificate) (bound int64, why string) {
	wanted, ok := wantedOf(e.demand(), e.Runs, []runStock{{e.StockLength, 0}})
	if !ok {
		return 0, tooLarge
	}
	all := append([]trimCertificate{*certificate}, certificate.Further...)
	for i := range all {
		one, why := e.weighed(&all[i], wanted)
		if why != "" {
			return 0, why
		}
		bound = max(bound, one)
	}
	return bound, ""
}

// weighed re-evaluates one certificate.
func (e *trimEntry) weighed(certificate *trimCertificate, wanted wanted) (int64, string) {
	weights, why := weightsOf(certificate.Cuts)
	if why != "" {
		return 0, why
	}
	total := wanted.total(weights)
	heaviest, ok := knapsack(wanted.items(weights, e.StockLength, e.Kerf), int64(e.StockLength+e.Kerf))
	switch {
	case !ok:
		return 0, tooLarge
	case certificate.Bar < heaviest:
		return 0, fmt.Sprintf("cuts of weight %d fit one bar, the certificate says %d", heaviest, certificate.Bar)
	case certificate.Bar <= 0:
		return 0, ""
	}
	return ceiling(total, big.NewInt(certificate.Bar)), ""
}

// item is a kind of thing for a knapsack.
type item struct{ size, weight, count int64 }

// load is a total size and the heaviest weight that has it.
type load struct{ size, weight int64 }

// Limits on one knapsack: its work, and weight a length so that no sum
// overflows.
const (
	knapsackLoads = 50_000_000
	mostDensity   = 1 << 62
)

// knapsack is the greatest weight of items that fit the room, exactly: it keeps
// every total size that no smaller one outweighs. ok is false when there are
// too many.
func knapsack(items []item, room int64) (heaviest int64, ok bool) {
	loads := []load{{0, 0}}
	work := 0
	for _, it := range items {
		if it.weight/it.size >= mostDensity/room {
			return 0, false
		}
		left := min(it.count, room/it.size)
		for bundle := int64(1); left > 0; bundle *= 2 {
			n := min(bundle, left)
			left -= n
			loads = merge(loads, load{it.size * n, it.weight * n}, room)
			if work += len(loads); work > knapsackLoads {
				return 0, false
			}
		}
	}
	return loads[len(loads)-1].weight, true
}

// merge adds the loads with one more bundle and drops those outweighed.
func merge(loads []load, bundle load, room int64) []load {
	merged := make([]load, 0, 2*len(loads))
	push := func(l load) {
		if n := len(merged); n == 0 || l.weight > merged[n-1].weight {
			if n > 0 && merged[n-1].size == l.size {
				merged[n-1] = l
				return
			}
			merged = append(merged, l)
		}
	}
	i, j := 0, 0
	for i < len(loads) || j < len(loads) {
		if j == len(loads) || i < len(loads) && loads[i].size <= loads[j].size+bundle.size {
			push(loads[i])
			i++
			continue
		}
		with := load{loads[j].size + bundle.size, loads[j].weight + bundle.weight}
		j++
		if with.size <= room {
			push(with)
		}
	}
	return merged
}
