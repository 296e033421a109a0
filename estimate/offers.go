package estimate

import (
	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// measure takes the quantities and the needs of everything that is laid and
// cut, on the products' present terms.
func (r *Result) measure() {
	r.Takeoff = quantity.Take(r.Job, r.Building, r.laid(), r.Subfloor)
	r.Takeoff.Uses = append(r.Takeoff.Uses, otherLengths(r.Job, r.Takeoff.Uses)...)
	r.countWaste()
	r.Needs = r.needs()
}

// chooseOffers buys every product that several suppliers offer from the one
// that makes all orders cheapest. Layouts and cutting plans do not depend on it;
// what is needed of a product is counted once on each supplier's terms, and
// again on the terms chosen, unless all was counted on these last.
func (r *Result) chooseOffers() problem.List {
	products, fixed := r.offered()
	if len(products) == 0 {
		return nil
	}
	choices, problems := purchase.Choose(r.Job.Settings, r.Job.Suppliers, fixed, r.offers(products))
	if problems.HasErrors() {
		return problems
	}
	r.Choices = choices
	measured := true
	for i, p := range products {
		taken := choices.Products[i].Taken
		measured = measured && taken == len(p.Offers)-1
		p.BuyAs(p.Offers[taken])
	}
	if !measured {
		r.measure()
	}
	return nil
}

// offered are the products in need that several suppliers offer, in the order
// of the needs, and the needs of the others.
func (r *Result) offered() (products []*job.Product, fixed []purchase.Need) {
	for _, need := range r.Needs {
		switch p := need.Product; {
		case len(p.Offers) == 0:
			fixed = append(fixed, need)
		case len(products) == 0 || products[len(products)-1] != p:
			products = append(products, p)
		}
	}
	return products, fixed
}

// offers counts what is needed of each product on each of its offers' terms.
func (r *Result) offers(products []*job.Product) [][]purchase.Offer {
	all := make([][]purchase.Offer, len(products))
	for n, open := 0, true; open; n++ {
		open = false
		for _, p := range products {
			p.BuyAs(p.Offers[min(n, len(p.Offers)-1)])
			open = open || n+1 < len(p.Offers)
		}
		if n > 0 { // on the terms of the first offers all is measured already
			r.measure()
		}
		for i, p := range products {
			if n < len(p.Offers) {
				all[i] = append(all[i], purchase.Offer{Product: p.Offers[n], Needs: r.needsOf(p, p.Offers[n])})
			}
		}
	}
	return all
}

// needsOf are the needs of a product, as needs of one of its offers.
func (r *Result) needsOf(p, offer *job.Product) []purchase.Need {
	var needs []purchase.Need
	for _, need := range r.Needs {
		if need.Product == p {
			need.Product = offer
			needs = append(needs, need)
		}
	}
	return needs
}

// ownOffers is the job on the terms of each product's first offer: the job
// itself, or a copy where there is a choice, since choosing changes products.
func ownOffers(j *job.Job) *job.Job {
	if !j.HasOffers() {
		return j
	}
	own := j.Copy()
	for _, p := range own.Products {
		p.BuyAs(p.Rows()[0])
	}
	return own
}
