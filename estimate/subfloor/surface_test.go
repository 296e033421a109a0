package subfloor

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

func mm(n float64) measure.Length { return measure.Length(math.Round(n * float64(measure.Millimetre))) }

// at is a reading: place and height in mm.
func at(x, y, height float64) job.Reading {
	return job.Reading{At: shape.Point{X: mm(x), Y: mm(y)}, Height: mm(height)}
}

func box(x0, y0, x1, y1 float64) shape.Box {
	return shape.Box{X0: mm(x0), Y0: mm(y0), X1: mm(x1), Y1: mm(y1)}
}

func rectangle(length, width float64) shape.Region {
	return shape.Region{shape.Rectangle(box(0, 0, length, width))}
}

func level(height float64) affine { return affine{at: height} }

// ringOf is n readings on a circle, and one in its middle.
func ringOf(n int, x, y, radius, height, middle float64) []job.Reading {
	readings := []job.Reading{at(x, y, middle)}
	for i := range n {
		angle := 2 * math.Pi * float64(i) / float64(n)
		readings = append(readings, at(x+radius*math.Cos(angle), y+radius*math.Sin(angle), height))
	}
	return readings
}

// Volumes up to a level plane against closed forms of solid geometry, in mm3.
func TestVolumesOfSolids(t *testing.T) {
	const l, w = 5000.0, 4000.0
	for _, c := range []struct {
		name     string
		readings []job.Reading
		floor    shape.Region
		plane    affine
		volume   float64
		area     float64
		most     float64
	}{
		// A floor falling by 10 mm along its length: half the box of 10 mm.
		{"wedge", []job.Reading{at(0, 0, 0), at(0, w, 0), at(l, 0, 10), at(l, w, 10)}, rectangle(l, w), level(10), l * w * 10 / 2, l * w, 10},
		// The same filled to 4 mm only: a wedge of 2/5 of the length.
		{"part of a wedge", []job.Reading{at(0, 0, 0), at(0, w, 0), at(l, 0, 10), at(l, w, 10)}, rectangle(l, w), level(4), 0.4 * l * w * 4 / 2, 0.4 * l * w, 4},
		// z = x/1000 + y/500: 0, 5, 8, 13 mm at the corners, 6.5 in the middle.
		{"tilted plane", []job.Reading{at(0, 0, 0), at(l, 0, 5), at(0, w, 8), at(l, w, 13)}, rectangle(l, w), level(13), l * w * 6.5, l * w, 13},
		// A hollow of 9 mm in the middle of level corners: a pyramid upside down.
		{"pyramid", []job.Reading{at(0, 0, 0), at(l, 0, 0), at(0, w, 0), at(l, w, 0), at(l/2, w/2, -9)}, rectangle(l, w), level(0), l * w * 9 / 3, l * w, 9},
		// Corners high and low by turns. The lower of the two ways to join them
		// runs the ridge's valley between the low corners: a third of the box is
		// floor, two thirds are filled.
		{"saddle", []job.Reading{at(0, 0, 0), at(l, 0, 6), at(l, w, 0), at(0, w, 6)}, rectangle(l, w), level(6), l * w * 6 * 2 / 3, l * w, 6},
		// A cone of 24 sides: base n/2 r2 sin(2 pi / n), a third of the height.
		{"cone", ringOf(24, 2500, 2000, 1500, 0, -12), rectangle(l, w), level(0), 12 * 1500 * 1500 * math.Sin(math.Pi/12) * 12 / 3, 12 * 1500 * 1500 * math.Sin(math.Pi/12), 12},
		// Readings 1 m off the walls on a slope of 2 mm a metre along x: beyond
		// them the floor runs on level, so at x = 0..1 m it is at 2, at 4..5 m at 8.
		// Up to 8: 4 m x (1 m x 6 + 3 m x 3 mm).
		{"level beyond the readings", []job.Reading{at(1000, 1000, 2), at(1000, 3000, 2), at(4000, 1000, 8), at(4000, 3000, 8)}, rectangle(l, w), level(8), 4000 * (1000*6 + 3000*3), 4000 * 4000, 6},
	} {
		got := surfaceOf(c.readings, c.floor).above(c.plane)
		if math.Abs(got.volume-c.volume) > 1e-4*c.volume || math.Abs(got.area-c.area) > 1e-4*c.area || math.Abs(got.most-c.most) > 1e-6 {
			t.Errorf("%s: %+v, want volume %v, area %v, most %v", c.name, got, c.volume, c.area, c.most)
		}
		if c.name != "cone" && math.Abs(got.volume-c.volume) > 1e-9*c.volume { // the cone's readings are rounded to 1/320 mm
			t.Errorf("%s: volume %v is not %v to nine places", c.name, got.volume, c.volume)
		}
	}
}

