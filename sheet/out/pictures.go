package out

import (
	"laybill/estimate/building"
	"laybill/estimate/drawing"
	"laybill/estimate/job"
	"laybill/sheet/draw"
)

// Size and fineness of the drawings in a cut list: as wide as its columns, no
// higher than one row can be, and lower where the rows below need the page.
const (
	pictureWidth = 205.0 // mm
	highest      = 142.0 // mm
	lowest       = 95.0  // mm
	pictureDots  = 180   // per inch
	screenDots   = 96    // per inch, at which the library places a picture
)

// pictureKey is equal for rooms that are drawn alike.
type pictureKey struct {
	spec     *job.Room
	mirrored bool
	layout   string
}

type picture struct {
	png    []byte
	scale  float64
	height float64 // points of the row that holds it
}

// pictureHeight leaves the room's rows and notes their place on one page. The
// page's height is that of the sheet's cells when their width fills its width.
func (c *cuts) pictureHeight(room *building.Room) float64 {
	const rowHeight, notes = 5.8, 58.0
	page := 308.0
	if c.book.imperial() {
		page = 276.0
	}
	rows := 0
	if layout := c.book.result.Layout(room); layout != nil {
		rows = len(layout.Rows)
	}
	return min(highest, max(lowest, page-notes-rowHeight*float64(rows)))
}

func (c *cuts) picture(room *building.Room) picture {
	key := pictureKey{room.Spec, room.Apartment.Mirrored, c.book.result.RoomFloor[room.Index].Layout}
	if p, known := c.pictures[key]; known {
		return p
	}
	scene := drawing.Room(drawing.Floor{Room: room, Layout: c.book.result.Layout(room), Steps: c.stepsOf(room), Unit: c.book.result.Job.Settings.LengthUnit}, pictureWidth, c.pictureHeight(room))
	png, err := draw.PNG(scene, pictureDots)
	c.book.keep(err)
	p := picture{png: png, scale: float64(screenDots) / pictureDots, height: scene.Height/25.4*72 + 4}
	c.pictures[key] = p
	return p
}
