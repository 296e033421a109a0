package layout

import (
	"cmp"
	"fmt"
	"slices"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Plain gives the one of a pool and its mirror image that stands for both, and
// whether that is the mirror image. A plan of the one is, mirrored along the
// planks, a plan of the other: starters become end pieces of the same lengths,
// which pair alike, so it takes as many planks and keeps the same rules. Pools
// laid on the slant stand for themselves, as their corners are rounded, and so do
// those of a fixed pattern, whose rows would step the other way.
func (p Pool) Plain() (plain Pool, mirrored bool) {
	if p.Rules.Pattern != Random {
		return p, false
	}
	image := p
	p.Rooms, image.Rooms = slices.Clone(p.Rooms), slices.Clone(p.Rooms)
	for i := range p.Rooms {
		room := &p.Rooms[i]
		for _, direction := range directionsOf(room) {
			if direction%shape.QuarterTurn != 0 {
				return p, false
			}
		}
		room.Floor = room.Floor.Sorted()
		image.Rooms[i] = room.mirrored()
	}
	if image.Key() < p.Key() {
		return image, true
	}
	return p, false
}

// mirrored is the room about the middle of its floor.
func (r Room) mirrored() Room {
	axis := axisOf(r.Floor)
	r.Floor = r.Floor.Mirror(axis)
	fields := r.Fields
	r.Fields = nil
	for _, field := range fields {
		r.Fields = append(r.Fields, field.Mirror(axis))
	}
	return r
}

// Key is equal for pools of the same content.
func (p Pool) Key() string { return fmt.Sprintf("%#v", p) }

// axisOf is the sum of the least and the greatest x of a floor: a mirror in its
// middle takes x to the axis less x.
func axisOf(floor shape.Region) measure.Length {
	bounds := floor.Bounds()
	return bounds.X0 + bounds.X1
}

// Mirrored is a plan of the mirror image of a pool as a plan of the pool itself.
func (p *Plan) Mirrored(pool *Pool) Plan {
	m := mirroring{table: newTable(pool), stock: map[int]int{}, moves: map[string]func(shape.Point) shape.Point{}}
	plan := *p
	plan.Layouts = make([]Layout, len(p.Layouts))
	for i, at := range m.place {
		plan.Layouts[at] = m.layout(&p.Layouts[at], axisOf(m.rooms[i].Floor))
	}
	plan.Shortfalls = slices.Clone(p.Shortfalls)
	for i := range plan.Shortfalls {
		if s := &plan.Shortfalls[i]; s.Rule != RuleRoom {
			s.At = m.moves[s.Room](s.At)
		}
	}
	return plan
}

// mirroring is the work of mirroring a plan.
type mirroring struct {
	*table
	stock map[int]int // new number of each plank, by first use
	moves map[string]func(shape.Point) shape.Point
}

// layout mirrors a room's layout. A mirror makes the frame left-handed; with x
// taken the other way it is right-handed again, in the direction -d: there x has
// changed its sign, and y has not.
func (m *mirroring) layout(l *Layout, axis measure.Length) Layout {
	origin := shape.Ring{{X: axis}}.Turn(-l.Direction)[0]
	move := func(q shape.Point) shape.Point { return shape.Point{X: origin.X - q.X, Y: origin.Y + q.Y} }
	m.moves[l.Room] = move
	image := *l
	image.Direction = (-l.Direction).Normal()
	image.Rows = make([]Row, len(l.Rows))
	for i, row := range l.Rows {
		image.Rows[i] = Row{origin.Y + row.Y0, origin.Y + row.Y1}
	}
	image.Pieces = make([]Piece, len(l.Pieces))
	for i, piece := range l.Pieces {
		floor := shape.Polygon{Outer: piece.At, Holes: piece.Holes}.TurnBack(l.Direction).Mirror(axis).Turn(image.Direction)
		piece.At, piece.Holes = floor.Outer, floor.Holes
		piece.In.X0, piece.In.X1 = m.saw.plank.Length-piece.In.X1, m.saw.plank.Length-piece.In.X0
		image.Pieces[i] = piece
	}
	slices.SortStableFunc(image.Pieces, func(a, b Piece) int {
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(b.Seq, a.Seq))
	})
	m.number(image.Pieces)
	return image
}

// number counts pieces along their rows and planks by their first use.
func (m *mirroring) number(pieces []Piece) {
	row, seq := 0, 0
	for i := range pieces {
		p := &pieces[i]
		if p.Row != row {
			row, seq = p.Row, 0
		}
		seq++
		p.Seq = seq
		if m.stock[p.Stock] == 0 {
			m.stock[p.Stock] = len(m.stock) + 1
		}
		p.Stock = m.stock[p.Stock]
	}
}
