package shape

import (
	"slices"

	"laybill/estimate/measure"
)

// A sweep rises through a set of walls and traces the floor between them.
//
// Between two successive heights at which a wall begins or ends no two walls
// cross, so the floor there is a row of spans from one wall to another. The
// sides of spans that lie on one another form the outline. Level walls need no
// place of their own: they are where a span above has none below it.
//
// Only the place where a wall meets a height is ever rounded, and it depends on
// that wall and that height alone. So two rows cut at one height share their
// points, and a wall between two heights keeps its own line.

// span is a stretch of floor between two walls and between two heights.
type span struct {
	left, right        int32 // walls
	y0, y1             measure.Length
	left0, left1       measure.Length
	right0, right1     measure.Length
	component          int32 // a span of the same connected part, or itself
	afterUp, afterDown int32 // the side that follows the right side, the left side
	doneUp, doneDown   bool
}

// The sides of span s, as the outline passes them: 2s is its right side, walked
// upwards, and 2s+1 its left side, walked downwards.
type side = int32

type sweep struct {
	walls  []wall
	active []int32
	spans  []span
	loops  []loop

	// Rings and polygons found so far share these arrays.
	points   Ring
	polygons []Polygon
}

// floorOf is the floor between walls that do not cross: everywhere that more
// floor has begun than ended to the left.
func floorOf(walls []wall) Region {
	if len(walls) == 0 {
		return nil
	}
	lowest, highest := walls[0].low.Y, walls[0].high.Y
	for i := range walls {
		lowest, highest = min(lowest, walls[i].low.Y), max(highest, walls[i].high.Y)
	}
	return bandsOf(walls, []measure.Length{lowest, highest})[0]
}

// bandsOf is the floor between walls that do not cross, cut at each of the
// edges, which ascend: the parts between each edge and the next, left to right.
func bandsOf(walls []wall, edges []measure.Length) [][]Polygon {
	if len(edges) < 2 {
		return nil
	}
	slices.SortFunc(walls, func(a, b wall) int { return comparePoints(a.low, b.low) })
	s := sweep{
		walls:    walls,
		active:   make([]int32, 0, len(walls)),
		spans:    make([]span, 0, 2*len(walls)+2*len(edges)),
		points:   make(Ring, 0, 4*len(walls)+4*len(edges)),
		polygons: make([]Polygon, 0, len(edges)),
	}
	levels := s.levels()
	bands := make([][]Polygon, len(edges)-1)
	entering, level := 0, 0
	for band := range bands {
		bottom, top := edges[band], edges[band+1]
		s.spans = s.spans[:0]
		belowFrom, belowTo := 0, 0
		for y := bottom; y < top; {
			for level < len(levels) && levels[level] <= y {
				level++
			}
			next := top
			if level < len(levels) {
				next = min(next, levels[level])
			}
			entering = s.enter(entering, y)
			s.fill(y, next)
			s.join(belowFrom, belowTo, len(s.spans))
			belowFrom, belowTo = belowTo, len(s.spans)
			y = next
		}
		s.join(belowFrom, belowTo, belowTo)
		bands[band] = s.trace()
	}
	return bands
}

// levels is every height at which a wall begins or ends, ascending.
func (s *sweep) levels() []measure.Length {
	levels := make([]measure.Length, 0, 2*len(s.walls))
	for i := range s.walls {
		levels = append(levels, s.walls[i].low.Y, s.walls[i].high.Y)
	}
	slices.Sort(levels)
	return slices.Compact(levels)
}

// enter drops the walls that end by height y and puts those that begin by it
// in their places, left to right. entering is the first wall not yet seen.
func (s *sweep) enter(entering int, y measure.Length) int {
	s.active = slices.DeleteFunc(s.active, func(i int32) bool { return s.walls[i].high.Y <= y })
	for ; entering < len(s.walls) && s.walls[entering].low.Y <= y; entering++ {
		next := &s.walls[entering]
		if next.high.Y <= y {
			continue
		}
		next.at = next.xAt(y)
		place := len(s.active)
		for place > 0 && compareWalls(next, &s.walls[s.active[place-1]]) < 0 {
			place--
		}
		s.active = slices.Insert(s.active, place, int32(entering))
	}
	return entering
}

