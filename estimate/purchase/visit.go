package purchase

import (
	"cmp"
	"math"
	"slices"
)

// visit searches a node product by product, with the worths that its bound
// ended at.
type visit struct {
	*node
	places []place
	have   []int64   // goods of each order so far
	least  []int64   // least that the products from each place on cost under the worths
	reach  [][]int64 // goods that they can bring to each order
	chosen []int
}

// place is a product with its offers, the cheapest under the worths first.
type place struct {
	product int
	offers  []placed
}

type placed struct {
	offer   int
	reduced int64
}

// newVisit puts the products first whose cheapest offer stands out most, and
// sums up what is still to come from each place on.
func newVisit(n *node) *visit {
	v := &visit{node: n, chosen: make([]int, len(n.products))}
	for _, o := range n.orders {
		v.have = append(v.have, o.goods)
	}
	for product, offers := range n.products {
		p := place{product: product}
		for i, offer := range offers {
			if cost := n.reduced(offer); cost < never {
				p.offers = append(p.offers, placed{i, cost})
			}
		}
		slices.SortStableFunc(p.offers, func(a, b placed) int { return cmp.Compare(a.reduced, b.reduced) })
		v.places = append(v.places, p)
	}
	slices.SortStableFunc(v.places, func(a, b place) int { return cmp.Compare(b.lead(), a.lead()) })
	last := len(v.places)
	v.least, v.reach = make([]int64, last+1), make([][]int64, last+1)
	v.reach[last] = make([]int64, len(n.orders))
	for at := last - 1; at >= 0; at-- {
		p := v.places[at]
		v.least[at] = v.least[at+1] + p.offers[0].reduced
		v.reach[at] = slices.Clone(v.reach[at+1])
		for _, o := range p.offers {
			for _, l := range n.products[p.product][o.offer] {
				v.reach[at][l.order] += l.goods
			}
		}
	}
	return v
}

// lead is how much dearer the second offer is than the first.
func (p place) lead() int64 {
	if len(p.offers) == 1 {
		return math.MaxInt64
	}
	return p.offers[1].reduced - p.offers[0].reduced
}

// fewChoices are looked through rather than split further.
const fewChoices = 50_000

// choices is how many choices are left when no product may cost as much more
// than its cheapest offer as the gap, at most one more than fewChoices.
func (v *visit) choices(gap int64) int {
	n := 1
	for _, p := range v.places {
		open := 0
		for _, o := range p.offers {
			if o.reduced-p.offers[0].reduced < gap {
				open++
			}
		}
		if n *= open; n > fewChoices {
			return fewChoices + 1
		}
	}
	return n
}

func (v *visit) run() {
	base := int64(0)
	for i, o := range v.orders {
		base += v.counted(i, o.cost, o.off) + v.worths[i]*o.goods
	}
	v.from(0, base)
}

// from chooses the offer of one place and of all after it. spent is what the
// offers chosen before cost under the worths.
func (v *visit) from(at int, spent int64) {
	if v.left <= 0 {
		return
	}
	charges := v.charged(at)
	if spent+v.least[at]+charges >= v.best {
		return
	}
	if at == len(v.places) {
		v.consider(v.chosen)
		return
	}
	p := v.places[at]
	for _, o := range p.offers {
		if spent+o.reduced+v.least[at+1]+charges >= v.best {
			return // the offers after it cost more
		}
		v.chosen[p.product] = o.offer
		v.move(p.product, o.offer, 1)
		v.from(at+1, spent+o.reduced)
		v.move(p.product, o.offer, -1)
	}
}

// move adds an offer's goods to its orders, or takes them away.
func (v *visit) move(product, offer int, sign int64) {
	for _, l := range v.products[product][offer] {
		v.have[l.order] += sign * l.goods
	}
}

// charged is the least that the orders' charges less the worth of their goods
// can be, whatever is chosen from a place on; never where an order cannot come
// into any of its steps.
func (v *visit) charged(at int) int64 {
	v.left -= len(v.orders)
	total := int64(0)
	for i, steps := range v.steps {
		least := int64(never)
		for _, st := range steps {
			st.from, st.most = max(st.from, v.have[i]), min(st.most, v.have[i]+v.reach[at][i])
			if st.from <= st.most {
				_, _, cost := st.least(v.worths[i])
				least = min(least, cost)
			}
		}
		if least == never {
			return never
		}
		total += least
	}
	return total
}
