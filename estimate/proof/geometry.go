package proof

import "math"

// spot is a place in units of 1/320 mm. Coordinates of axis-parallel floors are
// whole numbers far below 2^53, so that comparisons and differences of them are
// exact; only slanted walls bring fractions.
type spot struct{ x, y float64 }

// loop is a closed outline of spots.
type loop []spot

func (r ring) loop() loop {
	l := make(loop, len(r))
	for i, p := range r {
		l[i] = spot{float64(p.x), float64(p.y)}
	}
	return l
}

// turned is the outline seen from a frame turned anticlockwise by degrees.
// Quarter turns are exact.
func (l loop) turned(degrees float64) loop {
	sine, cosine := math.Sincos(degrees * math.Pi / 180)
	if quarters := degrees / 90; quarters == math.Trunc(quarters) {
		sine, cosine = math.Round(sine), math.Round(cosine)
	}
	out := make(loop, len(l))
	for i, p := range l {
		out[i] = spot{p.x*cosine + p.y*sine, p.y*cosine - p.x*sine}
	}
	return out
}

// twiceArea is twice the area inside, negative for clockwise outlines.
func (l loop) twiceArea() float64 {
	sum := 0.0
	for i, p := range l {
		q := l[(i+1)%len(l)]
		sum += (p.x-l[0].x)*(q.y-l[0].y) - (q.x-l[0].x)*(p.y-l[0].y)
	}
	return sum
}

// anticlockwise is the outline turning left, or right when left is false.
func (l loop) anticlockwise(left bool) loop {
	if (l.twiceArea() > 0) == left {
		return l
	}
	out := make(loop, len(l))
	for i, p := range l {
		out[len(l)-1-i] = p
	}
	return out
}

// axisParallel tells whether every side runs along x or y.
func (l loop) axisParallel() bool {
	for i, p := range l {
		q := l[(i+1)%len(l)]
		if p.x != q.x && p.y != q.y {
			return false
		}
	}
	return true
}

// holds tells whether the spot is inside (even-odd rule, one ray to the right).
func (l loop) holds(s spot) bool {
	inside := false
	for i, p := range l {
		q := l[(i+1)%len(l)]
		if (p.y > s.y) == (q.y > s.y) {
			continue
		}
		if s.x < p.x+(q.x-p.x)*(s.y-p.y)/(q.y-p.y) {
			inside = !inside
		}
	}
	return inside
}

// twiceArea is twice the area inside a ring, exactly: sums may wrap round on
// the way, the area itself cannot (see reach).
func (r ring) twiceArea() int64 {
	sum := int64(0)
	for i, p := range r {
		q := r[(i+1)%len(r)]
		sum += int64(p.x-r[0].x)*int64(q.y-r[0].y) - int64(q.x-r[0].x)*int64(p.y-r[0].y)
	}
	return sum
}

// anticlockwise is the ring turning left, or right when left is false.
func (r ring) anticlockwise(left bool) ring {
	if (r.twiceArea() > 0) == left {
		return r
	}
	out := make(ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = p
	}
	return out
}

// bounds is the smallest rectangle around a ring of at least one point.
func (r ring) bounds() box {
	b := box{r[0].x, r[0].y, r[0].x, r[0].y}
	for _, p := range r {
		b.x0, b.x1 = min(b.x0, p.x), max(b.x1, p.x)
		b.y0, b.y1 = min(b.y0, p.y), max(b.y1, p.y)
	}
	return b
}

func (b box) width() length  { return b.x1 - b.x0 }
func (b box) height() length { return b.y1 - b.y0 }

// distance is how far a spot is from the side between two corners.
func distance(s, a, b spot) float64 {
	dx, dy := b.x-a.x, b.y-a.y
	along := 0.0
	if squared := dx*dx + dy*dy; squared > 0 {
		along = math.Min(1, math.Max(0, ((s.x-a.x)*dx+(s.y-a.y)*dy)/squared))
	}
	return math.Hypot(s.x-a.x-along*dx, s.y-a.y-along*dy)
}

