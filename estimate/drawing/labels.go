package drawing

import (
	"math"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// label is the place of a text on the paper: its corners and the box about them.
type label struct {
	corners   [4]Point
	low, high Point
}

func newLabel(corners []Point) label {
	l := label{corners: [4]Point(corners), low: corners[0], high: corners[0]}
	for _, p := range corners[1:] {
		l.low = Point{min(l.low.X, p.X), min(l.low.Y, p.Y)}
		l.high = Point{max(l.high.X, p.X), max(l.high.Y, p.Y)}
	}
	return l
}

// Letters reach so far above and below their base, in heights of the type.
const (
	capHeight = 0.75
	descender = 0.22
)

// label is where the text's letters stand, with so many mm round them.
func (t Text) label(round float64) label {
	wide := textWidth(t.Value, t.Size, t.Bold)
	from := map[Anchor]float64{Middle: -wide / 2, End: -wide}[t.Anchor] - round
	to := from + wide + 2*round
	below, above := round, capHeight*t.Size+round
	if strings.ContainsAny(t.Value, "gjpqy,;()") {
		below += descender * t.Size
	}
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	at := func(x, up float64) Point { return Point{t.At.X + x*cos - up*sin, t.At.Y - x*sin - up*cos} }
	return newLabel([]Point{at(from, -below), at(to, -below), at(to, above), at(from, above)})
}

// meets tells whether two labels overlap: no side of either parts them.
func (l label) meets(other label) bool {
	if l.high.X <= other.low.X || other.high.X <= l.low.X || l.high.Y <= other.low.Y || other.high.Y <= l.low.Y {
		return false
	}
	return !l.parts(other) && !other.parts(l)
}

// parts tells whether one of the label's sides lies between it and the other.
func (l label) parts(other label) bool {
	for i := range 2 {
		dx, dy := l.corners[i+1].X-l.corners[i].X, l.corners[i+1].Y-l.corners[i].Y
		own, others := l.along(dx, dy), other.along(dx, dy)
		if own[1] <= others[0] || others[1] <= own[0] {
			return true
		}
	}
	return false
}

// along is how far the label reaches in a direction.
func (l label) along(dx, dy float64) [2]float64 {
	reach := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, p := range l.corners {
		at := p.X*dx + p.Y*dy
		reach = [2]float64{min(reach[0], at), max(reach[1], at)}
	}
	return reach
}

// free tells whether a label lies on the paper and meets none so far.
func (d *roomDrawing) free(l label) bool {
	if l.low.X < 0 || l.low.Y < 0 || l.high.X > d.scene.Width || l.high.Y > d.scene.Height {
		return false
	}
	for _, other := range d.taken {
		if l.meets(other) {
			return false
		}
	}
	return true
}

// dropped is where the base of a text begins whose middle is to stand at a point.
func dropped(middle Point, size, turn float64) Point {
	sin, cos := math.Sincos(turn * math.Pi / 180)
	drop := size * digitDrop
	return Point{middle.X + drop*sin, middle.Y + drop*cos}
}

// write puts a text where it stands, whatever is there.
func (d *roomDrawing) write(t Text) {
	d.scene.text(t)
	d.taken = append(d.taken, t.label(0))
}

// labelGap is kept free between texts.
const labelGap = 0.2

// firstFree writes the first of the texts that has its place, if any has.
func (d *roomDrawing) firstFree(places []Text) (written bool) {
	for _, t := range places {
		if d.free(t.label(labelGap)) {
			d.write(t)
			return true
		}
	}
	return false
}

// onFloor tells whether a label covers some of the room.
func (d *roomDrawing) onFloor(l label) bool {
	return within(l.middle(), [][]Point{d.outline}) || l.crosses(d.outline)
}

// inside tells whether a label lies within a piece.
func (l label) inside(rings [][]Point) bool {
	for _, ring := range rings {
		if l.crosses(ring) {
			return false
		}
	}
	return within(l.middle(), rings)
}

func (l label) middle() Point { return Point{(l.low.X + l.high.X) / 2, (l.low.Y + l.high.Y) / 2} }

// crosses tells whether a side of the ring passes through the label.
func (l label) crosses(ring []Point) bool {
	ux, uy := l.corners[1].X-l.corners[0].X, l.corners[1].Y-l.corners[0].Y
	vx, vy := l.corners[3].X-l.corners[0].X, l.corners[3].Y-l.corners[0].Y
	uu, vv := ux*ux+uy*uy, vx*vx+vy*vy
	// In the label's own frame it reaches from 0 to 1 both ways.
	own := func(p Point) Point {
		x, y := p.X-l.corners[0].X, p.Y-l.corners[0].Y
		return Point{(x*ux + y*uy) / uu, (x*vx + y*vy) / vv}
	}
	from := own(ring[len(ring)-1])
	for _, p := range ring {
		to := own(p)
		if throughUnit(from, to) {
			return true
		}
		from = to
	}
	return false
}

// throughUnit tells whether a line passes through the inside of the unit square.
func throughUnit(from, to Point) bool {
	enter, leave := 0.0, 1.0
	for _, axis := range [2][2]float64{{from.X, to.X - from.X}, {from.Y, to.Y - from.Y}} {
		at, step := axis[0], axis[1]
		if step == 0 {
			if at <= 0 || at >= 1 {
				return false
			}
			continue
		}
		first, second := -at/step, (1-at)/step
		enter, leave = max(enter, min(first, second)), min(leave, max(first, second))
	}
	return enter < leave
}

// within tells whether a point lies inside an odd number of the rings.
func within(p Point, rings [][]Point) bool {
	in := false
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
		}
	}
	return in
}

// textWidth is at least as wide as a text comes out in the condensed sans.
func textWidth(s string, size float64, bold bool) float64 {
	const boldWidth = 1.12
	sum := 0.0
	for _, r := range s {
		sum += letterWidth(r)
	}
	if bold {
		sum *= boldWidth
	}
	return sum * size
}

// broad are the scripts with letters broader than they are high.
var broad = []*unicode.RangeTable{unicode.Tamil, unicode.Telugu, unicode.Kannada, unicode.Malayalam, unicode.Sinhala, unicode.Myanmar}

// letterWidth is in heights of the type.
func letterWidth(r rune) float64 {
	switch {
	case strings.ContainsRune(" .,:;'|!iIjl", r):
		return 0.32
	case strings.ContainsRune("/()-\"ftr", r):
		return 0.42
	case strings.ContainsRune("mwMW%@", r):
		return 0.92
	case '0' <= r && r <= '9', 'a' <= r && r <= 'z':
		return 0.58
	case r < 128:
		return 0.72
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case unicode.In(r, broad...):
		return 1.4
	case '\u0900' <= r && r < '\u10A0', unicode.In(r, unicode.Ethiopic, unicode.Khmer): // Devanagari to Lao, and others
		return 1
	}
	if kind := width.LookupRune(r).Kind(); kind == width.EastAsianWide || kind == width.EastAsianFullwidth {
		return 1
	}
	return 0.78
}
