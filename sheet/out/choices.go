package out

import (
	"fmt"
	"strings"

	"laybill/estimate/purchase"
)

// choiceRules say for each product that several suppliers offer what it would
// cost at each, who got the order, and why.
func (b *book) choiceRules() []rule {
	c := b.result.Choices
	if len(c.Products) == 0 {
		return nil
	}
	code := b.result.Job.Settings.Currency.Code
	rules := []rule{{"Suppliers", "Where several suppliers offer a product, all orders together are made cheapest, with discounts on whole orders, delivery, free limits and minimum orders. " + provenWords(c),
		fmt.Sprintf("%s %s; each line where it is cheapest by itself: %s", c.Total, code, c.Apart), ourDefinition}}
	for _, choice := range c.Products {
		taken := choice.Offers[choice.Taken]
		rules = append(rules, rule{taken.Product.Code, "Bought from " + taken.Product.Supplier.Name + ": " + reason(choice) + ".", netsWords(choice), "Products and Suppliers sheets"})
	}
	return rules
}

// provenWords says whether a cheaper choice may exist.
func provenWords(c purchase.Choices) string {
	if c.Proven {
		return "No other choice of suppliers costs less: all were compared, by bounds."
	}
	return "The search for suppliers was ended after many choices and is not proven: a cheaper choice may exist."
}

// choiceNote is what the orders say of the choice of suppliers, if there was one.
func (b *book) choiceNote() string {
	if len(b.result.Choices.Products) == 0 {
		return ""
	}
	return " " + provenWords(b.result.Choices)
}

// reason is why an offer was taken.
func reason(c purchase.Choice) string {
	if c.Nets[c.Taken].Equal(c.Nets[c.Cheapest()]) {
		return "its line is cheapest there"
	}
	return fmt.Sprintf("its line costs %s more than at the cheapest, which discounts on orders, delivery and minimum orders outweigh", c.Nets[c.Taken].Sub(c.Nets[c.Cheapest()]))
}

// netsWords lists what the product's line costs at each supplier.
func netsWords(c purchase.Choice) string {
	words := make([]string, len(c.Offers))
	for i, offer := range c.Offers {
		words[i] = offer.Product.Supplier.Code + " " + c.Nets[i].String()
	}
	return strings.Join(words, ", ")
}
