package out

import (
	"fmt"

	"laybill/estimate/building"
	"laybill/sheet/crew"
)

// roomPage is what stands on a room's page round its drawing.
type roomPage struct {
	above, heads, rows, below bands
	again                     bands // begins a second page
}

// page makes the page of a room, the first of which says how to read them all.
func (c *cuts) page(p *crew.Plan, number int, room *building.Room) *roomPage {
	widths, words := c.book.cutWidths(), fmt.Sprintf("Room %d: %s", number, room.Spec.Name)
	page := &roomPage{again: bands{partBand(words+", continued", widths)}}
	if number == 1 {
		page.above = bands{noteBand(p.Serves(), widths), noteBand(c.book.crew.HowToRead(), widths)}
	}
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
		for _, line := range shaped {
			page.below = append(page.below, noteBand(line, widths))
		}
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
