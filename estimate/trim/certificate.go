package trim

import (
	"laybill/estimate/measure"
)

// Weight is one length of a certificate.
type Weight struct {
	Length measure.Length
	Weight int64
}

// Certificate proves a lower bound on the cost of an order in whole numbers.
type Certificate struct {
	Cuts []Weight // longest first; a length not listed weighs nothing
	// Bars holds for each stock a weight that no set of cuts fitting one bar
	// exceeds. The bars of any plan must carry the weight of all the pieces.
	Bars []int64
	// Further is more weighings of the same order. Bars are bought whole: only
	// counts of bars that carry the pieces in every weighing make up a plan.
	Further []Certificate
}

// certificate translates weighings back to the order; the first is the main one.
func (f folding) certificate(o Order, proofs []weighing) *Certificate {
	var all []Certificate
	for _, w := range proofs {
		c := Certificate{Bars: make([]int64, len(o.Stocks))}
		for i, l := range f.lengths {
			if w.weights[i] > 0 {
				c.Cuts = append(c.Cuts, Weight{l, w.weights[i]})
			}
		}
		for k, s := range o.Stocks {
			// What fits a bar fits every longer one too.
			for j, b := range f.task.bars {
				if b.stock != NoIndex && b.size >= f.size(s.Length+o.Kerf) {
					c.Bars[k] = w.most[j]
				}
			}
		}
		all = append(all, c)
	}
	if len(all) == 0 {
		return nil
	}
	first := all[0]
	first.Further = all[1:]
	return &first
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
