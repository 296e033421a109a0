package purchase

import (
	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
)

// Offer is a product on one supplier's terms, with what is needed of it in
// that supplier's sold units.
type Offer struct {
	Product *job.Product
	Needs   []Need
}

// Choice is which offer of a product is taken, and what each would cost.
type Choice struct {
	Offers []Offer
	Nets   []money.Amount // of each offer's order lines together
	Taken  int
}

// Cheapest is the offer with the least net of its own, the first of equals.
func (c Choice) Cheapest() int {
	least := 0
	for i, net := range c.Nets {
		if net.Cmp(c.Nets[least]) < 0 {
			least = i
		}
	}
	return least
}

// Choices are the offers taken of all products that several suppliers offer.
type Choices struct {
	Products []Choice
	// Total is what all orders cost, Apart what they would if each product were
	// bought where its own line is cheapest: goods less discounts, delivery and
	// supplements, with tax where that is a cost.
	Total, Apart money.Amount
	Proven       bool // no choice of suppliers costs less
}

// Choose takes an offer of each product so that all orders together cost
// least; discounts on whole orders, delivery, free limits and minimum orders
// counted. fixed is what one supplier alone offers. A tax that is a cost counts
// line by line, less its part of the discount, before it is rounded.
func Choose(settings job.Settings, suppliers []*job.Supplier, fixed []Need, products [][]Offer) (Choices, problem.List) {
	var problems problem.List
	s := newSearch(settings, suppliers, consignmentsOf(fixed, products))
	for _, w := range gather(fixed) {
		if bought, ok := w.buy(&problems); ok {
			s.fix(s.offer(bought))
		}
	}
	choices := Choices{}
	for _, offers := range products {
		c := Choice{Offers: offers}
		var open []offered
		for _, offer := range offers {
			for _, w := range gather(offer.Needs) {
				if bought, ok := w.buy(&problems); ok {
					open = append(open, s.offer(bought))
					c.Nets = append(c.Nets, bought.net(settings.Currency))
				}
			}
		}
		choices.Products = append(choices.Products, c)
		s.products = append(s.products, open)
	}
	if len(problems) > 0 {
		return Choices{}, problems
	}
	apart := make([]int, len(products))
	for i, c := range choices.Products {
		apart[i] = c.Cheapest()
	}
	taken, proven := s.solve(apart)
	for i := range choices.Products {
		choices.Products[i].Taken = taken[i]
	}
	choices.Total, choices.Apart, choices.Proven = s.amount(s.cost(taken)), s.amount(s.cost(apart)), proven
	return choices, nil
}

// consignmentsOf is how many consignments needs are counted for.
func consignmentsOf(fixed []Need, products [][]Offer) int {
	n := 1
	for _, need := range fixed {
		n = max(n, len(need.By))
	}
	for _, offers := range products {
		for _, offer := range offers {
			n = max(n, consignmentsOf(offer.Needs, nil))
		}
	}
	return n
}
