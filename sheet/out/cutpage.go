package out

import (
	"fmt"
	"math"
	"strings"

	"laybill/estimate/building"
	"laybill/sheet/crew"
)

// roomPage is what stands on a room's page round its drawing.
type roomPage struct {
	above, heads, rows, below bands
	again                     bands // begins a further page
	name                      int   // of the bands above: the room's
}

// rowSizes are the types in points that a room's rows may be set in, the easiest
// to read first. The sheet is made about a tenth smaller to fit the paper, so that
// none is printed below seven points.
var rowSizes = []float64{crewSize, 10, 9, 8}

// Of a drawing in points: what is round its floor, and a row of planks that is
// high enough for the number of a piece.
const (
	drawingEdge = 70
	numberedRow = 5.8
)

// fit sets the page's rows so that they and the notes leave the drawing its
// least height, and tells how much there is for it. Where they do not, a drawing
// may be as low as its pieces' numbers allow; a room that does not fit even so has
// it as high as it can be and further pages, which say so.
func (page *roomPage) fit(c *cuts) (drawing float64) {
	whole := c.book.pageHeight(c.setUp()) - titleHeight
	free := 0.0
	for _, size := range rowSizes {
		page.set(c, size)
		if free = whole - page.height(); free >= lowest {
			return min(highest, free)
		}
	}
	if free >= drawingEdge+numberedRow*float64(len(page.rows)) {
		return free
	}
	return highest
}

// fitBelow sets the rows for a drawing that is made already.
func (page *roomPage) fitBelow(c *cuts, drawing float64) {
	whole := c.book.pageHeight(c.setUp()) - titleHeight
	for _, size := range rowSizes {
		page.set(c, size)
		if page.height()+drawing <= whole {
			return
		}
	}
	best, fewest := crewSize, math.MaxInt
	for _, size := range rowSizes {
		page.set(c, size)
		if n := page.pages(whole, drawing); n < fewest {
			best, fewest = size, n
		}
	}
	page.set(c, best)
	more := fmt.Sprintf(" (%d pages for this room)", fewest)
	for _, b := range []band{page.above[page.name], page.again[0]} {
		b.cells[0].value = b.cells[0].value.(string) + more
	}
}

// set sets the rows in a size of type.
func (page *roomPage) set(c *cuts, size float64) {
	for i := range page.rows {
		b := &page.rows[i]
		if b.cells[0].style.size == size {
			return
		}
		for j := range b.cells {
			b.cells[j].style.size = size
		}
		b.height = c.rowHeight(*b)
	}
}

// pages is how many pages are filled, each of so many points.
func (page *roomPage) pages(whole, drawing float64) int {
	pages, filled := 1, page.above.height()+drawing
	further := func(height, begun float64) {
		if filled+height > whole {
			pages, filled = pages+1, page.again.height()+begun
		}
		filled += height
	}
	if len(page.rows) > 0 {
		further(page.heads.height()+page.rows[0].height, 0)
		for _, row := range page.rows[1:] {
			further(row.height, page.heads.height())
		}
	}
	further(page.below.height(), 0)
	return pages
}

// page makes the page of a room, the first of which says how to read them all.
func (c *cuts) page(p *crew.Plan, number int, room *building.Room) *roomPage {
	widths, words := c.book.cutWidths(), fmt.Sprintf("Room %d: %s", number, room.Spec.Name)
	page := &roomPage{again: bands{partBand(words+", continued", widths)}}
	if number == 1 {
		page.above = bands{noteBand(p.Serves(), widths), noteBand(c.book.crew.HowToRead(), widths)}
	}
	page.name = len(page.above)
	page.above = append(page.above, partBand(words, widths), noteBand(c.book.crew.Facts(room), widths))
	if rows := c.book.crew.Rows(p, room); len(rows) > 0 {
		page.heads = c.headings()
		for _, row := range rows {
			page.rows = append(page.rows, c.row(row))
		}
	}
	if blocks := c.book.crew.Blocks(p, room); len(blocks) > 0 {
		page.heads, page.rows = bands{c.blockHeadings()}, c.blocks(blocks)
		page.below = bands{noteBand(crew.BlockWords, widths)}
	}
	page.notes(c, room)
	return page
}

// notes stand below the rows: shaped pieces, equal cuts, trims and what the
// estimator noted.
func (page *roomPage) notes(c *cuts, room *building.Room) {
	widths := c.book.cutWidths()
	group := func(lines ...string) {
		for i, line := range lines {
			if line == "" {
				continue
			}
			if i == 0 {
				page.below = append(page.below, gapBand())
			}
			page.below = append(page.below, noteBand(line, widths))
		}
	}
	if shaped := c.book.crew.Shaped(room); len(shaped) > 0 {
		page.below = append(page.below, gapBand(), band{cells: []cell{text(crew.ShapedWords).strong()}, height: usualHeight})
		page.below = append(page.below, noteBand(strings.Join(shaped, "   ·   "), widths))
	}
	group(c.book.crew.EqualCuts(room))
	group(c.book.crew.Trims(room)...)
	if room.Spec.Note != "" {
		group("Note: " + room.Spec.Note)
	}
}

// height is that of all but the drawing.
func (page *roomPage) height() float64 {
	return page.above.height() + page.heads.height() + page.rows.height() + page.below.height()
}
