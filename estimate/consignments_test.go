package estimate

import (
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/purchase"
)

// byFloor is the small job on three floors, the top one first: each of its
// apartments has a date of its own.
func byFloor(sharing job.Level) *job.Job {
	j := smallJob()
	j.Settings.Deliveries, j.Settings.Sharing, j.Settings.Number = job.DeliverFloors, sharing, "N"
	j.Settings.Crews, j.Settings.CrewSize, j.Settings.HoursADay = 2, 2, decimal.NewFromInt(8)
	for i, a := range j.Apartments {
		a.Floor = string(rune('1' + i))
		a.Start = time.Date(2026, 6, 30-7*i, 0, 0, 0, 0, time.UTC)
	}
	return j
}

// However far off-cuts and packs are shared, a delivery a floor buys the packs
// that one delivery buys, in orders dated by the floor's start, and what has
// come by then holds the planks cut by then.
func TestDeliveriesBuyNoPackMore(t *testing.T) {
	for _, sharing := range []job.Level{job.LevelRoom, job.LevelApartment, job.LevelFloor, job.LevelJob} {
		whole := byFloor(sharing)
		whole.Settings.Deliveries = job.DeliverJob
		once, split := run(t, whole), run(t, byFloor(sharing))
		want, got := map[string]decimal.Decimal{}, map[string]decimal.Decimal{}
		for orders, sum := range map[*[]purchase.Order]map[string]decimal.Decimal{&once.Orders: want, &split.Orders: got} {
			for _, o := range *orders {
				for _, line := range o.Lines {
					sum[line.Product.Code] = sum[line.Product.Code].Add(line.Quantity)
				}
			}
		}
		for code := range want {
			if !want[code].Equal(got[code]) {
				t.Errorf("sharing by %s: %s of %s, one delivery %s", sharing, got[code], code, want[code])
			}
		}
		if len(split.Consignments) != 3 || split.Consignments[0].Name != "floor 3" || len(split.Orders) < 2 {
			t.Fatalf("consignments %v, %d orders", split.Consignments, len(split.Orders))
		}
		for _, o := range split.Orders {
			// Each floor's goods come the day after its start, when the moisture
			// test is read.
			if want := time.Date(2026, 6, 17+7*o.Consignment, 0, 0, 0, 0, time.UTC); !o.NeededBy.Equal(want) {
				t.Errorf("order %s is needed by %s, want %s", o.Number, o.NeededBy, want)
			}
		}
		planksArrive(t, split)
	}
}

// planksArrive looks at every piece: the planks cut by its consignment are among
// those that have come.
func planksArrive(t *testing.T, r *Result) {
	t.Helper()
	come, cut := 0, map[[2]int]bool{}
	for c := range r.Consignments {
		for _, o := range r.Orders {
			for _, line := range o.Lines {
				if o.Consignment == c && line.Product.Code == "OAK" {
					come += int(line.Quantity.IntPart()) * line.Product.PiecesPerPack
				}
			}
		}
		for i := range r.Floors {
			for slot, room := range r.Floors[i].Rooms {
				if r.ConsignmentOf(room) != c {
					continue
				}
				for _, piece := range r.Floors[i].Plan.Layouts[slot].Pieces {
					cut[[2]int{i, piece.Stock}] = true
				}
			}
		}
		if len(cut) > come {
			t.Errorf("%d planks are cut by consignment %d, %d have come", len(cut), c+1, come)
		}
	}
}
