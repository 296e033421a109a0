package layout

import (
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// plan draws a draft: its pieces, its planks numbered by first use, the saw
// work and the rules it breaks.
func (t *table) plan(d *draft) Plan {
	plan := Plan{Layouts: make([]Layout, len(t.rooms))}
	n := numbering{stock: make([]int, d.planks)}
	for i := range d.grids {
		g := &d.grids[i]
		w := drawing{saw: t.saw, grid: g, numbers: &n}
		w.layout = Layout{Room: t.rooms[g.room].ID, Direction: g.direction, Rows: g.rows, Phase: g.phase}
		before := n.last
		w.draw(d.slots[i])
		w.layout.Planks = n.last - before
		plan.Layouts[t.place[g.room]] = w.layout
		plan.Shortfalls = append(plan.Shortfalls, t.shortfalls(g, d.slots[i], &w.layout)...)
	}
	plan.Planks = n.last
	return plan
}

// numbering gives planks their numbers in the order in which they are first
// cut.
type numbering struct {
	stock []int // number of each plank of the draft, 0 before its first use
	last  int
}

func (n *numbering) of(plank int) int {
	if n.stock[plank] == 0 {
		n.stock[plank] = n.fresh()
	}
	return n.stock[plank]
}

func (n *numbering) fresh() int {
	n.last++
	return n.last
}

// drawing draws the pieces of one room.
type drawing struct {
	*saw
	grid    *grid
	numbers *numbering
	layout  Layout
	corners []shape.Point // to be cut into rectangles
	seq     int
}

func (w *drawing) draw(slots [][]slot) {
	w.layout.Pieces = make([]Piece, 0, pieceCount(slots))
	row := -1
	for i := range w.grid.segments {
		seg := &w.grid.segments[i]
		if seg.row != row {
			row, w.seq = seg.row, 0
		}
		w.segment(seg, slots[i])
	}
}

func pieceCount(slots [][]slot) int {
	n := 0
	for _, s := range slots {
		n += len(s)
	}
	return n
}

// segment draws the pieces of a segment, slot by slot. A part that is a plain
// rectangle is divided at once; any other is cut along its slots.
func (w *drawing) segment(seg *segment, slots []slot) {
	if len(seg.parts) == 1 && isRectangle(seg.parts[0]) {
		box := seg.parts[0].Bounds()
		for _, s := range slots {
			w.piece(seg, s, w.rectangle(shape.Box{X0: s.x0, Y0: box.Y0, X1: s.x1, Y1: box.Y1}), w.numbers.of(s.plank))
		}
		return
	}
	edges := make([]measure.Length, 0, len(slots)+1)
	for _, s := range slots {
		edges = append(edges, s.x0)
	}
	edges = append(edges, seg.x1)
	inSlot := make([][]shape.Polygon, len(slots))
	for _, part := range seg.parts {
		for i, polygons := range shape.Columns(part, edges) {
			inSlot[i] = append(inSlot[i], polygons...)
		}
	}
	for i, s := range slots {
		w.slot(seg, s, inSlot[i])
	}
}

// slot draws the polygons of one slot. Those that cannot be sawn from one plank
// with a kerf between them take a plank each.
func (w *drawing) slot(seg *segment, s slot, polygons []shape.Polygon) {
	if len(polygons) == 0 {
		return
	}
	number := w.numbers.of(s.plank)
	var sawn []shape.Box
	for _, polygon := range polygons {
		box := polygon.Bounds()
		from := number
		for _, other := range sawn {
			if !w.apart(box, other) {
				from = w.numbers.fresh()
				break
			}
		}
		if from == number {
			sawn = append(sawn, box)
		}
		w.piece(seg, s, polygon, from)
	}
}

// apart reports whether the saw passes between two boxes.
func (w *drawing) apart(a, b shape.Box) bool {
	k := w.kerf
	return a.X1+k <= b.X0 || b.X1+k <= a.X0 || a.Y1+k <= b.Y0 || b.Y1+k <= a.Y0
}

// piece adds a piece, its place in the plank and its saw work.
func (w *drawing) piece(seg *segment, s slot, polygon shape.Polygon, stock int) {
	row := w.grid.rows[seg.row]
	box := polygon.Bounds()
	x, y := s.at-s.x0, w.lift(seg.row)-row.Y0
	in := shape.Box{X0: box.X0 + x, Y0: box.Y0 + y, X1: box.X1 + x, Y1: box.Y1 + y}
	w.seq++
	w.layout.Pieces = append(w.layout.Pieces, Piece{Row: seg.row + 1, Seq: w.seq, At: polygon.Outer, Holes: polygon.Holes, Stock: stock, In: in})
	if in.X0 > 0 {
		w.layout.Cuts++
	}
	if in.X1 < w.plank.Length {
		w.layout.Cuts++
	}
	if in.Y1-in.Y0 < w.plank.Width {
		w.layout.Rips++
	}
	if !isRectangle(polygon) {
		w.layout.countShape(&polygon)
	}
}

// lift is where across the plank a row is cut from: the first row keeps the far
// edge, every other the near one.
func (w *drawing) lift(row int) measure.Length {
	if row > 0 || len(w.grid.rows) == 1 {
		return 0
	}
	return w.plank.Width - (w.grid.rows[0].Y1 - w.grid.rows[0].Y0)
}

// rectangle is the polygon of a box, its corners cut from a common sheet.
func (w *drawing) rectangle(b shape.Box) shape.Polygon {
	if len(w.corners) < 4 {
		w.corners = make([]shape.Point, 4*max(16, cap(w.layout.Pieces)-len(w.layout.Pieces)))
	}
	ring := w.corners[:4:4]
	w.corners = w.corners[4:]
	ring[0], ring[1] = shape.Point{X: b.X0, Y: b.Y0}, shape.Point{X: b.X1, Y: b.Y0}
	ring[2], ring[3] = shape.Point{X: b.X1, Y: b.Y1}, shape.Point{X: b.X0, Y: b.Y1}
	return shape.Polygon{Outer: ring}
}

func isRectangle(p shape.Polygon) bool {
	return len(p.Outer) == 4 && len(p.Holes) == 0 && p.AxisParallel()
}
