package estimate

import (
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// The small job's Bed is 4.2 x 3.1 m = 13.02 m2 in three apartments; its Living
// is not in the takeoff, and the takeoff has a Pantry of 2 m2 that the job has
// not. On the takeoff's areas the Bed costs its own price x 13.5 / 13.02, the
// Living nothing, the Pantry three times 2 m2 at the price of the job's floor.
func TestTakeoffByHand(t *testing.T) {
	j := smallJob()
	area := func(s string) measure.Area { return measure.AreaFromDecimal(dec(s), measure.M2) }
	j.Takeoff = []*job.TakeoffRoom{{Type: "A", Room: "Pantry", Area: area("2")}, {Type: "A", Room: "Bed", Ours: j.Rooms[1], Area: area("13.5")}}
	r := run(t, j)
	rows := r.CompareTakeoff()
	if len(rows) != 3 || rows[0].Name != "Bed" || rows[1].Name != "Living" || rows[2].Name != "Pantry" {
		t.Fatalf("rows %+v", rows)
	}
	price, floor := r.Price.Ladder.Net.Decimal(), r.FloorArea()
	bed := rows[0].Price.Decimal()
	for i, want := range []decimal.Decimal{
		bed.Mul(dec("13.5")).DivRound(dec("13.02"), 2), decimal.Zero, price.Mul(dec("6")).DivRound(floor, 2),
	} {
		if got := rows[i].PriceOfTakeoff(r); !got.Decimal().Equal(want) {
			t.Errorf("%s on the takeoff's area: %s, want %s", rows[i].Name, got, want)
		}
		if rows[i].Times != 3 {
			t.Errorf("%s stands %d times, want 3", rows[i].Name, rows[i].Times)
		}
	}
	if sum := rows[0].Price.Add(rows[1].Price); !sum.Equal(r.Price.Ladder.Net) {
		t.Errorf("the rooms cost %s, the job %s", sum, r.Price.Ladder.Net)
	}
}
