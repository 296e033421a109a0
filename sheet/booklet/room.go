package booklet

import (
	"fmt"
	"strconv"
	"strings"

	"laybill/estimate/building"
	"laybill/sheet/crew"
	"laybill/sheet/draw"
)

// plan writes a page for each room, and what to bring into each apartment.
func (d *document) plan(number int, p *crew.Plan) {
	d.section = planEntry(number, p).name
	for i, room := range p.Rooms {
		d.room(number, i+1, p, room)
	}
	d.bring(p)
}

// Heights in mm.
const (
	lowestDrawing  = 84.0
	highestDrawing = 150.0
	spreadDrawing  = 190.0 // where the rows have a page of their own
	drawingFrame   = 28.0  // of a drawing above and below the room
	drawingGap     = 2.0   // below the drawing
	pageSlack      = 1.0   // left free at the foot of a page that is filled by measure
)

// room writes a room's page: what it is, its drawing, its pieces row by row. A
// room that would not be readable on one page has its rows on the next.
func (d *document) room(plan, number int, p *crew.Plan, room *building.Room) {
	e := roomEntry(plan, number, p)
	d.begin(e, d.section)
	d.heading(e.name)
	d.paragraph(d.crew.Facts(room), bodyType, false)
	d.paragraph(d.serves(plan, number, p), bodyType, false)
	d.y += 1.5
	if d.left() < d.height/2 { // after the names of very many apartments
		d.page()
	}
	notes := d.notes(room)
	if cuts, height, fits := d.fit(p, room, notes); fits {
		d.drawing(room, height)
		d.table(cuts)
		d.notesBelow(notes, cuts.size)
		return
	}
	above := d.left() - d.notesHeight(notes, bodyType) - drawingGap - pageSlack
	d.drawing(room, min(max(above, lowestDrawing), spreadDrawing))
	d.notesBelow(notes, bodyType)
	d.page()
	d.table(d.cutsOnPage(p, room))
}

func (d *document) drawing(room *building.Room, height float64) {
	scene := d.crew.Scene(room, d.inner(), height)
	draw.PDF(d.pdf, scene, sideMargin, d.y)
	d.y += scene.Height + drawingGap
}

// settings are the ways to set a room's rows and notes, the easiest to read
// first. No type is smaller than one can read with the page on the floor beside
// the knees.
var settings = []setting{
	roomy,
	{size: 3.2, cellPad: 0.7},
	{size: 3.0, cellPad: 0.6},
	{size: 3.0, cellPad: 0.6, halves: true},
	{size: 3.0, cellPad: 0.4, halves: true},
}

// How deep a row must be drawn in mm: for the numbers and the lengths of its
// pieces, and for their numbers alone, which the rows' table explains.
var drawnRows = []float64{3.4, 2.6}

// fit chooses the setting in which the cuts and the notes leave the drawing
// enough of the page, and gives the height that is left for it.
func (d *document) fit(p *crew.Plan, room *building.Room, notes []note) (cuts table, height float64, fits bool) {
	largest := d.crew.Scene(room, d.inner(), highestDrawing).Height
	for _, deep := range drawnRows {
		need := min(largest, max(lowestDrawing, drawingFrame+deep*float64(d.drawnRows(room))))
		for _, s := range settings {
			cuts = d.cuts(p, room, s)
			height = d.left() - d.tableHeight(cuts) - d.notesHeight(notes, s.size) - drawingGap - pageSlack
			if height >= need {
				return cuts, min(height, highestDrawing), true
			}
		}
	}
	return cuts, height, false
}

// cutsOnPage are the cuts in the first setting in which they fill no more than
// the page that begins; those that fill more go on to another.
func (d *document) cutsOnPage(p *crew.Plan, room *building.Room) table {
	for _, s := range settings {
		if cuts := d.cuts(p, room, s); d.tableHeight(cuts) <= d.left() {
			return cuts
		}
	}
	return d.cuts(p, room, roomy)
}

