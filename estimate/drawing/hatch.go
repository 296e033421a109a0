package drawing

import (
	"math"
	"slices"
)

// hatch is a family of parallel lines: degrees anticlockwise from the paper's
// x, and how far they are apart in mm.
type hatch struct{ angle, spacing float64 }

// The hatches of pieces: rising for the first cut of a plank, falling for an
// off-cut.
var (
	rising  = hatch{angle: 45, spacing: 1.6}
	falling = hatch{angle: -45, spacing: 1.6}
)

// The hatches of blocks, which lie aslant themselves.
var (
	upright = hatch{angle: 90, spacing: 1.2}
	level   = hatch{angle: 0, spacing: 1.2}
)

const hatchWidth = 0.09

// fill hatches the area inside the rings: along each hatch line, the parts
// between the first and second crossing, the third and fourth and so on. Lines
// of neighbouring areas meet, since they are counted from the paper's corner.
func (h hatch) fill(s *Scene, rings [][]Point) {
	sin, cos := math.Sincos(h.angle * math.Pi / 180)
	along := func(p Point) float64 { return p.X*cos - p.Y*sin }
	across := func(p Point) float64 { return p.X*sin + p.Y*cos }
	back := func(u, v float64) Point { return Point{u*cos + v*sin, -u*sin + v*cos} }
	low, high := math.Inf(1), math.Inf(-1)
	for _, ring := range rings {
		for _, p := range ring {
			low, high = min(low, across(p)), max(high, across(p))
		}
	}
	for v := math.Ceil(low/h.spacing) * h.spacing; v < high; v += h.spacing {
		crossings := crossingsAt(v, rings, along, across)
		for i := 0; i+1 < len(crossings); i += 2 {
			s.line(back(crossings[i], v), back(crossings[i+1], v), hatchWidth)
		}
	}
}

func crossingsAt(v float64, rings [][]Point, along, across func(Point) float64) []float64 {
	var at []float64
	for _, ring := range rings {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			a, b := across(p), across(q)
			if (a > v) == (b > v) {
				continue
			}
			at = append(at, along(p)+(along(q)-along(p))*(v-a)/(b-a))
		}
	}
	slices.Sort(at)
	return at
}
