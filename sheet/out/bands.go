package out

// band is a row of a sheet that is made before it is written, so that pages can
// be filled by its height.
type band struct {
	cells  []cell
	height float64
	merged [][2]int // first and last columns, from 0, of cells drawn as one
}

// width is that of a cell with those that are drawn as one with it.
func (b band) width(column int, widths []float64) float64 {
	for _, m := range b.merged {
		if m[0] == column {
			sum := 0.0
			for _, w := range widths[m[0] : m[1]+1] {
				sum += w
			}
			return sum
		}
	}
	return widths[column]
}

// covered tells a cell that lies behind another.
func (b band) covered(column int) bool {
	for _, m := range b.merged {
		if m[0] < column && column <= m[1] {
			return true
		}
	}
	return false
}

// noteBand is a line of explanation across columns of so many units.
func noteBand(words string, widths []float64) band {
	return band{cells: []cell{text(words).in(noteStyle.wrapped())}, height: noteHeight(words, widths), merged: [][2]int{{0, len(widths) - 1}}}
}

// partBand is the heading of a part of a sheet, ruled across its columns.
func partBand(words string, widths []float64) band {
	cells := make([]cell, len(widths))
	for i := range cells {
		cells[i].style = partStyle
	}
	cells[0] = text(words).in(partStyle)
	return band{cells: cells, height: 18}
}

func gapBand() band { return band{height: gapHeight} }

// bands are rows one below the other.
type bands []band

func (all bands) height() float64 {
	sum := 0.0
	for _, b := range all {
		sum += b.height
	}
	return sum
}

// putBands writes the rows.
func (s *sheet) putBands(all bands) {
	for _, b := range all {
		s.putHigh(b.height, b.cells...)
		for _, m := range b.merged {
			s.merge(m[0]+1, s.row, m[1]+1, s.row)
		}
	}
}

// putTable writes headings and rows. Where a page is full the next one begins
// with what says whose rows go on, and with the headings.
func (s *sheet) putTable(again, heads, rows bands) {
	if len(rows) == 0 {
		return
	}
	s.keepTogether(append(heads[:len(heads):len(heads)], rows[0]), again)
	s.putBands(heads)
	for _, row := range rows {
		if s.left() < row.height {
			s.breakPage()
			s.putBands(again)
			s.putBands(heads)
		}
		s.putBands(bands{row})
	}
}

// keepTogether begins a page, and says what goes on there, when rows to come do
// not fit on this one.
func (s *sheet) keepTogether(rows, again bands) {
	if s.left() < rows.height() {
		s.breakPage()
		s.putBands(again)
	}
}
