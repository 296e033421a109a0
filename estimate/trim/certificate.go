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
