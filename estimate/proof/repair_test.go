package proof

import "testing"

// repairFixture is a job of repairs alone, worked by hand. Planks 1200 x 190, kerf
// 3 mm, 8 a pack at 64.00; glue 9.50 a bottle; delivery 12.00.
//
//	hall     3 whole planks, 2 on hand                           1 new
//	living   2 whole planks, 4 rows taken up                     2 new
//	bedroom  5 pieces of 390, 3 a plank (3 x 390 + 2 x 3 = 1176) 2 new
//
// Of 5 x 1200 = 6000 mm of plank 1200 + 2400 + 1950 = 5550 are laid, 450 wasted;
// 3 planks of the pack are left over. Hours at 36.00: 3 x 0.4 = 1.2, 4 x 0.15 = 0.6
// and 2 x 0.1 = 0.2, 5 x 0.4 = 2, and 2 to the call-out of 6: 216.00.
// Delivery by 64.00 : 9.50 is 10.45 and 1.55; oak at 74.45 by 1200 : 2400 : 1950 is
// 16.10, 32.19, 26.16; glue at 11.05 by 300 : 500 is 4.14, 6.91; the call-out by the
// areas of all pieces, 3600 : 2400 : 1950, is 32.60, 21.74, 17.66.
// 85.50 + 216.00 = 301.50, a tenth on top 30.15: cost 331.65; / 0.8 = 414.56.
func repairFixture() obj {
	strip := func(mm int) int { return area(mm * 190) }
	return obj{
		"schema":   Schema,
		"job":      obj{"name": "Repairs", "currency": "EUR", "least_call_out_h": "6"},
		"repaired": list{placed("A1", "Hall"), placed("A1", "Living"), placed("A2", "Bedroom")},
		"repairs": list{
			replaced("A1", "Hall", 3, 1200, 2, 1, 0), replaced("A1", "Living", 2, 1200, 0, 2, 4), replaced("A2", "Bedroom", 5, 390, 0, 2, 0),
		},
		"materials": list{
			obj{"product": "GLUE", "unit": "each", "bought": 1, "laid": 1, "spare": 0, "returned": 0, "left_over": 0, "waste": 0, "per_sold_unit": "1"},
			obj{"product": "OAK", "unit": "area", "bought": strip(9600), "laid": strip(5550), "spare": 0, "returned": 0, "left_over": strip(3600), "waste": strip(450), "piece": strip(1200)},
		},
		"quantities": list{
			measuredAt("A1", "Hall", "CUT", "pieces", "3"), measuredAt("A1", "Living", "TAKE", "rows", "4"), measuredAt("A1", "Living", "FIT", "pieces", "2"),
			measuredAt("A2", "Bedroom", "CUT", "pieces", "5"),
		},
		"uses": list{
			usedAt("A1", "Hall", "OAK", strip(1200)), usedAt("A1", "Living", "OAK", strip(2400)), usedAt("A2", "Bedroom", "OAK", strip(1950)),
			usedAt("A1", "Hall", "GLUE", 300), usedAt("A2", "Bedroom", "GLUE", 500),
		},
		"orders": list{obj{"supplier": "NOR", "number": "1", "lines": list{
			obj{"product": "GLUE", "quantity": "1", "sold_by": "each", "price": "9.5", "price_per": "each", "net": "9.50", "tax_pct": "0"},
			obj{"product": "OAK", "quantity": "1", "sold_by": "pack", "packs": "1", "pieces_per_pack": "8", "pieces": "8", "price": "64", "price_per": "pack", "net": "64.00", "tax_pct": "0"},
		}, "goods": "73.50", "delivery": "12.00", "supplement": "0.00", "net": "85.50", "tax": "0.00", "gross": "85.50"}},
		"labour": list{
			workedAt("A1", "Hall", "CUT", "3", "0.4", "1.2", "43.20"), workedAt("A1", "Living", "TAKE", "4", "0.15", "0.6", "21.60"),
			workedAt("A1", "Living", "FIT", "2", "0.1", "0.2", "7.20"), workedAt("A2", "Bedroom", "CUT", "5", "0.4", "2", "72.00"),
			obj{"apartment": "", "room": nil, "operation": "CUT", "trade": "layer", "quantity": "0", "hours_per_unit": "0.4", "hours": "2", "wage": "30", "burden_pct": "20",
				"call_out": true, "cost": "72.00"},
		},
		"price": obj{"material": "85.50", "labour": "216.00", "other": "0.00", "contingency": "0.00", "overhead_pct": "10", "overhead": "30.15", "cost": "331.65",
			"profit_pct": "20", "profit_basis": "on price", "price_step": "0", "profit": "82.91", "net": "414.56", "tax_pct": "0", "tax": "0.00", "gross": "414.56"},
		"room_shares": list{
			shared("A1", "Hall", "20.24", "75.80", "9.61", "26.41", "132.06"), shared("A1", "Living", "32.19", "50.54", "8.27", "22.75", "113.75"),
			shared("A2", "Bedroom", "33.07", "89.66", "12.27", "33.75", "168.75"),
		},
		"by_apartment": list{shared("A1", nil, "52.43", "126.34", "17.88", "49.16", "245.81"), shared("A2", nil, "33.07", "89.66", "12.27", "33.75", "168.75")},
	}
}

