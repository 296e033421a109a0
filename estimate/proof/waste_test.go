package proof

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// withWaste adds waste to the first apartment of the fixture. An old floor of 6 mm
// and 1.5 kg a m2 is lifted in the hall:
//
//	old floor  1.2524 m2 x 6 mm                                0.0075144 m3   1.8786 kg
//	planks     6 x 0.24 - 1.345 = 0.095 m2 in the pool, x 1200 / 1345:
//	           0.0847584 m2 x 10 mm, 15 kg a pack of 1.92 m2   0.0008476      0.6622
//	packs      6 / 8 x 0.004 m3 and 0.8 kg                     0.003          0.6
//	skirting   4 x 2400 - 6940 = 2660 mm in the pool, x 5280 / 6940:
//	           2023.75 mm x 60 x 15 mm, 1.2 kg a bar           0.0018214      1.0119
//	its packs  5280 / 2400 x 0.0002 m3                         0.00044
//	mortar     5.25 bags x 0.0001 m3 and 0.05 kg               0.000525       0.2625
//	                                                           0.0141484      4.4151
//
// and half as much again loose: 0.0212 m3. The store has 0.0102416 m2 of planks,
// 0.0800 kg, and 636.25 mm of skirting, 0.3181 kg: 0.3981 kg.
func withWaste() obj {
	result := withCounts()
	at(result, "rooms", 0)["old_floor"] = "Felt"
	waste := func(room, by, factor, quantity, unit string) obj {
		return obj{"apartment": "A1", "room": room, "item": "SKIP", "measured_by": by, "factor": factor, "quantity": quantity, "unit": unit}
	}
	result["quantities"] = append(list{waste("Hall", "waste volume", "1.5", "0.0212", "m3"), waste("Hall", "waste weight", "1", "4.4151", "kg"),
		waste("Store", "waste weight", "1", "0.3981", "kg")}, result["quantities"].(list)...)
	result["waste"] = obj{
		"least_kept_mm": 0,
		"old_floors":    list{obj{"old_floor": "Felt", "thickness_mm": 6, "weight_kg_a_m2": "1.5"}},
		"goods": list{
			obj{"product": "OAK", "covering": true, "length_mm": 1200, "width_mm": 200, "thickness_mm": 10, "weight_kg": "15",
				"pieces_per_sold_unit": "8", "area_m2": "1.92", "packing_m3": "0.004", "packing_kg": "0.8"},
			obj{"product": "SKIRT", "length_mm": 2400, "width_mm": 60, "thickness_mm": 15, "weight_kg": "1.2",
				"pieces_per_sold_unit": "1", "packing_m3": "0.0002", "packing_kg": "0"},
			obj{"product": "MORTAR", "weight_kg": "25", "packing_m3": "0.0001", "packing_kg": "0.05"},
		},
		"unpacked": list{obj{"apartment": "A1", "room": "Hall", "product": "MORTAR", "sold_units": "5.25"}},
	}
	return result
}

// wasteClaim is the claim on waste of a result.
func wasteClaim(t *testing.T, result obj) Claim {
	t.Helper()
	for _, claim := range check(t, result).Claims {
		if claim.Name == claimWaste {
			return claim
		}
	}
	t.Fatal("no claim on waste")
	return Claim{}
}

func TestWasteWorkedByHand(t *testing.T) {
	if claim := wasteClaim(t, withWaste()); !claim.OK {
		t.Error(claim.Detail)
	}
}

