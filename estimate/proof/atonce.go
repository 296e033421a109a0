package proof

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// checkAtOnce adds up what one order would cost each supplier that gets several,
// and compares its goods with theirs.
func (c *checker) checkAtOnce() {
	t := c.claim(claimAtOnce)
	seen := map[string]bool{}
	for i := range c.f.AtOnce {
		o := &c.f.AtOnce[i]
		where := "at once from " + o.Supplier
		t.want(!seen[o.Supplier], where, "listed twice", "listed once", "one order a supplier")
		seen[o.Supplier] = true
		c.checkOrder(o, where, t, t)
		o.checkPayment(o.PaidAlready.Decimal, t, where)
		parts, placed := c.placedWith(o.Supplier)
		t.want(parts > 1, where, fmt.Sprint(parts), "2 or more", "the supplier does not get several orders")
		t.want(len(o.Lines) == len(placed), where, fmt.Sprint(len(o.Lines)), fmt.Sprint(len(placed)), "not the products of the orders placed")
		for j := range o.Lines {
			l := &o.Lines[j]
			t.want(l.Quantity.LessThanOrEqual(placed[l.Product]), where+" "+l.Product, l.Quantity.String(), "at most "+placed[l.Product].String(), "more than is ordered in parts")
		}
	}
}

// placedWith is how many orders a supplier gets, and how much of each product.
func (c *checker) placedWith(supplier string) (orders int, quantities map[string]decimal.Decimal) {
	quantities = map[string]decimal.Decimal{}
	for i := range c.f.Orders {
		o := &c.f.Orders[i]
		if o.Supplier != supplier {
			continue
		}
		orders++
		for _, l := range o.Lines {
			quantities[l.Product] = quantities[l.Product].Add(l.Quantity.Decimal)
		}
	}
	return orders, quantities
}
