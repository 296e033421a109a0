package subfloor

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/published"
)

// testRates make grinding a hundred times as dear as filling.
var testRates = Rates{Fill: big.NewRat(1, 1), Grind: big.NewRat(100, 1)}

// hump is a level floor of 6 x 4 m with a bump of 8 mm, a pyramid of 2 x 2 m in
// its middle.
func hump() []job.Reading {
	readings := []job.Reading{at(3000, 2000, 8)}
	for _, corner := range [][2]float64{{2000, 1000}, {4000, 1000}, {4000, 3000}, {2000, 3000}, {0, 0}, {6000, 0}, {6000, 4000}, {0, 4000}} {
		readings = append(readings, at(corner[0], corner[1], 0))
	}
	return readings
}

// Without grinding the plane lies 3 mm below the top of the bump, at 5 mm. The
// compound is the floor by 5 mm less the bump's part below 5 mm:
// 24 m2 x 5 - (4 m2 x 8 - (4 x (3/8)2) m2 x 3) / 3
// = 120 - (32 - 1.6875) / 3 = 109.8958 m2 x mm, in mm3: 109,895,833.
func TestPlaneAboveABump(t *testing.T) {
	floor := rectangle(6000, 4000)
	s := surfaceOf(hump(), floor)
	f := s.flatness(job.Group4, floor, nil)
	// The two nearest readings lie 1.41 m apart, where group 4 allows 4 mm.
	if f.Kept() || allowance(f) != mm(3) {
		t.Fatalf("flatness %+v, allowance %s", f, allowance(f))
	}
	p := s.leastPlane(job.Horizontal, f, rates{fill: 1}, floor)
	l := s.levelled(p, allowance(f))
	if p.Height != mm(5) || l.Fill.Volume != 109_895_833 || l.Fill.Most != mm(5) || l.Ground.Volume != 0 {
		t.Errorf("%+v", l)
	}
}

// Grinding costs ten times as much as filling, by volume. The plane goes down
// as long as the floor filled is more than ten times the bump's section that is
// ground, 4 (1-(h+3)/8)2 m2. At h = 0 the section at 3 mm is 1.5625 m2, and ten
// times it is less than the floor filled next to the bump, 20 m2: so the plane
// goes all the way down, where nothing is left to fill, and the tip of the bump
// above 3 mm is ground: 1.5625 m2 x 5 mm / 3.
func TestBumpIsGroundWhereThatIsCheaper(t *testing.T) {
	floor := rectangle(6000, 4000)
	s := surfaceOf(hump(), floor)
	f := s.flatness(job.Group4, floor, nil)
	p := s.leastPlane(job.Horizontal, f, rates{fill: 1, grind: 10, grinding: true}, floor)
	l := s.levelled(p, allowance(f))
	if p.Height != 0 || l.Fill.Volume != 0 || math.Abs(float64(l.Ground.Volume)-1.5625e6*5/3) > 1 || l.Ground.Most != mm(5) || l.Ground.Area != 1_562_500*measure.SquareMillimetre {
		t.Errorf("%+v", l)
	}
	// At a hundred times the price, the section must be under a hundredth of the
	// floor filled, about 21.5 m2 near the top: 0.2 m2, at 8 (1 - sqrt(0.2/4)) =
	// 6.2 mm, so the plane lies a little over 3 mm.
	p = s.leastPlane(job.Horizontal, f, rates{fill: 1, grind: 100, grinding: true}, floor)
	if p.Height < mm(3) || p.Height > mm(3.5) {
		t.Errorf("plane at %s", p.Height)
	}
}

// The ground bump of 3 mm breaks nothing in group 4, which allows 4 mm over the
// 1.41 m beside it, so the room gets no compound.
func TestGroundFloorThatIsFlatGetsNoCompound(t *testing.T) {
	spec := &job.Room{Outline: rectangle(6000, 4000)[0], Flatness: job.Group4, Readings: hump(), BuildUp: &job.BuildUp{}}
	room := &building.Room{Spec: spec, Floor: rectangle(6000, 4000), Apartment: &job.Apartment{}}
	got := lookAt(room, spec.Readings, job.Horizontal, testRates)
	if got.Filled.Fill.Volume == 0 || got.Levelling.Ground.Volume == 0 || got.Levelling.Fill.Volume != 0 {
		t.Errorf("filled %+v, levelled %+v", got.Filled, got.Levelling)
	}
}

// Capped at 3 mm, the hump's straightedge from corner to corner finds a flat
// top 3 mm high.
func TestStraightedgeOverAGroundBump(t *testing.T) {
	s := surfaceOf(hump(), rectangle(6000, 4000))
	cap := level(3)
	for i := range s.readings {
		for k := i + 1; k < len(s.readings); k++ {
			if got := s.straightedge(i, k, &cap).Deviation; got > mm(3) || got < mm(-3) {
				t.Errorf("from %v to %v: %s", s.readings[i].At, s.readings[k].At, got)
			}
		}
	}
	if f := s.flatness(job.Group4, rectangle(6000, 4000), &cap); !f.Kept() || f.Worst[1].Deviation != mm(3) {
		t.Errorf("%+v", f)
	}
}

