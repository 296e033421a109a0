package subfloor

import (
	"math"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Compensated is what may stand out over the plane of a levelled floor: underlay
// and adhesive take up no more (3 mm, common practice).
const Compensated = 3 * measure.Millimetre

// allowance is what may stand out over the plane: what is compensated, and no
// more than the group allows between the two nearest readings. With it every
// straightedge on the levelled floor keeps the group: the surface lies between
// the plane and the plane raised by it, and limits grow with the distance.
func allowance(f Flatness) measure.Length {
	return min(Compensated, FlatnessLimit(f.Group, f.Shortest))
}

// Plane is what a floor is levelled to: a height over the room's own 0,0 and
// how it rises along x and y.
type Plane struct {
	Height       measure.Length // at 0,0, to 1/320 mm
	RiseX, RiseY int64          // in riseStep
}

// Rises are multiples of a quarter of a millimetre a metre.
const riseSteps = 4

func (p Plane) affine() affine {
	const step = 1.0 / (riseSteps * 1000)
	return affine{millimetres(p.Height), step * float64(p.RiseX), step * float64(p.RiseY)}
}

// Rise is how the plane rises along x and y, in thousandths of a millimetre a
// metre.
func (p Plane) Rise() (x, y int64) { return p.RiseX * 1000 / riseSteps, p.RiseY * 1000 / riseSteps }

// rates are what a square metre costs for a millimetre of compound filled in
// and of floor ground off, in any one unit. Without grinding nothing may stand
// out further than the allowance.
type rates struct {
	fill, grind float64
	grinding    bool
}

// leastPlane is the plane that costs least: its compound is the volume from the
// surface up to it, and what stands out by more than the allowance is ground
// off. For a given tilt the sum is convex in the plane's height, so it is found
// by halving, to a tenth of a millimetre below the highest place; tilts are
// tried one by one, and of two alike the flatter is taken.
func (s *surface) leastPlane(kind job.LevelPlane, f Flatness, r rates, floor shape.Region) Plane {
	most := int64(0)
	if kind == job.Tilted {
		most = steepest(f.Group, floor.Bounds())
	}
	best, bestCost, bestTilt := Plane{}, math.Inf(1), int64(0)
	for x := -most; x <= most; x++ {
		for y := -most; y <= most; y++ {
			tilt := x*x + y*y
			if tilt > most*most {
				continue
			}
			p := s.leastHeight(Plane{RiseX: x, RiseY: y}, allowance(f), r)
			cost := s.cost(p, allowance(f), r)
			if cost < bestCost*(1-1e-9)-noise || cost <= bestCost*(1+1e-9)+noise && tilt < bestTilt {
				best, bestCost, bestTilt = p, cost, tilt
			}
		}
	}
	return best
}

// steepest is the most that a plane may rise, in steps: the group's limit over
// the longest distance of the room.
func steepest(group job.FlatnessGroup, room shape.Box) int64 {
	longest := math.Hypot(float64(room.X1-room.X0), float64(room.Y1-room.Y0))
	limit := FlatnessLimit(group, measure.Length(longest))
	return int64(float64(limit) / longest * 1000 * riseSteps)
}

// leastHeight is the plane of a tilt at its least cost.
func (s *surface) leastHeight(p Plane, allowed measure.Length, r rates) Plane {
	tenth := measure.Millimetre / 10
	top := s.highest(p.affine())
	p.Height = measure.Length(math.Ceil(top*float64(measure.Millimetre)-noise)) - allowed
	if !r.grinding {
		return p
	}
	lowest := int64(0) // steps down from there: lowering by one more costs more
	for high := int64(math.Ceil(top-s.lowest(p)))*10 + 1; lowest < high; {
		middle := (lowest + high) / 2
		lower := p
		lower.Height -= measure.Length(middle) * tenth
		next := lower
		next.Height -= tenth
		if s.cost(next, allowed, r) >= s.cost(lower, allowed, r)-noise {
			high = middle
		} else {
			lowest = middle + 1
		}
	}
	p.Height -= measure.Length(lowest) * tenth
	return p
}

// lowest is how far the surface goes down below a plane through 0,0.
func (s *surface) lowest(p Plane) float64 {
	p.Height = 0
	deepest := math.Inf(1)
	for i := range s.patches {
		gap := s.patches[i].surface.less(p.affine())
		for _, ring := range s.patches[i].rings {
			for _, at := range ring {
				deepest = min(deepest, gap.of(at))
			}
		}
	}
	return deepest
}

// cost is what filling up to the plane and grinding down to it cost, by volume
// in mm3.
func (s *surface) cost(p Plane, allowed measure.Length, r rates) float64 {
	sum := r.fill * s.above(p.affine()).volume
	if r.grinding {
		sum += r.grind * s.below(p.raised(allowed).affine()).volume
	}
	return sum
}

func (p Plane) raised(by measure.Length) Plane {
	p.Height += by
	return p
}

// Levelling is a floor brought to a plane.
type Levelling struct {
	Plane     Plane
	Allowance measure.Length // stands out over the plane and stays
	Fill      Layer          // compound
	Least     measure.Length // depth of compound anywhere in the room: 0 where part of it gets none
	Ground    Layer          // taken off
}

// Layer is what is put on or taken off a floor.
type Layer struct {
	Area   measure.Area
	Volume int64          // mm3
	Most   measure.Length // depth, to 0.1 mm
}

// levelled brings the surface to a plane.
func (s *surface) levelled(p Plane, allowed measure.Length) Levelling {
	l := Levelling{Plane: p, Allowance: allowed, Fill: layerOf(s.above(p.affine())), Ground: layerOf(s.below(p.raised(allowed).affine()))}
	if l.Fill.Volume > 0 {
		l.Least = max(0, tenths(-s.highest(p.affine())))
	}
	return l
}

// layerOf rounds amounts: areas and volumes to whole square and cubic
// millimetres, half up. Less than a cubic centimetre is nothing.
func layerOf(a amounts) Layer {
	if a.volume < 1000 {
		return Layer{}
	}
	return Layer{Area: measure.Area(math.Floor(a.area+0.5+noise)) * measure.SquareMillimetre, Volume: int64(math.Floor(a.volume + 0.5 + noise)), Most: tenths(a.most)}
}
