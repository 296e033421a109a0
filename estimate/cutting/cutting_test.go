package cutting

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/quantity"
)

func mm(n int64) measure.Length { return measure.Length(n) * measure.Millimetre }

func skirting() *job.Product {
	return &job.Product{Code: "SKIRT", Kind: job.Trim, SoldBy: job.PerPiece, PricePer: job.PerPiece, Price: decimal.RequireFromString("5.40"),
		Length: mm(2400), LeastEnd: mm(300), Kerf: mm(3), Supplier: &job.Supplier{}}
}

// room is a room of an apartment on a floor.
func room(apartment, floor string) *building.Room {
	return &building.Room{Apartment: &job.Apartment{Name: apartment, Floor: floor}, Spec: &job.Room{Name: "Room"}}
}

func plan(t *testing.T, j *job.Job, lengths ...quantity.Length) []Pool {
	t.Helper()
	pools, err := Plan(context.Background(), j, lengths, new(Plans), func(int, int) {})
	if err != nil {
		t.Fatal(err)
	}
	return pools
}

func TestPoolsFollowOffcutSharing(t *testing.T) {
	p := skirting()
	a, b := room("1", "G"), room("2", "G")
	lengths := []quantity.Length{{Product: p, Room: a, Length: mm(1500)}, {Product: p, Room: b, Length: mm(890)}}
	for level, want := range map[job.Level]int{job.LevelApartment: 2, job.LevelFloor: 1, job.LevelJob: 1} {
		pools := plan(t, &job.Job{Products: []*job.Product{p}, Settings: job.Settings{Sharing: level}}, lengths...)
		bars := 0
		for i := range pools {
			bars += pools[i].Bars()
		}
		// 1500 + 3 + 890 = 2393 mm fit one bar of 2400 mm where it is shared.
		if len(pools) != want || bars != want {
			t.Errorf("sharing %s: %d pools and %d bars, want %d of each", level, len(pools), bars, want)
		}
	}
}

// The kerf stands between two cuts, not at a bar's end: 1200 + 1200 fill a bar
// of 2400 mm only without a saw.
func TestKerfStandsBetweenCuts(t *testing.T) {
	for kerf, want := range map[measure.Length]int{0: 1, mm(3): 2} {
		p := skirting()
		p.Kerf = kerf
		pools := plan(t, &job.Job{Products: []*job.Product{p}}, quantity.Length{Product: p, Room: room("1", "G"), Length: mm(1200)}, quantity.Length{Product: p, Room: room("1", "G"), Length: mm(1200)})
		if got := pools[0].Bars(); got != want {
			t.Errorf("kerf %s: %d bars, want %d", kerf, got, want)
		}
	}
}

// A run longer than a bar comes in the fewest pieces, none under the least
// piece: 4900 mm from 2400 mm bars is not 2400 + 2400 + 100.
func TestLongRunsAreJointed(t *testing.T) {
	p := skirting()
	pools := plan(t, &job.Job{Products: []*job.Product{p}}, quantity.Length{Product: p, Room: room("1", "G"), Length: mm(4900)})
	var total measure.Length
	for _, piece := range pools[0].Pieces {
		total += piece.Length
		if piece.Length < mm(300) || piece.Length > mm(2400) || piece.Parts != 3 {
			t.Errorf("part %d of %d is %s", piece.Part, piece.Parts, piece.Length)
		}
	}
	if total != mm(4900) {
		t.Errorf("the parts are %s, want 4900 mm", total)
	}
}

func TestLengthsThatAreNotCut(t *testing.T) {
	p := skirting()
	pools := plan(t, &job.Job{Products: []*job.Product{p}},
		quantity.Length{Product: p, Room: room("1", "G"), Length: mm(2500), Whole: true},
		quantity.Length{Product: p, Room: room("1", "G"), Length: mm(3)},
		quantity.Length{Product: p, Room: room("1", "G"), Length: mm(4)})
	var short []bool
	for _, fault := range pools[0].Faults {
		short = append(short, fault.TooShort)
	}
	if diff := cmp.Diff([]bool{false, true}, short); diff != "" || pools[0].Bars() != 1 {
		t.Errorf("faults (-want +got):\n%s\n%d bars, want 1", diff, pools[0].Bars())
	}
}

