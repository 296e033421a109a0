package out

import (
	"laybill/sheet/crew"
)

// blockColumns are the columns of a table of blocks, each over some columns of a
// cut list's rows.
var blockColumns = []struct {
	heading     string
	first, last int
}{
	{"Hand", cutPieces, cutPieces}, {"No", cutWidth, cutWidth}, {"Blocks", cutRow, startCut},
	{"First piece", startFrom, startTo}, {"Laid as", wholeCount, wholeFrom}, {"From the rest", wholeTo, endCut}, {"Laid as", endFrom, endTo},
}

func (c *cuts) blockHeadings() band {
	heads := make([]cell, len(blockColumns))
	for i, column := range blockColumns {
		heads[i] = text(column.heading).in(headingStyle)
	}
	return c.blockRow(heads)
}

// blocks are the rows that say how a room's blocks are cut.
func (c *cuts) blocks(blocks []crew.BlockCut) bands {
	var rows bands
	for _, b := range blocks {
		cells := []cell{text(b.Hand.String()).strong(), plainCount(b.Count), text(b.From), text(b.Cut).strong(), text(b.Laid), text(b.Rest).strong(), text(b.Kept)}
		crewCells(cells)
		rows = append(rows, c.blockRow(cells))
	}
	return rows
}

// blockRow is a row of the table, each cell over its columns.
func (c *cuts) blockRow(cells []cell) band {
	row := band{cells: make([]cell, cutColumns)}
	for i, column := range blockColumns {
		for j := column.first; j <= column.last; j++ {
			row.cells[j].style = cells[i].style
		}
		row.cells[column.first] = cells[i]
		row.merged = append(row.merged, [2]int{column.first, column.last})
	}
	row.height = c.rowHeight(row)
	return row
}
