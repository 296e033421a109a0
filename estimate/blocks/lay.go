package blocks

import (
	"cmp"
	"context"
	"math"
	"slices"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Lay lays a pool of rooms in blocks. It begins each room's pattern where the
// pool takes fewest packs, then fewest blocks, then fewest slivers and fewest
// cuts, and of equals where a line of points runs nearest to the room's middle
// (common practice). Slivers are pieces nowhere as long as the least row. The
// same pool gives the same plan; work is limited by counts. The error is that of
// the context alone.
func Lay(ctx context.Context, style Style, pool layout.Pool) (layout.Plan, error) {
	t := table{style: style, pool: &pool, pattern: style.pattern(pool.Plank), saw: saw{pool.Rules.Kerf}}
	t.spots = t.pattern.spots()
	for i := range pool.Rooms {
		t.rooms = append(t.rooms, t.directions(&pool.Rooms[i]))
	}
	eye := t.byEye()
	if err := t.begin(ctx); err != nil {
		return layout.Plan{}, err
	}
	plan := t.plan()
	plan.ByEye = eye
	return plan, nil
}

// table is a pool on the planner's table.
type table struct {
	style   Style
	pool    *layout.Pool
	pattern *pattern
	spots   *spots
	saw     saw
	rooms   [][]*direction // by room, the directions it may have
	best    []*laid        // by room, nil where no floor is left inside the gap
	taken   []begun        // by room
	load    load
}

// direction is a room seen with the points running one way.
type direction struct {
	*floor
	field  *field
	middle shape.Point // as torus sees it: where the crew begins
}

// begun is a room's pattern begun so many steps from its middle.
type begun struct {
	*direction
	step
}

// widening is by how much a floor is widened beyond half a kerf for counting, so
// that no strip of it falls between the places counted.
const widening = 2 * measure.Millimetre

func (t *table) directions(room *layout.Room) []*direction {
	ways := room.Directions
	if len(ways) == 0 {
		ways = []shape.Angle{0}
		if box := room.Floor.Bounds(); box.Y1-box.Y0 > box.X1-box.X0 {
			ways[0] = shape.QuarterTurn
		}
	}
	var found []*direction
	for _, way := range ways {
		d := &direction{floor: floorOf(room, way, t.pattern, t.pool.Rules.Gap)}
		if len(d.region) == 0 {
			continue
		}
		d.middle = t.pattern.middle(d.floor)
		widened := inside(room, way+t.pattern.turn, t.pool.Rules.Gap-t.saw.kerf/2-widening)
		d.field = fieldOf(widened, t.pattern, d.middle)
		found = append(found, d)
	}
	return found
}

// middle is where the pattern begins when a line of points runs in the middle of
// the floor and the first point comes up to where the rows begin.
func (p *pattern) middle(f *floor) shape.Point {
	box := p.extent(f.corners())
	// Points lie where the right ends of blocks meet those of the other hand.
	point := p.torus(plus(p.cell[0].at, p.outline(p.cell[0].hand)[2]))
	return shape.Point{X: box.X0 - point.X, Y: (box.Y0+box.Y1)/2 - point.Y}
}

// origin is the begin of the pattern in the layout's frame.
func (t *table) origin(b begun) shape.Point {
	along, across := t.pattern.periods()
	return t.pattern.untorus(shape.Point{
		X: b.middle.X + along*measure.Length(b.along)/stepsAlong,
		Y: b.middle.Y + across*measure.Length(b.across)/stepsAcross,
	})
}

// byEye is how many blocks the crew takes: the pattern centred, and every cut
// from a block of its own.
func (t *table) byEye() int {
	blocks := 0
	for i, ways := range t.rooms {
		if len(ways) > 0 {
			blocks += ways[0].lay(i, t.pattern, t.origin(begun{direction: ways[0]})).blocks
		}
	}
	return blocks
}

// Rounds over the rooms of a pool, and how many begins are looked at piece by
// piece each time.
const (
	rounds = 2
	closer = 8
)

// begin chooses where every room's pattern begins, room after room, the others
// as they are.
func (t *table) begin(ctx context.Context) error {
	t.best, t.taken = make([]*laid, len(t.rooms)), make([]begun, len(t.rooms))
	for round := range rounds {
		for i, ways := range t.rooms {
			if err := ctx.Err(); err != nil {
				return err
			}
			if len(ways) == 0 || round > 0 && len(t.rooms) == 1 {
				continue
			}
			if old := t.taken[i]; old.direction != nil {
				t.load.add(old.field, t.spots, old.step, -1)
			}
			t.room(i)
			t.load.add(t.taken[i].field, t.spots, t.taken[i].step, 1)
		}
	}
	return nil
}

// score is how good a plan is, lower is better: blocks bought, blocks laid,
// slivers, cuts, and steps from the middle.
type score [5]int

// room chooses where a room's pattern begins.
func (t *table) room(i int) {
	type choice struct {
		begun
		score score
	}
	var choices []choice
	for _, way := range t.rooms[i] {
		for across := range stepsAcross {
			for along := range stepsAlong {
				b := begun{way, step{along, across}}
				l := t.load
				l.add(way.field, t.spots, b.step, 1)
				choices = append(choices, choice{b, t.counted(l.blocks())})
				choices[len(choices)-1].score[4] = min(across, stepsAcross-across)
			}
		}
	}
	slices.SortStableFunc(choices, func(a, b choice) int { return compare(a.score, b.score) })
	best := score{math.MaxInt}
	for _, c := range choices[:min(closer, len(choices))] {
		l := c.lay(i, t.pattern, t.origin(c.begun))
		s := t.closely(l, c.score)
		if compare(s, best) < 0 {
			best = s
			t.best[i], t.taken[i] = l, c.begun
		}
	}
}

func compare(a, b score) int {
	for i := range a {
		if a[i] != b[i] {
			return cmp.Compare(a[i], b[i])
		}
	}
	return 0
}

// counted scores blocks: what is bought, then what is laid.
func (t *table) counted(lefts, rights int) score {
	return score{t.style.Bought(lefts, rights, t.pool.PiecesPerPack), lefts + rights}
}

// closely scores a room laid piece by piece: slivers and cuts, and in a pool of
// one room the blocks exactly.
func (t *table) closely(l *laid, about score) score {
	s := about
	if len(t.rooms) == 1 {
		_, lefts := t.saw.share(ofHand([]*laid{l}, layout.Left), t.pattern.sides[0])
		_, rights := t.saw.share(ofHand([]*laid{l}, layout.Right), t.pattern.sides[1])
		whole := t.counted(lefts, rights)
		s[0], s[1] = whole[0], whole[1]
	}
	for i := range l.cuts {
		c := &l.cuts[i]
		if c.whole {
			continue
		}
		s[3]++
		if max(c.box.X1-c.box.X0, c.box.Y1-c.box.Y0) < t.pool.Rules.LeastRow {
			s[2]++
		}
	}
	return s
}
