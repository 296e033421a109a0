package purchase

import (
	"math"
	"slices"
)

// node is a part of the search: the steps that each order may be in. Its bound
// is Lagrangian: the goods of each order have a price of their own, the worth,
// at which products are cheapest each for itself and orders have the goods that
// are best for them. For any worths the two sums cost together no more than the
// best choice in the node does.
type node struct {
	*search
	steps  [][]step
	netted []bool  // whose lines are counted less what the order's discount takes off
	worths []int64 // cost by minor unit of goods, of each order
	bound  int64   // no choice in the node costs less

	choice []int   // the cheapest offers under the worths
	goods  []int64 // what each order has under that choice
	costs  []int64 // what its lines cost
	netOff []int64 // of that, what is counted as taken off
	wanted []int64 // the goods that are best for each order
	free   []int64 // what each order's charges less the worth of its goods are then
}

// root is the whole search.
func (s *search) root() *node {
	n := &node{search: s, steps: make([][]step, len(s.orders)), netted: make([]bool, len(s.orders)), worths: make([]int64, len(s.orders)), choice: make([]int, len(s.products))}
	reach, contested := make([]int64, len(s.orders)), make([]bool, len(s.orders))
	for i, o := range s.orders {
		reach[i] = o.goods
	}
	for _, offers := range s.products {
		most := map[int]int64{}
		for _, offer := range offers {
			for _, l := range offer {
				most[l.order], contested[l.order] = max(most[l.order], l.goods), true
			}
		}
		for order, goods := range most {
			reach[order] += goods
		}
	}
	for i, o := range s.orders {
		n.limit(i, s.steps(o, reach[i], contested[i]))
	}
	return n
}

// with is the node with an order in one step.
func (n *node) with(order int, only step) *node {
	child := &node{search: n.search, steps: slices.Clone(n.steps), netted: slices.Clone(n.netted), worths: slices.Clone(n.worths), choice: make([]int, len(n.products))}
	child.limit(order, []step{only})
	return child
}

// limit leaves an order some of its steps, and nets its lines where that is
// possible and not done yet.
func (n *node) limit(order int, steps []step) {
	if !n.netted[order] {
		steps, n.netted[order] = n.netSteps(n.orders[order], steps)
	}
	n.steps[order] = steps
}

// counted is the part of a cost in an order that the node counts line by line; off
// is what the order's discount takes off it.
func (n *node) counted(order int, cost, off int64) int64 {
	if n.netted[order] {
		return cost - off
	}
	return cost
}

// Rounds of tune: patience without a better bound halves the pace.
const (
	mostRounds = 300
	patience   = 8
	leastPace  = 0.005
)

// tune moves the worths until the bound they give is hardly better (subgradient
// method with the step of Polyak), and keeps the best bound. Every choice met on
// the way is a candidate, and the last one mended.
func (n *node) tune() {
	pace, idle := 1.0, 0
	bound, best := int64(math.MinInt64), slices.Clone(n.worths)
	for range mostRounds {
		now := n.relax()
		if n.consider(n.choice); now > bound {
			bound, best, idle = now, slices.Clone(n.worths), 0
		} else if idle++; idle == patience {
			pace, idle = pace/2, 0
			copy(n.worths, best)
			continue
		}
		norm := 0.0
		for i := range n.worths {
			off := float64(n.goods[i] - n.wanted[i])
			norm += float64(off * off)
		}
		if norm == 0 || bound >= n.best || pace < leastPace || n.left <= 0 {
			break
		}
		for i := range n.worths {
			n.worths[i] = n.stopped(i, int64(pace*float64(n.best-now+scale)/norm*float64(n.goods[i]-n.wanted[i])))
		}
	}
	copy(n.worths, best)
	n.relax()
	n.bound = bound
	n.mend()
}

// stopped is an order's worth moved by so much, but not across one at which the
// goods that are best for the order jump from one end of a step to the other.
func (n *node) stopped(order int, by int64) int64 {
	worth := n.worths[order]
	crossed := func(kink int64) bool {
		return worth < kink && kink < worth+by || worth+by < kink && kink < worth
	}
	for _, kink := range []int64{0, -n.chargeTax} {
		if crossed(kink) {
			return kink
		}
	}
	for _, st := range n.steps[order] {
		if crossed(-st.relief) {
			return -st.relief
		}
	}
	return worth + by
}

// never is a cost that no choice has.
const never = math.MaxInt64 / 4

// relax chooses the cheapest offers and the best goods under the worths, and
// gives the bound; it is never where a product cannot be bought in the node.
func (n *node) relax() int64 {
	bound := int64(0)
	n.goods, n.costs, n.netOff = make([]int64, len(n.orders)), make([]int64, len(n.orders)), make([]int64, len(n.orders))
	n.wanted, n.free = make([]int64, len(n.orders)), make([]int64, len(n.orders))
	for i, o := range n.orders {
		n.goods[i], n.costs[i], n.netOff[i] = o.goods, o.cost, o.cost-n.counted(i, o.cost, o.off)
	}
	for p, offers := range n.products {
		least := int64(never)
		for i, offer := range offers {
			if cost := n.reduced(offer); cost < least {
				least, n.choice[p] = cost, i
			}
		}
		if least == never {
			return never
		}
		bound += least
		for _, l := range offers[n.choice[p]] {
			n.goods[l.order] += l.goods
			n.costs[l.order] += l.cost
			n.netOff[l.order] += l.cost - n.counted(l.order, l.cost, l.off)
		}
	}
	for i, o := range n.orders {
		n.wanted[i], n.free[i] = n.atBest(i)
		bound += n.counted(i, o.cost, o.off) + n.worths[i]*o.goods + n.free[i]
	}
	return bound
}

// reduced is what an offer costs under the worths; never where one of its
// orders is not to be used.
func (n *node) reduced(offer offered) int64 {
	cost := int64(0)
	for _, l := range offer {
		if steps := n.steps[l.order]; !steps[len(steps)-1].used {
			cost = never
			break
		}
		cost += n.counted(l.order, l.cost, l.off) + n.worths[l.order]*l.goods
	}
	n.left -= len(offer)
	return min(cost, never)
}

// atBest is the goods that are best for an order in its steps under its worth,
// of several the nearest to those it has, and its charges less their worth.
func (n *node) atBest(order int) (goods, cost int64) {
	low, high, cost := int64(0), int64(0), int64(never)
	for _, st := range n.steps[order] {
		switch l, h, c := st.least(n.worths[order]); {
		case c < cost:
			low, high, cost = l, h, c
		case c == cost:
			low, high = min(low, l), max(high, h)
		}
	}
	return min(max(n.goods[order], low), high), cost
}

// gap is how much more an order's charges are under the node's choice than the
// bound counts.
func (n *node) gap(order int) int64 {
	o := n.orders[order]
	o.goods, o.cost, o.used = n.goods[order], n.costs[order], o.used || n.goods[order] > o.goods
	return n.charges(o) + n.netOff[order] - n.worths[order]*o.goods - n.free[order]
}

// farthest is the order with several steps whose charges the bound is farthest
// off for; -1 when it is off for none.
func (n *node) farthest() int {
	order, most := -1, int64(0)
	for i, steps := range n.steps {
		if len(steps) < 2 {
			continue
		}
		if gap := n.gap(i); gap > most {
			order, most = i, gap
		}
	}
	return order
}
