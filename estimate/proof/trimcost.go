package proof

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
)

// mostCounts bounds the counts of bars that are tried for one bound.
const mostCounts = 5_000_000

// checkChoices recounts the pools that are cut from several lengths: their
// cost, the bars on hand, and the bound on the cost. It returns how many bounds
// nothing in the file proves.
func (c *checker) checkChoices(t *tally) (open int) {
	entries := map[poolName]*trimEntry{}
	for i := range c.f.Trims {
		e := &c.f.Trims[i]
		entries[poolName{e.Product, e.Pool}] = e
	}
	for i := range c.f.Choices {
		choice := &c.f.Choices[i]
		where := poolName{choice.Product, choice.Pool}.sign()
		if !choice.gather(entries, t, where) {
			continue
		}
		if !choice.checkCost(t, where) {
			open++
		}
	}
	return open
}

// gather finds the bars of every stock; it returns false when the entry makes
// no sense.
func (e *choiceEntry) gather(entries map[poolName]*trimEntry, t *tally, where string) bool {
	counts := map[length]int64{}
	for i := range e.Stocks {
		s := &e.Stocks[i]
		if s.Length <= 0 || s.Price < 0 || s.Price > mostWeight || s.Limit < 0 || s.Limit > mostBars {
			t.fail(where, "a stock's length, price or limit is out of range")
			return false
		}
		bars := entries[poolName{s.Product, s.Pool}]
		if bars == nil {
			continue
		}
		t.want(bars.StockLength == s.Length && bars.Kerf == e.Kerf, where, bars.StockLength.mm(), s.Length.mm(), "the bars are of another length or kerf")
		t.want(bars.Remnants == (s.Limit > 0), where, fmt.Sprint(bars.Remnants), fmt.Sprint(s.Limit > 0), "only remnants are limited")
		s.bars = bars.count()
		t.want(s.Limit == 0 || s.bars <= s.Limit, where, fmt.Sprintf("%d bars", s.bars), fmt.Sprintf("%d on hand", s.Limit), "more remnants are cut than there are")
		for _, d := range bars.demand() {
			counts[d.length] += d.count
		}
	}
	for l, n := range counts {
		e.demand = append(e.demand, cutCount{l, n})
	}
	slices.SortFunc(e.demand, func(a, b cutCount) int { return cmp.Compare(b.length, a.length) })
	return checkRuns(e.Runs, e.demand, e.runStocks(), t, where)
}

func (e *choiceEntry) runStocks() []runStock {
	stocks := make([]runStock, len(e.Stocks))
	for k, s := range e.Stocks {
		stocks[k] = runStock{s.Length, s.Limit}
	}
	return stocks
}

// checkCost compares cost and bound. It returns false when the bound is stated
// and not proven by anything in the file.
func (e *choiceEntry) checkCost(t *tally, where string) (certified bool) {
	cost := new(big.Int)
	for _, s := range e.Stocks {
		cost.Add(cost, new(big.Int).Mul(big.NewInt(s.Price), big.NewInt(s.bars)))
	}
	t.same(where, big.NewInt(e.Cost).String(), cost.String(), "the cost is not that of the bars")
	t.want(e.LowerBound <= e.Cost, where, fmt.Sprint(e.Cost), fmt.Sprintf("at least %d", e.LowerBound), "cheaper than the lower bound")
	t.want(!e.Proven || e.LowerBound == e.Cost, where, fmt.Sprint(e.Cost), fmt.Sprintf("bound %d", e.LowerBound), "proven, but cost and bound differ")
	if e.LowerBound <= 0 {
		return true
	}
	if e.Certificate == nil {
		return false
	}
	needs, why := e.needs()
	if why == tooLarge {
		return false
	}
	if !t.want(why == "", where, "certificate", "a proof", why) {
		return true
	}
	cheaper, ok := e.cheaperCounts(needs)
	if !ok || cheaper && e.Searched {
		return false
	}
	t.want(!cheaper, where, "a bound", "a proven bound", "counts of bars below the bound carry the weight of all cuts")
	return true
}

// need is what one certificate asks of the counts of bars: together they must
// carry the weight of all cuts.
type need struct {
	total *big.Int
	most  []int64 // by stock
}

func (e *choiceEntry) needs() (needs []need, why string) {
	var ok bool
	if e.wanted, ok = wantedOf(e.demand, e.Runs, e.runStocks()); !ok {
		return nil, tooLarge
	}
	for _, one := range append([]choiceCertificate{*e.Certificate}, e.Certificate.Further...) {
		n, why := e.weighed(one)
		if why != "" {
			return nil, why
		}
		needs = append(needs, n)
	}
	return needs, ""
}

// weighed re-evaluates the most that a bar of each stock can carry.
func (e *choiceEntry) weighed(certificate choiceCertificate) (need, string) {
	weights, why := weightsOf(certificate.Cuts)
	if why != "" {
		return need{}, why
	}
	n := need{total: e.wanted.total(weights)}
	for k, s := range e.Stocks {
		heaviest, ok := knapsack(e.wanted.items(weights, s.Length, e.Kerf), int64(s.Length+e.Kerf))
		switch {
		case !ok:
			return n, tooLarge
		case k >= len(certificate.Bars) || certificate.Bars[k] < heaviest:
			return n, fmt.Sprintf("cuts of weight %d fit a bar of %s, the certificate says less", heaviest, s.Length.mm())
		}
		n.most = append(n.most, heaviest)
	}
	return n, ""
}

// cheaperCounts tells whether counts of bars that cost less than the bound meet
// every need; ok is false when there are too many counts to try.
func (e *choiceEntry) cheaperCounts(needs []need) (cheaper, ok bool) {
	order := make([]int, len(e.Stocks))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(e.Stocks[b].Price, e.Stocks[a].Price) })
	s := countSearch{choice: e, needs: needs, order: order, counts: make([]int64, len(order))}
	found := s.try(0, e.LowerBound-1)
	return found, s.tried <= mostCounts
}

// countSearch goes through counts of bars, the dearest stock first. More bars
// never carry less, so the last stock takes all the money left, and stock
// without a price all that is on hand.
type countSearch struct {
	choice *choiceEntry
	needs  []need
	order  []int
	counts []int64
	tried  int
}

func (s *countSearch) try(at int, money int64) bool {
	if s.tried++; s.tried > mostCounts {
		return false
	}
	if at == len(s.order) {
		return s.carries()
	}
	stock := &s.choice.Stocks[s.order[at]]
	most := stock.most(money)
	least := int64(0)
	if at == len(s.order)-1 || stock.Price == 0 {
		least = most
	}
	for n := most; n >= least; n-- {
		s.counts[s.order[at]] = n
		if s.try(at+1, money-n*stock.Price) {
			return true
		}
		if s.tried > mostCounts {
			return false
		}
	}
	return false
}

// most is how many bars of the stock the money buys, or are on hand.
func (s *stockChoice) most(money int64) int64 {
	most := int64(mostBars)
	if s.Price > 0 {
		most = min(most, money/s.Price)
	}
	if s.Limit > 0 {
		most = min(most, s.Limit)
	}
	return most
}

func (s *countSearch) carries() bool {
	for _, n := range s.needs {
		carried := new(big.Int)
		for k, most := range n.most {
			carried.Add(carried, new(big.Int).Mul(big.NewInt(most), big.NewInt(s.counts[k])))
		}
		if carried.Cmp(n.total) < 0 {
			return false
		}
	}
	return true
}
