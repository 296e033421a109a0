package out

import (
	"fmt"

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
	metricCutWidths = []float64{cutPieces: 12, cutWidth: 8, cutRow: 9, startCut: 8.5, startFrom: 12.5, startTo: 8.5, wholeCount: 4, wholeFrom: 16, wholeTo: 8.5,
		endCut: 8.5, endFrom: 12.5, endTo: 8.5}
	imperialCutWidths = []float64{cutPieces: 12, cutWidth: 9, cutRow: 11, startCut: 11, startFrom: 12, startTo: 8.5, wholeCount: 4, wholeFrom: 13, wholeTo: 8.5,
		endCut: 11, endFrom: 12, endTo: 8.5}
)

// cutWidths are the widths that the job's lengths need.
func (b *book) cutWidths() []float64 {
	if b.imperial() {
		return imperialCutWidths
	}
	return metricCutWidths
}

// sheet writes the cut lists of plans into one sheet.
func (c *cuts) sheet(name string, plans []*crew.Plan) {
	s := c.book.open(name, page{widths: c.book.cutWidths(), frozen: 1, titles: 1, tight: true})
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

// plan writes one page or more a room, and what to bring.
func (c *cuts) plan(s *sheet, p *crew.Plan) {
	s.note(p.Serves())
	s.note(c.book.crew.HowToRead())
	for i, room := range p.Rooms {
		if i > 0 {
			s.breakPage()
		}
		c.room(s, p, i+1, room)
	}
	s.skip(1)
	c.bring(s, p)
}

// room writes a room's page: what it is, its drawing, the cuts row by row.
func (c *cuts) room(s *sheet, p *crew.Plan, number int, room *building.Room) {
	s.part(fmt.Sprintf("Room %d: %s", number, room.Spec.Name))
	s.note(c.book.crew.Facts(room))
	drawn := c.pictures[c.book.crew.Likeness(room)]
	c.book.keep(drawn.err)
	s.picture(drawn.png, "Laying plan of "+room.Spec.Name)
	s.putHigh(drawn.height, cell{})
	if rows := c.book.crew.Rows(p, room); len(rows) > 0 {
		c.headings(s)
		for _, row := range rows {
			c.row(s, row)
		}
		c.below(s, room)
	}
	if blocks := c.book.crew.Blocks(p, room); len(blocks) > 0 {
		c.blocks(s, blocks)
	}
	if trims := c.book.crew.Trims(room); len(trims) > 0 {
		s.skip(1)
		s.notes(trims)
	}
	if room.Spec.Note != "" {
		s.note("Note: " + room.Spec.Note)
	}
}

// below stands under a room's rows: its shaped pieces and equal cuts.
func (c *cuts) below(s *sheet, room *building.Room) {
	if shaped := c.book.crew.Shaped(room); len(shaped) > 0 {
		s.skip(1)
		s.put(text(crew.ShapedWords).strong())
		s.notes(shaped)
	}
	if equal := c.book.crew.EqualCuts(room); equal != "" {
		s.skip(1)
		s.note(equal)
	}
}

// notes writes a note a line.
func (s *sheet) notes(lines []string) {
	for _, line := range lines {
		s.note(line)
	}
}

func (c *cuts) headings(s *sheet) {
	groups := make([]cell, cutColumns)
	heads := make([]cell, cutColumns)
	for i := range groups {
		groups[i].style = style{bold: true, shaded: true, edge: tableGrid, align: middle}
	}
	for i, words := range []string{"Pieces", "Width", "Row length", "Cut", "From", "Off-cut to", "No", "From", "Off-cut to", "Cut", "From", "Off-cut to"} {
		heads[i] = text(words).in(headingStyle)
		heads[i].style.align = middle
	}
	first := s.row + 1
	for _, g := range []struct {
		at    int
		words string
	}{{cutPieces, "Row"}, {startCut, "First piece"}, {wholeCount, "Full-length pieces"}, {endCut, "Last piece"}} {
		groups[g.at] = text(g.words).in(groups[g.at].style)
	}
	s.putHigh(15, groups...)
	s.merge(cutPieces+1, first, cutRow+1, first)
	s.merge(startCut+1, first, startTo+1, first)
	s.merge(wholeCount+1, first, wholeTo+1, first)
	s.merge(endCut+1, first, endTo+1, first)
	s.putHigh(15, heads...)
}
