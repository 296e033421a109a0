package quantity

import (
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
	"laybill/estimate/subfloor"
)

func mm(n int64) measure.Length { return measure.Length(n) * measure.Millimetre }

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// room builds one room of the outline with a build-up of the lines.
func room(outline shape.Polygon, lines ...*job.Line) (*job.Job, *building.Building) {
	for _, line := range lines {
		if line.Factor.IsZero() {
			line.Factor = decimal.NewFromInt(1)
		}
	}
	j := &job.Job{
		Settings:   job.Settings{LengthUnit: measure.M, AreaUnit: measure.M2, DoorWidth: mm(900)},
		Rooms:      []*job.Room{{Type: "A", Name: "Room", Skirting: true, Outline: outline, BuildUp: &job.BuildUp{Name: "B", Lines: lines}}},
		Apartments: []*job.Apartment{{Name: "1", Type: "A"}},
	}
	return j, building.Build(j)
}

// noPrice leaves the choice between filling and grinding out.
func noPrice(*job.Product) *big.Rat { return nil }

// take measures rooms without a layout.
func take(j *job.Job, b *building.Building) *Takeoff {
	return Take(j, b, make([]Laid, len(b.Rooms)), subfloor.Look(j, b, noPrice))
}

func rectangle(length, width int64) shape.Polygon {
	return shape.Rectangle(shape.Box{X1: mm(length), Y1: mm(width)})
}

func film() *job.Product {
	return &job.Product{Code: "FILM", Kind: job.Film, SoldBy: job.PerRoll, Length: mm(50000), Width: mm(2000), Overlap: mm(200), Upturn: mm(50)}
}

func TestFilmStrips(t *testing.T) {
	l := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(6000), Y: 0}, {X: mm(6000), Y: mm(2600)}, {X: mm(3500), Y: mm(2600)}, {X: mm(3500), Y: mm(4800)}, {X: 0, Y: mm(4800)}}}
	for _, c := range []struct {
		name    string
		outline shape.Polygon
		strips  []measure.Length
		seams   measure.Length
	}{
		// 3.1 m and two upturns of 50 mm make 3.2 m: one strip of 2.0 m, the next
		// begins 1.8 m further. Both are 4.2 m and two upturns long.
		{"two strips", rectangle(4200, 3100), []measure.Length{mm(4300), mm(4300)}, mm(4200)},
		{"one strip wide enough", rectangle(4200, 1900), []measure.Length{mm(4300)}, 0},
		{"a millimetre too wide", rectangle(4200, 1901), []measure.Length{mm(4300), mm(4300)}, mm(4200)},
		// Strips from -0.05, 1.75 and 3.55 m: the second still meets the long
		// part (to 2.6 m), the third only the short one. Seams at 1.75-1.95 m
		// (6.0 m long) and 3.55-3.75 m (3.5 m).
		{"L-shaped", l, []measure.Length{mm(6100), mm(6100), mm(3600)}, mm(9500)},
	} {
		j, b := room(c.outline, &job.Line{Product: film(), Measure: job.FloorArea}, &job.Line{Operation: &job.Operation{Code: "TAPE"}, Measure: job.Seams})
		takeoff := Take(j, b, make([]Laid, 1), subfloor.Look(j, b, noPrice))
		var strips []measure.Length
		for _, length := range takeoff.Lengths {
			strips = append(strips, length.Length)
		}
		if diff := cmp.Diff(c.strips, strips); diff != "" {
			t.Errorf("%s: strips (-want +got):\n%s", c.name, diff)
		}
		seams := decimal.Zero
		for _, line := range takeoff.Lines {
			if line.Measure == job.Seams {
				seams = line.Quantity
			}
		}
		if !seams.Equal(c.seams.Decimal(measure.M)) {
			t.Errorf("%s: seams of %s m, want %s", c.name, seams, c.seams.Decimal(measure.M))
		}
	}
}

