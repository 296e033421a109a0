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
	highest       = 406.0 // points
	lowest        = 230.0 // points, where the rows can give way
	pictureEdge   = 4.0   // points of its row about a drawing
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
	type drawn struct {
		plan   *crew.Plan
		number int
		room   *building.Room
	}
	var rooms []drawn
	for _, p := range plans {
		for i, room := range p.Rooms {
			key := c.book.crew.Likeness(room)
			if _, known := c.pictures[key]; !known {
				c.pictures[key] = &picture{}
				rooms = append(rooms, drawn{p, i + 1, room})
			}
		}
	}
	next := make(chan drawn)
	var group sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(rooms)) {
		group.Go(func() {
			for d := range next {
				c.render(d.room, c.page(d.plan, d.number, d.room).fit(c), c.pictures[c.book.crew.Likeness(d.room)])
			}
		})
	}
	for _, room := range rooms {
		next <- room
	}
	close(next)
	group.Wait()
}

// render draws one room at most so many points high. It writes only its own
// picture.
func (c *cuts) render(room *building.Room, height float64, into *picture) {
	scene := c.book.crew.Scene(room, pictureWidth, (height-pictureEdge)/pointsPerInch*mmPerInch)
	into.png, into.err = draw.PNG(scene, pictureDots)
	into.height = scene.Height/mmPerInch*pointsPerInch + pictureEdge
}