// fill appends the spans between heights y0 and y1.
func (s *sweep) fill(y0, y1 measure.Length) {
	first := len(s.spans)
	floors := 0
	next := span{y0: y0, y1: y1}
	for _, i := range s.active {
		w := &s.walls[i]
		bottom, top := w.at, w.xAt(y1)
		w.at = top
		before := floors
		floors += w.wind
		switch {
		case before <= 0 && floors > 0:
			next.left, next.left0, next.left1 = i, bottom, top
		case before > 0 && floors <= 0:
			next.right, next.right0, next.right1 = i, bottom, top
			s.add(first, next)
		}
	}
}

// add appends a span, or widens the one before it where the two touch all
// along. A span of no width is left out.
func (s *sweep) add(first int, next span) {
	if next.left0 == next.right0 && next.left1 == next.right1 {
		return
	}
	if last := len(s.spans) - 1; last >= first {
		before := &s.spans[last]
		if before.right0 == next.left0 && before.right1 == next.left1 {
			before.right, before.right0, before.right1 = next.right, next.right0, next.right1
			return
		}
	}
	next.component = int32(len(s.spans))
	s.spans = append(s.spans, next)
}

// join links the sides of the spans below a height (from one index to another)
// and above it (from there to end).
//
// Going along the height, the ends of spans come in pairs: between the two of a
// pair floor lies only below or only above, so a level wall joins their sides.
// Where one span ends and another begins at the same place the end comes first:
// parts that touch in a point only are not connected.
func (s *sweep) join(from, to, end int) {
	lower := ends{spans: s.spans[:to], next: from, top: true}
	upper := ends{spans: s.spans[:end], next: to}
	lower.skipPoints()
	upper.skipPoints()
	var pending side
	var pendingArrives, paired bool
	for {
		walk := &lower
		if lower.done() || !upper.done() && upper.before(&lower) {
			walk = &upper
		}
		if walk.done() {
			return
		}
		if lower.inside && upper.inside {
			s.connect(lower.next, upper.next)
		}
		this, arrives := walk.side(), walk.inside == walk.top
		switch {
		case !paired:
			pending, pendingArrives = this, arrives
		case pendingArrives:
			s.follow(pending, this)
		case arrives:
			s.follow(this, pending)
		}
		paired = !paired
		walk.advance()
	}
}

// follow makes one side the next after another.
func (s *sweep) follow(first, next side) {
	if first&1 == 0 {
		s.spans[first>>1].afterUp = next
	} else {
		s.spans[first>>1].afterDown = next
	}
}

// connect puts two spans into one connected part.
func (s *sweep) connect(a, b int) {
	rootA, rootB := s.component(int32(a)), s.component(int32(b))
	s.spans[max(rootA, rootB)].component = min(rootA, rootB)
}

// component is the span that stands for the connected part of span i.
func (s *sweep) component(i int32) int32 {
	for s.spans[i].component != i {
		s.spans[i].component = s.spans[s.spans[i].component].component
		i = s.spans[i].component
	}
	return i
}

// ends walks along the tops or the bottoms of some spans, end by end.
type ends struct {
	spans  []span
	next   int
	top    bool
	inside bool // the left end of the next span is passed
}

func (e *ends) done() bool { return e.next >= len(e.spans) }

// x is where the next end lies.
func (e *ends) x() measure.Length {
	s := &e.spans[e.next]
	switch {
	case e.top && e.inside:
		return s.right1
	case e.top:
		return s.left1
	case e.inside:
		return s.right0
	}
	return s.left0
}

// before reports whether the next end comes before the other walk's, an ending
// before a beginning at the same place.
func (e *ends) before(other *ends) bool {
	a, b := e.x(), other.x()
	return a < b || a == b && e.inside && !other.inside
}

// side is the side that meets the height at the next end.
func (e *ends) side() side {
	if e.inside {
		return int32(2 * e.next)
	}
	return int32(2*e.next + 1)
}

func (e *ends) advance() {
	if e.inside {
		e.next++
		e.inside = false
		e.skipPoints()
	} else {
		e.inside = true
	}
}

// skipPoints passes over spans that come to a point at this height: their two
// sides follow one another.
func (e *ends) skipPoints() {
	for ; !e.done(); e.next++ {
		s := &e.spans[e.next]
		switch {
		case e.top && s.left1 == s.right1:
			s.afterUp = int32(2*e.next + 1)
		case !e.top && s.left0 == s.right0:
			s.afterDown = int32(2 * e.next)
		default:
			return
		}
	}
}