// The rows of roll goods against published worked examples
// (quantity_examples.csv of the handbook of references): the running feet of
// 12 ft goods in a room of 14 x 16 ft, with one length laid whole, and with the
// last strip filled by pieces laid end to end; and the fill rule for a last strip
// of 3 ft. Rows lie along x.
func TestUnderlayRows(t *testing.T) {
	const ft = measure.Foot
	for _, c := range []struct {
		name          string
		length, width measure.Length
		roll, least   measure.Length
		cuts          []measure.Length
		along         []int
	}{
		{"along 16 ft, no seam across", 16 * ft, 14 * ft, 12 * ft, 16 * ft, []measure.Length{16 * ft, 16 * ft}, []int{1, 1}}, // 32 ft
		{"along 14 ft, no seam across", 14 * ft, 16 * ft, 12 * ft, 14 * ft, []measure.Length{14 * ft, 14 * ft}, []int{1, 1}}, // 28 ft
		{"along 14 ft, one seam across", 14 * ft, 16 * ft, 12 * ft, 7 * ft, []measure.Length{14 * ft, 7 * ft}, []int{1, 2}},  // 21 ft
		{"fill rule: 12/3 = 4 pieces", 16 * ft, 15 * ft, 12 * ft, 2 * ft, []measure.Length{16 * ft, 4 * ft}, []int{1, 4}},    // 20 ft
		// 4.2 x 3.1 m in rows of 1 m: three rows and 100 mm, of which a roll's width
		// holds ten; with pieces of 300 mm or more it is cut from one of 420 mm.
		{"a narrow last row", mm(4200), mm(3100), mm(1000), mm(300), []measure.Length{mm(4200), mm(4200), mm(4200), mm(420)}, []int{1, 1, 1, 10}},
	} {
		product := &job.Product{Kind: job.Underlay, Width: c.roll, LeastEnd: c.least}
		floor := shape.Region{shape.Rectangle(shape.Box{X1: c.length, Y1: c.width})}
		var cuts []measure.Length
		var along []int
		for _, s := range stripsOn(floor, product) {
			cuts, along = append(cuts, s.length), append(along, s.along)
		}
		if diff := cmp.Diff(c.cuts, cuts) + cmp.Diff(c.along, along); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

// Seams of underlay: two of 4.2 m between full rows and one before the narrow
// row, which has nine seams of 100 mm across it. A row of the build-up that
// stands after the film but before the underlay closes the film's seams: 4.2 m.
func TestSeamsAreOfTheLayerBefore(t *testing.T) {
	film, underlay := film(), &job.Product{Code: "UNDERLAY", Kind: job.Underlay, SoldBy: job.PerRoll, Length: mm(10000), Width: mm(1000), LeastEnd: mm(300)}
	tape := func(code string) *job.Line {
		return &job.Line{Operation: &job.Operation{Code: code}, Measure: job.Seams}
	}
	j, b := room(rectangle(4200, 3100), &job.Line{Product: film, Measure: job.FloorArea}, tape("FILM"), &job.Line{Product: underlay, Measure: job.FloorArea}, tape("UNDERLAY"))
	got := map[string]string{}
	for _, line := range take(j, b).Lines {
		if line.Measure == job.Seams {
			got[line.Item()] = line.Quantity.String()
		}
	}
	if diff := cmp.Diff(map[string]string{"FILM": "4.2", "UNDERLAY": "13.5"}, got); diff != "" {
		t.Errorf("seams (-want +got):\n%s", diff)
	}
}

// Every point of the floor lies under a row, and no row is longer than the floor.
func TestUnderlayCoversTheFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string) int64 { return rapid.Int64Range(400, 9000).Draw(t, name) }
		l, w, notch := size("length"), size("width"), rapid.Int64Range(50, 350).Draw(t, "notch")
		floor := shape.Subtract(shape.Region{rectangle(l, w)}, shape.Box{X0: mm(l - notch), Y0: mm(w - notch), X1: mm(l), Y1: mm(w)})
		product := &job.Product{Kind: job.Underlay, Width: mm(rapid.Int64Range(500, 2000).Draw(t, "roll")), LeastEnd: mm(300)}
		var cut measure.Area
		for _, s := range stripsOn(floor, product) {
			cut += s.length.Times(product.Width)
			if s.length > mm(l) || s.length <= 0 {
				t.Fatalf("a row is cut %s long in a room of %d mm", s.length, l)
			}
		}
		if cut < floor.Area() {
			t.Fatalf("rows of %v cover a floor of %v", cut, floor.Area())
		}
	})
}

