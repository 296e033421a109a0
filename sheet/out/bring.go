package out

import "laybill/sheet/crew"

// bring lists what to carry into one apartment of the plan.
func (c *cuts) bring(s *sheet, p *crew.Plan) {
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
	for _, item := range c.book.crew.CarriedInto(p) {
		cells := place(text(item.Product.Code).strong(), text(item.Product.Description), text(item.Whole()), number(item.Quantity, "#,##0.00"), text(item.Unit).indented())
		for i := range cells {
			cells[i].style.edge = hairBelow
		}
		s.putHigh(15, cells...)
	}
}
