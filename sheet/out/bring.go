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
	heads := make([]cell, cutColumns)
	for i := range heads {
		heads[i].style = headingStyle
	}
	for at, words := range map[int]string{cutPieces: "Product", startCut: "Description", endCut: "Measured", endFrom: "Unit", endTo: "Whole"} {
		heads[at] = text(words).in(headingStyle)
	}
	s.putHigh(16, heads...)
	for _, item := range c.carried(p) {
		cells := make([]cell, cutColumns)
		cells[cutPieces], cells[startCut] = text(item.product.Code), text(item.product.Description)
		cells[endCut], cells[endFrom] = number(item.quantity, "#,##0.00"), text(item.unit)
		cells[endTo] = text(item.whole())
		for i := range cells {
			cells[i].style.edge, cells[i].style.size = hairBelow, crewSize
		}
		s.putHigh(16, cells...)
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