// drawnRows is how many rows the room is laid in.
func (d *document) drawnRows(room *building.Room) int {
	if laid := d.result.Layout(room); laid != nil && laid.Blocks == nil {
		return len(laid.Rows)
	}
	return 0
}

// serves says which apartments the page is for. Where they are many, they are
// named on the plan's first page only.
func (d *document) serves(plan, number int, p *crew.Plan) string {
	const few = 24
	if number == 1 || len(p.Apartments) <= few {
		return p.Serves()
	}
	return fmt.Sprintf("For %d apartments laid alike, named on page %d.", len(p.Apartments), d.known[roomEntry(plan, 1, p)])
}

// cuts is the room's pieces row by row.
func (d *document) cuts(p *crew.Plan, room *building.Room, s setting) table {
	var t table
	switch {
	case d.crew.InBlocks(room):
		s.halves = false
		t = d.blocks(p, room)
	case s.halves:
		t = d.narrowRows(d.crew.Rows(p, room))
	default:
		t = d.wideRows(d.crew.Rows(p, room))
	}
	t.setting = s
	return t
}

// wideRows is a table across the page.
func (d *document) wideRows(rows []crew.Row) table {
	wide, whole, cut, to := 12.5, 14.0, 12.5, 14.0 // columns of a row's width, a row, a piece and its off-cut
	if d.result.Job.Settings.LengthUnit.Imperial() {
		wide, whole, cut, to = 15.5, 20, 20, 12.5
	}
	t := table{
		spans: []span{{"Row", 3}, {"First piece", 3}, {"Full-length pieces", 3}, {"Last piece", 3}},
		columns: []column{
			{heading: "Pieces", width: 21, bold: true}, {heading: "Width", width: wide, right: true}, {heading: "Length", width: whole, right: true},
			{heading: "Cut", width: cut, right: true, bold: true}, {heading: "From", width: 18.5}, {heading: "Off-cut to", width: to},
			{heading: "No", width: 7, right: true}, {heading: "From", width: 21.5}, {heading: "Off-cut to", width: to},
			{heading: "Cut", width: cut, right: true, bold: true}, {heading: "From", width: 18.5}, {heading: "Off-cut to", width: to},
		},
	}
	for _, row := range rows {
		cells := []string{row.Pieces, d.crew.Cut(row.Width), d.crew.Cut(row.Length), d.crew.Cut(row.First.Length), row.First.From, row.First.To, "", "", "", "", "", ""}
		if row.Between.Count > 0 {
			copy(cells[6:], []string{strconv.Itoa(row.Between.Count), row.Between.From, row.Between.To})
		}
		if row.Last.Count > 0 {
			copy(cells[9:], []string{d.crew.Cut(row.Last.Length), row.Last.From, row.Last.To})
		}
		t.rows = append(t.rows, cells)
	}
	return t
}

// narrowRows is a table for half the width of the page: off-cuts stand behind
// what they are cut from, new planks are numbers, and the rows' sizes are in the
// drawing alone.
func (d *document) narrowRows(rows []crew.Row) table {
	cut, from, full := 9.0, 22.0, 15.0
	if d.result.Job.Settings.LengthUnit.Imperial() {
		cut, from, full = 16.3, 17.2, 13.2
	}
	t := table{
		spans: []span{{"Row", 1}, {"First piece", 2}, {"Full", 1}, {"Last piece", 2}},
		columns: []column{
			{heading: "Pieces", width: 13.5, bold: true},
			{heading: "Cut", width: cut, right: true, bold: true}, {heading: "New " + keptFor + " to", width: from},
			{heading: "New", width: full},
			{heading: "Cut", width: cut, right: true, bold: true}, {heading: "New " + keptFor + " to", width: from},
		},
	}
	for _, row := range rows {
		cells := []string{row.Short, d.crew.Cut(row.First.Length), fromTo(row.First), "", "", ""}
		if row.Between.Count > 0 {
			cells[3] = fromTo(row.Between)
		}
		if row.Last.Count > 0 {
			copy(cells[4:], []string{d.crew.Cut(row.Last.Length), fromTo(row.Last)})
		}
		t.rows = append(t.rows, cells)
	}
	return t
}

