package drawing

import (
	"math"
	"strconv"

	"laybill/estimate/layout"
	"laybill/estimate/shape"
)

// hatches are those of a first cut and of an off-cut.
func (d *roomDrawing) hatches() (fresh, offcut hatch) {
	if d.Layout != nil && d.Layout.Blocks != nil {
		return upright, level
	}
	return rising, falling
}

// blockLabel writes a cut piece's number along its block, as far as there is
// room.
func (d *roomDrawing) blockLabel(piece *layout.Piece) {
	ring := d.laid(piece.At)
	side := d.laid(shape.Ring{{}, d.Layout.Blocks.Sides[piece.Hand-layout.Left]})
	dx, dy := side[1].X-side[0].X, side[1].Y-side[0].Y
	long := math.Hypot(dx, dy)
	deep := areaOf(d.laid(d.Layout.Blocks.Outline(piece.Hand))) / long
	turn := -math.Atan2(dy, dx) * 180 / math.Pi
	if turn > 90 {
		turn -= 180
	} else if turn <= -90 {
		turn += 180
	}
	size := min(smallType, deep*rowLabel)
	if size < legible {
		return
	}
	for _, size := range []float64{size, legible} {
		t := Text{At: dropped(centroid(ring), size, turn), Size: size, Anchor: Middle, Turn: turn, Halo: true, Value: PieceNumber(piece)}
		if place := t.label(0); place.inside([][]Point{ring}) && d.free(place) {
			d.scene.text(t)
			return
		}
	}
}

// areaOf is the area inside a ring in square mm of paper.
func areaOf(ring []Point) float64 {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(sum) / 2
}

// centroid is the ring's centre of gravity.
func centroid(ring []Point) Point {
	var x, y, sum float64
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		turn := p.X*q.Y - q.X*p.Y
		x, y, sum = x+(p.X+q.X)*turn, y+(p.Y+q.Y)*turn, sum+turn
	}
	if sum == 0 {
		return centre(ring)
	}
	return Point{x / (3 * sum), y / (3 * sum)}
}

// blockRows writes the numbers of the rows left of the floor, where they run
// from left to right.
func (d *roomDrawing) blockRows() {
	along := d.Layout.Along()
	if d.quarter != along.Normal() {
		return
	}
	for i, row := range d.Layout.Rows {
		middle := shape.Ring{{Y: (row.Y0 + row.Y1) / 2}}.Turn(d.quarter - along)
		y := min(d.bottom(), max(d.top+smallType, d.points(middle)[0].Y+normalType*digitDrop))
		d.firstFree([]Text{{At: Point{d.left - 7, y}, Size: normalType, Anchor: End, Bold: true, Value: "row " + strconv.Itoa(i+1)}})
	}
}
