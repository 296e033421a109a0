package proof

import (
	"fmt"
	"math"
	"math/big"
	"strings"

	"github.com/shopspring/decimal"
)

// flatnessTable is DIN 18202 table 3 for floors: distances in mm, and limits in
// mm by group.
var (
	flatnessDistances = []float64{100, 1000, 4000, 10_000, 15_000}
	flatnessTable     = map[string][]float64{
		"group 1": {10, 15, 20, 25, 30}, "group 2": {5, 8, 12, 15, 20}, "group 3": {2, 4, 10, 12, 15}, "group 4": {1, 3, 9, 12, 15},
	}
)

// checkSubfloors looks at the triangles of every survey, its worst
// straightedges and limits, and fills and grinds the floor again, square by
// square.
func (c *checker) checkSubfloors() {
	t := c.claim(claimSubfloors)
	c.subfloors = map[*roomEntry]*subfloorEntry{}
	checked := map[string]bool{}
	for i := range c.f.Subfloors {
		e := &c.f.Subfloors[i]
		room := c.roomAt(e.place)
		if !t.want(room != nil && room.drawn(), e.sign(), "no such room", "a room", "the room is not in the file") || !t.want(c.subfloors[room] == nil, e.sign(), "twice", "once", "the room's subfloor stands twice") {
			continue
		}
		c.subfloors[room] = e
		if len(e.Readings) == 0 {
			continue
		}
		// Rooms read alike are looked at once.
		key := room.signature(false, false) + fmt.Sprint(e.Readings, e.Triangles, e.Group, e.Broken, e.Worst, e.Plane, e.Fill, e.Ground)
		if !checked[key] {
			checked[key] = true
			s := survey{e: e, room: room, t: t}
			s.check()
		}
	}
}

// survey checks one surveyed room.
type survey struct {
	e    *subfloorEntry
	room *roomEntry
	t    *tally
}

func (s *survey) check() {
	if !s.checkTriangles() {
		return
	}
	s.checkWorst()
	broken := s.e.Broken > 0
	s.t.want((s.e.Plane != nil) == broken, s.room.sign(), fmt.Sprint(s.e.Broken, " broken"), "a plane where the group is broken", "levelled without need, or not levelled")
	if s.e.Plane == nil {
		s.t.want(s.e.Fill.Volume.IsZero() && s.e.Ground.Volume.IsZero(), s.room.sign(), s.e.Fill.Volume.String(), "0", "a flat floor is filled or ground")
		return
	}
	s.checkVolumes()
}

// at is a reading in mm.
func (s *survey) at(i int) (x, y, z float64) {
	r := s.e.Readings[i]
	return float64(r[0]) / unit, float64(r[1]) / unit, float64(r[2]) / unit
}

// checkTriangles: corners are readings, turned left; no reading lies in the
// circle of another's triangle; together they fill the readings' hull.
func (s *survey) checkTriangles() bool {
	sum := 0.0
	for _, triangle := range s.e.Triangles {
		for _, corner := range triangle {
			if !s.t.want(corner >= 0 && corner < len(s.e.Readings), s.room.sign(), fmt.Sprint(triangle), "readings", "a triangle's corner is no reading") {
				return false
			}
		}
		twice := s.twice(triangle[0], triangle[1], triangle[2])
		if !s.t.want(twice > 0, s.room.sign(), fmt.Sprint(triangle), "anticlockwise", "a triangle runs the wrong way round") {
			return false
		}
		sum += twice
		for i := range s.e.Readings {
			if !s.t.want(!s.inCircle(triangle, i), s.room.sign(), fmt.Sprint(triangle), "no reading in its circle", "the triangles are not those of the readings") {
				return false
			}
		}
	}
	hull := s.hullArea()
	return s.t.want(len(s.e.Triangles) > 0 && math.Abs(sum-hull) <= 1e-6*hull, s.room.sign(), fmt.Sprint(sum), fmt.Sprint(hull), "the triangles do not fill the readings' hull")
}

