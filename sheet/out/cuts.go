package out

import (
	"laybill/estimate/building"
	"laybill/sheet/crew"
)

// mostCutSheets is how many sheets of cut lists a workbook gets before the
// rest share one: beyond that nobody finds a sheet by its tab.
const mostCutSheets = 250

// cuts writes the cut lists of the plans.
type cuts struct {
	book     *book
	pictures map[crew.Likeness]*picture
}

func newCuts(b *book) *cuts {
	return &cuts{book: b, pictures: map[crew.Likeness]*picture{}}
}

// Columns of a cut list. Widths are in letters; together they fill a page.
const (
	cutPieces = iota
	cutWidth
	cutRow
	startCut
	startFrom
	startTo
	wholeCount
	wholeFrom
	wholeTo
	endCut
	endFrom
	endTo
	cutColumns
)

var (
	metricCutWidths = []float64{cutPieces: 13, cutWidth: 7.5, cutRow: 10, startCut: 8.5, startFrom: 12, startTo: 8.5, wholeCount: 4, wholeFrom: 15.5, wholeTo: 8.5,
		endCut: 8.5, endFrom: 12, endTo: 8.5}
	imperialCutWidths = []float64{cutPieces: 13, cutWidth: 8.5, cutRow: 12, startCut: 11, startFrom: 11.5, startTo: 8.5, wholeCount: 4, wholeFrom: 13.5, wholeTo: 8,
		endCut: 11, endFrom: 11.5, endTo: 8.5}
)

// cutWidths are the widths that the job's lengths need.
func (b *book) cutWidths() []float64 {
	if b.imperial() {
		return imperialCutWidths
	}
	return metricCutWidths
}

// setUp is how a sheet of cut lists is printed.
func (c *cuts) setUp() page {
	return page{widths: c.book.cutWidths(), frozen: 1, titles: 1, tight: true}
}

// sheet writes the cut lists of plans into one sheet.
func (c *cuts) sheet(name string, plans []*crew.Plan) {
	s := c.book.open(name, c.setUp())
	title := "Cut list " + plans[0].Name()
	if len(plans) > 1 {
		title = "Cut lists"
	}
	s.title(title)
	for i, p := range plans {
		if i > 0 {
			s.breakPage()
		}
		c.plan(s, p)
	}
	s.close()
}

// plan writes a page a room, more where one is not enough, and what to bring.
func (c *cuts) plan(s *sheet, p *crew.Plan) {
	for i, room := range p.Rooms {
		if i > 0 {
			s.breakPage()
		}
		c.room(s, c.page(p, i+1, room), room)
	}
	c.bring(s, p)
}

// room writes a room's page: what it is, its drawing, the cuts row by row.
func (c *cuts) room(s *sheet, page *roomPage, room *building.Room) {
	drawn := c.pictures[c.book.crew.Likeness(room)]
	c.book.keep(drawn.err)
	page.fitBelow(c, drawn.height)
	s.putBands(page.above)
	s.picture(drawn.png, "Laying plan of "+room.Spec.Name)
	s.putHigh(drawn.height, cell{})
	s.putTable(page.again, page.heads, page.rows)
	s.keepTogether(page.below, page.again)
	s.putBands(page.below)
}

// headings are the two lines above the rows.
func (c *cuts) headings() bands {
	groups := make([]cell, cutColumns)
	heads := make([]cell, cutColumns)
	for i := range groups {
		groups[i].style = style{bold: true, shaded: true, edge: tableGrid, align: middle}
	}
	for i, words := range []string{"Pieces", "Width", "Row length", "Cut", "From", "Off-cut to", "No", "From", "Off-cut to", "Cut", "From", "Off-cut to"} {
		heads[i] = text(words).in(headingStyle)
		heads[i].style.align = middle
	}
	top := band{cells: groups, height: usualHeight}
	for _, g := range []struct {
		first, last int
		words       string
	}{{cutPieces, cutRow, "Row"}, {startCut, startTo, "First piece"}, {wholeCount, wholeTo, "Full-length pieces"}, {endCut, endTo, "Last piece"}} {
		groups[g.first] = text(g.words).in(groups[g.first].style)
		top.merged = append(top.merged, [2]int{g.first, g.last})
	}
	return bands{top, {cells: heads, height: usualHeight}}
}
