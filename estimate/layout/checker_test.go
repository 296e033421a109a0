package layout

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// faultsOf lays a plan back into its rooms and names what is wrong. It reads the
// pieces alone; rows, joints and planks are found again from them.
func faultsOf(p Pool, plan Plan) []string {
	c := checker{pool: p, plan: plan, random: rand.New(rand.NewPCG(1, 2))}
	c.planks()
	for i := range plan.Layouts {
		c.room(&p.Rooms[i], &plan.Layouts[i])
	}
	if plan.LowerBound > plan.Planks {
		c.fault("bound %d over %d planks", plan.LowerBound, plan.Planks)
	}
	if plan.RowBound > plan.Planks {
		c.fault("row bound %d over %d planks", plan.RowBound, plan.Planks)
	}
	return c.faults
}

type checker struct {
	pool   Pool
	plan   Plan
	random *rand.Rand
	faults []string
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, args...))
}

// planks checks that what is cut from each plank fits in it, a kerf apart, and
// that the planks are numbered and counted.
func (c *checker) planks() {
	byStock := map[int][]shape.Box{}
	highest, counted := 0, 0
	for i := range c.plan.Layouts {
		counted += c.plan.Layouts[i].Planks
		for _, piece := range c.plan.Layouts[i].Pieces {
			byStock[piece.Stock] = append(byStock[piece.Stock], piece.In)
			highest = max(highest, piece.Stock)
		}
	}
	if counted != c.plan.Planks || highest != c.plan.Planks || len(byStock) != c.plan.Planks {
		c.fault("planks %d, of layouts %d, highest number %d, in use %d", c.plan.Planks, counted, highest, len(byStock))
	}
	for stock := 1; stock <= highest; stock++ {
		boxes := byStock[stock]
		for i, a := range boxes {
			if a.X0 < 0 || a.Y0 < 0 || a.X1 > c.pool.Plank.Length || a.Y1 > c.pool.Plank.Width {
				c.fault("plank %d: %v lies outside it", stock, a)
			}
			for _, b := range boxes[:i] {
				k := c.pool.Rules.Kerf
				if a.X1+k > b.X0 && b.X1+k > a.X0 && a.Y1+k > b.Y0 && b.Y1+k > a.Y0 {
					c.fault("plank %d: %v and %v overlap or leave no kerf", stock, a, b)
				}
			}
		}
	}
}

func (c *checker) room(room *Room, l *Layout) {
	floor := shape.Inset(room.Floor.Turn(l.Direction), c.pool.Rules.Gap)
	if len(floor) == 0 {
		if len(l.Pieces) > 0 || !c.named(room.ID, 0, RuleRoom) {
			c.fault("%s: no floor, %d pieces", room.ID, len(l.Pieces))
		}
		return
	}
	c.cover(room, l, floor)
	c.rows(room, l)
	c.contacts(room, l)
	if c.pool.Rules.Ends == Handed {
		c.pieces(room, l)
	}
}

func (c *checker) cover(room *Room, l *Layout, floor shape.Region) {
	var double int64
	for i := range l.Pieces {
		double += polygonOf(&l.Pieces[i]).DoubleArea()
	}
	slack := int64(0)
	if !floor.AxisParallel() {
		for _, part := range floor {
			slack += int64(part.Perimeter()) * 4
		}
	}
	if off := double - floor.DoubleArea(); max(off, -off) > slack {
		c.fault("%s: pieces cover %d of %d, slack %d", room.ID, double, floor.DoubleArea(), slack)
	}
	box := floor.Bounds()
	for range 60 {
		at := shape.Point{
			X: box.X0 + measure.Length(c.random.Int64N(int64(box.X1-box.X0))),
			Y: box.Y0 + measure.Length(c.random.Int64N(int64(box.Y1-box.Y0))),
		}
		if !floor.AxisParallel() && nearEdge(floor, at) {
			continue
		}
		inside := slices.ContainsFunc(floor, func(p shape.Polygon) bool { return p.Contains(at) })
		times := 0
		for i := range l.Pieces {
			b := l.Pieces[i].At.Bounds()
			if b.X0 <= at.X && at.X <= b.X1 && b.Y0 <= at.Y && at.Y <= b.Y1 && polygonOf(&l.Pieces[i]).Contains(at) {
				times++
			}
		}
		if onPieceEdge(l, at) {
			continue
		}
		if inside && times != 1 || !inside && times != 0 {
			c.fault("%s: point %v (floor %t) is in %d pieces", room.ID, at, inside, times)
		}
	}
}