func (s *survey) twice(a, b, c int) float64 {
	ax, ay, _ := s.at(a)
	bx, by, _ := s.at(b)
	cx, cy, _ := s.at(c)
	return (bx-ax)*(cy-ay) - (by-ay)*(cx-ax)
}

// inCircle tells whether a reading lies clearly inside a triangle's circle.
func (s *survey) inCircle(t [3]int, i int) bool {
	px, py, _ := s.at(i)
	var m [3][3]float64
	for k, corner := range t {
		x, y, _ := s.at(corner)
		m[k] = [3]float64{x - px, y - py, (x-px)*(x-px) + (y-py)*(y-py)}
	}
	det := m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
	return det > 1e-6*s.twice(t[0], t[1], t[2])*max(m[0][2], m[1][2], m[2][2])
}

// hullArea is twice the area of the readings' hull, from the rim inwards: the
// furthest reading off each edge, again and again.
func (s *survey) hullArea() float64 {
	first, last := 0, 0
	for i := range s.e.Readings {
		x, y, _ := s.at(i)
		fx, fy, _ := s.at(first)
		lx, ly, _ := s.at(last)
		if x < fx || x == fx && y < fy {
			first = i
		}
		if x > lx || x == lx && y > ly {
			last = i
		}
	}
	var beyond func(a, b int) float64
	beyond = func(a, b int) float64 {
		furthest, far := -1, 0.0
		for i := range s.e.Readings {
			if off := s.twice(b, a, i); off > far {
				furthest, far = i, off
			}
		}
		if furthest < 0 {
			return 0
		}
		return far + beyond(a, furthest) + beyond(furthest, b)
	}
	return beyond(first, last) + beyond(last, first)
}

// checkWorst: limits by the table, and no straightedge listed as broken or kept
// against its own figures.
func (s *survey) checkWorst() {
	broken := false
	for _, w := range s.e.Worst {
		distance := math.Hypot(float64(w.To[0]-w.From[0]), float64(w.To[1]-w.From[1])) / unit
		limit, known := flatnessLimit(s.e.Group, distance)
		s.t.want(known && length(limit*unit) == w.Limit, s.room.sign(), w.Limit.mm(), fmt.Sprint(limit, " mm"), "not the limit of the flatness group")
		broken = broken || w.Deviation > w.Limit || -w.Deviation > w.Limit
	}
	s.t.want(broken == (s.e.Broken > 0), s.room.sign(), fmt.Sprint(s.e.Broken, " broken"), fmt.Sprint("the worst breaks its limit: ", broken), "straightedges and their count disagree")
}

// flatnessLimit is the limit at a distance, whole mm.
func flatnessLimit(group string, distance float64) (limit float64, known bool) {
	limits, known := flatnessTable[group]
	if !known {
		return 0, false
	}
	for i, to := range flatnessDistances {
		if distance > to {
			continue
		}
		if i == 0 {
			return limits[0], true
		}
		from := flatnessDistances[i-1]
		return math.Floor((limits[i-1]*(to-distance)+limits[i]*(distance-from))/(to-from) + 0.5), true
	}
	return limits[len(limits)-1], true
}

// squares is into how many a room is cut along each side for filling it again.
const squares = 48

// checkVolumes fills and grinds the floor again: the heights in the middles of
// squares, each by the nearest place of the triangles. That is right to a few
// parts in a hundred; a wrong plane, triangle or volume is further off.
func (s *survey) checkVolumes() {
	bounds := s.room.Outline.bounds()
	walls := s.room.Outline.loop()
	width, height := float64(bounds.width())/squares, float64(bounds.height())/squares
	riseX, _ := s.e.Plane.RiseX.Float64()
	riseY, _ := s.e.Plane.RiseY.Float64()
	fill, ground, area := 0.0, 0.0, 0.0
	square := width * height / (unit * unit)
	for column := range squares {
		for row := range squares {
			p := spot{float64(bounds.x0) + (float64(column)+0.5)*width, float64(bounds.y0) + (float64(row)+0.5)*height}
			if !walls.holds(p) || s.inHole(p) {
				continue
			}
			x, y := p.x/unit, p.y/unit
			gap := float64(s.e.Plane.Height)/unit + riseX*x/1000 + riseY*y/1000 - s.heightAt(x, y)
			fill += max(0, gap) * square
			ground += max(0, -gap-float64(s.e.Plane.Allowance)/unit) * square
			area += square
		}
	}
	slack := area * 0.03 // 0.03 mm over the floor
	if !s.e.Fill.Volume.IsZero() || ground <= slack {
		s.near(s.e.Fill.Volume, fill, slack, "compound")
	}
	if ground > slack || !s.e.Ground.Volume.IsZero() {
		s.near(s.e.Ground.Volume, ground, slack, "grinding")
	}
}

