package drawing

import (
	"fmt"
	"slices"
	"strconv"

	"laybill/estimate/building"
	"laybill/estimate/cutlist"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Floor is a room to be drawn.
type Floor struct {
	Room    *building.Room
	Layout  *layout.Layout // nil when the covering is not laid piece by piece
	Steps   []cutlist.Step // of the layout
	Pattern string         // the name of a fixed pattern, else empty
	Racked  bool           // boards of random lengths: the pieces are whole rows
	Unit    measure.Unit   // that lengths are written in
}

// Type sizes and pens in mm.
const (
	smallType  = 2.4
	normalType = 2.9
	labelType  = 3.6 // of a piece, where it is wide enough
	legible    = 1.9 // least of any: what would be smaller is left to the lists
	wallPen    = 0.7
	pieceGap   = 0.18 // outline of a piece
	thinPen    = 0.13
)

// Room draws the floor to scale, as large as the width and height in mm allow.
func Room(floor Floor, width, height float64) *Scene {
	d := &roomDrawing{Floor: floor, frame: floor.frame(width, height), scene: &Scene{Width: width}}
	d.outline = d.room(floor.Room.Walls.Outer)
	d.scene.Height = d.bottom() + marginBottom
	d.pieces()
	d.holes()
	// Texts take their places one after another: first those that have no choice.
	d.north()
	d.sizes()
	d.legend()
	d.rowNumbers()
	d.profiles()
	d.walls()
	d.pieceLabels()
	return d.scene
}

// Height is how high Room draws the floor.
func Height(floor Floor, width, height float64) float64 {
	return floor.frame(width, height).bottom() + marginBottom
}

func (floor Floor) frame(width, height float64) frame {
	var direction, along shape.Angle
	if floor.Layout != nil {
		direction, along = floor.Layout.Direction, floor.Layout.Along()
	}
	return newFrame(floor.Room.Walls, direction, along, width, height)
}

type roomDrawing struct {
	Floor
	frame
	scene   *Scene
	outline []Point // of the room
	taken   []label // by texts so far
}

func (d *roomDrawing) pieces() {
	fresh, offcut := d.hatches()
	for _, step := range d.Steps {
		rings := d.rings(step.Piece)
		d.scene.area(Area{Rings: rings, Fill: White, Stroke: pieceGap})
		switch step.Source {
		case cutlist.NewPlank:
			fresh.fill(d.scene, rings)
		case cutlist.Offcut:
			offcut.fill(d.scene, rings)
		}
	}
}

// rings are the piece's outline and its holes on the paper.
func (d *roomDrawing) rings(piece *layout.Piece) [][]Point {
	rings := [][]Point{d.laid(piece.At)}
	for _, hole := range piece.Holes {
		rings = append(rings, d.laid(hole))
	}
	return rings
}

// Cut writes a length for the saw: whole millimetres, or feet and inches to
// the nearest sixteenth.
func Cut(l measure.Length, unit measure.Unit) string {
	if unit.Imperial() {
		return l.Inches(16)
	}
	return strconv.FormatInt((int64(l)+int64(measure.Millimetre)/2)/int64(measure.Millimetre), 10)
}

func (d *roomDrawing) holes() {
	for _, hole := range d.Room.Holes {
		ring := d.room(hole)
		d.scene.area(Area{Rings: [][]Point{ring}, Fill: Light, Stroke: wallPen / 2})
		for i := range len(ring) / 2 {
			d.scene.line(ring[i], ring[i+len(ring)/2], thinPen)
		}
	}
}

// rowNumbers stand left of the floor, with the width of the first and last row
// on the right. Those of fields stand beside them, as far as nothing lies
// between them and the margin.
func (d *roomDrawing) rowNumbers() {
	if d.Layout == nil || len(d.Layout.Rows) == 0 {
		return
	}
	if d.Layout.Blocks != nil {
		d.blockRows()
		return
	}
	if d.slope() != 0 {
		return
	}
	if len(d.Layout.Fields) > 0 {
		d.fieldNumbers()
		return
	}
	last := len(d.Layout.Rows)
	d.numbers(1, last, Text{At: Point{X: d.left - 7}, Anchor: End})
	d.startMark(1)
	d.rowWidth(1, 1)
	if last > 1 {
		d.rowWidth(last, -1)
	}
}

// rowWidth writes the width of a row on the right; where another's stands there,
// a little further down or up.
func (d *roomDrawing) rowWidth(number int, down float64) {
	row := d.Layout.Rows[number-1]
	_, middle := d.height(row)
	words := Text{At: Point{d.right() + 6.5, middle + smallType*digitDrop}, Size: smallType, Value: Cut(row.Y1-row.Y0, d.Unit) + " wide"}
	var places []Text
	for range 5 {
		places = append(places, words)
		words.At.Y += down * smallType / 3
	}
	d.firstFree(places)
}

// height is how high a row is drawn, and where its middle is.
func (d *roomDrawing) height(row layout.Row) (deep, middle float64) {
	ends := d.laid(shape.Ring{{X: 0, Y: row.Y0}, {X: 0, Y: row.Y1}})
	return ends[0].Y - ends[1].Y, (ends[0].Y + ends[1].Y) / 2
}

// numbers writes the numbers of rows: of all where they can be read, else of the
// first, of every second, fifth or tenth and so on, and of the last.
func (d *roomDrawing) numbers(first, last int, like Text) {
	shown, size := d.numbered(first, last)
	for i, number := range shown {
		like.Size = size
		if i > 0 {
			like.Size = min(like.Size, d.between(shown[i-1], number))
		}
		if i+1 < len(shown) {
			like.Size = min(like.Size, d.between(number, shown[i+1]))
		}
		_, middle := d.height(d.Layout.Rows[number-1])
		like.Bold, like.Value = true, strconv.Itoa(number)
		like.At.Y = middle + like.Size*digitDrop
		d.write(like)
	}
}

// digitDrop is from the middle of a figure to its base, in heights of the type.
const digitDrop = 0.36

// numbered are the rows whose numbers are written, and the size of type for
// rows of full depth.
func (d *roomDrawing) numbered(first, last int) (shown []int, size float64) {
	deep := 0.0
	for _, row := range d.Layout.Rows[first-1 : last] {
		height, _ := d.height(row)
		deep = max(deep, height)
	}
	step := 1
	for _, next := range []int{2, 5, 10, 20, 50, 100} {
		if deep*float64(step) >= legible/rowType {
			break
		}
		step = next
	}
	shown = []int{first}
	for number := first + 1; number < last; number++ {
		if number%step == 0 && d.between(shown[len(shown)-1], number) >= legible && d.between(number, last) >= legible {
			shown = append(shown, number)
		}
	}
	if last > first {
		shown = append(shown, last)
	}
	return shown, min(labelType, max(legible, deep*float64(step)*rowType))
}

// rowType is the size of a row's number in depths of the row.
const rowType = 0.8

// between is the size of type in which the numbers of two rows stand free.
func (d *roomDrawing) between(lower, upper int) float64 {
	const free = 0.95
	_, low := d.height(d.Layout.Rows[lower-1])
	_, high := d.height(d.Layout.Rows[upper-1])
	return free * (low - high)
}

// beyondNumbers is the distance from a wall at which nothing meets its number.
const beyondNumbers = 4.7

// startMark is a black triangle that points at the first piece of a row.
func (d *roomDrawing) startMark(number int) {
	first := slices.IndexFunc(d.Steps, func(s cutlist.Step) bool { return s.Piece.Row == number })
	if first < 0 {
		return
	}
	row := d.Layout.Rows[number-1]
	at := d.laid(shape.Ring{{X: d.Steps[first].Piece.At.Bounds().X0, Y: (row.Y0 + row.Y1) / 2}})[0]
	tip := Point{min(at.X, d.left) - beyondNumbers, at.Y}
	d.scene.area(Area{Rings: [][]Point{{tip, {tip.X - 1.8, tip.Y - 1.1}, {tip.X - 1.8, tip.Y + 1.1}}}, Fill: Black})
	d.taken = append(d.taken, newLabel(box(tip.X-1.8, tip.Y-1.1, tip.X, tip.Y+1.1)))
	d.write(Text{At: Point{d.left - 12.5, at.Y + 0.9}, Size: smallType, Anchor: End, Bold: true, Value: "START"})
}

// sizes are the room's length and height between its outermost walls.
func (d *roomDrawing) sizes() {
	y := d.bottom() + 9
	d.measureLine(Point{d.left, y}, Point{d.right(), y})
	d.write(Text{At: Point{d.left + d.width/2, y - 0.9}, Size: normalType, Anchor: Middle, Halo: true, Value: d.bounded(d.bounds.X1 - d.bounds.X0)})
	x := d.right() + 26
	d.measureLine(Point{x, d.bottom()}, Point{x, d.top})
	d.write(Text{At: Point{x - 0.9, d.top + d.deep/2}, Size: normalType, Anchor: Middle, Turn: 90, Halo: true, Value: d.bounded(d.bounds.Y1 - d.bounds.Y0)})
}

func (d *roomDrawing) bounded(l measure.Length) string {
	if d.Unit.Imperial() {
		return l.FeetInches(16)
	}
	return Cut(l, d.Unit)
}

// measureLine is a dimension line with a slanted tick at each end.
func (d *roomDrawing) measureLine(from, to Point) {
	d.scene.line(from, to, thinPen)
	for _, p := range []Point{from, to} {
		d.scene.line(Point{p.X - 0.9, p.Y + 0.9}, Point{p.X + 0.9, p.Y - 0.9}, 0.3)
	}
}

// north is an arrow to the room's north: the way its width is measured.
func (d *roomDrawing) north() {
	up := shape.Ring{{X: 0, Y: 0}, {X: 0, Y: measure.Metre}}.Turn(d.quarter)
	dx, dy := direction(up[1].X), -direction(up[1].Y)
	middle := Point{6, 10}
	if dx != 0 {
		middle = Point{7.5, 4} // above the numbers of the rows
	}
	from := func(along, aside float64) Point {
		return Point{middle.X + along*dx - aside*dy, middle.Y + along*dy + aside*dx}
	}
	d.scene.line(from(-4, 0), from(1, 0), 0.3)
	d.scene.area(Area{Rings: [][]Point{{from(4, 0), from(0.5, 1.3), from(0.5, -1.3)}}, Fill: Black})
	letter := from(6, 0)
	d.write(Text{At: Point{letter.X, letter.Y + 0.36*normalType}, Size: normalType, Anchor: Middle, Bold: true, Value: "N"})
}

func direction(l measure.Length) float64 {
	switch {
	case l > 0:
		return 1
	case l < 0:
		return -1
	}
	return 0
}

// legend stands below the room: the hatches, a bar of known length and the
// way the rows are laid.
func (d *roomDrawing) legend() {
	y := d.scene.Height - 6
	x := 0.0 // from the edge of the paper, so that the name of a pattern fits before the bar
	fresh, offcut := d.hatches()
	good := "plank"
	if d.Layout != nil && d.Layout.Blocks != nil {
		good = "block"
	}
	for _, key := range []struct {
		hatch *hatch
		words string
	}{{nil, "whole " + good}, {&fresh, "cut from a new " + good}, {&offcut, "from an off-cut"}} {
		if d.Layout == nil || d.Racked {
			break
		}
		ring := box(x, y, x+8, y+4)
		d.scene.area(Area{Rings: [][]Point{ring}, Fill: White, Stroke: pieceGap})
		if key.hatch != nil {
			key.hatch.fill(d.scene, [][]Point{ring})
		}
		d.write(Text{At: Point{x + 9, y + 3}, Size: normalType, Value: key.words})
		x += 11 + textWidth(key.words, normalType, false)
	}
	if d.Racked {
		d.write(Text{At: Point{x, y + 3}, Size: normalType, Value: "rows of boards of random lengths"})
	}
	if d.Pattern != "" {
		d.write(Text{At: Point{x, y + 3}, Size: normalType, Bold: true, Value: "pattern: " + d.Pattern})
	}
	d.scaleBar(y)
}

// scaleBar is a quarter of a metre or one foot in four parts, doubled until it
// is long enough to see.
func (d *roomDrawing) scaleBar(y float64) {
	length, unit, count := measure.Metre, "m", 0.25
	if d.Unit.Imperial() {
		length, unit, count = measure.Foot, "ft", 1
	}
	for float64(length)*count*d.perUnit < 16 {
		count *= 2
	}
	part := float64(length) * count * d.perUnit / 4
	x := d.scene.Width - 10 - 4*part
	for i := range 4 {
		fill := White
		if i%2 == 0 {
			fill = Black
		}
		d.scene.area(Area{Rings: [][]Point{box(x+float64(i)*part, y+1, x+float64(i+1)*part, y+2.6)}, Fill: fill, Stroke: thinPen})
	}
	d.write(Text{At: Point{x - 1, y + 2.7}, Size: smallType, Anchor: End, Value: "0"})
	d.write(Text{At: Point{x + 4*part + 1, y + 2.7}, Size: smallType, Value: fmt.Sprint(count, " ", unit)})
}

// centre is the middle of the ring's bounding box.
func centre(ring []Point) Point {
	low, high := ring[0], ring[0]
	for _, p := range ring {
		low = Point{min(low.X, p.X), min(low.Y, p.Y)}
		high = Point{max(high.X, p.X), max(high.Y, p.Y)}
	}
	return Point{(low.X + high.X) / 2, (low.Y + high.Y) / 2}
}
