package trim

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/measure"
)

// misweighed checks every claim of a certificate with a knapsack of its own:
// dynamic programming over all lengths, piece by piece, in whole units of the
// greatest common divisor of the lengths with kerf.
func misweighed(o Order, c Certificate) string {
	unit := measure.Length(0)
	for _, w := range o.Cuts {
		unit = measure.Length(gcd(int64(unit), int64(w.Length+o.Kerf)))
	}
	longest := measure.Length(0)
	for _, s := range o.Stocks {
		longest = max(longest, s.Length)
	}
	best := make([]int64, (longest+o.Kerf)/unit+1)
	for _, w := range c.Cuts {
		wanted := 0
		for _, k := range o.Cuts {
			if k.Length == w.Length {
				wanted += k.Count
			}
		}
		size := int((w.Length + o.Kerf) / unit)
		for range min(wanted, len(best)/size) {
			for room := len(best) - 1; room >= size; room-- {
				best[room] = max(best[room], best[room-size]+w.Weight)
			}
		}
	}
	for k, s := range o.Stocks {
		if most := best[(s.Length+o.Kerf)/unit]; most > c.Bars[k] {
			return fmt.Sprintf("cuts of weight %d fit stock %d, the certificate says at most %d", most, k, c.Bars[k])
		}
	}
	for _, more := range c.Further {
		if wrong := misweighed(o, more); wrong != "" {
			return wrong
		}
	}
	return ""
}

func TestCertificateOfSmallOrders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := small(t)
		p, _ := Solve(o)
		if len(o.Cuts) == 0 {
			return
		}
		if wrong := misweighed(o, *p.Certificate); wrong != "" {
			t.Fatal(wrong)
		}
		got, want := p.Certificate.Bound(o), bruteForce(o)
		if got > want {
			t.Fatalf("the certificate proves %d, brute force finds %d", got, want)
		}
		if got != p.Certified {
			t.Fatalf("the certificate proves %d, the plan says %d", got, p.Certified)
		}
	})
}

// A bar of 2400 holds two pieces of 1000 and no three: with weights of 1 each,
// five pieces need three bars. Weights that claim more are worth nothing more.
func TestCertificateBound(t *testing.T) {
	o := Order{Stocks: []Stock{{2400, 7, 0}}, Cuts: []Cut{{1000, 5}}}
	c := Certificate{Cuts: []Weight{{1000, 1}}, Bars: []int64{2}}
	if got := c.Bound(o); got != 21 {
		t.Errorf("bound %d, want 3 bars at 7", got)
	}
	c.Bars[0] = 1 // a lie
	if got := c.Bound(o); got != 21 {
		t.Errorf("bound %d with a false claim, want 3 bars at 7", got)
	}
}

// With weights 3 and 2 the bars must carry 3a + 2b >= 7, with weights 1 and 1
// a + b >= 3: at prices 5 and 3 the cheapest counts are a = 1, b = 2 for 11. The
// first alone would allow 10.5 in fractions of bars, the second 9.
func TestJointBoundOfSeveralWeighings(t *testing.T) {
	tk := &task{sizes: []int{9}, demand: []int{1}, step: 1,
		bars: []bar{{size: 30, price: 5}, {size: 20, price: 3, stock: 1}}}
	heavy := weighing{[]int64{7}, []int64{3, 2}}
	many := weighing{[]int64{3}, []int64{1, 1}}
	if got := tk.jointBound([]weighing{heavy, many}); got != 11 {
		t.Errorf("joint bound %d, want 11", got)
	}
	if got := heavy.bound(tk, tk.need()); got != 11 {
		t.Errorf("bound of the first %d, want 10.5 rounded up", got)
	}
	if got := many.bound(tk, tk.need()); got != 9 {
		t.Errorf("bound of the second %d, want 9", got)
	}
}

// Bound is the lower bound on the cost of the order that the certificate
// proves. It trusts only the weights: the weight a bar can hold is found anew.
func (c Certificate) Bound(o Order) int64 {
	if len(check(o)) > 0 {
		return 0
	}
	f := fold(o)
	if len(f.task.sizes) == 0 {
		return 0
	}
	proofs := []weighing{c.weigh(f)}
	for _, more := range c.Further {
		proofs = append(proofs, more.weigh(f))
	}
	return f.task.jointBound(proofs)
}

// weigh is the certificate's weights with the exact most of every bar.
func (c Certificate) weigh(f folding) weighing {
	of := map[measure.Length]int64{}
	for _, w := range c.Cuts {
		of[w.Length] = w.Weight
	}
	w := weighing{weights: make([]int64, len(f.lengths))}
	for i, l := range f.lengths {
		w.weights[i] = max(0, of[l])
	}
	w.most = heaviest(f.task, w.weights)
	return w
}

// heaviest is the greatest weight of cuts from one bar of each kind, exact
// within the work limit and no less than that beyond.
func heaviest(t *task, weights []int64) []int64 {
	var ks knapsack
	if ks.solve(t, t.most, weights, make([]int64, len(t.bars)), 1) {
		return ks.best
	}
	most := make([]int64, len(t.bars))
	for k, b := range t.bars {
		for i, size := range t.sizes {
			perBar := new(big.Int).Mul(big.NewInt(weights[i]), big.NewInt(int64(b.size)))
			perBar.Div(perBar, big.NewInt(int64(size)))
			most[k] = max(most[k], perBar.Int64()+1)
		}
	}
	return most
}
