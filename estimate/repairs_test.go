package estimate

import (
	"math/rand/v2"
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/estimate/purchase"
)

// repairJob is planks replaced in three rooms of two apartments, and nothing
// else. Planks 1200 x 190 with a kerf of 3 in packs of 8 at 64.00, glue at 9.50 a
// bottle, 12.00 for delivery, a worker at 30.00 with a burden of 20 %.
func repairJob() *job.Job {
	eur := money.Currency{Code: "EUR", Minor: 2}
	s := job.Settings{Name: "Repairs", Currency: eur, OverheadPercent: dec("10"), ProfitPercent: dec("20"), ProfitBasis: job.OnPrice, PriceStep: eur.Zero(),
		Sharing: job.LevelApartment, PackRounding: job.LevelJob, HoursADay: dec("8"), Crews: 1, CrewSize: 1, LeastCallOut: dec("6")}
	supplier := &job.Supplier{Code: "S1", Name: "Timber yard", MinimumOrder: eur.Zero(), Delivery: eur.Round(dec("12")), FreeFrom: eur.Zero()}
	oak := &job.Product{Code: "OAK", Kind: job.Plank, Supplier: supplier, Length: mm(1200), Width: mm(190), Kerf: mm(3), PiecesPerPack: 8, SoldBy: job.PerPack, PricePer: job.PerPack, Price: dec("64"), OrderStep: dec("1")}
	glue := &job.Product{Code: "GLUE", Kind: job.Adhesive, Supplier: supplier, SoldBy: job.PerEach, PricePer: job.PerEach, Price: dec("9.5"), OrderStep: dec("1")}
	layer := &job.Trade{Name: "Layer", Wage: dec("30"), BurdenPercent: dec("20")}
	work := func(code, hours string) *job.Operation {
		return &job.Operation{Code: code, HoursPerUnit: dec(hours), Trade: layer, Step: job.Laying}
	}
	line := func(p *job.Product, o *job.Operation, by job.Measure, factor string) *job.Line {
		return &job.Line{Product: p, Operation: o, Measure: by, Factor: dec(factor)}
	}
	cut, take, fit := work("CUT", "0.4"), work("TAKE", "0.15"), work("FIT", "0.1")
	cutOut := &job.BuildUp{Name: "Cut out", Lines: []*job.Line{line(glue, nil, job.Pieces, "0.1"), line(nil, cut, job.Pieces, "1")}}
	takeUp := &job.BuildUp{Name: "Take up", Lines: []*job.Line{line(nil, take, job.Rows, "1"), line(nil, fit, job.Pieces, "1")}}
	a1, a2 := &job.Apartment{Name: "A1", Unlisted: true}, &job.Apartment{Name: "A2", Unlisted: true}
	return &job.Job{
		Settings: s, Suppliers: []*job.Supplier{supplier}, Products: []*job.Product{oak, glue}, BuildUps: []*job.BuildUp{cutOut, takeUp},
		Apartments: []*job.Apartment{a1, a2}, Operations: []*job.Operation{cut, take, fit}, Trades: []*job.Trade{layer},
		Repairs: []*job.Repair{
			{Ref: problem.Ref{Sheet: "Repairs", Row: 2}, Apartment: a1, Room: "Hall", Product: oak, Pieces: 3, Length: oak.Length, FromStock: 2, Method: cutOut},
			{Ref: problem.Ref{Sheet: "Repairs", Row: 3}, Apartment: a1, Room: "Living", Product: oak, Pieces: 2, Length: oak.Length, Rows: 4, Method: takeUp},
			{Ref: problem.Ref{Sheet: "Repairs", Row: 4}, Apartment: a2, Room: "Bedroom", Product: oak, Pieces: 5, Length: mm(390), Method: cutOut},
		},
	}
}

// TestRepairsByHand works a job of repairs with pencil and paper, by the rules of
// the estimate (definitions); that planks are cut out or rows taken up is common
// practice.
//
// Planks: the hall takes 3, 2 of them on hand; living 2; 3 pieces of 390 and two
// cuts of 3 are 1176, so a plank gives 3 of the bedroom's 5: 2 planks. New are
// 1 + 2 + 2 = 5: 1 pack. Laid from them: 1200 + 2 x 1200 + 5 x 390 = 5550 mm by 190,
// wasted of 5 planks 6000 - 5550 = 450 mm by 190, left over 3 planks.
// Glue: (3 + 5) x 0.1 = 0.8, so 1 bottle. Order 64.00 + 9.50 + 12.00 = 85.50.
// Hours: 3 x 0.4 = 1.20; 4 x 0.15 + 2 x 0.1 = 0.60 + 0.20; 5 x 0.4 = 2.00; 4.00 in all.
// The call-out of 6 adds 2.00 at CUT, whose 3.20 are the most. 36.00 an hour.
//
// Delivery by 64.00 : 9.50 is 10.45 and 1.55. Oak at 74.45 by 1200 : 2400 : 1950 of
// 5550 is 16.10, 32.19, 26.16; glue at 11.05 by 3 : 5 is 4.14 and 6.91. The
// call-out's 72.00 by the areas replaced, 3600 : 2400 : 1950 of 7950, is 32.60,
// 21.74, 17.66.
func TestRepairsByHand(t *testing.T) {
	r := run(t, repairJob())
	oak := r.Materials[1]
	strip := int64(mm(1)) * int64(mm(190))
	if oak.Laid != 5550*strip || oak.Waste != 450*strip || oak.LeftOver != 3*1200*strip || oak.Bought != 8*1200*strip {
		t.Errorf("oak: bought %d, laid %d, left over %d, waste %d mm of plank", oak.Bought/strip, oak.Laid/strip, oak.LeftOver/strip, oak.Waste/strip)
	}
	last := r.Labour[len(r.Labour)-1]
	if !last.CallOut || last.Operation.Code != "CUT" || !last.Hours.Equal(dec("2")) {
		t.Errorf("the call-out adds %s of %s", last.Hours, last.Operation.Code)
	}
	want := []struct{ place, material, labour string }{{"A1 / Hall", "20.24", "75.80"}, {"A1 / Living", "32.19", "50.54"}, {"A2 / Bedroom", "33.07", "89.66"}}
	for i, room := range r.Building.Places() {
		share := r.Price.Rooms[i]
		if room.Place(job.LevelRoom) != want[i].place || share.Material.String() != want[i].material || share.Labour.String() != want[i].labour {
			t.Errorf("%s: material %s, labour %s, want %v", room.Place(job.LevelRoom), share.Material, share.Labour, want[i])
		}
	}
	// (85.50 + 216.00) x 1.1 = 331.65; / 0.8 = 414.5625.
	if l := r.Price.Ladder; l.Cost.String() != "331.65" || l.Net.String() != "414.56" {
		t.Errorf("cost %s, price %s", l.Cost, l.Net)
	}
	expectChecks(t, r)
}

