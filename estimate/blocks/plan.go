package blocks

import (
	"math"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// plan draws the rooms as begun: pieces in the order of laying, their blocks
// numbered by first use, those to be cut before the whole ones.
func (t *table) plan() layout.Plan {
	plan := layout.Plan{Layouts: make([]layout.Layout, len(t.rooms))}
	var rooms []*laid
	for _, room := range t.best {
		if room != nil {
			rooms = append(rooms, room)
		}
	}
	block := map[*cut]int{}
	for h, count := range []*int{&plan.Lefts, &plan.Rights} {
		hand := layout.Left + layout.Hand(h)
		pieces := ofHand(rooms, hand)
		blocks, n := t.saw.share(pieces, t.pattern.sides[h])
		for i, piece := range pieces {
			block[piece] = 2*blocks[i] + h
		}
		*count = n
		spot := t.saw.spot(pieces, hand, t.pattern.outlines[h], t.pattern.sides[h])
		plan.Spots = append(plan.Spots, spot)
		plan.RowBound += spot.Pieces
	}
	plan.Planks = plan.Lefts + plan.Rights
	numbers := numbering(rooms, block)
	used := map[int]bool{}
	var area int64
	for i, room := range t.best {
		plan.Layouts[i] = layout.Layout{Room: t.pool.Rooms[i].ID}
		if room == nil {
			plan.Shortfalls = append(plan.Shortfalls, layout.Shortfall{Room: t.pool.Rooms[i].ID, Rule: layout.RuleRoom, Text: "no floor is left inside the expansion gap"})
			continue
		}
		t.draw(&plan.Layouts[i], room, block, numbers, used)
		plan.Shortfalls = append(plan.Shortfalls, plan.Layouts[i].Enclosing()...)
		area += room.region.DoubleArea()
	}
	one := 2 * int64(t.pool.Plank.Length) * int64(t.pool.Plank.Width)
	plan.LowerBound = int((area + one - 1) / one)
	plan.RowBound = max(plan.RowBound, plan.LowerBound)
	plan.Proven = plan.Planks == plan.LowerBound
	if len(plan.Layouts) == 1 {
		plan.Layouts[0].LowerBound = plan.LowerBound
	}
	return plan
}

// numbering numbers the blocks from 1 in the order of their first pieces, those
// that are cut before those that are laid whole.
func numbering(rooms []*laid, block map[*cut]int) map[int]int {
	numbers := map[int]int{}
	for _, whole := range []bool{false, true} {
		for _, room := range rooms {
			for i := range room.cuts {
				if c := &room.cuts[i]; c.whole == whole && numbers[block[c]] == 0 {
					numbers[block[c]] = len(numbers) + 1
				}
			}
		}
	}
	return numbers
}

// draw writes a room's layout.
func (t *table) draw(l *layout.Layout, room *laid, block map[*cut]int, numbers map[int]int, used map[int]bool) {
	l.Direction = (room.along + t.pattern.turn).Normal()
	l.Blocks = &layout.Blocks{Along: room.along, Origin: room.origin, Outlines: t.pattern.outlines, Sides: t.pattern.sides}
	seq := 0
	for i := range room.cuts {
		c := &room.cuts[i]
		if i == 0 || room.cuts[i-1].row != c.row {
			seq = 0
		}
		seq++
		number := numbers[block[c]]
		l.Pieces = append(l.Pieces, layout.Piece{Row: c.row + 1, Seq: seq, At: c.at.Outer, Holes: c.at.Holes, Stock: number, In: c.box, Hand: c.hand})
		if !used[number] {
			used[number] = true
			l.Planks++
		}
		t.count(l, c)
	}
	for row := range l.Pieces[len(l.Pieces)-1].Row {
		l.Rows = append(l.Rows, t.pattern.row(room, room.first+row))
	}
}

// count counts the saw's work on a piece: a cut for every side that is not the
// block's own; one with a notch or a hole counts as notched besides.
func (t *table) count(l *layout.Layout, c *cut) {
	if c.whole {
		return
	}
	outline := t.pattern.outline(c.hand)
	ring := c.in.Outer
	for i, from := range ring {
		if to := ring[(i+1)%len(ring)]; !alongSide(outline, from, to) {
			l.Cuts++
		}
	}
	if len(c.in.Holes) > 0 || !ring.Convex() {
		l.Notches++
	}
}

// alongSide reports whether a stretch lies on a side of the outline, to within a
// unit.
func alongSide(outline shape.Ring, from, to shape.Point) bool {
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		most := lengthUp(a, b)
		off := func(q shape.Point) bool {
			turn := int64(b.X-a.X)*int64(q.Y-a.Y) - int64(b.Y-a.Y)*int64(q.X-a.X)
			return turn > most || turn < -most
		}
		if !off(from) && !off(to) {
			return true
		}
	}
	return false
}

// row is a row of the pattern across the points, from the middle of a row's
// blocks half a row's distance to either side.
func (p *pattern) row(room *laid, row int) layout.Row {
	cell := floorDivide(measure.Length(row), measure.Length(p.rows))
	layer := row - cell*p.rows
	var blocks shape.Ring
	for _, block := range p.cell {
		if block.row == layer {
			for _, corner := range p.outline(block.hand) {
				blocks = append(blocks, p.torus(plus(block.at, corner)))
			}
		}
	}
	_, across := p.periods()
	box := blocks.Bounds()
	middle := p.torus(room.origin).Y + measure.Length(cell)*across + (box.Y0+box.Y1)/2
	half := across / measure.Length(2*p.rows)
	scale := func(l measure.Length) measure.Length {
		if p.turn == 0 {
			return l
		}
		return measure.Length(math.Round(float64(l) / math.Sqrt2))
	}
	return layout.Row{Y0: scale(middle - half), Y1: scale(middle + half)}
}
