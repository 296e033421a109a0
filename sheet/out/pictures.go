package out

import (
	"runtime"
	"sync"

	"laybill/estimate/building"
	"laybill/sheet/crew"
	"laybill/sheet/draw"
)

// Size and fineness of the drawings in a cut list: as wide as its columns, no
// higher than one row can be, and lower where the rows below need the page.
const (
	pictureWidth  = 205.0 // mm
	highest       = 142.0 // mm
	lowest        = 80.0  // mm
	pictureDots   = 150   // per inch
	screenDots    = 96    // per inch, at which the library places a picture
	pointsPerInch = 72
	mmPerInch     = 25.4
)

// picture is a rendered drawing.
type picture struct {
	png    []byte
	height float64 // points of the row that holds it
	err    error
}

// draw renders the drawings of all plans, side by side on all processors, each
// once however often it is shown.
func (c *cuts) draw(plans []*crew.Plan) {
	var rooms []*building.Room
	for _, p := range plans {
		for _, room := range p.Rooms {
			key := c.book.crew.Likeness(room)
			if _, known := c.pictures[key]; !known {
				c.pictures[key] = &picture{}
				rooms = append(rooms, room)
			}
		}
	}
	next := make(chan *building.Room)
	var group sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(rooms)) {
		group.Go(func() {
			for room := range next {
				c.render(room, c.pictures[c.book.crew.Likeness(room)])
			}
		})
	}
	for _, room := range rooms {
		next <- room
	}
	close(next)
	group.Wait()
}

// render draws one room. It writes only its own picture.
func (c *cuts) render(room *building.Room, into *picture) {
	scene := c.book.crew.Scene(room, pictureWidth, c.pictureHeight(room))
	into.png, into.err = draw.PNG(scene, pictureDots)
	into.height = scene.Height/mmPerInch*pointsPerInch + 4
}

// pictureHeight leaves the room's rows and notes their place on one page, below
// what stands above a first room. The page's height is that of the sheet's cells
// when their width fills its width.
func (c *cuts) pictureHeight(room *building.Room) float64 {
	const rowHeight, headings = 5.8, 50.0
	page := 308.0
	if c.book.imperial() {
		page = 292.0
	}
	rows := 0
	if layout := c.book.result.Layout(room); layout != nil {
		rows = len(layout.Rows)
	}
	return min(highest, max(lowest, page-headings-rowHeight*float64(rows)-c.notesHeight(room)))
}

// notesHeight is the height of what stands below a room's rows, in millimetres.
func (c *cuts) notesHeight(room *building.Room) float64 {
	const blankRow = 15.0
	lines := append(c.book.crew.Shaped(room), c.book.crew.Trims(room)...)
	lines = append(lines, c.book.crew.EqualCuts(room), room.Spec.Note)
	points := 3 * blankRow
	for _, words := range lines {
		if words != "" {
			points += noteHeight(words, c.book.cutWidths())
		}
	}
	return points / pointsPerInch * mmPerInch
}
