package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"

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
		d.wall(i+1, ends[0], ends[1], wall.Length, d.doors(i+1))
	}
}

// door is a doorway in a wall, by its distance along the wall.
type door struct {
	from, width measure.Length
	opening     building.Opening
}

func (d *roomDrawing) doors(wall int) []door {
	var doors []door
	for _, opening := range d.Room.Openings {
		if opening.Spec == nil || opening.Wall != wall {
			continue
		}
		doors = append(doors, door{opening.From, opening.Width, opening})
	}
	slices.SortFunc(doors, func(a, b door) int { return cmp.Compare(a.from, b.from) })
	return doors
}

// wall draws one wall from a to b. Walls are walked anticlockwise, so the
// outside lies to the right.
func (d *roomDrawing) wall(number int, a, b Point, length measure.Length, doors []door) {
	reach := math.Hypot(b.X-a.X, b.Y-a.Y)
	if reach == 0 {
		return
	}
	ux, uy := (b.X-a.X)/reach, (b.Y-a.Y)/reach
	at := func(l measure.Length, out float64) Point {
		along := reach * float64(l) / float64(length)
		return Point{a.X + ux*along - uy*out, a.Y + uy*along + ux*out}
	}
	var longest, middle, solid measure.Length
	stretch := func(to measure.Length) {
		d.scene.line(at(solid, 0), at(to, 0), wallPen)
		if to-solid > longest {
			longest, middle = to-solid, (solid+to)/2
		}
	}
	for _, door := range doors {
		stretch(door.from)
		solid = door.from + door.width
		d.door(door, at, math.Atan2(-uy, ux)*180/math.Pi)
	}
	stretch(length)
	if float64(longest)*d.perUnit > 5 {
		d.wallNumber(number, at(middle, 3))
	}
}

// wallNumber writes a wall's number in a box beside its longest solid part.
func (d *roomDrawing) wallNumber(number int, at Point) {
	const half = 1.7
	d.scene.area(Area{Rings: [][]Point{box(at.X-half, at.Y-half, at.X+half, at.Y+half)}, Fill: White, Stroke: thinPen})
	d.scene.text(Text{At: Point{at.X, at.Y + 0.36*smallType}, Size: smallType, Anchor: Middle, Value: strconv.Itoa(number)})
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