func polygonOf(p *Piece) shape.Polygon { return shape.Polygon{Outer: p.At, Holes: p.Holes} }

// nearEdge: where a slanted wall was rounded a point may lie on either side.
func nearEdge(floor shape.Region, at shape.Point) bool {
	for _, part := range floor {
		for _, ring := range append([]shape.Ring{part.Outer}, part.Holes...) {
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
				px, py := float64(at.X-a.X), float64(at.Y-a.Y)
				cross := dx*py - dy*px
				if cross*cross < 100*(dx*dx+dy*dy) {
					return true
				}
			}
		}
	}
	return false
}

func onPieceEdge(l *Layout, at shape.Point) bool {
	for i := range l.Pieces {
		b := l.Pieces[i].At.Bounds()
		if at.X == b.X0 || at.X == b.X1 || at.Y == b.Y0 || at.Y == b.Y1 {
			return true
		}
	}
	return false
}

func (c *checker) named(room string, row int, rule Rule) bool {
	return slices.ContainsFunc(c.plan.Shortfalls, func(s Shortfall) bool {
		return s.Room == room && s.Rule == rule && (row == 0 || s.Row == row)
	})
}

// rows checks the widths of rows and that pieces are numbered.
func (c *checker) rows(room *Room, l *Layout) {
	for i, row := range l.Rows {
		width := row.Y1 - row.Y0
		if i > 0 && row.Y0 != l.Rows[i-1].Y1 {
			c.fault("%s: row %d does not begin where the one before ends", room.ID, i+1)
		}
		if i > 0 && i < len(l.Rows)-1 && width != c.pool.Plank.Width || width > c.pool.Plank.Width || width <= 0 {
			c.fault("%s: row %d of %d is %d wide", room.ID, i+1, len(l.Rows), width)
		}
		if (i == 0 || i == len(l.Rows)-1) && width < c.pool.Rules.LeastRow && !c.named(room.ID, i+1, RuleRow) {
			c.fault("%s: row %d is %d wide, not named", room.ID, i+1, width)
		}
	}
	row, seq := 0, 0
	for _, piece := range l.Pieces {
		if piece.Row < row || piece.Row > len(l.Rows) {
			c.fault("%s: row %d after row %d", room.ID, piece.Row, row)
		}
		if piece.Row > row {
			row, seq = piece.Row, 0
		}
		seq++
		if piece.Seq != seq {
			c.fault("%s: row %d piece %d is numbered %d", room.ID, row, seq, piece.Seq)
		}
		at := piece.At.Bounds()
		if at.X1-at.X0 != piece.In.X1-piece.In.X0 || at.Y1-at.Y0 != piece.In.Y1-piece.In.Y0 {
			c.fault("%s: piece %d.%d is %v but cut as %v", room.ID, row, seq, at, piece.In)
		}
		if r := l.Rows[row-1]; at.Y0 < r.Y0 || at.Y1 > r.Y1 {
			c.fault("%s: piece %d.%d leaves its row", room.ID, row, seq)
		}
	}
}

// pieces checks lengths and widths of pieces.
func (c *checker) pieces(room *Room, l *Layout) {
	for _, piece := range l.Pieces {
		if piece.In.X1-piece.In.X0 < c.pool.Rules.LeastEnd && !c.named(room.ID, piece.Row, RuleEnd) {
			c.fault("%s: piece %d.%d is short, not named", room.ID, piece.Row, piece.Seq)
		}
		if piece.In.Y1-piece.In.Y0 < c.pool.Rules.LeastRow && !c.named(room.ID, piece.Row, RuleNarrow) && !c.named(room.ID, piece.Row, RuleRow) {
			c.fault("%s: piece %d.%d is narrow, not named", room.ID, piece.Row, piece.Seq)
		}
	}
}

