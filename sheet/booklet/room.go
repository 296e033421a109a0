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
	splitDrawing   = 115.0 // where the cuts go on to the next page
	highestDrawing = 150.0
	drawingGap     = 2.0 // below the drawing
	pageSlack      = 1.0 // left free at the foot of a page that is filled by measure
)

// room writes a room's page: what it is, its drawing, its pieces row by row.
func (d *document) room(plan, number int, p *crew.Plan, room *building.Room) {
	e := roomEntry(plan, number, p)
	d.begin(e, d.section)
	d.heading(e.name)
	d.paragraph(d.crew.Facts(room), bodyType, false)
	d.paragraph(d.serves(plan, number, p), bodyType, false)
	d.y += 1.5
	cuts, notes := d.cuts(p, room), d.notes(room)
	scene := d.crew.Scene(room, d.inner(), d.fit(&cuts, d.notesHeight(notes)))
	draw.PDF(d.pdf, scene, sideMargin, d.y)
	d.y += scene.Height + drawingGap
	d.table(cuts)
	for _, note := range notes {
		d.y += noteGap
		d.paragraph(note.words, bodyType, note.bold)
	}
}

// fit gives the height that is left for the drawing on a page with the cuts
// and the notes below it. It chooses the largest type in which the cuts stay on
// the page; those that would stay in none go on to the next page.
func (d *document) fit(cuts *table, notes float64) float64 {
	free := d.left() - notes - drawingGap - pageSlack
	for _, size := range []float64{bodyType, 3.2, 3.0} {
		cuts.size = size
		height := free
		if len(cuts.rows) > 0 {
			height -= d.tableHeight(*cuts)
		}
		if height >= lowestDrawing {
			return min(height, highestDrawing)
		}
	}
	return splitDrawing
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
func (d *document) cuts(p *crew.Plan, room *building.Room) table {
	if d.crew.InBlocks(room) {
		return d.blocks(p, room)
	}
	wide, whole, cut := 12.5, 14.0, 12.5 // columns of a row's width, a row and a piece
	if d.result.Job.Settings.LengthUnit.Imperial() {
		wide, whole, cut = 15.5, 18, 17.5
	}
	t := table{
		spans: []span{{"Row", 3}, {"First piece", 3}, {"Full-length pieces", 3}, {"Last piece", 3}},
		columns: []column{
			{heading: "Pieces", width: 21, bold: true}, {heading: "Width", width: wide, right: true}, {heading: "Length", width: whole, right: true},
			{heading: "Cut", width: cut, right: true, bold: true}, {heading: "From", width: 18.5}, {heading: "Off-cut to", width: 14},
			{heading: "No", width: 7, right: true}, {heading: "From", width: 21.5}, {heading: "Off-cut to", width: 14},
			{heading: "Cut", width: cut, right: true, bold: true}, {heading: "From", width: 18.5}, {heading: "Off-cut to", width: 14},
		},
	}
	for _, row := range d.crew.Rows(p, room) {
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

// blocks is how the room's blocks are cut.
func (d *document) blocks(p *crew.Plan, room *building.Room) table {
	t := table{columns: []column{
		{heading: "Hand", width: 10, bold: true}, {heading: "No", width: 8, right: true}, {heading: "Blocks", width: 28},
		{heading: "First piece", width: 34, bold: true}, {heading: "Laid as", width: 36}, {heading: "From the rest", width: 34, bold: true}, {heading: "Laid as", width: 36},
	}}
	for _, b := range d.crew.Blocks(p, room) {
		t.rows = append(t.rows, []string{b.Hand.String(), strconv.Itoa(b.Count), b.From, b.Cut, b.Laid, b.Rest, b.Kept})
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
		notes = append(notes, plain(shaped...)...)
	}
	if equal := d.crew.EqualCuts(room); equal != "" {
		notes = append(notes, plain(equal)...)
	}
	notes = append(notes, plain(d.crew.Trims(room)...)...)
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

func (d *document) notesHeight(notes []note) float64 {
	height := 0.0
	for _, n := range notes {
		height += noteGap + float64(len(d.wrapped(n.words, d.inner(), bodyType, n.bold)))*bodyType*leading
	}
	return height
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