// TestRepairsAndRoomsShareOnePurchase buys planks of rooms and repairs together:
// as many more as the repair takes (definition), spares and packs rounded once.
// Every cent is a room's or a repair's.
func TestRepairsAndRoomsShareOnePurchase(t *testing.T) {
	without := run(t, smallJob())
	j := withRepair(smallJob())
	with := run(t, j)
	bought := func(r *Result) (planks, spare int64) {
		for _, m := range r.Materials {
			if m.Product.Code == "OAK" {
				plank := purchase.PieceSize(m.Product)
				return (m.Laid + m.Waste) / plank, m.Spare / plank
			}
		}
		return 0, 0
	}
	before, _ := bought(without)
	planks, spare := bought(with)
	// Breakage 1 % and attic stock 2 % of all planks, each rounded up.
	if planks != before+6 || spare != (planks+99)/100+(2*planks+99)/100 {
		t.Errorf("%d planks and %d spare, without the repair %d", planks, spare, before)
	}
	expectChecks(t, with)
	repaired := with.Building.Repaired
	if len(repaired) != 1 || repaired[0].Place(job.LevelRoom) != "101 / Bed (repairs)" || repaired[0].Index != len(with.Building.Rooms) {
		t.Fatalf("repaired: %+v", repaired)
	}
	if share := with.Price.Rooms[repaired[0].Index]; share.Labour.String() != "37.63" { // 6 x 0.2 = 1.20 h x 24.50 x 1.28 = 37.632
		t.Errorf("labour of the repair %s", share.Labour)
	}
}

// withRepair adds a repair of six planks in a room that is laid too.
func withRepair(j *job.Job) *job.Job {
	mend := &job.Operation{Code: "MEND", Measure: job.Pieces, HoursPerUnit: dec("0.2"), Trade: j.Trades[0]}
	method := &job.BuildUp{Name: "Mend", Lines: []*job.Line{{Operation: mend, Measure: job.Pieces, Factor: dec("1")}}}
	j.Operations, j.BuildUps = append(j.Operations, mend), append(j.BuildUps, method)
	j.Repairs = []*job.Repair{{Apartment: j.Apartments[1], Room: "Bed", Product: j.Products[0], Pieces: 6, Length: j.Products[0].Length, Method: method}}
	return j
}

// TestRepairsInAnyOrder gives the same prices whatever the order of the rows
// (invariant 5).
func TestRepairsInAnyOrder(t *testing.T) {
	first := run(t, repairJob())
	random := rand.New(rand.NewPCG(1, 2))
	for range 5 {
		j := repairJob()
		random.Shuffle(len(j.Repairs), func(a, b int) { j.Repairs[a], j.Repairs[b] = j.Repairs[b], j.Repairs[a] })
		random.Shuffle(len(j.Apartments), func(a, b int) { j.Apartments[a], j.Apartments[b] = j.Apartments[b], j.Apartments[a] })
		r := run(t, j)
		for i := range first.Price.Rooms {
			if first.Price.Rooms[i].Price.Cmp(r.Price.Rooms[i].Price) != 0 {
				t.Errorf("place %d: %s, then %s", i, first.Price.Rooms[i].Price, r.Price.Rooms[i].Price)
			}
		}
	}
}

// TestRepairsKeepTheirFloorInOptions prices an option for one apartment: its
// repair stays one of the plank that lies there.
func TestRepairsKeepTheirFloorInOptions(t *testing.T) {
	j := withRepair(smallJob())
	other := *j.Products[0]
	other.Code = "ELM"
	j.Products = append(j.Products, &other)
	j.Apartments[1].Option = "Elm"
	changed := j.With(&job.Option{Name: "Elm", Swaps: []job.Swap{{Product: j.Products[0], WithProduct: &other}}})
	repair := changed.Repairs[0]
	if repair.Product.Code != "OAK" || repair.Apartment != changed.Apartments[1] || repair.Apartment == j.Apartments[1] {
		t.Errorf("the repair is of %s in %p", repair.Product.Code, repair.Apartment)
	}
	expectChecks(t, run(t, changed))
}

func expectChecks(t *testing.T, r *Result) {
	t.Helper()
	for _, check := range r.Checks {
		if !check.OK {
			t.Errorf("%s: %s, %s", check.Name, check.Left, check.Right)
		}
	}
}