// A floor of any shape with a column, 3 mm below the plane all over: area x depth.
func TestVolumeOverAnyFloor(t *testing.T) {
	l := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(6000), Y: 0}, {X: mm(6000), Y: mm(2600)}, {X: mm(3500), Y: mm(2600)}, {X: mm(3500), Y: mm(4800)}, {X: 0, Y: mm(4800)}}}
	floor := shape.Subtract(shape.Region{l}, box(1000, 1000, 1400, 1600))
	readings := []job.Reading{at(200, 200, -3), at(5800, 300, -3), at(300, 4700, -3), at(3000, 2000, -3), at(1200, 3300, -3)}
	// 6 x 2.6 + 3.5 x 2.2 - 0.4 x 0.6 = 23.06 m2.
	if got := surfaceOf(readings, floor).above(level(0)); math.Abs(got.volume-23.06e6*3) > 1 || math.Abs(got.area-23.06e6) > 1 {
		t.Errorf("%+v, want 23.06 m2 by 3 mm", got)
	}
}

// drawReadings draws readings in a room of 6 x 5 m that are not in one line.
func drawReadings(t *rapid.T) []job.Reading {
	grid := rapid.Bool().Draw(t, "on a grid")
	n := rapid.IntRange(3, 14).Draw(t, "readings")
	seen := map[shape.Point]bool{}
	var readings []job.Reading
	for range n {
		x, y := 100*rapid.IntRange(0, 60).Draw(t, "x"), 100*rapid.IntRange(0, 50).Draw(t, "y")
		if grid {
			x, y = x/1000*1000, y/1000*1000
		}
		r := at(float64(x), float64(y), float64(rapid.IntRange(-80, 80).Draw(t, "height"))/10)
		if !seen[r.At] {
			readings = append(readings, r)
		}
		seen[r.At] = true
	}
	for i := range readings {
		for k := range readings[:i] {
			if turn(readings[0], readings[k], readings[i]) != 0 {
				return readings
			}
		}
	}
	t.Skip("all in one line")
	return nil
}

// Delaunay's criterion by brute force: no reading lies in the circle of any
// triangle; and the triangles fill the hull: they add up to the area of the
// fan round its corners.
func TestTrianglesAreDelaunays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := surfaceOf(drawReadings(t), rectangle(6000, 5000))
		_, hull := triangulate(s.readings)
		var whole, parts int64
		for i := 2; i < len(hull); i++ {
			whole += turn(s.readings[hull[0]], s.readings[hull[i-1]], s.readings[hull[i]])
		}
		for _, triangle := range s.triangles {
			a, b, c := s.readings[triangle[0]], s.readings[triangle[1]], s.readings[triangle[2]]
			parts += turn(a, b, c)
			x, y, r := circle(s.spot(triangle[0]), s.spot(triangle[1]), s.spot(triangle[2]))
			for i := range s.readings {
				if p := s.spot(i); math.Hypot(p.x-x, p.y-y) < r*(1-1e-9) {
					t.Fatalf("reading %d lies in the circle of %v", i, triangle)
				}
			}
		}
		if parts != whole {
			t.Fatalf("triangles of %d, hull of %d", parts, whole)
		}
	})
}

// circle is the circle through three places.
func circle(a, b, c spot) (x, y, radius float64) {
	d := 2 * (a.x*(b.y-c.y) + b.x*(c.y-a.y) + c.x*(a.y-b.y))
	sq := func(p spot) float64 { return p.x*p.x + p.y*p.y }
	x = (sq(a)*(b.y-c.y) + sq(b)*(c.y-a.y) + sq(c)*(a.y-b.y)) / d
	y = (sq(a)*(c.x-b.x) + sq(b)*(a.x-c.x) + sq(c)*(b.x-a.x)) / d
	return x, y, math.Hypot(a.x-x, a.y-y)
}

