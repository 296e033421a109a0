package out

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// carried is how much of a product an apartment takes.
type carried struct {
	product  *job.Product
	quantity decimal.Decimal
	unit     string
	planks   int
}

// bring lists what to carry into one apartment of the plan.
func (c *cuts) bring(s *sheet, p *plan) {
	s.part("To bring into each apartment")
	place := func(code, words, whole, measured, unit cell) []cell {
		cells := make([]cell, cutColumns)
		cells[cutPieces], cells[cutWidth], cells[wholeCount], cells[endCut], cells[endFrom] = code, words, whole, measured, unit
		return cells
	}
	heads := place(text("Product"), text("Description"), text("Whole"), rightText("Measured"), text("Unit").indented())
	for i := range heads {
		heads[i].style.bold, heads[i].style.shaded, heads[i].style.edge = true, true, headingBox
	}
	s.putHigh(16, heads...)
	for _, item := range c.carried(p) {
		cells := place(text(item.product.Code).strong(), text(item.product.Description), text(item.whole()), number(item.quantity, "#,##0.00"), text(item.unit).indented())
		for i := range cells {
			cells[i].style.edge = hairBelow
		}
		s.putHigh(15, cells...)
	}
}

// whole is the amount in planks and packs, where the product has them.
func (c carried) whole() string {
	if c.planks == 0 {
		return ""
	}
	if c.product.PiecesPerPack == 0 {
		return fmt.Sprintf("%d planks", c.planks)
	}
	return fmt.Sprintf("%d planks = %d packs and %d", c.planks, c.planks/c.product.PiecesPerPack, c.planks%c.product.PiecesPerPack)
}

// carried adds up the products of an apartment's rooms, by kind and code.
func (c *cuts) carried(p *plan) []carried {
	type key struct {
		product *job.Product
		unit    string
	}
	var items []carried
	at := map[key]int{}
	for _, line := range c.book.linesOf(p.apartments[0]) {
		k := key{line.Product, line.Unit}
		if line.Product == nil || line.Unit == "" {
			continue
		}
		if _, known := at[k]; !known {
			at[k] = len(items)
			items = append(items, carried{product: line.Product, unit: line.Unit})
		}
		items[at[k]].quantity = items[at[k]].quantity.Add(line.Quantity)
	}
	for i := range items {
		items[i].planks = c.planks(p, items[i].product)
	}
	slices.SortStableFunc(items, func(a, b carried) int {
		return cmp.Or(cmp.Compare(a.product.Kind, b.product.Kind), cmp.Compare(a.product.Code, b.product.Code))
	})
	return items
}

// planks is the planks of a product first cut in the plan's rooms.
func (c *cuts) planks(p *plan, product *job.Product) int {
	n := 0
	for _, room := range p.rooms {
		covering := room.Spec.BuildUp.Covering()
		if layout := c.book.result.Layout(room); layout != nil && covering != nil && covering.Product == product {
			n += layout.Planks
		}
	}
	return n
}
