package subfloor

import (
	"cmp"
	"math"
	"slices"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Places and heights are millimetres here; nothing of them is money. Volumes
// are rounded once, to the cubic millimetre, far above what is lost on the way.

// spot is a place on the floor.
type spot struct{ x, y float64 }

// affine is a quantity that rises evenly: at + dx x + dy y.
type affine struct{ at, dx, dy float64 }

func (f affine) of(p spot) float64 { return f.at + f.dx*p.x + f.dy*p.y }

func (f affine) less(g affine) affine { return affine{f.at - g.at, f.dx - g.dx, f.dy - g.dy} }

// patch is a part of the floor over which the surface rises evenly. Its rings
// run as those of the floor do, so that areas of holes come off.
type patch struct {
	rings   [][]spot
	surface affine
}

// surface is a subfloor between and beyond its readings.
//
// Between the readings it is flat over each triangle of their triangulation.
// Beyond them, towards the walls, every place has the height of the nearest
// place of the triangulation: along an outer edge the height runs on square to
// it, round an outer corner it stays that of the corner.
type surface struct {
	readings  []job.Reading // by place
	triangles []triangle
	edges     [][2]int // of the triangles, each once
	patches   []patch
}

// surfaceOf is the surface of a floor with at least three readings that are not
// in one line.
func surfaceOf(readings []job.Reading, floor shape.Region) *surface {
	s := &surface{readings: slices.Clone(readings)}
	slices.SortFunc(s.readings, func(a, b job.Reading) int {
		return cmp.Or(cmp.Compare(a.At.X, b.At.X), cmp.Compare(a.At.Y, b.At.Y))
	})
	var hull []int
	s.triangles, hull = triangulate(s.readings)
	s.edges = edgesOf(s.triangles)
	rings := ringsOf(floor)
	for _, t := range s.triangles {
		a, b, c := s.spot(t[0]), s.spot(t[1]), s.spot(t[2])
		s.addPatch(rings, through(a, b, c, s.height(t[0]), s.height(t[1]), s.height(t[2])), leftOf(a, b), leftOf(b, c), leftOf(c, a))
	}
	for i, corner := range hull {
		before, after := hull[(i+len(hull)-1)%len(hull)], hull[(i+1)%len(hull)]
		s.addBeyond(rings, before, corner, after)
	}
	return s
}

// addBeyond adds the floor beyond the outer edge from a corner to the next and
// round the corner itself.
func (s *surface) addBeyond(rings [][]spot, before, corner, after int) {
	a, b := s.spot(corner), s.spot(after)
	along := spot{b.x - a.x, b.y - a.y}
	length := math.Hypot(along.x, along.y)
	along.x, along.y = along.x/length, along.y/length
	slope := (s.height(after) - s.height(corner)) / length
	run := affine{s.height(corner) - slope*(along.x*a.x+along.y*a.y), slope * along.x, slope * along.y}
	ahead := affine{-(along.x*a.x + along.y*a.y), along.x, along.y} // distance from a along the edge
	behind := affine{along.x*b.x + along.y*b.y, -along.x, -along.y} // distance from b back along it
	s.addPatch(rings, run, leftOf(b, a), ahead, behind)

	z := s.spot(before)
	came := spot{a.x - z.x, a.y - z.y}
	past := affine{-(came.x*a.x + came.y*a.y), came.x, came.y}
	s.addPatch(rings, affine{at: s.height(corner)}, past, affine{-ahead.at, -ahead.dx, -ahead.dy})
}

func (s *surface) spot(i int) spot {
	return spot{millimetres(s.readings[i].At.X), millimetres(s.readings[i].At.Y)}
}

func (s *surface) height(i int) float64 { return millimetres(s.readings[i].Height) }

func millimetres(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) }

