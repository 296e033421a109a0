package estimate

import (
	"math/big"
	"testing"
)

// What the rooms' planks leave over adds up to the job's waste of planks, to the
// last square of 1/320 mm, and no room has less than none.
func TestRoomsShareTheWasteOfTheirPlanks(t *testing.T) {
	r := run(t, smallJob())
	var shared int64
	for _, laid := range r.laid() {
		if laid.Waste < 0 {
			t.Errorf("a room leaves over %d", laid.Waste)
		}
		shared += int64(laid.Waste)
	}
	for _, m := range r.Materials {
		if m.Product.Code == "OAK" && m.Waste != shared {
			t.Errorf("the rooms share %d of %d left over", shared, m.Waste)
		}
	}
}

// Breakage of 2 % and attic stock of 1.5 % of the planks cut: of 101 planks 3 and
// 2. Each is rounded up by itself (definition of spares) and told apart.
func TestBreakageAndAtticStockAreToldApart(t *testing.T) {
	j := smallJob()
	j.Settings.BreakagePercent, j.Settings.AtticPercent = dec("2"), dec("1.5")
	r := run(t, j)
	planks := int64(0)
	for i := range r.Floors {
		planks += int64(r.Floors[i].Plan.Planks)
	}
	up := func(tenths int64) int64 { return (planks*tenths + 999) / 1000 }
	for _, m := range r.Materials {
		if m.Product.Code != "OAK" {
			continue
		}
		plank := int64(m.Product.Length.Times(m.Product.Width))
		if m.Breakage() != up(20)*plank || m.Attic != up(15)*plank {
			t.Errorf("of %d planks %d for breakage and %d of attic stock, want %d and %d", planks, m.Breakage()/plank, m.Attic/plank, up(20), up(15))
		}
	}
}

// What is cut off the skirting goes to the rooms without a rest: together it is
// the waste in the account of the material, as wide and thick as the skirting.
func TestRoomsShareTheOffcutsOfTheirTrims(t *testing.T) {
	j := smallJob()
	for _, p := range j.Products {
		if p.Code == "SKIRT" {
			p.Width, p.Thickness = mm(95), mm(18)
		}
	}
	r := run(t, j)
	shared := new(big.Rat)
	for _, waste := range r.wasteBesides() {
		if waste.Volume.Sign() < 0 {
			t.Errorf("a room has %s cut off", waste.Volume)
		}
		shared.Add(shared, waste.Volume)
	}
	for _, m := range r.Materials {
		want := new(big.Rat).Mul(big.NewRat(m.Waste, 1), big.NewRat(int64(mm(95))*18, 1))
		if m.Product.Code == "SKIRT" && (shared.Cmp(want) != 0 || m.Waste == 0) {
			t.Errorf("the rooms share %s of %s", shared, want)
		}
	}
}