func (s *survey) near(stated whole, counted, slack float64, what string) {
	volume, _ := stated.Float64()
	s.t.want(math.Abs(volume-counted) <= 0.03*counted+slack, s.room.sign(), stated.String()+" mm3", fmt.Sprintf("about %.0f mm3", counted), what+" does not fit the readings")
}

func (s *survey) inHole(p spot) bool {
	for _, hole := range s.room.Holes {
		if hole.loop().holds(p) {
			return true
		}
	}
	return false
}

// heightAt is the height of the nearest place of the triangles.
func (s *survey) heightAt(x, y float64) float64 {
	nearest, height := math.Inf(1), 0.0
	for _, t := range s.e.Triangles {
		ax, ay, az := s.at(t[0])
		bx, by, bz := s.at(t[1])
		cx, cy, cz := s.at(t[2])
		whole := (bx-ax)*(cy-ay) - (by-ay)*(cx-ax)
		a, b := ((bx-x)*(cy-y)-(by-y)*(cx-x))/whole, ((cx-x)*(ay-y)-(cy-y)*(ax-x))/whole
		if c := 1 - a - b; a >= 0 && b >= 0 && c >= 0 {
			return a*az + b*bz + c*cz
		}
		for k := range t {
			ux, uy, uz := s.at(t[k])
			vx, vy, vz := s.at(t[(k+1)%3])
			dx, dy := vx-ux, vy-uy
			share := min(1, max(0, ((x-ux)*dx+(y-uy)*dy)/(dx*dx+dy*dy)))
			if away := math.Hypot(x-ux-share*dx, y-uy-share*dy); away < nearest {
				nearest, height = away, uz+share*(vz-uz)
			}
		}
	}
	return height
}

// measured is a quantity measured from the room's subfloor.
func (e *subfloorEntry) measured(q *quantityEntry) decimal.Decimal {
	amount := e.Fill.Volume
	switch q.MeasuredBy {
	case "grinding":
		amount = e.Ground.Volume
	case "levelled area":
		amount = e.Fill.Area
	}
	perMillimetre := big.NewRat(unit*unit, unitSizes[strings.TrimSuffix(q.Unit, " x mm")])
	return raised(new(big.Rat).Mul(amount.Rat(), perMillimetre), q)
}

// checkTests counts the moisture tests again by the floors of their rooms, and
// the quantities measured by them.
func (c *checker) checkTests() {
	t := c.claim(claimTests)
	const thousand = 1000 * 97_536 * 97_536 // 1000 ft2
	seen := map[*roomEntry]bool{}
	for i := range c.f.Tests {
		e := &c.f.Tests[i]
		area := int64(0)
		for _, place := range e.Rooms {
			room := c.roomAt(place)
			if t.want(room != nil && !seen[room], place.sign(), e.Place, "one place of tests", "the room is not in the file, or counted twice") {
				seen[room] = true
				area += c.floorArea[room]
			}
		}
		count := int64(3)
		if area == 0 {
			count = 0
		}
		for over := area - thousand; over > 0; over -= thousand {
			count++
		}
		t.want(count == e.Count, e.Place, fmt.Sprint(e.Count), fmt.Sprint(count), "not as many tests as the area needs")
	}
}
