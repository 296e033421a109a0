package subfloor

import (
	"cmp"
	"math"
	"slices"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// flatnessDistances are the distances between two points for which DIN 18202
// table 3 states limits, in mm, and flatnessLimits the limits of each group
// there, in mm.
var (
	flatnessDistances = [...]float64{100, 1000, 4000, 10_000, 15_000}
	flatnessLimits    = [...][5]float64{
		job.Group1: {10, 15, 20, 25, 30},
		job.Group2: {5, 8, 12, 15, 20},
		job.Group3: {2, 4, 10, 12, 15},
		job.Group4: {1, 3, 9, 12, 15},
	}
)

// FlatnessLimit is how far a surface of the group may be off the straight line
// between two of its points that are a distance apart: straight-line between
// the distances of DIN 18202 table 3 and rounded half up to the millimetre, the
// first limit below them and the last beyond.
func FlatnessLimit(group job.FlatnessGroup, distance measure.Length) measure.Length {
	limits, at := flatnessLimits[group], millimetres(distance)
	last := len(flatnessDistances) - 1
	switch {
	case at <= flatnessDistances[0]:
		return measure.Length(limits[0]) * measure.Millimetre
	case at >= flatnessDistances[last]:
		return measure.Length(limits[last]) * measure.Millimetre
	}
	i := 1
	for at > flatnessDistances[i] {
		i++
	}
	share := (at - flatnessDistances[i-1]) / (flatnessDistances[i] - flatnessDistances[i-1])
	return measure.Length(math.Floor(limits[i-1]+share*(limits[i]-limits[i-1])+0.5)) * measure.Millimetre
}

// Bands are the distances up to which straightedges are grouped, the last band
// being all beyond: the distances of the standard that a room's readings reach.
var Bands = [...]measure.Length{1 * measure.Metre, 4 * measure.Metre, 10 * measure.Metre, shape.Limit}

// Straightedge is a straightedge laid over two readings, and where the surface
// between them is furthest off it.
type Straightedge struct {
	From, To  shape.Point
	Distance  measure.Length
	At        shape.Point    // where it is furthest off, to the millimetre
	Deviation measure.Length // above the straightedge positive, below negative; to 0.1 mm
	Limit     measure.Length
}

// Broken tells whether the surface is further off than the group allows.
func (s Straightedge) Broken() bool { return max(s.Deviation, -s.Deviation) > s.Limit }

// worse orders straightedges by how much of their limit the surface takes, the
// shorter first of two alike.
func (s Straightedge) worse(other Straightedge) bool {
	own, others := magnitude(s.Deviation)*int64(other.Limit), magnitude(other.Deviation)*int64(s.Limit)
	if own != others {
		return own > others
	}
	return s.Distance < other.Distance
}

func magnitude(l measure.Length) int64 { return int64(max(l, -l)) }

// Flatness is how a surveyed floor keeps its group.
type Flatness struct {
	Group    job.FlatnessGroup
	Checked  int // straightedges laid
	Broken   int // of them
	Worst    []Straightedge
	Shortest measure.Length // distance between two readings
}

// Kept tells whether no straightedge finds the surface further off than the
// group allows.
func (f *Flatness) Kept() bool { return f.Broken == 0 }

// WorstOf is the straightedge that takes most of its limit.
func (f *Flatness) WorstOf() Straightedge {
	worst := f.Worst[0]
	for _, s := range f.Worst[1:] {
		if s.worse(worst) {
			worst = s
		}
	}
	return worst
}

// flatness lays a straightedge over every two readings that see one another
// across the floor and finds where the surface between them is furthest off.
// What stands out over the cap, where there is one, is taken off first.
func (s *surface) flatness(group job.FlatnessGroup, floor shape.Region, cap *affine) Flatness {
	f := Flatness{Group: group, Shortest: shape.Limit}
	walls := wallsOf(floor)
	bands := make([][]Straightedge, len(Bands))
	for i := range s.readings {
		for k := i + 1; k < len(s.readings); k++ {
			distance := measure.Length(math.Round(math.Sqrt(float64(squared(s.readings[i], s.readings[k])))))
			f.Shortest = min(f.Shortest, distance)
			if !walls.open(s.readings[i].At, s.readings[k].At) {
				continue
			}
			edge := s.straightedge(i, k, cap)
			edge.Distance, edge.Limit = distance, FlatnessLimit(group, distance)
			f.Checked++
			if edge.Broken() {
				f.Broken++
			}
			band := 0
			for distance > Bands[band] {
				band++
			}
			if len(bands[band]) == 0 {
				bands[band] = []Straightedge{edge}
			} else if edge.worse(bands[band][0]) {
				bands[band][0] = edge
			}
		}
	}
	for _, band := range bands {
		f.Worst = append(f.Worst, band...)
	}
	return f
}

// straightedge lies over two readings. The surface is straight between the
// places of its profile, so it is furthest off at one of them.
func (s *surface) straightedge(from, to int, cap *affine) Straightedge {
	edge := Straightedge{From: s.readings[from].At, To: s.readings[to].At, At: s.readings[from].At}
	profile := s.profile(from, to)
	if cap != nil {
		profile = s.capped(profile, from, to, *cap)
	}
	start, end := profile[0].height, profile[len(profile)-1].height
	furthest := 0.0
	for _, p := range profile {
		off := p.height - (start + p.share*(end-start))
		if math.Abs(off) > math.Abs(furthest)+noise {
			furthest = off
			at := s.along(from, to, p.share)
			edge.At = shape.Point{X: wholeMillimetres(at.x), Y: wholeMillimetres(at.y)}
		}
	}
	edge.Deviation = tenths(furthest)
	return edge
}

// step is a place on the way between two readings: its share of the way and
// the height there.
type step struct{ share, height float64 }

func (s *surface) along(from, to int, share float64) spot {
	a, b := s.spot(from), s.spot(to)
	return spot{a.x + share*(b.x-a.x), a.y + share*(b.y-a.y)}
}

// profile is where the way between two readings crosses an edge of a triangle
// or meets a reading, from the one to the other.
func (s *surface) profile(from, to int) []step {
	a, b := s.readings[from], s.readings[to]
	profile := []step{{0, s.height(from)}, {1, s.height(to)}}
	start, end := s.spot(from), s.spot(to)
	along := spot{end.x - start.x, end.y - start.y}
	meet := func(p spot, height float64) {
		share := ((p.x-start.x)*along.x + (p.y-start.y)*along.y) / (along.x*along.x + along.y*along.y)
		if share > 0 && share < 1 {
			profile = append(profile, step{share, height})
		}
	}
	side := make([]int64, len(s.readings))
	for i := range side {
		if side[i] = turn(a, b, s.readings[i]); side[i] == 0 {
			meet(s.spot(i), s.height(i))
		}
	}
	for _, edge := range s.edges {
		u, v := edge[0], edge[1]
		if side[u] > 0 && side[v] < 0 || side[u] < 0 && side[v] > 0 {
			share := float64(side[u]) / (float64(side[u]) - float64(side[v]))
			pu, pv := s.spot(u), s.spot(v)
			meet(spot{pu.x + share*(pv.x-pu.x), pu.y + share*(pv.y-pu.y)}, s.height(u)+share*(s.height(v)-s.height(u)))
		}
	}
	slices.SortFunc(profile, func(p, q step) int { return cmp.Compare(p.share, q.share) })
	return profile
}

// capped is a profile with what stands out over the cap taken off.
func (s *surface) capped(profile []step, from, to int, cap affine) []step {
	over := func(p step) float64 { return p.height - cap.of(s.along(from, to, p.share)) }
	var low []step
	for i, p := range profile {
		if i > 0 {
			before := profile[i-1]
			if o, q := over(before), over(p); o > 0 && q < 0 || o < 0 && q > 0 {
				share := o / (o - q)
				low = append(low, step{before.share + share*(p.share-before.share), before.height + share*(p.height-before.height)})
			}
		}
		low = append(low, step{p.share, p.height - max(0, over(p))})
	}
	return low
}

// noise is far below what is measured and far above what sums of floats lose,
// in mm.
const noise = 1e-6

// lengthOf is a length of so many millimetres, rounded half up.
func lengthOf(mm float64) measure.Length {
	return measure.Length(math.Floor(mm*float64(measure.Millimetre) + 0.5 + noise))
}

func wholeMillimetres(mm float64) measure.Length {
	return measure.Length(math.Floor(mm+0.5+noise)) * measure.Millimetre
}

// tenths is a height to a tenth of a millimetre, rounded half away from zero.
func tenths(mm float64) measure.Length {
	return measure.Length(math.Copysign(math.Floor(math.Abs(mm)*10+0.5+noise), mm)) * measure.Millimetre / 10
}

// walls are the legs of a floor's rings.
type walls [][2]shape.Point

func wallsOf(floor shape.Region) walls {
	var all walls
	add := func(r shape.Ring) {
		for i, p := range r {
			all = append(all, [2]shape.Point{p, r[(i+1)%len(r)]})
		}
	}
	for _, part := range floor {
		add(part.Outer)
		for _, hole := range part.Holes {
			add(hole)
		}
	}
	return all
}

// open tells whether no wall crosses the way from a to b.
func (w walls) open(a, b shape.Point) bool {
	for _, leg := range w {
		if apart(a, b, leg[0], leg[1]) && apart(leg[0], leg[1], a, b) {
			return false
		}
	}
	return true
}

// apart tells whether p and q lie on different sides of the line a b.
func apart(a, b, p, q shape.Point) bool {
	at := func(c shape.Point) int64 {
		return int64(b.X-a.X)*int64(c.Y-a.Y) - int64(b.Y-a.Y)*int64(c.X-a.X)
	}
	p1, q1 := at(p), at(q)
	return p1 > 0 && q1 < 0 || p1 < 0 && q1 > 0
}
