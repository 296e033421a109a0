package estimate

import (
	"context"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func mm(n int64) measure.Length { return measure.Length(n) * measure.Millimetre }

// smallJob is one apartment type with a rectangle and an L-shaped room, laid in
// three apartments of which one is mirrored.
func smallJob() *job.Job {
	eur := money.Currency{Code: "EUR", Minor: 2}
	s := job.Settings{
		Name: "Small job", Currency: eur, LengthUnit: measure.M, AreaUnit: measure.M2,
		TaxName: "VAT", TaxPercent: dec("20"), MaterialContingency: dec("2"), LabourContingency: dec("3"), OtherContingency: dec("5"),
		OverheadPercent: dec("12"), ProfitPercent: dec("10"), ProfitBasis: job.OnPrice, PriceStep: eur.Zero(),
		BreakagePercent: dec("1"), AtticPercent: dec("2"), Sharing: job.LevelApartment, PackRounding: job.LevelJob,
		DefaultKerf: mm(3), DoorWidth: mm(900), Crews: 1, CrewSize: 2, HoursADay: dec("8"), Seed: 1,
	}
	supplier := &job.Supplier{Code: "S1", Name: "Timber yard", MinimumOrder: eur.Zero(), Delivery: eur.Round(dec("45")), FreeFrom: eur.Zero(), DiscountPercent: dec("5")}
	rules := job.Product{LeastEnd: mm(300), LeastStagger: mm(300), LeastRow: mm(50), Gap: mm(12), Kerf: mm(3),
		OrderStep: dec("1"), Supplier: supplier, TaxPercent: dec("20")}
	product := func(code string, kind job.Kind, sold job.Unit, price string, change func(*job.Product)) *job.Product {
		p := rules
		p.Code, p.Description, p.Kind, p.SoldBy, p.PricePer, p.Price = code, code, kind, sold, sold, dec(price)
		change(&p)
		return &p
	}
	oak := product("OAK", job.Plank, job.PerPack, "54.90", func(p *job.Product) {
		p.Length, p.Width, p.PiecesPerPack = mm(1285), mm(192), 8
		p.AreaPerPack = 8 * p.Length.Times(p.Width)
	})
	underlay := product("UNDER", job.Sheet, job.PerRoll, "32.00", func(p *job.Product) { p.AreaPerPack = 15 * measure.SquareMetre })
	film := product("FILM", job.Film, job.PerRoll, "41.50", func(p *job.Product) {
		p.Length, p.Width, p.Overlap, p.Upturn = mm(25000), mm(2000), mm(200), mm(50)
	})
	skirting := product("SKIRT", job.Trim, job.PerPiece, "6.20", func(p *job.Product) { p.Length = mm(2400) })
	profile := product("PROFILE", job.Trim, job.PerPiece, "11.35", func(p *job.Product) { p.Length = mm(1000) })
	fitter := &job.Trade{Name: "Fitter", Wage: dec("24.50"), BurdenPercent: dec("28")}
	lay := &job.Operation{Code: "LAY", Description: "Lay planks", Measure: job.FloorArea, HoursPerUnit: dec("0.18"), Trade: fitter, LeastHours: dec("4")}
	fix := &job.Operation{Code: "FIX", Description: "Fix skirting", Measure: job.SkirtingLength, HoursPerUnit: dec("0.06"), Trade: fitter, LeastHours: dec("0")}
	one := dec("1")
	floor := &job.BuildUp{Name: "Oak", Lines: []*job.Line{
		{Product: film, Measure: job.FloorArea, Factor: one}, {Product: underlay, Measure: job.FloorArea, Factor: one},
		{Product: oak, Measure: job.LaidArea, Factor: one}, {Product: skirting, Measure: job.SkirtingLength, Factor: one},
		{Operation: lay, Measure: job.FloorArea, Factor: one}, {Operation: fix, Measure: job.SkirtingLength, Factor: one},
	}}
	bed := &job.Room{Ref: problem.Ref{Sheet: "Rooms", Row: 2}, Type: "A", Name: "Bed", BuildUp: floor, Skirting: true,
		Outline:  shape.Rectangle(shape.Box{X1: mm(4200), Y1: mm(3100)}),
		Openings: []job.Opening{{Wall: 0, From: mm(500), Width: mm(900), Profile: profile}}}
	living := &job.Room{Ref: problem.Ref{Sheet: "Rooms", Row: 3}, Type: "A", Name: "Living", BuildUp: floor, Skirting: true,
		Outline: shape.Normalise(shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(6000), Y: 0}, {X: mm(6000), Y: mm(2600)}, {X: mm(3500), Y: mm(2600)}, {X: mm(3500), Y: mm(4800)}, {X: 0, Y: mm(4800)}}}),
		Doors:   2, Fixtures: []job.Fixture{{Box: shape.Box{X0: mm(1000), Y0: mm(1500), X1: mm(1400), Y1: mm(1900)}}}}
	return &job.Job{
		Settings: s, Suppliers: []*job.Supplier{supplier}, Products: []*job.Product{oak, underlay, film, skirting, profile},
		BuildUps: []*job.BuildUp{floor}, Rooms: []*job.Room{living, bed},
		Apartments: []*job.Apartment{{Name: "103", Type: "A", Floor: "1", Mirrored: true}, {Name: "101", Type: "A", Floor: "1"}, {Name: "102", Type: "A", Floor: "1"}},
		Operations: []*job.Operation{lay, fix}, Trades: []*job.Trade{fitter},
		Extras: []*job.Extra{{Description: "Skip", Per: job.LevelJob, Quantity: one, UnitCost: dec("250"), Category: "Waste"}},
	}
}

