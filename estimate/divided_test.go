package estimate

import (
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/shape"
)

// A room of 12.0 x 4.0 m whose planks may run 8 m, by hand (8 m is a usual longest
// run, makers' guidance; half and its joints are common practice).
//
//	fields    12 m is more than 8 and at most 16: two of 6.0 x 4.0 m, and between
//	          them one profile across the room, 4.0 m
//	inside    a gap of 12 mm along the walls and both sides of the profile leaves
//	          5976 x 3976 mm a field, 2 x 23.760576 = 47.521152 m2
//	rows      3976 mm of planks 200 mm wide are 19 rows and 176 mm: 20 a field
//	planks    of 1500 mm, laid in halves: 5976 = 3 x 1500 + 1476. A row whose
//	          starter and end piece come to 1476 is those and three whole planks;
//	          both fit one plank with a kerf of 3. One whose starter and end piece
//	          come to 2976 is those and two whole planks. 4 planks a row either way,
//	          4 x 40 = 160. 40 rows of 5976 mm are 159.4 planks: no fewer do.
//	pieces    the longest end pieces are had with starters of 1476 to 1500 in one
//	          row, 4 pieces, and of 726 to 750 in the next, 5: 20 x 4 + 20 x 5 = 180
//	packs     160 / 8 = 20
//	profiles  4.0 m of bars of 2.7 m: two parts, a bar each
func TestDividedRoomByHand(t *testing.T) {
	j := smallJob()
	oak, trim := j.Products[0], j.Products[4]
	oak.Length, oak.Width, oak.LongestRun, oak.Pattern = mm(1500), mm(200), mm(8000), job.PatternHalf
	oak.AreaPerPack = 8 * oak.Length.Times(oak.Width)
	trim.Length, trim.LeastEnd = mm(2700), mm(300)
	j.Settings.BreakagePercent, j.Settings.AtticPercent = dec("0"), dec("0")
	floor := j.BuildUps[0]
	floor.Lines = append(floor.Lines, &job.Line{Product: trim, Measure: job.ExpansionProfiles, Factor: dec("1")})
	hall := j.Rooms[1]
	hall.Outline, hall.Openings = shape.Rectangle(shape.Box{X1: mm(12000), Y1: mm(4000)}), nil
	j.Rooms, j.Apartments = []*job.Room{hall}, j.Apartments[1:2]
	r := run(t, j)

	room := r.Building.Rooms[0]
	if len(room.Fields) != 2 || room.ProfileLength() != mm(4000) {
		t.Errorf("%d fields and %s of profile, want 2 and 4000 mm", len(room.Fields), room.ProfileLength())
	}
	plan := r.Floors[0].Plan
	laid := &plan.Layouts[0]
	if want := 2 * mm(5976).Times(mm(3976)); laid.Area() != want || len(laid.Rows) != 40 || len(laid.Pieces) != 180 {
		t.Errorf("%d laid in %d rows and %d pieces, want %d, 40 and 180", laid.Area(), len(laid.Rows), len(laid.Pieces), want)
	}
	if plan.Planks != 160 || !plan.Proven {
		t.Errorf("%d planks, proven %t, want 160 proven", plan.Planks, plan.Proven)
	}
	for _, piece := range laid.Pieces {
		b := piece.At.Bounds()
		if b.X0 < mm(6012) && b.X1 > mm(5988) || b.X0 < mm(12) || b.X1 > mm(11988) {
			t.Errorf("piece %d.%d stands in the gap at a wall or at the profile", piece.Row, piece.Seq)
		}
	}
	wantPacks(t, r, oak.Code, "20")
	wantPacks(t, r, trim.Code, "2")
	for _, line := range r.Takeoff.Lines {
		if line.Measure == job.ExpansionProfiles && line.Quantity.String() != "4" {
			t.Errorf("%s m of profile, want 4", line.Quantity)
		}
	}
	if got := rulesBroken(plan); len(got) > 0 {
		t.Errorf("rules not kept: %v", got)
	}
}

func wantPacks(t *testing.T, r *Result, product, want string) {
	t.Helper()
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			if line.Product.Code == product {
				if line.Quantity.String() != want {
					t.Errorf("%s of %s, want %s", line.Quantity, product, want)
				}
				return
			}
		}
	}
	t.Errorf("no %s is ordered", product)
}

func rulesBroken(plan *layout.Plan) []string {
	var broken []string
	for _, short := range plan.Shortfalls {
		broken = append(broken, short.Sentence())
	}
	return broken
}
