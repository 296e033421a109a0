package drawing

import (
	"math"

	"laybill/estimate/building"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// walls draws the outline, left open at the doorways, and numbers the walls as
// the lists of skirting do.
func (d *roomDrawing) walls() {
	for i, wall := range d.Room.Walls.Walls() {
		if wall.Ring > 0 {
			break
		}
		ends := d.room(shape.Ring{wall.From, wall.To})
		d.wall(ends[0], ends[1], wall.Length, d.doors(i+1, wall.Length))
	}
}

// door is a doorway in a wall, by its distance along the wall.
type door struct {
	from, width measure.Length
	opening     building.Opening
}

func (d *roomDrawing) doors(wall int, length measure.Length) []door {
	var doors []door
	for _, opening := range d.Room.Openings {
		if opening.Spec == nil || opening.Wall != wall {
			continue
		}
		from := opening.Spec.From
		if d.Room.Apartment.Mirrored {
			from = length - from - opening.Width
		}
		doors = append(doors, door{from, opening.Width, opening})
	}
	return doors
}

// wall draws one wall from a to b. Walls are walked anticlockwise, so the
// outside lies to the right.
func (d *roomDrawing) wall(a, b Point, length measure.Length, doors []door) {
	reach := math.Hypot(b.X-a.X, b.Y-a.Y)
	if reach == 0 {
		return
	}
	ux, uy := (b.X-a.X)/reach, (b.Y-a.Y)/reach
	at := func(l measure.Length, out float64) Point {
		along := reach * float64(l) / float64(length)
		return Point{a.X + ux*along - uy*out, a.Y + uy*along + ux*out}
	}
	solid := measure.Length(0)
	for _, door := range doors {
		d.scene.line(at(solid, 0), at(door.from, 0), wallPen)
		solid = door.from + door.width
		d.door(door, at, math.Atan2(-uy, ux)*180/math.Pi)
	}
	d.scene.line(at(solid, 0), b, wallPen)
}

// door draws the jambs and writes the doorway's width and where it leads.
func (d *roomDrawing) door(door door, at func(measure.Length, float64) Point, slope float64) {
	for _, jamb := range []measure.Length{door.from, door.from + door.width} {
		d.scene.line(at(jamb, -0.9), at(jamb, 1.6), wallPen)
	}
	d.scene.line(at(door.from, 1.2), at(door.from+door.width, 1.2), thinPen)
	words := "door " + d.bounded(door.width)
	if leads := door.opening.Spec.LeadsTo; leads != "" {
		words += " to " + leads
	}
	out := 2.2
	if slope > 90 || slope <= -90 {
		slope += 180
	} else {
		out += smallType * 0.75
	}
	d.scene.text(Text{At: at(door.from+door.width/2, out), Size: smallType, Anchor: Middle, Turn: slope, Halo: true, Value: words})
}
