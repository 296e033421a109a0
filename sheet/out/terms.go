package out

import (
	"fmt"
	"slices"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

// charged tells whether a line of the orders bears a charge.
func (b *book) charged() bool {
	return slices.ContainsFunc(b.result.Orders, func(o purchase.Order) bool { return !o.LineCharges().IsZero() })
}

// discounted tells whether a supplier gives a discount on whole orders.
func (b *book) discounted() bool {
	return slices.ContainsFunc(b.buying(), func(s *job.Supplier) bool { return s.OrderDiscountPercent.Sign() > 0 })
}

// settled tells whether a supplier holds a deposit or rounds what it is paid.
func (b *book) settled() bool { return slices.ContainsFunc(b.buying(), settles) }

func settles(s *job.Supplier) bool { return s.Paid.Sign() > 0 || s.PayableStep.Sign() > 0 }

// termRules say how charges on lines, discounts on whole orders and payments are
// counted, where suppliers have them.
func (b *book) termRules() []rule {
	var rules []rule
	add := func(says string, values []string, source string) {
		if len(values) > 0 {
			rules = append(rules, rule{"Money", says, strings.Join(values, "; "), source})
		}
	}
	var charges, discounts, payments []string
	for _, p := range b.usedProducts() {
		if p.LineCharge.Sign() > 0 {
			charges = append(charges, p.Code+" "+p.LineCharge.String())
		}
	}
	for _, s := range b.buying() {
		if s.OrderDiscountPercent.Sign() > 0 {
			discounts = append(discounts, fmt.Sprintf("%s %s %%%s", s.Code, s.OrderDiscountPercent, from(s.OrderDiscountFrom)))
		}
		if settles(s) {
			payments = append(payments, paymentWords(s))
		}
	}
	add("A line charge is added to the product's line in every order, whatever its quantity; discounts of lines do not lower it. Cutting plans of lengths compare prices without it.", charges, "Products sheet")
	add("A discount on the whole order is taken off its goods after the lines' discounts and rounded once. It lowers what is taxed at each rate by the share of its goods, by largest remainder, and every line by its part. "+
		"Minimum order and free delivery compare with the goods before it.", discounts, "Suppliers sheet; one tax category an allowance: EN 16931")
	add("What a supplier holds already is taken off what its orders are payable with, those for the part of the building that is laid first before the others, and never more than that; sums payable are rounded half up. "+
		"Neither changes the cost of the job.", payments, "Suppliers sheet; Peppol order guide, description of totals")
	return rules
}

func from(limit money.Amount) string {
	if limit.Sign() <= 0 {
		return ""
	}
	return " from " + limit.String()
}

func paymentWords(s *job.Supplier) string {
	var words []string
	if s.Paid.Sign() > 0 {
		words = append(words, "holds "+s.Paid.String())
	}
	if s.PayableStep.Sign() > 0 {
		words = append(words, "rounds to "+s.PayableStep.String())
	}
	return s.Code + " " + strings.Join(words, ", ")
}
