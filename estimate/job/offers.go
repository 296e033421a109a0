package job

import (
	"fmt"

	"laybill/estimate/problem"
)

// Rows are the rows of the product's code: what each supplier offers, by the
// supplier's code, or the product alone when one supplier has it.
func (p *Product) Rows() []*Product {
	if len(p.Offers) == 0 {
		return []*Product{p}
	}
	return p.Offers
}

// BuyAs makes the product what one of its offers says.
func (p *Product) BuyAs(offer *Product) {
	offers, lengthOf := p.Offers, p.LengthOf
	*p = *offer
	p.Offers, p.LengthOf = offers, lengthOf
}

// HasOffers tells whether a product of the job is offered by several suppliers.
func (j *Job) HasOffers() bool {
	for _, p := range j.Products {
		if len(p.Offers) > 0 {
			return true
		}
	}
	return false
}

// checkOffers wants rows of one code to be one thing: layouts and cutting plans
// are made before a supplier is chosen.
func checkOffers(j *Job) []Finding {
	var found []Finding
	for _, p := range j.Products {
		rows := p.Rows()
		for _, row := range rows[1:] {
			for _, column := range differing(rows[0], row) {
				found = append(found, Finding{Cells: append(cells(row.Ref, column), cells(rows[0].Ref, column)...), Problem: problem.Problem{Code: problem.OffersDiffer,
					Found: fmt.Sprintf("%s of two suppliers, not alike in this column", p.Code), Want: "rows of one code that differ only in supplier, price, pack and terms",
					Fix: "correct the value, or give the other product a code of its own"}})
			}
		}
	}
	return found
}

// differing are the columns of size and laying in which two rows differ.
func differing(a, b *Product) []string {
	var columns []string
	for _, column := range []struct {
		key  string
		same bool
	}{
		{"kind", a.Kind == b.Kind}, {"length", a.Length == b.Length}, {"shortest", a.Shortest == b.Shortest}, {"width", a.Width == b.Width}, {"thickness", a.Thickness == b.Thickness},
		{"joint", a.Joint == b.Joint}, {"joints", a.Pattern == b.Pattern}, {"angle", a.ChevronAngle == b.ChevronAngle}, {"hands", a.Hands == b.Hands}, {"leastend", a.LeastEnd == b.LeastEnd}, {"stagger", a.LeastStagger == b.LeastStagger}, {"leastrow", a.LeastRow == b.LeastRow}, {"movement", a.Movement.Equal(b.Movement)},
		{"gap", a.Gap == b.Gap}, {"kerf", a.Kerf == b.Kerf}, {"longest", a.LongestRun == b.LongestRun}, {"spread", a.Spread.Equal(b.Spread)},
		{"overlap", a.Overlap == b.Overlap}, {"upturn", a.Upturn == b.Upturn}, {"acclimatise", a.Acclimatise == b.Acclimatise}, {"lengthof", a.LengthOf == b.LengthOf},
		{"heatresist", a.HeatResist.Equal(b.HeatResist)},
		{"cornercut", a.CornerCut == b.CornerCut}, {"scribing", a.Scribing == b.Scribing},
		{"jointwidth", a.JointWidth == b.JointWidth}, {"notch", a.Notch == b.Notch}, {"backcoat", a.BackCoat == b.BackCoat},
	} {
		if !column.same {
			columns = append(columns, column.key)
		}
	}
	return columns
}