func TestFaultsOfWasteAreCaught(t *testing.T) {
	for _, fault := range []struct {
		name  string
		plant func(obj)
	}{
		{"volume misread", set("0.0213", "quantities", 0, "quantity")},
		{"weight misread", set("4.4152", "quantities", 1, "quantity")},
		{"old floor thicker", set(7, "waste", "old_floors", 0, "thickness_mm")},
		{"old floor heavier", set("1.6", "waste", "old_floors", 0, "weight_kg_a_m2")},
		{"old floor not lifted", set("", "rooms", 0, "old_floor")},
		{"old floor lifted in the store too", set("Felt", "rooms", 1, "old_floor")},
		{"old floor unknown", set("Lino", "rooms", 0, "old_floor")},
		{"area lifted larger", set(list{list{0, 0}, list{2120, 0}, list{2120, 620}, list{0, 620}}, "rooms", 0, "outline_mm")},
		{"a plank more in the pool", func(r obj) {
			r["stock"] = append(r["stock"].(list), obj{"product": "OAK", "pool": "A1", "number": 7, "length_mm": 1200, "width_mm": 200})
		}},
		{"planks of the hall unpacked", set(5, "layouts", 0, "planks")},
		{"planks wider than cut", set(201, "waste", "goods", 0, "width_mm")},
		{"planks thicker", set(13, "waste", "goods", 0, "thickness_mm")},
		{"pack heavier", set("15.1", "waste", "goods", 0, "weight_kg")},
		{"pack holds more", set("1.93", "waste", "goods", 0, "area_m2")},
		{"pack has fewer pieces", set("7", "waste", "goods", 0, "pieces_per_sold_unit")},
		{"packing thicker", set("0.005", "waste", "goods", 0, "packing_m3")},
		{"packing heavier", set("0.801", "waste", "goods", 0, "packing_kg")},
		{"bar cut shorter", set(list{2000}, "trims", 0, "bars", 0, "cuts_mm")},
		{"bar more", set(3, "trims", 0, "bars", 0, "count")},
		{"off-cut kept", set(1576, "waste", "least_kept_mm")},
		{"skirting wider", set(65, "waste", "goods", 1, "width_mm")},
		{"skirting thicker", set(16, "waste", "goods", 1, "thickness_mm")},
		{"bar heavier", set("1.201", "waste", "goods", 1, "weight_kg")},
		{"bar longer", set(2500, "waste", "goods", 1, "length_mm")},
		{"packing of bars", set("0.0003", "waste", "goods", 1, "packing_m3")},
		{"skirting not listed", drop(1, "waste", "goods")},
		{"planks not listed", drop(0, "waste", "goods")},
		{"mortar not listed", drop(2, "waste", "goods")},
		{"goods listed twice", func(r obj) { w := at(r, "waste"); w["goods"] = append(w["goods"].(list), w["goods"].(list)[2]) }},
		{"bag forgotten", set("4.25", "waste", "unpacked", 0, "sold_units")},
		{"more unpacked than ordered", func(r obj) {
			w := at(r, "waste")
			w["unpacked"] = append(w["unpacked"].(list), obj{"apartment": "A2", "room": "Hall", "product": "MORTAR", "sold_units": "2.8"})
		}},
		{"unpacked in no room", set("Attic", "waste", "unpacked", 0, "room")},
		{"unit of no waste", set("bag", "quantities", 0, "unit")},
		{"corners cut thicker", set(list{obj{"product": "SKIRT", "corner_cut": "mitred", "thickness_mm": 14}}, "corners")},
	} {
		result := withWaste()
		fault.plant(result)
		if claim := wasteClaim(t, result); claim.OK {
			t.Errorf("%s was not noticed", fault.name)
		}
	}
}

// An off-cut of a bar lies behind a kerf after its last cut: of 2400 - 410 - 410,
// saw cuts of 2, 1576 mm are kept from 1576 on and not from 1577 on.
func TestOffcutsKeptAreNoWaste(t *testing.T) {
	e := trimEntry{StockLength: 2400 * unit, Kerf: 2 * unit}
	cut := barEntry{Cuts: []length{410 * unit, 410 * unit}, Count: 1}
	for least, want := range map[length]length{0: 1580, 1576: 4, 1577: 1580} {
		if got := e.waste(cut, least*unit); got != want*unit {
			t.Errorf("kept from %d: %s left over, want %d", least, got.mm(), want)
		}
	}
}

// A result that does not say what waste is counted from holds as it did.
func TestWasteWithoutTermsIsNotRecounted(t *testing.T) {
	result := withWaste()
	delete(result, "waste")
	result["quantities"].(list)[0].(obj)["quantity"] = "9"
	claim := wasteClaim(t, result)
	if !claim.OK || !strings.Contains(claim.Detail, "does not say") {
		t.Errorf("holds %v: %s", claim.OK, claim.Detail)
	}
}

// Parts add up to the whole, and none is off its exact share by a unit.
func TestPartsOfARestAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		weights := rapid.SliceOfN(rapid.Int64Range(0, 1e12), 1, 20).Draw(t, "weights")
		r := newRest()
		r.whole.SetInt64(rapid.Int64Range(0, 1e15).Draw(t, "whole"))
		for _, w := range weights {
			r.of.Add(r.of, big.NewInt(w))
		}
		if r.of.Sign() == 0 {
			return
		}
		sum := new(big.Int)
		for _, w := range weights {
			part := r.part(big.NewInt(w))
			off := new(big.Rat).SetFrac(new(big.Int).Mul(r.whole, big.NewInt(w)), r.of)
			if off.Sub(off, new(big.Rat).SetInt(part)); off.Abs(off).Cmp(big.NewRat(1, 1)) >= 0 {
				t.Fatalf("%s is no share of %d", part, w)
			}
			sum.Add(sum, part)
		}
		if sum.Cmp(r.whole) != 0 {
			t.Fatalf("parts are %s of %s", sum, r.whole)
		}
	})
}
