package proof

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/shopspring/decimal"
)

// slack is how far places on slanted walls may be off: half a millimetre.
const slack = unit / 2

// squareMetre is a square metre in squares of 1/320 mm.
const squareMetre = 1e6 * unit * unit

// checkRooms recounts what is said of every room and compares mirrored ones
// with the same room of an apartment that is not mirrored, or the other way.
func (c *checker) checkRooms() {
	t := c.claim(claimRooms)
	c.report.Rooms = len(c.f.Rooms)
	seen := map[[3]string]bool{}
	measured := map[string]ground{}
	areas := map[string]int64{}
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		name := [3]string{room.Apartment, room.Type, room.Room}
		t.want(!seen[name], room.sign(), "named twice", "named once", "two rooms have this name")
		seen[name] = true
		if !room.drawn() {
			t.fail(room.sign(), "the outline or a hole has no three corners")
			continue
		}
		key := room.signature(false, false)
		if _, known := areas[key]; !known {
			measured[key] = room.whole().ground(0)
			areas[key] = c.netArea(measured[key], t, room)
		}
		c.floorArea[room] = areas[key]
		checkArea(t, room, areas[key])
		checkPerimeter(t, room, measured[key])
	}
	c.checkMirrors()
}

// drawn tells whether every ring has three corners.
func (r *roomEntry) drawn() bool {
	for _, field := range r.Fields {
		if !field.drawn() {
			return false
		}
	}
	return r.whole().drawn()
}

// netArea is the floor less holes, half up to whole squares of 1/320 mm. Holes
// that lie apart inside the walls are simply taken off; others are swept.
func (c *checker) netArea(g ground, t *tally, room *roomEntry) int64 {
	w := sweep{}
	w.addGround(g)
	found, ok := w.measure(&c.steps)
	if !ok {
		t.fail(room.sign(), "the outline is too intricate to check")
	}
	twice := abs(room.Outline.twiceArea())
	for _, hole := range room.Holes {
		twice -= abs(hole.twiceArea())
	}
	if simple := (twice + 1) >> 1; math.Abs(float64(simple)-found.ground) <= 1+found.ground*1e-12 {
		return simple
	}
	return int64(math.Round(found.ground))
}

func (w *sweep) addGround(g ground) {
	w.add(wallLayer, g.walls)
	for _, hole := range g.holes {
		w.add(holeLayer, hole)
	}
}

// checkArea compares the area as stated, to the decimals it shows.
func checkArea(t *tally, room *roomEntry, area int64) {
	if room.Area == nil {
		return
	}
	counted := decimal.NewFromInt(area).DivRound(decimal.NewFromInt(squareMetre), 12)
	places := max(2, -room.Area.Exponent())
	half := decimal.New(5, -places-1)
	if room.slanted() {
		half = half.Add(decimal.New(1, -4))
	}
	ok := counted.Sub(room.Area.Decimal).Abs().LessThanOrEqual(half)
	t.want(ok, room.sign(), room.Area.String()+" m2", counted.String()+" m2", "stated and counted area differ")
}

func (r *roomEntry) slanted() bool {
	for _, l := range append([]ring{r.Outline}, r.Holes...) {
		if !l.loop().axisParallel() {
			return true
		}
	}
	return false
}

func checkPerimeter(t *tally, room *roomEntry, g ground) {
	if room.Perimeter == nil {
		return
	}
	round, allowed := 0.0, 0.0
	for i, p := range g.walls {
		q := g.walls[(i+1)%len(g.walls)]
		round += math.Hypot(q.x-p.x, q.y-p.y)
		if p.x != q.x && p.y != q.y {
			allowed += slack
		}
	}
	ok := math.Abs(round-float64(*room.Perimeter)) <= allowed
	t.want(ok, room.sign(), room.Perimeter.mm(), length(math.Round(round)).mm(), "stated and counted perimeter differ")
}

// mm prints a length.
func (l length) mm() string {
	return decimal.New(int64(l)*(1_000_000/unit), -6).String() + " mm"
}

// signature is a text that is the same for rooms with the same floor and fields,
// wherever their rings begin; mirrored about a north-south line, or moved so that the
// outline begins at 0,0, when asked.
func (r *roomEntry) signature(mirrored, moved bool) string {
	rings := make([]string, 0, len(r.Fields))
	b := r.Outline.bounds()
	place := func(p point) point {
		if moved {
			p.x, p.y = p.x-b.x0, p.y-b.y0
		}
		if mirrored {
			p.x = b.width() - p.x
		}
		return p
	}
	text := r.whole().signature(place)
	for _, field := range r.Fields {
		rings = append(rings, field.signature(place))
	}
	slices.Sort(rings)
	for _, field := range rings {
		text += "#" + field
	}
	return text
}

func (e fieldEntry) signature(place func(point) point) string {
	rings := make([]string, 0, len(e.Holes))
	for _, hole := range e.Holes {
		rings = append(rings, hole.signature(place))
	}
	slices.Sort(rings)
	text := e.Outline.signature(place)
	for _, hole := range rings {
		text += "|" + hole
	}
	return text
}

// signature is the ring turning left from its first corner in order of x, y.
func (r ring) signature(place func(point) point) string {
	moved := make(ring, len(r))
	for i, p := range r {
		moved[i] = place(p)
	}
	moved = moved.anticlockwise(true)
	first := 0
	for i, p := range moved {
		if p.x < moved[first].x || p.x == moved[first].x && p.y < moved[first].y {
			first = i
		}
	}
	var text []byte
	for i := range moved {
		p := moved[(first+i)%len(moved)]
		text = strconv.AppendInt(text, int64(p.x), 36)
		text = append(text, ',')
		text = strconv.AppendInt(text, int64(p.y), 36)
		text = append(text, ' ')
	}
	return string(text)
}

// checkMirrors compares the rooms of a type: all drawn alike, the mirrored ones
// as mirror images.
func (c *checker) checkMirrors() {
	t := c.claim(claimMirror)
	type kind struct{ apartmentType, room string }
	drawn := map[kind]string{}
	mirrored := 0
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		if !room.drawn() {
			continue
		}
		if room.Mirrored {
			mirrored++
		}
		k, plain := kind{room.Type, room.Room}, room.signature(room.Mirrored, true)
		if first, known := drawn[k]; known {
			t.want(first == plain, room.sign(), "another shape", "the type's shape",
				"unlike the same room in the type's other apartments once mirroring is undone")
			continue
		}
		drawn[k] = plain
	}
	t.remark = fmt.Sprintf("%d rooms are mirrored", mirrored)
}