// Amounts in sold units against published worked examples
// (quantity_examples.csv of the handbook of references).
func TestSoldUnits(t *testing.T) {
	ft2 := func(n int64) measure.Area { return measure.Area(n) * measure.SquareFoot }
	for _, c := range []struct {
		name    string
		product *job.Product
		outline shape.Polygon
		line    job.Line
		level   measure.Length
		want    *big.Rat
	}{
		// kakprosto.ru: 25 mm at 2.2 kg/m2 and mm over 20 m2 is 1100 kg, 22 bags of 50 kg.
		{"compound", &job.Product{Kind: job.Compound, SoldBy: job.PerBag, Spread: dec("2.2"), Weight: dec("50")},
			rectangle(5000, 4000), job.Line{Measure: job.AreaDepth}, mm(25), big.NewRat(22, 1)},
		// laminatefloorings.net: 500 ft2 at 175 ft2 a bucket is 2.857 buckets.
		{"adhesive", &job.Product{Kind: job.Adhesive, SoldBy: job.PerTub, SpreadArea: ft2(175)},
			shape.Rectangle(shape.Box{X1: 25 * measure.Foot, Y1: 20 * measure.Foot}), job.Line{Measure: job.FloorArea}, 0, big.NewRat(500, 175)},
		// The same source: 500 ft2 at 200 ft2 a roll is 2.5 rolls.
		{"underlay", &job.Product{Kind: job.Sheet, SoldBy: job.PerRoll, AreaPerPack: ft2(200)},
			shape.Rectangle(shape.Box{X1: 25 * measure.Foot, Y1: 20 * measure.Foot}), job.Line{Measure: job.FloorArea}, 0, big.NewRat(5, 2)},
		// The same source: 120 ft2 and 10 % in boxes of 24 ft2 is 5.5 boxes.
		{"boxes with waste", &job.Product{Kind: job.Tile, SoldBy: job.PerPack, AreaPerPack: ft2(24)},
			shape.Rectangle(shape.Box{X1: 12 * measure.Foot, Y1: 10 * measure.Foot}), job.Line{Measure: job.FloorArea, Waste: dec("10")}, 0, big.NewRat(11, 2)},
	} {
		c.line.Product = c.product
		j, b := room(c.outline, &c.line)
		j.Rooms[0].LevelBy = c.level
		takeoff := Take(j, b, make([]Laid, 1), subfloor.Look(j, b, noPrice))
		if got := takeoff.Demands[0].Sold; got.Cmp(c.want) != 0 {
			t.Errorf("%s: %s sold units, want %s", c.name, got.FloatString(4), c.want.FloatString(4))
		}
	}
}

func TestLinesOfAnApartmentAndOfTheJobCountOnce(t *testing.T) {
	once := &job.Operation{Code: "SETUP"}
	j, _ := room(rectangle(3000, 2000), &job.Line{Operation: once, Measure: job.Fixed}, &job.Line{Operation: &job.Operation{Code: "HANDOVER"}, Measure: job.ApartmentCount})
	j.Rooms = append(j.Rooms, &job.Room{Type: "A", Name: "Second", Outline: j.Rooms[0].Outline, BuildUp: j.Rooms[0].BuildUp})
	j.Apartments = append(j.Apartments, &job.Apartment{Name: "2", Type: "A"})
	b := building.Build(j)
	takeoff := Take(j, b, make([]Laid, 4), subfloor.Look(j, b, noPrice))
	count := map[string]int{}
	for _, line := range takeoff.Lines {
		count[line.Item()]++
	}
	if diff := cmp.Diff(map[string]int{"SETUP": 1, "HANDOVER": 2}, count); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
}