// addPatch adds the part of the floor on the positive side of all bounds.
func (s *surface) addPatch(rings [][]spot, height affine, bounds ...affine) {
	p := patch{surface: height}
	for _, ring := range rings {
		for _, bound := range bounds {
			ring = clip(ring, bound)
		}
		if len(ring) > 2 {
			p.rings = append(p.rings, ring)
		}
	}
	if len(p.rings) > 0 {
		s.patches = append(s.patches, p)
	}
}

// ringsOf are all rings of a floor.
func ringsOf(floor shape.Region) [][]spot {
	var rings [][]spot
	add := func(r shape.Ring) {
		ring := make([]spot, len(r))
		for i, p := range r {
			ring[i] = spot{millimetres(p.X), millimetres(p.Y)}
		}
		rings = append(rings, ring)
	}
	for _, part := range floor {
		add(part.Outer)
		for _, hole := range part.Holes {
			add(hole)
		}
	}
	return rings
}

// leftOf is positive left of the way from a to b.
func leftOf(a, b spot) affine {
	return affine{-(b.x-a.x)*a.y + (b.y-a.y)*a.x, -(b.y - a.y), b.x - a.x}
}

// through is the plane through three heights.
func through(a, b, c spot, ha, hb, hc float64) affine {
	ux, uy, vx, vy := b.x-a.x, b.y-a.y, c.x-a.x, c.y-a.y
	double := ux*vy - uy*vx
	dx := ((hb-ha)*vy - (hc-ha)*uy) / double
	dy := ((hc-ha)*ux - (hb-ha)*vx) / double
	return affine{ha - dx*a.x - dy*a.y, dx, dy}
}

// clip is the part of a ring on the positive side of a bound (Sutherland and
// Hodgman, Reentrant polygon clipping, 1974; from memory). Parts of a ring that
// falls apart stay joined along the bound, there and back, which changes no
// area and no volume.
func clip(ring []spot, bound affine) []spot {
	var kept []spot
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		here, there := bound.of(p), bound.of(q)
		if here >= 0 {
			kept = append(kept, p)
		}
		if here > 0 && there < 0 || here < 0 && there > 0 {
			share := here / (here - there)
			kept = append(kept, spot{p.x + share*(q.x-p.x), p.y + share*(q.y-p.y)})
		}
	}
	return kept
}

// amounts are the area and volume between two surfaces where the one is above
// the other, in mm2 and mm3, and the greatest height between them.
type amounts struct{ area, volume, most float64 }

// above is what lies under the plane and over the surface: the compound that
// fills the floor up to the plane.
func (s *surface) above(plane affine) amounts { return s.between(plane, 1) }

// below is what stands out over the plane: what is to be ground off.
func (s *surface) below(plane affine) amounts { return s.between(plane, -1) }

func (s *surface) between(plane affine, sign float64) amounts {
	var sum amounts
	for i := range s.patches {
		gap := plane.less(s.patches[i].surface)
		gap = affine{sign * gap.at, sign * gap.dx, sign * gap.dy}
		for _, ring := range s.patches[i].rings {
			part := clip(ring, gap)
			deepest := 0.0
			for _, p := range part {
				deepest = max(deepest, gap.of(p))
			}
			if deepest < noise {
				continue // level with the plane: nothing to fill or grind
			}
			sum.most = max(sum.most, deepest)
			for k := 2; k < len(part); k++ {
				a, b, c := part[0], part[k-1], part[k]
				area := ((b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)) / 2
				sum.area += area
				sum.volume += area * (gap.of(a) + gap.of(b) + gap.of(c)) / 3
			}
		}
	}
	return sum
}

// highest is how far the surface stands out over a plane at most, negative when
// it stays below.
func (s *surface) highest(plane affine) float64 {
	most := math.Inf(-1)
	for i := range s.patches {
		gap := s.patches[i].surface.less(plane)
		for _, ring := range s.patches[i].rings {
			for _, p := range ring {
				most = max(most, gap.of(p))
			}
		}
	}
	return most
}
