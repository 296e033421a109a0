package purchase

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// priceAt is the product's unit price when so many sold units are ordered: that
// of the highest break the whole quantity reaches.
func priceAt(p *job.Product, quantity decimal.Decimal) decimal.Decimal {
	reached, price := decimal.Zero, p.Price
	for _, b := range p.PriceBreaks {
		if b.From.Cmp(quantity) <= 0 && b.From.Cmp(reached) > 0 {
			reached, price = b.From, b.Price
		}
	}
	return price
}

// nearBreaks cautions where an order would cost less if more of one product
// were bought, up to a price break. Delivery, the minimum order and the discount
// on the whole order count: a cheaper line may lose its free delivery.
func nearBreaks(settings job.Settings, order Order, problems *problem.List) {
	for i, line := range order.Lines {
		best := order
		for _, b := range line.Product.PriceBreaks {
			if b.From.Cmp(line.Quantity) <= 0 {
				continue
			}
			lines := append([]Line(nil), order.Lines...)
			lines[i] = line.of(upTo(b.From.Rat(), line.Product.OrderStep), settings.Currency)
			if larger := newOrder(settings, order.Supplier, lines); larger.Net.Cmp(best.Net) < 0 {
				best = larger
			}
		}
		if saved := order.Net.Sub(best.Net); !saved.IsZero() {
			problems.Add(nearBreak(line, best.Lines[i], saved.String()+" "+saved.Currency().Code))
		}
	}
}

func nearBreak(line, larger Line, saved string) problem.Problem {
	p := line.Product
	return problem.Problem{
		Code:  problem.PriceBreakNear,
		At:    p.Ref,
		Found: fmt.Sprintf("%s %s of %s at %s", line.Quantity, p.SoldBy, p.Code, line.Price),
		Want:  fmt.Sprintf("%s %s at %s, which cost %s less with delivery and supplement", larger.Quantity, p.SoldBy, larger.Price, saved),
		Fix:   fmt.Sprintf("Set the Minimum quantity of %s to %s, if the rest can be stored or returned.", p.Code, larger.Quantity),
	}
}
