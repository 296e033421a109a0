package trim

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// weighing proves a bound: the pieces have whole weights, and no cuts from one
// bar of a kind outweigh most. A plan's bars then weigh in total, by most, at
// least what the wanted pieces weigh.
type weighing struct {
	weights []int64 // of each size
	most    []int64 // of each bar
}

// total is the weight of all wanted pieces, runs being split so that they weigh
// least.
func (w weighing) total(t *task, n need) *big.Int {
	sum := new(big.Int)
	for i, d := range n.pieces {
		sum.Add(sum, new(big.Int).Mul(big.NewInt(int64(d)), big.NewInt(w.weights[i])))
	}
	for j, k := range n.runs {
		if k > 0 {
			sum.Add(sum, new(big.Int).Mul(big.NewInt(int64(k)), big.NewInt(t.runs[j].least(w.weights))))
		}
	}
	return sum
}

// bound is the least cost of any plan that the weighing allows, when fractions
// of bars could be bought: the weight is taken up by the bars that carry most
// for their price, as far as there are any. It is rounded up to the next
// attainable cost.
func (w weighing) bound(t *task, n need) int64 {
	order := make([]int, 0, len(t.bars))
	for k, m := range w.most {
		if m > 0 {
			order = append(order, k)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(new(big.Rat).SetFrac64(t.bars[a].price, w.most[a]).Cmp(new(big.Rat).SetFrac64(t.bars[b].price, w.most[b])), 0)
	})
	left := w.total(t, n)
	cost := new(big.Rat)
	for _, k := range order {
		if left.Sign() <= 0 {
			break
		}
		bars := new(big.Rat).SetFrac(left, big.NewInt(w.most[k]))
		if limit := new(big.Rat).SetInt64(int64(n.bars[k])); bars.Cmp(limit) > 0 {
			bars = limit
			left.Sub(left, new(big.Int).Mul(big.NewInt(int64(n.bars[k])), big.NewInt(w.most[k])))
		} else {
			left.SetInt64(0)
		}
		cost.Add(cost, bars.Mul(bars, new(big.Rat).SetInt64(t.bars[k].price)))
	}
	return ceilTo(cost, t.step)
}

// boundOrNone is bound, but beyond any cost when not even all bars can carry
// the weight.
func (w weighing) boundOrNone(t *task, n need) int64 {
	carried := new(big.Int)
	for k, m := range w.most {
		carried.Add(carried, new(big.Int).Mul(big.NewInt(m), big.NewInt(int64(n.bars[k]))))
	}
	if carried.Cmp(w.total(t, n)) < 0 {
		return math.MaxInt64 / 4
	}
	return w.bound(t, n)
}

// ceilTo is the least multiple of step that is not below r.
func ceilTo(r *big.Rat, step int64) int64 {
	den := new(big.Int).Mul(r.Denom(), big.NewInt(step))
	q, m := new(big.Int).DivMod(r.Num(), den, new(big.Int))
	if m.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	return q.Int64() * step
}
