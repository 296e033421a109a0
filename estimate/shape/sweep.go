package shape

import (
	"cmp"
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

// wall is a leg of an outline that rises, whichever way its ring runs.
type wall struct {
	low, high Point
	wind      int            // 1 where the floor begins to its right, -1 where it ends
	at        measure.Length // x where the wall meets the height the sweep has reached
}

// xAt is where the wall meets a height, rounded to the unit, halves to the
// right.
func (w *wall) xAt(y measure.Length) measure.Length {
	switch {
	case w.low.X == w.high.X || y <= w.low.Y:
		return w.low.X
	case y >= w.high.Y:
		return w.high.X
	}
	rise := int64(w.high.Y - w.low.Y)
	across := int64(w.high.X-w.low.X) * int64(y-w.low.Y)
	return w.low.X + measure.Length(floorDivide(2*across+rise, 2*rise))
}

// floorDivide rounds down; b is positive.
func floorDivide(a, b int64) int64 {
	quotient := a / b
	if a%b < 0 {
		quotient--
	}
	return quotient
}

// compareWalls orders two walls that do not cross and share a height: left
// before right, and of two that lie on one another the one that begins floor.
func compareWalls(a, b *wall) int {
	var side int64 // positive where b lies left of a
	if b.low.Y >= a.low.Y {
		side = cross(a.low, a.high, b.low)
	} else {
		side = -cross(b.low, b.high, a.low)
	}
	if side == 0 {
		if b.high.Y <= a.high.Y {
			side = cross(a.low, a.high, b.high)
		} else {
			side = -cross(b.low, b.high, a.high)
		}
	}
	if side == 0 {
		return cmp.Compare(b.wind, a.wind)
	}
	return cmp.Compare(side, 0)
}

// addWalls appends the rising and falling legs of a ring.
func addWalls(walls []wall, r Ring) []wall {
	for i, p := range r {
		walls = addLeg(walls, p, r.after(i))
	}
	return walls
}

// addLeg appends one leg, unless it is level. Floor lies to its left.
func addLeg(walls []wall, from, to Point) []wall {
	switch {
	case from.Y < to.Y:
		return append(walls, wall{low: from, high: to, wind: -1})
	case from.Y > to.Y:
		return append(walls, wall{low: to, high: from, wind: 1})
	}
	return walls
}

// wallsOf is every rising leg of a region.
func wallsOf(r Region) []wall {
	corners := 0
	for _, part := range r {
		corners += len(part.Outer)
		for _, hole := range part.Holes {
			corners += len(hole)
		}
	}
	walls := make([]wall, 0, corners)
	for _, part := range r {
		walls = addWalls(walls, part.Outer)
		for _, hole := range part.Holes {
			walls = addWalls(walls, hole)
		}
	}
	return walls
}

// span is a stretch of floor between two walls and between two heights.
type span struct {
	left, right      int32 // walls
	y0, y1           measure.Length
	left0, left1     measure.Length
	right0, right1   measure.Length
	component        int32 // a span of the same connected part, or itself
	afterUp, afterDn int32 // the side that follows the right side, the left side
	doneUp, doneDn   bool
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

// loop is a traced ring: an outer ring where its area is positive, else a hole.
type loop struct {
	ring      Ring
	area      int64
	component int32
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
		s.spans[first>>1].afterDn = next
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
			s.afterDn = int32(2 * e.next)
		default:
			return
		}
	}
}

// trace follows the sides of all spans into rings and gathers the rings of
// each connected part into a polygon, left to right and then upwards.
func (s *sweep) trace() []Polygon {
	s.loops = s.loops[:0]
	for i := range s.spans {
		if !s.spans[i].doneUp {
			s.traceLoop(side(2 * i))
		}
		if !s.spans[i].doneDn {
			s.traceLoop(side(2*i + 1))
		}
	}
	return s.polygonsOf(s.loops)
}

// traceLoop follows one ring from a side back to it.
func (s *sweep) traceLoop(start side) {
	from := len(s.points)
	firstWall, firstTail, _ := s.end(start)
	lastWall, last := int32(-1), Point{}
	for at := start; ; {
		w, tail, head := s.end(at)
		if w == lastWall && tail == last {
			s.points = s.points[:len(s.points)-1] // on the wall, no corner
		} else {
			s.points = append(s.points, tail)
		}
		s.points = append(s.points, head)
		lastWall, last = w, head
		if at = s.pass(at); at == start {
			break
		}
	}
	ring := s.points[from:]
	if lastWall == firstWall && last == firstTail {
		ring = ring[1 : len(ring)-1]
	}
	to := from + copy(s.points[from:], tidy(ring))
	s.points = s.points[:to]
	ring = s.points[from:to:to]
	area := ring.DoubleArea()
	if area == 0 {
		s.points = s.points[:from]
		return
	}
	startLow(ring)
	s.loops = append(s.loops, loop{ring, area, s.component(start >> 1)})
}

// end is a side's wall and where the walk along it begins and ends.
func (s *sweep) end(at side) (w int32, tail, head Point) {
	p := &s.spans[at>>1]
	if at&1 == 0 {
		return p.right, Point{p.right0, p.y0}, Point{p.right1, p.y1}
	}
	return p.left, Point{p.left1, p.y1}, Point{p.left0, p.y0}
}

// pass marks a side as walked and is the side after it.
func (s *sweep) pass(at side) side {
	p := &s.spans[at>>1]
	if at&1 == 0 {
		p.doneUp = true
		return p.afterUp
	}
	p.doneDn = true
	return p.afterDn
}

// polygonsOf gathers loops into polygons, ordered by their least x, then by
// their least y, then by their corners.
func (s *sweep) polygonsOf(loops []loop) []Polygon {
	if len(loops) == 0 {
		return nil
	}
	slices.SortStableFunc(loops, func(a, b loop) int {
		return cmp.Or(cmp.Compare(a.component, b.component), cmp.Compare(b.area, a.area))
	})
	from := len(s.polygons)
	open := int32(-1) // the connected part whose outer ring came last
	for _, each := range loops {
		switch {
		case each.area > 0:
			s.polygons = append(s.polygons, Polygon{Outer: each.ring})
			open = each.component
		case each.component == open:
			last := &s.polygons[len(s.polygons)-1]
			last.Holes = append(last.Holes, each.ring)
		}
	}
	polygons := slices.Clip(s.polygons[from:])
	for i := range polygons {
		slices.SortFunc(polygons[i].Holes, compareRings)
	}
	sortPolygons(polygons)
	return polygons
}

func sortPolygons(polygons []Polygon) {
	if len(polygons) < 2 {
		return
	}
	slices.SortFunc(polygons, func(a, b Polygon) int {
		boxA, boxB := a.Bounds(), b.Bounds()
		return cmp.Or(cmp.Compare(boxA.X0, boxB.X0), cmp.Compare(boxA.Y0, boxB.Y0), compareRings(a.Outer, b.Outer))
	})
}