// side is a stretch of a piece's outline along x or y.
type side struct {
	piece    *Piece
	at       measure.Length // the coordinate that stays
	from, to measure.Length
	after    bool // the piece lies after it, to the right or above
}

// sidesOf are the upright (or level) sides of the pieces of a room.
func sidesOf(l *Layout, upright bool) []side {
	var sides []side
	for i := range l.Pieces {
		p := &l.Pieces[i]
		for _, ring := range append([]shape.Ring{p.At}, p.Holes...) {
			for j, a := range ring {
				b := ring[(j+1)%len(ring)]
				switch {
				case upright && a.X == b.X: // anticlockwise: downwards means the piece lies to the right
					sides = append(sides, side{p, a.X, min(a.Y, b.Y), max(a.Y, b.Y), b.Y < a.Y})
				case !upright && a.Y == b.Y:
					sides = append(sides, side{p, a.Y, min(a.X, b.X), max(a.X, b.X), b.X > a.X})
				}
			}
		}
	}
	slices.SortStableFunc(sides, func(a, b side) int { return cmp.Compare(a.at, b.at) })
	return sides
}

// contactsOf calls meet for every two pieces that meet along a line.
func contactsOf(sides []side, meet func(before, after side)) {
	for i := 0; i < len(sides); {
		j := i
		for j < len(sides) && sides[j].at == sides[i].at {
			j++
		}
		for _, a := range sides[i:j] {
			for _, b := range sides[i:j] {
				if !a.after && b.after && min(a.to, b.to) > max(a.from, b.from) {
					meet(a, b)
				}
			}
		}
		i = j
	}
}

// contacts checks that pieces meet at factory edges, and the distances between
// joints.
func (c *checker) contacts(room *Room, l *Layout) {
	joints := make([][]measure.Length, len(l.Rows))
	length, width := c.pool.Plank.Length, c.pool.Plank.Width
	contactsOf(sidesOf(l, true), func(a, b side) {
		x := a.at
		if a.piece.Row != b.piece.Row {
			c.fault("%s: pieces of rows %d and %d meet end to end", room.ID, a.piece.Row, b.piece.Row)
			return
		}
		joints[a.piece.Row-1] = append(joints[a.piece.Row-1], x)
		if c.pool.Rules.Ends == Handed && (a.piece.In.X1 != length || b.piece.In.X0 != 0) {
			c.fault("%s: joint at %d in row %d is not of two factory ends", room.ID, x, a.piece.Row)
		}
		if c.pool.Rules.Ends == Free && a.piece.In.X0 > 0 && a.piece.In.X1 < length {
			c.fault("%s: piece %d.%d has no factory end", room.ID, a.piece.Row, a.piece.Seq)
		}
	})
	contactsOf(sidesOf(l, false), func(a, b side) {
		if a.piece.Row+1 != b.piece.Row {
			c.fault("%s: rows %d and %d meet along the row", room.ID, a.piece.Row, b.piece.Row)
		} else if far, near := a.piece.In.Y0+a.at-a.piece.At.Bounds().Y0, b.piece.In.Y0+b.at-b.piece.At.Bounds().Y0; far != width || near != 0 {
			c.fault("%s: rows %d and %d meet at %d and %d of the plank", room.ID, a.piece.Row, b.piece.Row, far, near)
		}
	})
	c.staggered(room, joints, 1, c.pool.Rules.LeastStagger, RuleStagger)
	if c.pool.Rules.Pattern != Half { // half a plank twice is a whole one: in line by nature
		c.staggered(room, joints, 2, c.pool.Rules.LineUp, RuleLineUp)
	}
}

func (c *checker) staggered(room *Room, joints [][]measure.Length, back int, want measure.Length, rule Rule) {
	for i := back; i < len(joints); i++ {
		for _, x := range joints[i] {
			for _, y := range joints[i-back] {
				if abs(x-y) < want && !c.named(room.ID, i+1, rule) {
					c.fault("%s: joints %d apart in rows %d and %d, not named", room.ID, abs(x-y), i+1, i+1-back)
				}
			}
		}
	}
}
