package out

import (
	"fmt"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/cutlist"
	"laybill/estimate/job"
)

// mostCutSheets is how many sheets of cut lists a workbook gets before the
// rest share one: beyond that nobody finds a sheet by its tab.
const mostCutSheets = 250

// plan is apartments that are laid alike: one cut list serves them all.
type plan struct {
	apartments []*job.Apartment
	rooms      []*building.Room // of the first apartment
}

// name is what the crew calls the plan.
func (p *plan) name() string {
	first := p.apartments[0]
	name := first.Type
	if name == "" {
		name = apartmentName(first)
	}
	if name == "" {
		return "rooms"
	}
	if first.Mirrored {
		name += " mirrored"
	}
	return name
}

// plans groups the apartments by what they are laid like, in the order of
// their first apartments.
func (b *book) plans() []*plan {
	var apartments []*plan
	at := map[*job.Apartment]*plan{}
	for _, room := range b.result.Building.Rooms {
		p := at[room.Apartment]
		if p == nil {
			p = &plan{apartments: []*job.Apartment{room.Apartment}}
			at[room.Apartment] = p
			apartments = append(apartments, p)
		}
		p.rooms = append(p.rooms, room)
	}
	var distinct []*plan
	alike := map[string]*plan{}
	for _, p := range apartments {
		key := b.likeness(p)
		if known := alike[key]; known != nil {
			known.apartments = append(known.apartments, p.apartments[0])
			continue
		}
		alike[key] = p
		distinct = append(distinct, p)
	}
	return distinct
}

// likeness is equal for apartments that one cut list serves.
func (b *book) likeness(p *plan) string {
	var key strings.Builder
	fmt.Fprint(&key, p.apartments[0].Mirrored)
	for _, room := range p.rooms {
		fmt.Fprintf(&key, "|%p,%s", room.Spec, b.result.RoomFloor[room.Index].Layout)
	}
	return key.String()
}

// cuts writes the cut lists of the plans.
type cuts struct {
	book     *book
	steps    map[int][][]cutlist.Step // by the first floor with the plan
	pictures map[pictureKey]*picture
}

func newCuts(b *book) *cuts {
	return &cuts{book: b, steps: map[int][][]cutlist.Step{}, pictures: map[pictureKey]*picture{}}
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
	metricCutWidths = []float64{cutPieces: 12, cutWidth: 8, cutRow: 9, startCut: 8.5, startFrom: 12, startTo: 9, wholeCount: 5, wholeFrom: 13, wholeTo: 9,
		endCut: 8.5, endFrom: 12, endTo: 9}
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
func (c *cuts) sheet(name string, plans []*plan) {
	s := c.book.open(name, page{widths: c.book.cutWidths(), frozen: 1, titles: 1, tight: true})
	title := "Cut list " + plans[0].name()
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
func (c *cuts) plan(s *sheet, p *plan) {
	s.note(servesWords(p))
	s.note("Lay the rooms in this order, rows from 1 up, pieces from left to right as drawn. \"new 14\" is the 14th plank opened; write its number on what is left of it: \"off-cut 14\". " +
		"\"Off-cut to\" is the piece that the rest is kept for (R2 7.1: room 2, row 7, piece 1); blank: waste. * marks rows with shaped pieces, listed below them. Lengths in " + c.unitWords() + ".")
	for i, room := range p.rooms {
		if i > 0 {
			s.breakPage()
		}
		c.room(s, p, i+1, room)
	}
	s.skip(1)
	c.bring(s, p)
}

func (c *cuts) unitWords() string {
	if c.book.imperial() {
		return "inches to the nearest 1/16; the pieces of a row add up to its length"
	}
	return "millimetres; the pieces of a row add up to its length"
}

func servesWords(p *plan) string {
	if len(p.apartments) == 1 && p.apartments[0].Name == "" {
		return "For every room of this plan."
	}
	names := make([]string, len(p.apartments))
	for i, a := range p.apartments {
		names[i] = apartmentName(a)
	}
	return fmt.Sprintf("For %d apartments laid alike: %s.", len(names), strings.Join(names, ", "))
}

// room writes a room's page: what it is, its drawing, the cuts row by row.
func (c *cuts) room(s *sheet, p *plan, number int, room *building.Room) {
	s.part(fmt.Sprintf("Room %d: %s", number, room.Spec.Name))
	s.note(c.facts(room))
	drawn := c.pictures[c.pictureKey(room)]
	c.book.keep(drawn.err)
	s.picture(drawn.png, "Laying plan of "+room.Spec.Name)
	s.putHigh(drawn.height, cell{})
	if steps := c.stepsOf(room); len(steps) > 0 {
		c.headings(s)
		for _, segment := range cutlist.Segments(steps) {
			c.segment(s, p, room, segment)
		}
		c.shaped(s, steps)
		c.settings(s, steps, room.Spec.BuildUp.Covering().Product.Length)
	}
	c.lengths(s, room)
	if room.Spec.Note != "" {
		s.note("Note: " + room.Spec.Note)
	}
}

// stepsOf is the steps of the room's layout, none when it has none.
func (c *cuts) stepsOf(room *building.Room) []cutlist.Step {
	at := c.book.result.RoomFloor[room.Index]
	if at.Floor < 0 {
		return nil
	}
	floor := &c.book.result.Floors[at.Floor]
	if c.steps[floor.First] == nil {
		c.steps[floor.First] = cutlist.Of(floor.Plan, floor.Product.Length, floor.Product.Width)
	}
	return c.steps[floor.First][at.Slot]
}

// facts is what a person wants to know of a room before starting.
func (c *cuts) facts(room *building.Room) string {
	b := c.book
	area := fmt.Sprintf("%s %s", room.Area.Decimal(b.result.Job.Settings.AreaUnit, 2).StringFixed(2), b.result.Job.Settings.AreaUnit)
	covering := room.Spec.BuildUp.Covering()
	if covering == nil {
		return area
	}
	product := covering.Product
	layout := b.result.Layout(room)
	if layout == nil || len(layout.Rows) == 0 {
		return strings.Join([]string{product.Description, area, "not laid piece by piece"}, " · ")
	}
	rows := layout.Rows
	facts := []string{
		product.Description,
		fmt.Sprintf("plank %s x %s", b.cut(product.Length), b.cut(product.Width)),
		area,
		fmt.Sprintf("gap %s all round", b.cut(product.Gap)),
		fmt.Sprintf("first row %s, last row %s wide", b.cut(rows[0].Y1-rows[0].Y0), b.cut(rows[len(rows)-1].Y1-rows[len(rows)-1].Y0)),
		fmt.Sprintf("planks lie %s", directionWords(layout.Direction)),
		fmt.Sprintf("%d rows, %d pieces, %d new planks", len(rows), len(layout.Pieces), layout.Planks),
		fmt.Sprintf("%d cuts, %d rips, %d notched", layout.Cuts, layout.Rips, layout.Notches),
	}
	if room.Spec.Heated {
		facts = append(facts, "HEATED FLOOR")
	}
	return strings.Join(facts, " · ")
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