const keptFor = "\u2192"

// fromTo is the number of the new plank, or the off-cut, that pieces are cut
// from, and where their off-cuts go.
func fromTo(c crew.Cut) string {
	words := listed(strings.TrimPrefix(c.From, crew.New))
	if c.To != "" {
		words += " " + listed(keptFor+c.To)
	}
	return words
}

// blocks is how the room's blocks are cut.
func (d *document) blocks(p *crew.Plan, room *building.Room) table {
	t := table{columns: []column{
		{heading: "Hand", width: 13, bold: true}, {heading: "No", width: 8, right: true}, {heading: "Blocks", width: 28},
		{heading: "First piece", width: 34, bold: true}, {heading: "Laid as", width: 36}, {heading: "From the rest", width: 34, bold: true}, {heading: "Laid as", width: 36},
	}}
	for _, b := range d.crew.Blocks(p, room) {
		t.rows = append(t.rows, []string{b.Hand.String(), strconv.Itoa(b.Count), b.From, sized(b.Cut), b.Laid, sized(b.Rest), b.Kept})
	}
	return t
}

// note is a paragraph below a room's rows.
type note struct {
	words string
	bold  bool
}

const noteGap = 1.0

// notes are the room's shaped pieces, equal cuts, trims, what to bring and what
// the estimator noted.
func (d *document) notes(room *building.Room) []note {
	var notes []note
	if d.crew.InBlocks(room) {
		notes = append(notes, plain(crew.BlockWords)...)
	}
	if shaped := d.crew.Shaped(room); len(shaped) > 0 {
		notes = append(notes, note{crew.ShapedWords, true})
		for _, corners := range shaped {
			notes = append(notes, note{words: listed(corners)})
		}
	}
	if equal := d.crew.EqualCuts(room); equal != "" {
		notes = append(notes, note{words: unparted(equal, "  ·  ")})
	}
	for _, cuts := range d.crew.Trims(room) {
		notes = append(notes, note{words: listed(cuts)})
	}
	var bring []string
	for _, item := range d.crew.CarriedIntoRoom(room) {
		amount := item.Whole()
		if amount == "" {
			amount = item.Quantity.StringFixed(2) + " " + item.Unit
		}
		bring = append(bring, together(item.Product.Code+" "+amount))
	}
	if len(bring) > 0 {
		notes = append(notes, note{"Bring:  " + strings.Join(bring, "  ·  "), true})
	}
	if room.Spec.Note != "" {
		notes = append(notes, note{"Note: " + room.Spec.Note, true})
	}
	return notes
}

func plain(lines ...string) []note {
	notes := make([]note, len(lines))
	for i, line := range lines {
		notes[i].words = line
	}
	return notes
}

func (d *document) notesHeight(notes []note, size float64) float64 {
	height := 0.0
	for _, n := range notes {
		height += noteGap + float64(len(d.wrapped(n.words, d.inner(), size, n.bold)))*size*leading
	}
	return height
}

func (d *document) notesBelow(notes []note, size float64) {
	for _, n := range notes {
		d.y += noteGap
		d.paragraph(n.words, size, n.bold)
	}
}

// bring lists what to carry into one apartment of the plan.
func (d *document) bring(p *crew.Plan) {
	t := table{columns: []column{
		{heading: "Product", width: 22, bold: true}, {heading: "Description", width: 66}, {heading: "Whole", width: 46},
		{heading: "Measured", width: 20, right: true}, {heading: "Unit", width: 14},
	}}
	for _, item := range d.crew.CarriedInto(p) {
		t.rows = append(t.rows, []string{item.Product.Code, item.Product.Description, item.Whole(), item.Quantity.StringFixed(2), item.Unit})
	}
	if len(t.rows) == 0 {
		return
	}
	if d.left() < d.tableHeight(t)+10 {
		d.page()
	}
	d.part("To bring into each apartment of " + d.section)
	d.table(t)
}
