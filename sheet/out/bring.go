package out

import "laybill/sheet/crew"

// bring lists what to carry into one apartment of the plan.
func (c *cuts) bring(s *sheet, p *crew.Plan) {
	widths := c.book.cutWidths()
	heading := func(more string) band { return partBand("To bring into each apartment"+more, widths) }
	place := func(code, words, whole, measured, unit cell) []cell {
		cells := make([]cell, cutColumns)
		cells[cutPieces], cells[cutWidth], cells[wholeCount], cells[endCut], cells[endFrom] = code, words, whole, measured, unit
		return cells
	}
	heads := place(text("Product"), text("Description"), text("Whole"), rightText("Measured"), text("Unit").indented())
	for i := range heads {
		heads[i].style.bold, heads[i].style.shaded, heads[i].style.edge = true, true, headingBox
	}
	var rows bands
	for _, item := range c.book.crew.CarriedInto(p) {
		cells := place(text(item.Product.Code).strong(), text(item.Product.Description), text(item.Whole()), number(item.Quantity, "#,##0.00"), text(item.Unit).indented())
		cells[cutWidth].style.wrap = true
		for i := range cells {
			cells[i].style.edge = hairBelow
		}
		words := 0.0
		for _, w := range widths[cutWidth:wholeCount] {
			words += w
		}
		rows = append(rows, band{cells: cells, height: max(usualHeight, cells[cutWidth].style.height(cells[cutWidth].lines(words))),
			merged: [][2]int{{cutWidth, wholeCount - 1}, {wholeCount, wholeTo}}})
	}
	top := bands{gapBand(), heading("")}
	s.keepTogether(append(append(top, band{height: 16}), rows...), nil)
	s.putBands(top)
	s.putTable(bands{heading(", continued")}, bands{{cells: heads, height: 16}}, rows)
}
