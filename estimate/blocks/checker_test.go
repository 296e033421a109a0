package blocks

import (
	"fmt"
	"math"
	"math/rand/v2"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// faultsOf lays a plan back into its rooms and names what is wrong. It reads the
// pieces alone and knows patterns by their joints: it is written for the tests
// and shares nothing with the package but the shapes.
func faultsOf(p layout.Pool, plan layout.Plan) []string {
	c := checker{pool: p, random: rand.New(rand.NewPCG(1, 2))}
	c.blocks(plan)
	for i := range plan.Layouts {
		c.room(&p.Rooms[i], &plan.Layouts[i])
	}
	if plan.RowBound > plan.Planks || plan.LowerBound > plan.RowBound {
		c.fault("blocks %d, bounds %d and %d", plan.Planks, plan.LowerBound, plan.RowBound)
	}
	return c.faults
}

type checker struct {
	pool   layout.Pool
	random *rand.Rand
	faults []string
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, args...))
}

// blocks checks hands and counts, and that points thrown on a block lie in no
// two pieces of it nor within a kerf of both.
func (c *checker) blocks(plan layout.Plan) {
	byStock := map[int][]*layout.Piece{}
	counted := 0
	for i := range plan.Layouts {
		counted += plan.Layouts[i].Planks
		for k := range plan.Layouts[i].Pieces {
			piece := &plan.Layouts[i].Pieces[k]
			byStock[piece.Stock] = append(byStock[piece.Stock], piece)
		}
	}
	hands := map[layout.Hand]int{}
	for stock := 1; stock <= plan.Planks; stock++ {
		pieces := byStock[stock]
		if len(pieces) == 0 {
			c.fault("block %d is not used", stock)
			continue
		}
		hands[pieces[0].Hand]++
		for i, a := range pieces {
			for _, b := range pieces[:i] {
				if a.Hand != b.Hand {
					c.fault("block %d has both hands", stock)
				}
				if d := distance(a, b); d < float64(c.pool.Rules.Kerf)-1 {
					c.fault("block %d: pieces %d.%d and %d.%d are %.2f mm apart", stock, a.Row, a.Seq, b.Row, b.Seq, d/float64(mm))
				}
			}
		}
	}
	if counted != plan.Planks || len(byStock) != plan.Planks || hands[layout.Left] != plan.Lefts || hands[layout.Right] != plan.Rights {
		c.fault("%d blocks, %d of layouts, %d in use, hands %v", plan.Planks, counted, len(byStock), hands)
	}
}

// distance is how near two pieces come in their block; 0 where they overlap.
func distance(a, b *layout.Piece) float64 {
	p, q := a.InBlock(a.At), b.InBlock(b.At)
	if (shape.Polygon{Outer: p}).Contains(q[0]) || (shape.Polygon{Outer: q}).Contains(p[0]) {
		return 0
	}
	least := math.Inf(1)
	for i := range p {
		for j := range q {
			least = min(least, between(p[i], p[(i+1)%len(p)], q[j], q[(j+1)%len(q)]))
		}
	}
	return least
}

// between is the distance of two stretches.
func between(a, b, c, d shape.Point) float64 {
	turn := func(a, b, c shape.Point) int64 {
		return int64(b.X-a.X)*int64(c.Y-a.Y) - int64(b.Y-a.Y)*int64(c.X-a.X)
	}
	if (turn(a, b, c) > 0) != (turn(a, b, d) > 0) && (turn(c, d, a) > 0) != (turn(c, d, b) > 0) {
		return 0
	}
	return min(toStretch(a, c, d), toStretch(b, c, d), toStretch(c, a, b), toStretch(d, a, b))
}

func toStretch(q, a, b shape.Point) float64 {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	x, y := float64(q.X-a.X), float64(q.Y-a.Y)
	share := min(1, max(0, (x*dx+y*dy)/(dx*dx+dy*dy)))
	return math.Hypot(x-share*dx, y-share*dy)
}

func (c *checker) room(room *layout.Room, l *layout.Layout) {
	if l.Blocks == nil {
		return
	}
	floor := shape.Inset(room.Floor.Turn(l.Direction), c.pool.Rules.Gap)
	var double int64
	around := measure.Length(0)
	for i := range l.Pieces {
		double += (&shape.Polygon{Outer: l.Pieces[i].At, Holes: l.Pieces[i].Holes}).DoubleArea()
	}
	for _, part := range floor {
		around += part.Perimeter()
	}
	// Corners on walls are rounded to the unit, half of it on either side.
	if off := double - floor.DoubleArea(); max(off, -off) > int64(around) {
		c.fault("%s: pieces cover %d of %d", room.ID, double, floor.DoubleArea())
	}
	seen := map[[2]int]bool{}
	for i := range l.Pieces {
		p := &l.Pieces[i]
		if seen[[2]int{p.Row, p.Seq}] || p.Row < 1 || p.Row > len(l.Rows) {
			c.fault("%s: piece %d.%d", room.ID, p.Row, p.Seq)
		}
		seen[[2]int{p.Row, p.Seq}] = true
		c.piece(room, l, p)
	}
	c.points(room, l, floor)
}

// piece checks that a piece lies within a block of its size.
func (c *checker) piece(room *layout.Room, l *layout.Layout, p *layout.Piece) {
	outline := l.Blocks.Outline(p.Hand)
	area, block := shape.Polygon{Outer: outline}.Area(), c.pool.Plank.Length.Times(c.pool.Plank.Width)
	if off := float64(area - block); math.Abs(off) > 2*float64(c.pool.Plank.Length+c.pool.Plank.Width) {
		c.fault("%s: a block of %d, not %d", room.ID, area, block)
	}
	for _, q := range p.InBlock(p.At) {
		inside := (shape.Polygon{Outer: outline}).Contains(q)
		for i, a := range outline {
			inside = inside || toStretch(q, a, outline[(i+1)%len(outline)]) <= 1
		}
		if !inside {
			c.fault("%s: piece %d.%d reaches beyond its block", room.ID, p.Row, p.Seq)
		}
	}
}

// points throws points on the floor: each lies in one piece.
func (c *checker) points(room *layout.Room, l *layout.Layout, floor shape.Region) {
	box := floor.Bounds()
	for range 40 {
		at := shape.Point{
			X: box.X0 + measure.Length(c.random.Int64N(int64(box.X1-box.X0))),
			Y: box.Y0 + measure.Length(c.random.Int64N(int64(box.Y1-box.Y0))),
		}
		want, times, edge := 0, 0, false
		for _, part := range floor {
			if part.Contains(at) {
				want = 1
			}
		}
		for i := range l.Pieces {
			p := &l.Pieces[i]
			if (shape.Polygon{Outer: p.At, Holes: p.Holes}).Contains(at) {
				times++
			}
			for k, a := range p.At {
				edge = edge || toStretch(at, a, p.At[(k+1)%len(p.At)]) <= 2
			}
		}
		if times != want && !edge {
			c.fault("%s: %v lies in %d pieces, want %d", room.ID, at, times, want)
		}
	}
}