// heightByBruteForce is the height of the nearest place of all triangles: of
// one that the place lies in, or along the nearest of all edges.
func heightByBruteForce(s *surface, p spot) float64 {
	nearest, height := math.Inf(1), 0.0
	for _, t := range s.triangles {
		a, b, c := s.spot(t[0]), s.spot(t[1]), s.spot(t[2])
		whole := (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)
		wa := ((b.x-p.x)*(c.y-p.y) - (b.y-p.y)*(c.x-p.x)) / whole
		wb := ((c.x-p.x)*(a.y-p.y) - (c.y-p.y)*(a.x-p.x)) / whole
		if wc := 1 - wa - wb; wa >= 0 && wb >= 0 && wc >= 0 {
			return wa*s.height(t[0]) + wb*s.height(t[1]) + wc*s.height(t[2])
		}
		for i := range t {
			u, v := t[i], t[(i+1)%3]
			pu, pv := s.spot(u), s.spot(v)
			dx, dy := pv.x-pu.x, pv.y-pu.y
			share := min(1, max(0, ((p.x-pu.x)*dx+(p.y-pu.y)*dy)/(dx*dx+dy*dy)))
			if away := math.Hypot(p.x-pu.x-share*dx, p.y-pu.y-share*dy); away < nearest {
				nearest, height = away, s.height(u)+share*(s.height(v)-s.height(u))
			}
		}
	}
	return height
}

// The volume to a plane against gonum's Gauss-Legendre rule, along and across,
// each height found by brute force. The floor is its rectangle less the corner and
// the column cut out of it. The rule errs a little at the kinks between triangles
// and at the rim of what is filled.
func TestVolumesAgreeWithNumericalIntegration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor := shape.Subtract(rectangle(6000, 5000), box(4000, 3000, 6000, 5000), box(1000, 1000, 1500, 2000))
		s := surfaceOf(drawReadings(t), floor)
		plane := affine{rapid.Float64Range(-8, 8).Draw(t, "height"), rapid.Float64Range(-0.002, 0.002).Draw(t, "rise x"), rapid.Float64Range(-0.002, 0.002).Draw(t, "rise y")}
		over := func(side func(gap float64) float64) float64 {
			box := func(x0, y0, x1, y1 float64, nodes int) float64 {
				return quad.Fixed(func(x float64) float64 {
					return quad.Fixed(func(y float64) float64 {
						return side(plane.of(spot{x, y}) - heightByBruteForce(s, spot{x, y}))
					}, y0, y1, nodes, quad.Legendre{}, 1)
				}, x0, x1, nodes, quad.Legendre{}, 1)
			}
			return box(0, 0, 6000, 5000, 110) - box(4000, 3000, 6000, 5000, 50) - box(1000, 1000, 1500, 2000, 20)
		}
		for _, side := range []struct {
			name            string
			got, integrated float64
		}{
			{"above", s.above(plane).volume, over(func(gap float64) float64 { return max(0, gap) })},
			{"below", s.below(plane).volume, over(func(gap float64) float64 { return max(0, -gap) })},
		} {
			if math.Abs(side.got-side.integrated) > 0.005*side.integrated+25.5e6*0.01 {
				t.Fatalf("%s the floor: %v, integrated %v", side.name, side.got, side.integrated)
			}
		}
	})
}

// The surface is the readings' own: their order, or a mirror, changes nothing.
func TestVolumeInAnyOrderAndMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		readings := drawReadings(t)
		height := level(float64(rapid.IntRange(-80, 80).Draw(t, "plane")) / 10)
		want := layerOf(surfaceOf(readings, rectangle(6000, 5000)).above(height))
		other := slices.Clone(readings)
		slices.Reverse(other)
		for i := range other {
			other[i].At.X = mm(6000) - other[i].At.X
		}
		if got := layerOf(surfaceOf(other, rectangle(6000, 5000)).above(height)); got != want {
			t.Fatalf("mirrored %+v, as drawn %+v", got, want)
		}
	})
}

// Sums of products of 60 bits against arithmetic without limits.
func TestWideSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const most = 1 << 60
		var sum wide
		want := new(big.Int)
		for range rapid.IntRange(1, 4).Draw(t, "products") {
			a, b := rapid.Int64Range(-most, most).Draw(t, "a"), rapid.Int64Range(-most, most).Draw(t, "b")
			if rapid.Bool().Draw(t, "small") {
				a, b = a%3, b%3
			}
			sum = sum.plus(a, b)
			want.Add(want, new(big.Int).Mul(big.NewInt(a), big.NewInt(b)))
		}
		if sum.sign() != want.Sign() {
			t.Fatalf("sign %d, want that of %s", sum.sign(), want)
		}
	})
}