func TestOpeningsWithoutAProfileTakeTheBuildUps(t *testing.T) {
	own := &job.Product{Code: "OWN", Kind: job.Trim, Length: mm(2700)}
	general := &job.Product{Code: "GENERAL", Kind: job.Trim, Length: mm(2700)}
	j, _ := room(rectangle(3000, 2000), &job.Line{Product: general, Measure: job.Openings})
	j.Rooms[0].Openings = []job.Opening{{Wall: 0, From: mm(100), Width: mm(838), Profile: own}, {Wall: 1, From: mm(100), Width: mm(726)}}
	b := building.Build(j)
	takeoff := Take(j, b, make([]Laid, 1), subfloor.Look(j, b, noPrice))
	got := map[string]measure.Length{}
	for _, length := range takeoff.Lengths {
		got[length.Product.Code] += length.Length
	}
	if diff := cmp.Diff(map[string]measure.Length{"OWN": mm(838), "GENERAL": mm(726)}, got); diff != "" {
		t.Errorf("profiles (-want +got):\n%s", diff)
	}
	for _, line := range takeoff.Lines {
		if want := map[string]string{"OWN": "0.838", "GENERAL": "1"}[line.Item()]; line.Quantity.String() != want {
			t.Errorf("%s states %s %s, want %s", line.Item(), line.Quantity, line.Unit, want)
		}
	}
}

// A hollow of 15 mm in the middle of a floor of 5 x 4 m with level corners is a
// pyramid upside down. Group 3 allows 12 mm over the diagonal of 6.4 m, so it is
// filled: the plane lies 3 mm below the corners, and under it is a pyramid of
// 12 mm over (12/15)2 of the floor, 20 x 0.64 x 12 / 3 = 51.2 m2 x mm over 12.8 m2;
// at 1.7 kg a m2 and mm that is 87.04 kg, 3.4816 bags of 25 kg.
func TestSurveyedRoomsTakeTheirVolume(t *testing.T) {
	op := func(code string) *job.Operation { return &job.Operation{Code: code} }
	compound := &job.Product{Code: "LEV", Kind: job.Compound, SoldBy: job.PerBag, Weight: dec("25"), Spread: dec("1.7")}
	j, _ := room(rectangle(5000, 4000), &job.Line{Product: compound, Measure: job.AreaDepth}, &job.Line{Operation: op("POUR"), Measure: job.AreaDepth},
		&job.Line{Operation: op("PRIME"), Measure: job.LevelledArea}, &job.Line{Operation: op("TEST"), Measure: job.MoistureTests})
	j.Settings.TestsPer = job.LevelApartment
	j.Rooms[0].Flatness = job.Group3
	for _, r := range [][3]int64{{0, 0, 0}, {5000, 0, 0}, {5000, 4000, 0}, {0, 4000, 0}, {2500, 2000, -15}} {
		j.Rooms[0].Readings = append(j.Rooms[0].Readings, job.Reading{At: shape.Point{X: mm(r[0]), Y: mm(r[1])}, Height: mm(r[2])})
	}
	b := building.Build(j)
	takeoff := Take(j, b, make([]Laid, 1), subfloor.Look(j, b, noPrice))
	got := map[string]string{}
	for _, line := range takeoff.Lines {
		got[line.Item()] = line.Quantity.String() + " " + line.Unit
	}
	if diff := cmp.Diff(map[string]string{"LEV": "51.2 m2 x mm", "POUR": "51.2 m2 x mm", "PRIME": "12.8 m2", "TEST": "3 each"}, got); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
	if len(takeoff.Demands) != 1 || takeoff.Demands[0].Sold.FloatString(4) != "3.4816" {
		t.Errorf("demands %+v", takeoff.Demands)
	}
}

// Two build-ups of an apartment name the same test: it is counted once.
func TestMoistureTestsCountOnceInTheirPlace(t *testing.T) {
	test := &job.Operation{Code: "TEST"}
	j, _ := room(rectangle(6000, 5000), &job.Line{Operation: test, Measure: job.MoistureTests})
	second := &job.BuildUp{Lines: []*job.Line{{Operation: test, Measure: job.MoistureTests, Factor: dec("1")}}}
	j.Rooms = append(j.Rooms, &job.Room{Type: "A", Name: "Second", Outline: j.Rooms[0].Outline, BuildUp: second})
	j.Settings.TestsPer = job.LevelApartment
	b := building.Build(j)
	takeoff := Take(j, b, make([]Laid, 2), subfloor.Look(j, b, noPrice))
	if len(takeoff.Lines) != 1 || takeoff.Lines[0].Quantity.String() != "3" || takeoff.Lines[0].Room != nil {
		t.Errorf("%+v", takeoff.Lines)
	}
}
