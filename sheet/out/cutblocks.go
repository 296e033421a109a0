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

// crewLetters is how much fewer letters of the crew's bold type fit than of a
// note's.
const crewLetters = 0.72

// blocks writes how a room's blocks are cut.
func (c *cuts) blocks(s *sheet, blocks []crew.BlockCut) {
	heads := make([]cell, len(blockColumns))
	for i, column := range blockColumns {
		heads[i] = text(column.heading)
	}
	c.blockRow(s, heads, headingStyle)
	for _, b := range blocks {
		cells := []cell{text(b.Hand.String()).strong(), plainCount(b.Count), text(b.From), text(b.Cut).strong(), text(b.Laid), text(b.Rest).strong(), text(b.Kept)}
		crewCells(cells)
		c.blockRow(s, cells, cells[2].style)
	}
	s.note(crew.BlockWords)
}

// blockRow writes a row of the table, each cell merged over its columns.
func (c *cuts) blockRow(s *sheet, cells []cell, style style) {
	row := make([]cell, cutColumns)
	for i := range row {
		row[i].style = style
	}
	lines := 1
	widths := c.book.cutWidths()
	for i, column := range blockColumns {
		width := 0.0
		for _, w := range widths[column.first : column.last+1] {
			width += w
		}
		row[column.first] = cells[i]
		if cells[i].style == plainStyle {
			row[column.first].style = style
		}
		lines = max(lines, wrappedLines(cells[i].value, width*crewLetters))
	}
	s.putHigh(2+14.5*float64(lines), row...)
	for _, column := range blockColumns {
		s.merge(column.first+1, s.row, column.last+1, s.row)
	}
}
