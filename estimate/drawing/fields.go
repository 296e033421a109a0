package drawing

import (
	"math"

	"laybill/estimate/layout"
	"laybill/estimate/shape"
)

// profilePen is the width in mm of an expansion profile as drawn.
const profilePen = 1.4

// profiles draws the expansion profiles between the fields as heavy lines, each
// with its length.
func (d *roomDrawing) profiles() {
	for _, profile := range d.Room.Profiles {
		ends := d.room(shape.Ring{profile.From, profile.To})
		d.scene.line(ends[0], ends[1], profilePen)
		slope := math.Atan2(ends[0].Y-ends[1].Y, ends[1].X-ends[0].X) * 180 / math.Pi
		if slope > 90 || slope <= -90 {
			slope += 180
		}
		long := math.Hypot(ends[1].X-ends[0].X, ends[1].Y-ends[0].Y)
		var places []Text
		for _, words := range []string{"expansion profile " + d.bounded(profile.Length()), "profile"} {
			for _, at := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
				if textWidth(words, smallType, true)/2 > long*min(at, 1-at) {
					continue
				}
				middle := Point{ends[0].X + (ends[1].X-ends[0].X)*at, ends[0].Y + (ends[1].Y-ends[0].Y)*at}
				places = append(places, Text{At: dropped(middle, smallType, slope), Size: smallType, Anchor: Middle, Turn: slope, Bold: true, Halo: true, Value: words})
			}
		}
		d.firstFree(places)
	}
}

// fieldNumbers numbers the rows of each field on the left of the floor, or on
// the right where another field lies between, with a mark where those on the
// left start.
func (d *roomDrawing) fieldNumbers() {
	boxes := make([]shape.Box, len(d.Layout.Fields))
	for i, field := range d.Layout.Fields {
		boxes[i] = d.box(field)
	}
	for i, field := range d.Layout.Fields {
		left, right := true, true
		for j, other := range boxes {
			if j == i || other.Y0 >= boxes[i].Y1 || boxes[i].Y0 >= other.Y1 {
				continue
			}
			left, right = left && boxes[i].X0 < other.X0, right && boxes[i].X0 > other.X0
		}
		switch {
		case left:
			d.numbers(field.First, field.Last, Text{At: Point{X: d.left - 7}, Anchor: End})
			d.startMark(field.First)
		case right:
			d.numbers(field.First, field.Last, Text{At: Point{X: d.right() + 7}})
		}
	}
}

// box is the rectangle about a field's pieces.
func (d *roomDrawing) box(field layout.Field) shape.Box {
	var corners shape.Ring
	for _, step := range d.Steps {
		if row := step.Piece.Row; field.First <= row && row <= field.Last {
			corners = append(corners, step.Piece.At...)
		}
	}
	return corners.Bounds()
}