// Film is cut with a knife; a strip longer than the roll overlaps by the
// film's overlap: 60 m from rolls of 50 m with 200 mm is 50 m and 10.2 m.
func TestFilmOverlapsWhereRollsMeet(t *testing.T) {
	film := &job.Product{Code: "FILM", Kind: job.Film, Length: mm(50_000), Width: mm(2000), Overlap: mm(200), Kerf: mm(3)}
	pools := plan(t, &job.Job{Products: []*job.Product{film}}, quantity.Length{Product: film, Room: room("1", "G"), Length: mm(60_000)})
	var lengths []measure.Length
	for _, piece := range pools[0].Pieces {
		lengths = append(lengths, piece.Length)
	}
	if diff := cmp.Diff([]measure.Length{mm(50_000), mm(10_200)}, lengths); diff != "" || pools[0].Kerf != 0 {
		t.Errorf("strips (-want +got):\n%s", diff)
	}
}

// Three lengths at prices that ask for a mixture: 2900 mm needs the 3000 mm bar
// (7.00), 1700 mm is cheapest from 1800 mm (3.90), two of 1150 mm share 2400 mm.
func TestLengthsAtDifferentPrices(t *testing.T) {
	p := skirting()
	other := func(code string, length int64, price string) *job.Product {
		q := *p
		q.Code, q.Length, q.Price, q.LengthOf = code, mm(length), decimal.RequireFromString(price), p
		return &q
	}
	long, short := other("LONG", 3000, "7.00"), other("SHORT", 1800, "3.90")
	j := &job.Job{Products: []*job.Product{p, long, short}}
	var lengths []quantity.Length
	for _, l := range []int64{2900, 1700, 1150, 1150} {
		lengths = append(lengths, quantity.Length{Product: p, Room: room("1", "G"), Length: mm(l), Whole: true})
	}
	pool := plan(t, j, lengths...)[0]
	got := map[string]int{}
	for i, stock := range pool.Stocks {
		got[stock.Product.Code], _ = pool.BarsOf(i)
	}
	if diff := cmp.Diff(map[string]int{"LONG": 1, "SHORT": 1, "SKIRT": 1}, got); diff != "" || !pool.Plan.Proven {
		t.Errorf("bars (-want +got):\n%s\nproven %v", diff, pool.Plan.Proven)
	}
	// 7.00, 5.40 and 3.90 in proportion are 70, 54 and 39.
	if prices := []int64{pool.Stocks[0].Price, pool.Stocks[1].Price, pool.Stocks[2].Price}; cmp.Diff([]int64{70, 54, 39}, prices) != "" {
		t.Errorf("prices %v", prices)
	}
}

// A run of 4800 mm is two bars of 2400 mm for 10.80. One of 3000 mm and the rest
// of 1800 mm from a second bar would be as few pieces and cost 12.40.
func TestRunsAreSplitToSaveStock(t *testing.T) {
	p := skirting()
	long := *p
	long.Code, long.Length, long.Price, long.LengthOf = "LONG", mm(3000), decimal.RequireFromString("7.00"), p
	pool := plan(t, &job.Job{Products: []*job.Product{p, &long}}, quantity.Length{Product: p, Room: room("1", "G"), Length: mm(4800)})[0]
	var got []measure.Length
	for _, piece := range pool.Pieces {
		got = append(got, piece.Length)
	}
	// 5.40 to 7.00 is 27 to 35.
	if diff := cmp.Diff([]measure.Length{mm(2400), mm(2400)}, got); diff != "" || pool.Plan.Cost != 2*27 || !pool.Plan.Proven {
		t.Errorf("pieces (-want +got):\n%s\ncost %d, proven %v", diff, pool.Plan.Cost, pool.Plan.Proven)
	}
}

func TestRemnantsAreUsedOnceAndSaveBars(t *testing.T) {
	p := skirting()
	j := &job.Job{Products: []*job.Product{p}, Settings: job.Settings{Sharing: job.LevelApartment},
		Remnants: []*job.Remnant{{Product: p, Length: mm(1300), Count: 3}}}
	var lengths []quantity.Length
	for _, apartment := range []string{"1", "2", "3", "4"} {
		lengths = append(lengths, quantity.Length{Product: p, Room: room(apartment, "G"), Length: mm(1250), Whole: true})
	}
	bars, remnants := 0, 0
	for _, pool := range plan(t, j, lengths...) {
		for i, stock := range pool.Stocks {
			n, _ := pool.BarsOf(i)
			if stock.Remnant != nil {
				remnants += n
			} else {
				bars += n
			}
		}
	}
	if remnants != 3 || bars != 1 {
		t.Errorf("%d remnants and %d bars, want 3 and 1", remnants, bars)
	}
}