// lineDistance is how far a spot is from the endless line through two corners.
func lineDistance(s, a, b spot) float64 {
	long := math.Hypot(b.x-a.x, b.y-a.y)
	if long == 0 {
		return math.Hypot(s.x-a.x, s.y-a.y)
	}
	return math.Abs((b.x-a.x)*(s.y-a.y)-(b.y-a.y)*(s.x-a.x)) / long
}

// ground is a room's floor in a layout's frame: inside the walls, outside the
// holes. Walls turn left and holes right, so that floor is on the left of every
// side.
type ground struct {
	walls   loop
	holes   []loop
	slanted bool
	steep   float64 // length of all slanted sides
	around  float64 // length of all sides
}

// groundOf turns an outline and its holes into the frame of a layout.
func groundOf(outline ring, holes []ring, degrees float64) ground {
	g := ground{walls: outline.loop().anticlockwise(true).turned(degrees)}
	for _, hole := range holes {
		g.holes = append(g.holes, hole.loop().anticlockwise(false).turned(degrees))
	}
	for _, l := range g.loops() {
		for i, p := range l {
			q := l[(i+1)%len(l)]
			long := math.Hypot(q.x-p.x, q.y-p.y)
			g.around += long
			if p.x != q.x && p.y != q.y {
				g.slanted = true
				g.steep += long
			}
		}
	}
	return g
}

func (g ground) loops() []loop { return append([]loop{g.walls}, g.holes...) }

// holds tells whether a spot is floor.
func (g ground) holds(s spot) bool {
	if !g.walls.holds(s) {
		return false
	}
	for _, hole := range g.holes {
		if hole.holds(s) {
			return false
		}
	}
	return true
}

// mitreLimit is how many gaps the corner of a gap may lie off the corner of a
// wall before it is cut off square (common practice in offsetting outlines).
const mitreLimit = 10

// margins are the strips that a gap takes off the floor: a rectangle along
// every side and, at every corner that points into the floor, the mitre between
// two of them.
func (g ground) margins(gap float64) []loop {
	if gap <= 0 {
		return nil
	}
	var strips []loop
	for _, l := range g.loops() {
		for i, corner := range l {
			before, after := l[(i+len(l)-1)%len(l)], l[(i+1)%len(l)]
			if corner == after || corner == before {
				continue
			}
			n := leftOf(corner, after, gap)
			strips = append(strips, loop{corner, after, after.plus(n), corner.plus(n)})
			if turnsRight(before, corner, after) {
				strips = append(strips, mitre(before, corner, after, gap))
			}
		}
	}
	return strips
}

func (s spot) plus(d spot) spot { return spot{s.x + d.x, s.y + d.y} }

// leftOf is a step of the gap to the left of the side from a to b; it is exact
// for axis-parallel sides.
func leftOf(a, b spot, gap float64) spot {
	long := math.Hypot(b.x-a.x, b.y-a.y)
	return spot{-(b.y - a.y) / long * gap, (b.x - a.x) / long * gap}
}

func turnsRight(a, b, c spot) bool {
	return (b.x-a.x)*(c.y-b.y)-(b.y-a.y)*(c.x-b.x) < 0
}

// mitre is the part of the gap at a corner that points into the floor.
func mitre(before, corner, after spot, gap float64) loop {
	m, n := leftOf(before, corner, gap), leftOf(corner, after, gap)
	closeness := 1 + (m.x*n.x+m.y*n.y)/(gap*gap)
	if closeness*mitreLimit*mitreLimit >= 2 {
		tip := spot{corner.x + (m.x+n.x)/closeness, corner.y + (m.y+n.y)/closeness}
		return loop{corner, corner.plus(n), tip, corner.plus(m)}
	}
	on := spot{m.y * mitreLimit, -m.x * mitreLimit}
	back := spot{-n.y * mitreLimit, n.x * mitreLimit}
	return loop{corner, corner.plus(n), corner.plus(n).plus(back), corner.plus(m).plus(on), corner.plus(m)}
}