// A floor that falls 12 mm over 6 m with a hollow of 9 mm. A tilted plane goes
// along: group 3 allows 11 mm over the diagonal of 7.2 m, that is 1.5 mm a
// metre, and the compound is a small part of that for a level plane.
func TestTiltedPlaneFollowsTheFall(t *testing.T) {
	floor := rectangle(6000, 4000)
	readings := []job.Reading{at(0, 0, 0), at(0, 4000, 0), at(6000, 0, -12), at(6000, 4000, -12), at(2000, 2000, -13), at(4000, 2000, -8)}
	s := surfaceOf(readings, floor)
	f := s.flatness(job.Group3, floor, nil)
	level := s.levelled(s.leastPlane(job.Horizontal, f, rates{fill: 1}, floor), allowance(f))
	p := s.leastPlane(job.Tilted, f, rates{fill: 1}, floor)
	tilted := s.levelled(p, allowance(f))
	if p.RiseX != -6 || tilted.Fill.Volume*2 > level.Fill.Volume {
		t.Errorf("plane %+v, %d against %d mm3", p, tilted.Fill.Volume, level.Fill.Volume)
	}
}

// No plane of the same kinds costs less: all heights by tenths of a millimetre
// are tried.
func TestLeastPlaneAgainstAllHeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor := rectangle(6000, 5000)
		s := surfaceOf(drawReadings(t), floor)
		f := s.flatness(job.Group3, floor, nil)
		r := rates{fill: 1, grind: float64(rapid.IntRange(1, 60).Draw(t, "grinding")), grinding: rapid.Bool().Draw(t, "grinds")}
		got := s.cost(s.leastPlane(job.Horizontal, f, r, floor), allowance(f), r)
		top := s.highest(affine{})
		for step := 0; step < 200; step++ {
			p := Plane{Height: lengthOf(top) - allowance(f) - measure.Length(step)*measure.Millimetre/10}
			if cost := s.cost(p, allowance(f), r); cost < got-1e-6*got-1 {
				t.Fatalf("a plane %d tenths lower costs %v, the least found %v", step, cost, got)
			}
			if !r.grinding {
				break
			}
		}
	})
}

// Published coverage as a band: a bag of 50 lb of levelling compound covers 40
// to 50 ft2 at 1/8 in, 20 to 25 at 1/4 in, 10 to 12 at 1/2 in (trade article).
// With 1.7 kg a m2 and mm, the usual spread, our sum is inside or within 5 %.
func TestCompoundCoverageIsInThePublishedBand(t *testing.T) {
	depths := map[string]measure.Length{
		"self-levelling 50 lb bag at 1/8 in": measure.Inch / 8, "self-levelling 50 lb bag at 1/4 in": measure.Inch / 4, "self-levelling 50 lb bag at 1/2 in": measure.Inch / 2,
	}
	checked := 0
	for _, row := range published.Table(t, "consumption.csv") {
		depth, known := depths[row[0]]
		if !known {
			continue
		}
		checked++
		kilograms, perSquareMetre := 50*0.45359237, 1.7*millimetres(depth)
		covered := kilograms / perSquareMetre / 0.09290304
		low, high := parse(t, row[1]), parse(t, row[2])
		if covered < low*0.95 || covered > high*1.05 {
			t.Errorf("%s: %.1f ft2, published %v to %v", row[0], covered, low, high)
		}
	}
	if checked != len(depths) {
		t.Errorf("%d depths checked", checked)
	}
}

// Filling: 1.7 kg a m2 and mm of a bag of 25 kg at 20.00 with 10 % discount is
// 1.224, and 0.02 h at 30.00 and 25 % burden 0.75, together 1.974; with 3 %
// waste on the compound 1.26072 + 0.75.
func TestRatesByHand(t *testing.T) {
	compound := &job.Product{Kind: job.Compound, SoldBy: job.PerBag, Weight: dec("25"), Spread: dec("1.7")}
	pour := &job.Operation{HoursPerUnit: dec("0.02"), Trade: &job.Trade{Wage: dec("30"), BurdenPercent: dec("25")}}
	grind := &job.Operation{HoursPerUnit: dec("0.1"), Trade: pour.Trade}
	one := dec("1")
	price := func(*job.Product) *big.Rat { return big.NewRat(18, 1) } // 20.00 less 10 %
	b := &job.BuildUp{Lines: []*job.Line{
		{Product: compound, Measure: job.AreaDepth, Factor: one, Waste: dec("3")}, {Operation: pour, Measure: job.AreaDepth, Factor: one}, {Operation: grind, Measure: job.Grinding, Factor: one},
	}}
	r := ratesOf(b, measure.M2, price)
	if r.Fill == nil || r.Fill.FloatString(5) != "2.01072" || r.Grind.FloatString(2) != "3.75" {
		t.Errorf("fill %v, grind %v", r.Fill, r.Grind)
	}
	// The same hours for a square foot cost 1 / 0.09290304 times as much a m2.
	if feet := ratesOf(b, measure.Ft2, price); feet.Grind.FloatString(4) != "40.3647" {
		t.Errorf("grinding by the square foot: %v", feet.Grind)
	}
}
