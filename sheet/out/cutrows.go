package out

import (
	"laybill/estimate/drawing"
	"laybill/estimate/measure"
	"laybill/sheet/crew"
)

// cut writes a length for the saw.
func (b *book) cut(l measure.Length) string { return drawing.Cut(l, b.result.Job.Settings.LengthUnit) }

// cutCell is a length for the saw: a number in millimetres, a text in inches.
func (b *book) cutCell(l measure.Length) cell {
	if b.imperial() {
		return text(b.cut(l)).in(style{align: right})
	}
	return plainCount(int(crew.Saw(l, measure.MM) / measure.Millimetre))
}

// crewCells gives the cells of a cut list the crew's type and a fine grid.
func crewCells(cells []cell) {
	for i := range cells {
		cells[i].style.size, cells[i].style.edge, cells[i].style.wrap, cells[i].style.align = crewSize, tableGrid, true, middle
	}
}

// row is one unbroken row of pieces.
func (c *cuts) row(r crew.Row) band {
	cells := make([]cell, cutColumns)
	cells[cutPieces] = text(r.Pieces).strong()
	cells[cutWidth], cells[cutRow] = c.book.cutCell(r.Width), c.book.cutCell(r.Length)
	cells[startCut] = c.book.cutCell(r.First.Length).strong()
	cells[startFrom], cells[startTo] = text(r.First.From), text(r.First.To)
	if r.Between.Count > 0 {
		cells[wholeCount] = plainCount(r.Between.Count)
		cells[wholeFrom], cells[wholeTo] = text(r.Between.From), text(r.Between.To)
	}
	if r.Last.Count > 0 {
		cells[endCut] = c.book.cutCell(r.Last.Length).strong()
		cells[endFrom], cells[endTo] = text(r.Last.From), text(r.Last.To)
	}
	crewCells(cells)
	row := band{cells: cells}
	row.height = c.rowHeight(row)
	return row
}

// rowHeight is how high the words of a row's cells make it.
func (c *cuts) rowHeight(row band) float64 {
	height := 0.0
	for i := range row.cells {
		if !row.covered(i) {
			height = max(height, row.cells[i].style.height(row.cells[i].lines(row.width(i, c.book.cutWidths()))))
		}
	}
	return height
}
