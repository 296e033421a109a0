package subfloor

import (
	"math/big"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/published"
	"laybill/estimate/shape"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func noPrice(*job.Product) *big.Rat { return nil }

func parse(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The published counting rule at its boundaries (ASTM F2170 and F1869), in the
// reading where a started thousand counts.
func TestCountsOfMoistureTests(t *testing.T) {
	rows := published.Table(t, "moisture_probe_count.csv")
	for _, row := range rows {
		area, _ := strconv.ParseInt(row[0], 10, 64)
		if got := TestCount(measure.Area(area) * measure.SquareFoot); strconv.Itoa(got) != row[1] {
			t.Errorf("%s ft2: %d tests, want %s", row[0], got, row[1])
		}
	}
	if len(rows) < 10 || TestCount(0) != 0 {
		t.Errorf("%d rows, %d tests for no area", len(rows), TestCount(0))
	}
}

// Two apartments of 60 m2 of screed (645.8 ft2) and a wood store of 6 m2: three
// tests an apartment, four for the job's 120 m2 (1291.7 ft2), three a room.
func TestTestsByPlace(t *testing.T) {
	j := &job.Job{Settings: job.Settings{}}
	add := func(name string, length, width float64, subfloor job.Subfloor) {
		j.Rooms = append(j.Rooms, &job.Room{Type: "A", Name: name, Subfloor: subfloor, BuildUp: &job.BuildUp{}, Outline: shape.Rectangle(box(0, 0, length, width))})
	}
	add("Living", 6000, 6000, job.CementScreed)
	add("Bed", 6000, 4000, job.NotSaid)
	add("Store", 3000, 2000, job.WoodSubfloor)
	for _, name := range []string{"1", "2"} {
		j.Apartments = append(j.Apartments, &job.Apartment{Name: name, Type: "A", Floor: "1"})
	}
	b := building.Build(j)
	for _, c := range []struct {
		per  job.Level
		want []int
	}{{job.LevelRoom, []int{3, 3, 3, 3}}, {job.LevelApartment, []int{3, 3}}, {job.LevelFloor, []int{4}}, {job.LevelJob, []int{4}}} {
		j.Settings.TestsPer = c.per
		var got []int
		for _, test := range Look(j, b, noPrice).Tests {
			got = append(got, test.Count)
		}
		if len(got) != len(c.want) || got[0] != c.want[0] {
			t.Errorf("by %s: %v, want %v", c.per, got, c.want)
		}
	}
}

func TestDryingDays(t *testing.T) {
	for _, c := range []struct {
		name  string
		what  Wet
		depth float64
		want  int
	}{
		{"nothing poured", LevellingCompound, 0, 0},
		{"up to 3 mm: a day (common practice)", LevellingCompound, 3, 1},
		{"a started millimetre", LevellingCompound, 3.1, 2},
		{"a day for each further millimetre (common practice)", LevellingCompound, 10, 8},
		{"cement screed of 65 mm: 80 days (trade magazine on BS 8204)", CementScreed, 65, 80},
		{"cement screed of 50 mm: a day a millimetre (BS 8204)", CementScreed, 50, 50},
		{"calcium sulfate screed of 75 mm: 110 days (a screed firm's guide)", CalciumSulfateScreed, 75, 110},
		{"calcium sulfate screed of 40 mm", CalciumSulfateScreed, 40, 40},
	} {
		if got := DryingDays(c.what, mm(c.depth)); got != c.want {
			t.Errorf("%s: %d days, want %d", c.name, got, c.want)
		}
	}
}

// A film goes under floating planks on mineral subfloors, never under any on
// wood (common practice).
func TestFilmBySubfloor(t *testing.T) {
	plank := &job.Line{Product: &job.Product{Kind: job.Plank, Joint: job.Click}, Measure: job.LaidArea}
	glue := &job.Line{Product: &job.Product{Kind: job.Adhesive}, Measure: job.LaidArea}
	primer := &job.Line{Product: &job.Product{Kind: job.Adhesive}, Measure: job.FloorArea}
	for _, c := range []struct {
		name     string
		subfloor job.Subfloor
		lines    []*job.Line
		want     Film
	}{
		{"click on screed", job.CementScreed, []*job.Line{plank}, FilmNeeded},
		{"click on primed concrete", job.Concrete, []*job.Line{primer, plank}, FilmNeeded},
		{"glued on screed", job.CementScreed, []*job.Line{glue, plank}, FilmNotNeeded},
		{"click on wood", job.WoodSubfloor, []*job.Line{plank}, FilmHarmful},
		{"nobody said", job.NotSaid, []*job.Line{plank}, FilmOpen},
	} {
		if got := FilmFor(&job.Room{Subfloor: c.subfloor, BuildUp: &job.BuildUp{Lines: c.lines}}); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// Planks of 14 mm at 0.09 and an underlay at 0.05 resist by 0.14 m2K/W; the
// fleece over them does not count.
func TestHeatResistanceOfLayers(t *testing.T) {
	line := func(kind job.Kind, code, resist string) *job.Line {
		return &job.Line{Product: &job.Product{Kind: kind, Code: code, HeatResist: dec(resist)}, Factor: dec("1")}
	}
	b := &job.BuildUp{Lines: []*job.Line{line(job.Sheet, "UNDER", "0.05"), line(job.Plank, "OAK", "0.09"), line(job.Sheet, "FLEECE", "1")}}
	if sum, missing := HeatResistance(b); !sum.Equal(dec("0.14")) || len(missing) != 0 {
		t.Errorf("%s, missing %v", sum, missing)
	}
	b.Lines[0].Product.HeatResist = decimal.Zero
	if sum, missing := HeatResistance(b); !sum.Equal(dec("0.09")) || len(missing) != 1 || missing[0] != "UNDER" {
		t.Errorf("%s, missing %v", sum, missing)
	}
}
