package in

import (
	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// offerOf is the row of the product that a quantity price belongs to; nil when
// the row does not say which of several suppliers it is.
func (r row) offerOf(product *job.Product) *job.Product {
	supplier, state := refer(r, "supplier", r.suppliers)
	if state == unknown {
		return nil
	}
	rows := product.Rows()
	for _, offer := range rows {
		if len(rows) == 1 && state == blank || offer.Supplier == supplier {
			return offer
		}
	}
	r.doubt(problem.NameUnknown, "supplier", "one of the suppliers that offer the product", "name the supplier whose price it is")
	return nil
}

// readPriceBreaks gives products their quantity prices; a quantity of a product
// has one price.
func (r *reader) readPriceBreaks() {
	r.each("breaks", func(r row) {
		b := job.PriceBreak{Ref: r.record("product")}
		product, productState := refer(r, "product", r.products)
		from, fromState := read(r, "from", asQuantity)
		price, priceState := r.price("price")
		if productState != given || fromState != given || priceState != given {
			return
		}
		product = r.offerOf(product)
		if product == nil {
			return
		}
		b.From, b.Price = from, price
		if from.Sign() == 0 {
			r.doubt(problem.ValueOutOfRange, "from", "a quantity above 0", "correct the quantity; the price from nothing on is the product's own")
			return
		}
		for _, earlier := range product.PriceBreaks {
			if earlier.From.Equal(from) {
				r.doubt(problem.NameRepeated, "from", "each quantity of a product once", "correct the quantity, or delete one of the rows")
				return
			}
		}
		product.PriceBreaks = append(product.PriceBreaks, b)
	})
}