func placed(apartment, room string) obj {
	return obj{"apartment": apartment, "type": "", "room": room, "floor": "", "block": ""}
}

func replaced(apartment, room string, pieces, each, stock, bought, rows int) obj {
	return obj{"apartment": apartment, "room": room, "product": "OAK", "pieces": pieces, "length_mm": each, "plank_length_mm": 1200, "plank_width_mm": 190,
		"kerf_mm": 3, "from_stock": stock, "new_planks": bought, "rows": rows}
}

func measuredAt(apartment, room, item, by, quantity string) obj {
	return obj{"apartment": apartment, "room": room, "item": item, "measured_by": by, "factor": "1", "quantity": quantity, "unit": "each"}
}

func usedAt(apartment, room, product string, amount int) obj {
	return obj{"apartment": apartment, "room": room, "product": product, "amount": amount}
}

func workedAt(apartment, room, operation, quantity, norm, hours, cost string) obj {
	return obj{"apartment": apartment, "room": room, "operation": operation, "trade": "layer", "quantity": quantity, "hours_per_unit": norm, "hours": hours,
		"wage": "30", "burden_pct": "20", "cost": cost}
}

func shared(apartment string, room any, material, labour, overhead, profit, price string) obj {
	return obj{"apartment": apartment, "room": room, "material": material, "labour": labour, "other": "0.00", "contingency": "0.00", "overhead": overhead, "profit": profit, "price": price}
}

func TestRepairsHold(t *testing.T) {
	report := check(t, repairFixture())
	if !report.OK() {
		expectFailures(t, report, nil)
		t.Error("the repairs worked by hand do not hold")
	}
}

// TestFaultsInRepairs plants one fault in the repairs and names the claims that
// must not hold any more.
func TestFaultsInRepairs(t *testing.T) {
	for _, fault := range []struct {
		name   string
		plant  func(obj)
		claims []string
	}{
		{"a plank short", set(1, "repairs", 2, "new_planks"), []string{claimRepairs, claimLaid}},
		{"a plank on hand forgotten", set(1, "repairs", 0, "from_stock"), []string{claimRepairs}},
		{"more on hand than are taken", both(set(4, "repairs", 0, "from_stock"), set(-1, "repairs", 0, "new_planks")), []string{claimRepairs}},
		{"kerf forgotten: 3 pieces of 399 in a plank", both(set(399, "repairs", 2, "length_mm"), set(2, "repairs", 2, "new_planks")), []string{claimRepairs, claimLaid}},
		{"piece longer than its plank", set(1201, "repairs", 2, "length_mm"), []string{claimRepairs}},
		{"repair in no place", set("Attic", "repairs", 0, "room"), []string{claimRepairs}},
		{"place without a repair", func(r obj) { r["repaired"] = append(r["repaired"].(list), placed("A3", "Hall")) }, []string{claimRepairs, claimShares}},
		{"planks on hand charged", set(area(3600*190), "uses", 0, "amount"), []string{claimRepairs, claimShares}},
		{"rows misread", set("5", "quantities", 1, "quantity"), []string{claimQuantities, claimLabour}},
		{"call-out not reached", set("6.5", "job", "least_call_out_h"), []string{claimLabour}},
		{"more added than the call-out misses", set("5.5", "job", "least_call_out_h"), []string{claimLabour}},
		{"call-out of one room", both(set("A1", "labour", 4, "apartment"), set("Hall", "labour", 4, "room")), []string{claimLabour}},
		{"a repair charged to another", both(cent("room_shares", 0, "material"), cent("room_shares", 0, "price"),
			set("32.18", "room_shares", 1, "material"), set("113.74", "room_shares", 1, "price")), []string{claimShares}},
		{"an apartment not charged", drop(1, "by_apartment"), []string{claimApartments}},
	} {
		t.Run(fault.name, func(t *testing.T) {
			result := repairFixture()
			fault.plant(result)
			expectFailures(t, check(t, result), fault.claims)
		})
	}
}
