package purchase

import (
	"math"
	"slices"
)

// step is a range of goods in which an order's charges are never less than a
// plain sum: base less relief for each minor unit of goods. It is the charges
// themselves but for the discount on the order, whose rounding and whose tax are
// counted as favourably as they can be; see netSteps. Beyond its range, up to most,
// another step has less charges.
type step struct {
	used       bool
	discounted bool
	from, most int64 // goods, all included
	base       int64
	relief     int64
}

// steps are the steps that an order may be in whose goods can reach an amount,
// lowest first.
func (s *search) steps(o terms, reach int64, contested bool) []step {
	var all []step
	if !o.used {
		all = append(all, step{})
		if !contested {
			return all
		}
	}
	edges := []int64{0}
	for _, edge := range []int64{o.minimum, o.free, o.discount.edge()} {
		if edge > 0 && !slices.Contains(edges, edge) {
			edges = append(edges, edge)
		}
	}
	slices.Sort(edges)
	for i, from := range edges {
		to := int64(math.MaxInt64)
		if i+1 < len(edges) {
			to = edges[i+1] - 1
		}
		if from > reach || o.goods > to {
			continue
		}
		st := step{used: true, from: max(from, o.goods), most: reach}
		if from < o.minimum {
			st.most, st.base, st.relief = min(reach, o.minimum-1), o.minimum*s.chargeTax, s.chargeTax
		}
		if o.free == 0 || from < o.free {
			st.base += o.delivery * s.chargeTax
		}
		if o.discount.part > 0 && from >= o.discount.from {
			st.discounted = true
			st.base -= s.mostTax/2 + 1
			st.relief += o.discount.most(s.mostTax)
		}
		all = append(all, st)
	}
	return all
}

// netSteps are the steps of an order whose lines are counted less what its discount
// takes off each: that is exact whatever their taxes are, and possible where every
// step that uses the order is discounted. ok is false where one is not.
func (s *search) netSteps(o terms, steps []step) (net []step, ok bool) {
	for _, st := range steps {
		if st.used && !st.discounted {
			return steps, false
		}
		if st.used {
			st.relief -= o.discount.most(s.mostTax)
			ok = true
		}
		net = append(net, st)
	}
	return net, ok
}

// edge is the goods from which there is a discount; 0 when there is none, or
// always.
func (d discount) edge() int64 {
	if d.part == 0 {
		return 0
	}
	return d.from
}

// most is what the discount takes off a cost, rounded up.
func (d discount) most(cost int64) int64 { return mulDivUp(uint64(cost), d.part, d.parts) }

// charges are those of the step for so many goods.
func (st step) charges(goods int64) int64 { return st.base - st.relief*goods }

// least is the goods within the step that cost least when each minor unit of
// them is worth so much, from low to high, and that cost.
func (st step) least(worth int64) (low, high, cost int64) {
	low, high = st.from, st.most
	switch {
	case worth > -st.relief:
		low = st.most
	case worth < -st.relief:
		high = st.from
	}
	return low, high, st.charges(low) - worth*low
}