func run(t *testing.T, j *job.Job) *Result {
	t.Helper()
	r, problems, err := Run(context.Background(), j, nil)
	if err != nil || r == nil {
		t.Fatalf("Run: error %v, problems %v", err, problems)
	}
	return r
}

func TestRunKeepsEveryInvariant(t *testing.T) {
	r := run(t, smallJob())
	for _, c := range r.Checks {
		if !c.OK {
			t.Errorf("%s: %s is not %s", c.Name, c.Left, c.Right)
		}
	}
	// Apartments 101 and 102 are laid alike, the mirrored 103 again.
	if r.Floors[0].First != 0 || r.Floors[1].First != 0 || r.Floors[2].First != 2 {
		t.Errorf("floors share plans %d %d %d, want 0 0 2", r.Floors[0].First, r.Floors[1].First, r.Floors[2].First)
	}
	// Net floor area of the living room: 6.0 x 2.6 + 3.5 x 2.2 less the column
	// of 0.4 x 0.4 = 15.6 + 7.7 - 0.16 = 23.14 m2; bedroom 4.2 x 3.1 = 13.02 m2.
	for _, room := range r.Building.Rooms {
		want := map[string]string{"Living": "23.14", "Bed": "13.02"}[room.Spec.Name]
		if got := room.Area.Decimal(measure.M2, 2).String(); got != want {
			t.Errorf("area of %s is %s m2, want %s", room.Spec.Name, got, want)
		}
	}
	// Skirting of the bedroom: 2 x (4.2 + 3.1) - 0.9 = 13.7 m; of the living
	// room: perimeter 21.6 m less two counted doors of 0.9 m = 19.8 m.
	for _, line := range r.Takeoff.Lines {
		if line.Item() != "FIX" {
			continue
		}
		want := map[string]string{"Living": "19.8", "Bed": "13.7"}[line.Room.Spec.Name]
		if line.Quantity.String() != want {
			t.Errorf("skirting of %s is %s m, want %s", line.Room.Spec.Name, line.Quantity, want)
		}
	}
}

func TestRowOrderChangesNothing(t *testing.T) {
	want := figures(run(t, smallJob()))
	for seed := range uint64(5) {
		j := smallJob()
		random := rand.New(rand.NewPCG(seed, 1))
		random.Shuffle(len(j.Rooms), func(a, b int) { j.Rooms[a], j.Rooms[b] = j.Rooms[b], j.Rooms[a] })
		random.Shuffle(len(j.Apartments), func(a, b int) { j.Apartments[a], j.Apartments[b] = j.Apartments[b], j.Apartments[a] })
		random.Shuffle(len(j.Products), func(a, b int) { j.Products[a], j.Products[b] = j.Products[b], j.Products[a] })
		if diff := cmp.Diff(want, figures(run(t, j))); diff != "" {
			t.Fatalf("seed %d: the order of rows changed the result:\n%s", seed, diff)
		}
	}
}

// figures are the numbers that must not depend on the order of rows.
func figures(r *Result) map[string]string {
	f := map[string]string{"net": r.Price.Ladder.Net.String(), "gross": r.Price.Ladder.Gross.String(), "cost": r.Price.Ladder.Cost.String()}
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			f["order "+line.Product.Code] = line.Quantity.String() + " for " + line.Net.String()
		}
	}
	for i, room := range r.Building.Rooms {
		f["room "+room.Place(job.LevelRoom)] = r.Price.Rooms[i].Price.String()
	}
	return f
}

// The same rooms stated in feet and inches or in metres are the same lengths
// (25.4 mm to the inch), so layouts, cuts and orders are the same.
func TestUnitsChangeNoPlankAndNoOrder(t *testing.T) {
	metric := run(t, smallJob())
	j := smallJob()
	j.Settings.LengthUnit, j.Settings.AreaUnit = measure.Ft, measure.Ft2
	imperial := run(t, j)
	for i := range metric.Floors {
		if diff := cmp.Diff(metric.Floors[i].Plan, imperial.Floors[i].Plan); diff != "" {
			t.Errorf("floor %s is laid otherwise in feet:\n%s", metric.Floors[i].ID, diff)
		}
	}
	for i, order := range metric.Orders {
		for k, line := range order.Lines {
			if other := imperial.Orders[i].Lines[k]; !line.Quantity.Equal(other.Quantity) || !line.Net.Equal(other.Net) {
				t.Errorf("%s: %s for %s in metres, %s for %s in feet", line.Product.Code, line.Quantity, line.Net, other.Quantity, other.Net)
			}
		}
	}
}

// One processor, two or eight, and once more: the same seed gives the same floors
// piece by piece, the same cuts and the same figures.
func TestProcessorsChangeNothing(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var want *Result
	for _, processors := range []int{1, 2, 8, 8} {
		runtime.GOMAXPROCS(processors)
		r := run(t, smallJob())
		if want == nil {
			want = r
			continue
		}
		if diff := cmp.Diff(figures(want), figures(r)); diff != "" {
			t.Errorf("on %d processors the figures differ:\n%s", processors, diff)
		}
		for i := range want.Floors {
			if diff := cmp.Diff(want.Floors[i].Plan, r.Floors[i].Plan); diff != "" {
				t.Errorf("on %d processors floor %s is laid otherwise:\n%s", processors, want.Floors[i].ID, diff)
			}
		}
		for i := range want.Cutting {
			if diff := cmp.Diff(want.Cutting[i].Plan, r.Cutting[i].Plan); diff != "" {
				t.Errorf("on %d processors %s is cut otherwise:\n%s", processors, want.Cutting[i].Product.Code, diff)
			}
		}
	}
}
