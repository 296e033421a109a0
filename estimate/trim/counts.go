package trim

import (
	"math"
	"slices"
)

// counting finds the cheapest numbers of bars of each kind that carry the
// wanted pieces in every one of several weighings. Bars that cost nothing are
// all taken.
type counting struct {
	kinds   []int // the bars that are counted
	price   []int64
	limit   []int64
	wanted  []int64     // by weighing: the weight the counted bars must carry
	carries [][]int64   // by counted bar, then weighing
	rate    [][]float64 // by counted bar, then weighing: the least price of a weight from this bar on
	barred  [][]int64   // counts that are not to be found again

	now   []int64
	cost  int64 // only cheaper counts are looked for
	found []int64
	steps int
}

// maxCountSteps limits the work of all searches over counts for one order.
const maxCountSteps = 60_000_000

func newCounting(t *task, n need, proofs []weighing) *counting {
	c := &counting{}
	for k, b := range t.bars {
		if b.price > 0 && b.stock != NoIndex && n.bars[k] > 0 {
			c.kinds = append(c.kinds, k)
			c.price = append(c.price, b.price)
			c.limit = append(c.limit, int64(n.bars[k]))
		}
	}
	c.now = make([]int64, len(c.kinds))
	c.carries = make([][]int64, len(c.kinds))
	c.rate = make([][]float64, len(c.kinds)+1)
	for _, w := range proofs {
		c.add(t, n, w)
	}
	return c
}

// add makes counts that fail the weighing impossible.
func (c *counting) add(t *task, n need, w weighing) {
	total := w.total(t, n)
	if !total.IsInt64() || total.Int64() > math.MaxInt64/4 {
		return
	}
	wanted := total.Int64()
	for k, b := range t.bars {
		if b.price == 0 {
			wanted -= w.most[k] * min(int64(n.bars[k]), wanted/max(1, w.most[k])+1)
			wanted = max(wanted, 0)
		}
	}
	c.wanted = append(c.wanted, wanted)
	rate := math.Inf(1)
	c.rate[len(c.kinds)] = append(c.rate[len(c.kinds)], rate)
	for i := len(c.kinds) - 1; i >= 0; i-- {
		most := w.most[c.kinds[i]]
		rate = min(rate, float64(c.price[i])/float64(most))
		c.carries[i] = append(c.carries[i], most)
		c.rate[i] = append(c.rate[i], rate*(1-1e-12))
	}
}

// search finds counts cheaper than below; ok is false when the work limit was
// reached first, found nil when there are none.
func (c *counting) search(below int64) (ok bool) {
	c.cost, c.found = below, nil
	c.count(0, 0, c.wanted)
	return c.steps <= maxCountSteps
}

// count chooses the number of the i-th kind; left is the weight still wanted.
func (c *counting) count(i int, cost int64, left []int64) {
	c.steps++
	if c.steps > maxCountSteps || float64(cost)+c.rest(i, left) > float64(c.cost)-0.5 {
		return
	}
	if i == len(c.kinds) {
		if !slices.ContainsFunc(c.barred, func(b []int64) bool { return slices.Equal(b, c.now) }) {
			c.cost, c.found = cost, slices.Clone(c.now)
		}
		return
	}
	n, most := int64(0), c.enough(i, left)
	if i == len(c.kinds)-1 {
		n = most
	}
	most += int64(len(c.barred)) // more than enough is worth a look where enough is barred
	next := make([]int64, len(left))
	for ; n <= min(most, c.limit[i]) && cost+n*c.price[i] < c.cost; n++ {
		c.now[i] = n
		for j, w := range left {
			next[j] = w - n*c.carries[i][j]
		}
		c.count(i+1, cost+n*c.price[i], next)
		if c.steps > maxCountSteps {
			return
		}
	}
}

// rest is a bound on the price of what is still wanted.
func (c *counting) rest(i int, left []int64) float64 {
	rest := 0.0
	for j, w := range left {
		if w > 0 {
			rest = max(rest, float64(w)*c.rate[i][j])
		}
	}
	return rest
}

// enough is how many bars of the i-th kind alone would do.
func (c *counting) enough(i int, left []int64) int64 {
	n := int64(0)
	for j, w := range left {
		switch {
		case w <= 0:
		case c.carries[i][j] <= 0:
			return unlimited
		default:
			n = max(n, (w+c.carries[i][j]-1)/c.carries[i][j])
		}
	}
	return n
}

// jointBound is the least cost that all the weighings together allow.
func (t *task) jointBound(proofs []weighing) int64 {
	bound := int64(0)
	for _, w := range proofs {
		bound = max(bound, w.bound(t, t.need()))
	}
	if len(proofs) < 2 {
		return bound
	}
	c := newCounting(t, t.need(), proofs)
	if c.search(math.MaxInt64/4) && c.found != nil {
		return max(bound, c.cost)
	}
	return bound
}
