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
	pageOfWidth    = 45.0  // right of a room's name, for which of its pages it is
)

// A room has one page. What does not fit is set closer: the first of drawnRows
// and of settings that fit are taken, so type gives way to its least size
// before the drawing gives up the lengths and numbers on its pieces. Only a room
// that fits with neither has its rows on further pages, which say so.

// settings are the ways to set a room's rows and notes, the easiest to read
// first. No type is smaller than seven points, which one can read with the page
// at arm's length.
var settings = []setting{
	roomy,
	{size: 3.2, cellPad: 0.7},
	{size: 3.0, cellPad: 0.6},
	{size: 3.0, cellPad: 0.3},
	{size: 3.0, cellPad: 0.6, abreast: 2},
	{size: 3.0, cellPad: 0.4, abreast: 2},
	{size: 2.7, cellPad: 0.3, abreast: 2},
	{size: leastType, cellPad: 0.2, abreast: 3},
}

const leastType = 7 * 25.4 / 72

// How deep a row must be drawn in mm: for the numbers and the lengths of its
// pieces, for their numbers alone, and to see where the joints lie, all of which
// the rows' table tells too. Lengths are given up before the closest table is
// taken.
var drawnRows = []float64{drawnLengths, 2.6, 1.6, 1.0}

const drawnLengths = 3.4

// room writes a room's page: what it is, its drawing, its pieces row by row.
func (d *document) room(plan, number int, p *crew.Plan, room *building.Room) {
	d.roomShown = roomEntry(plan, number, p)
	d.begin(d.roomShown, d.section)
	d.paragraph(d.crew.Facts(room), bodyType, false)
	d.paragraph(d.serves(plan, number, p), bodyType, false)
	d.y += 1.5
	if d.left() < d.height/2 { // after the names of very many apartments
		d.page()
	}
	notes, sets := d.notes(room), d.cutsSet(p, room)
	if cuts, height, fits := d.fit(room, sets, notes); fits {
		d.drawing(room, height)
		d.table(cuts)
		d.notesBelow(cuts.explained(notes), cuts.size)
	} else {
		d.apart(room, sets, notes)
	}
	d.roomPages[d.roomShown] = d.pdf.PageNo() - d.pageOf[d.roomShown] + 1
	d.roomShown = entry{}
}

// apart writes the drawing on a page and the rows on the next. The notes stand
// with the drawing where they leave it its least height, else behind the rows.
func (d *document) apart(room *building.Room, sets []table, notes []note) {
	size := bodyType
	if d.left()-d.notesHeight(notes, size)-drawingGap-pageSlack < lowestDrawing {
		size = leastType
	}
	above := d.left() - d.notesHeight(notes, size) - drawingGap - pageSlack
	behind := above < lowestDrawing
	if behind {
		above = d.left() - drawingGap
	}
	d.drawing(room, min(above, spreadDrawing))
	if !behind {
		d.notesBelow(notes, size)
		notes = nil
	}
	d.page()
	var last table
	for i, cuts := range d.cutsOnPages(sets) {
		if i > 0 {
			d.page()
		}
		d.table(cuts)
		last = cuts
	}
	d.notesBelow(last.explained(notes), leastType)
}

// roomHead begins each page of a room: its name, and which of its pages this is
// where it has several.
func (d *document) roomHead() {
	first, pages := d.pageOf[d.roomShown], d.knownPages[d.roomShown]
	if pages > 1 {
		d.rightText(d.width-sideMargin, d.y+titleType, bodyType, true, fmt.Sprintf("page %d of %d for this room", d.pdf.PageNo()-first+1, pages))
	}
	for _, line := range d.wrapped(d.roomShown.name, d.inner()-pageOfWidth, titleType, true) {
		d.text(sideMargin, d.y+titleType, titleType, true, line)
		d.y += titleType * leading
	}
	d.y++
}

func (d *document) drawing(room *building.Room, height float64) {
	scene := d.crew.Scene(room, d.inner(), height)
	draw.PDF(d.pdf, scene, sideMargin, d.y)
	d.y += scene.Height + drawingGap
}

// fit chooses the setting in which the cuts and the notes leave the drawing
// enough of the page, and gives the height that is left for it.
func (d *document) fit(room *building.Room, sets []table, notes []note) (cuts table, height float64, fits bool) {
	largest := d.crew.SceneHeight(room, d.inner(), highestDrawing)
	left := make([]float64, len(sets))
	for i, cuts := range sets {
		left[i] = d.left() - d.tableHeight(cuts) - d.notesHeight(cuts.explained(notes), cuts.size) - drawingGap - pageSlack
	}
	for _, deep := range drawnRows {
		need := min(largest, max(lowestDrawing, drawingFrame+deep*float64(d.drawnRows(room))))
		for i, cuts := range sets {
			if left[i] >= need && !(cuts.closest && deep == drawnLengths) {
				return cuts, min(left[i], highestDrawing), true
			}
		}
	}
	return table{}, 0, false
}

// cutsOnPages are the cuts on pages like the one that begins, in the first setting in which they fill no more than one, else in the closest.
func (d *document) cutsOnPages(sets []table) []table {
	height := d.left() - noteGap - bodyType*leading
	for _, cuts := range sets {
		if d.tableHeight(cuts) <= height {
			return []table{cuts}
		}
	}
	rest := sets[len(sets)-1]
	var pages []table
	for len(rest.rows) > 0 {
		page, n := rest, d.filling(rest, height)
		page.rows, rest.rows = rest.rows[:n], rest.rows[n:]
		pages = append(pages, page)
	}
	return pages
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

// blocks is how the room's blocks are cut.
func (d *document) blocks(p *crew.Plan, room *building.Room) table {
	t := table{columns: []column{
		{heading: "Hand", bold: true}, {heading: "No", right: true}, {heading: "Blocks"},
		{heading: "First piece", bold: true}, {heading: "Laid as"}, {heading: "From the rest", bold: true}, {heading: "Laid as"},
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

const (
	noteGap   = 1.0
	shapedGap = "   ·   " // between two shaped pieces
)

// notes are the room's shaped pieces, equal cuts, trims, what to bring and what
// the estimator noted.
func (d *document) notes(room *building.Room) []note {
	var notes []note
	if d.crew.InBlocks(room) {
		notes = append(notes, plain(crew.BlockWords)...)
	}
	if shaped := d.crew.Shaped(room); len(shaped) > 0 {
		notes = append(notes, note{crew.ShapedWords, true}, note{words: unparted(strings.Join(shaped, shapedGap), shapedGap)})
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
