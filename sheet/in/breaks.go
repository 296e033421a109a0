package in

import (
	"laybill/estimate/job"
	"laybill/estimate/problem"
)

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
