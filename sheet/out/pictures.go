package out

import (
	"laybill/estimate/building"
	"laybill/estimate/drawing"
	"laybill/estimate/job"
	"laybill/sheet/draw"
)

// Size and fineness of the drawings in a cut list: as wide as its columns, and
// with them no higher than one row can be.
const (
	pictureWidth  = 205.0 // mm
	pictureHeight = 138.0 // mm
	pictureDots   = 180   // per inch
	screenDots    = 96    // per inch, at which the library places a picture
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

func (c *cuts) picture(room *building.Room) picture {
	key := pictureKey{room.Spec, room.Apartment.Mirrored, c.book.result.RoomFloor[room.Index].Layout}
	if p, known := c.pictures[key]; known {
		return p
	}
	scene := drawing.Room(drawing.Floor{Room: room, Layout: c.book.result.Layout(room), Steps: c.stepsOf(room), Unit: c.book.result.Job.Settings.LengthUnit}, pictureWidth, pictureHeight)
	png, err := draw.PNG(scene, pictureDots)
	c.book.keep(err)
	p := picture{png: png, scale: float64(screenDots) / pictureDots, height: scene.Height/25.4*72 + 4}
	c.pictures[key] = p
	return p
}
