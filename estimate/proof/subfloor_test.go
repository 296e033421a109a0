package proof

import "testing"

// withSubfloor is the fixture with the hall of A1 surveyed: level corners and a
// hollow of 15 mm in the middle, a pyramid upside down. Over the diagonal of
// 2113 mm group 3 allows 4 + 6 x 1113 / 3000 = 6.2, rounded 6 mm. The plane lies
// 3 mm below the corners, and under it is a pyramid of 12 mm over (12/15)2 of
// the floor: 1 252 400 x 0.64 = 801 536 mm2, x 12 / 3 = 3 206 144 mm3, as
// quantities 0.8015 m2 and, raised by 5 %, 3.3665 m2 x mm. The store's 0.1612 m2
// get 2 mm: 322 400 mm3, 0.3224 m2 x mm.
func withSubfloor() obj {
	result := fixture()
	result["subfloors"] = list{
		obj{
			"apartment": "A1", "room": "Hall", "flatness_group": "group 3", "straightedges_broken": 2,
			"readings_mm": list{list{0, 0, 0}, list{0, 620, 0}, list{1010, 310, -15}, list{2020, 0, 0}, list{2020, 620, 0}},
			"triangles":   list{list{0, 2, 1}, list{0, 3, 2}, list{1, 2, 4}, list{2, 3, 4}},
			"worst":       list{obj{"from_mm": list{0, 0}, "to_mm": list{2020, 620}, "deviation_mm": -15, "limit_mm": 6}},
			"plane":       obj{"height_mm": -3, "rise_x_mm_a_m": "0", "rise_y_mm_a_m": "0", "allowance_mm": 3},
			"fill":        obj{"area_mm2": 801_536, "volume_mm3": 3_206_144}, "ground": obj{"area_mm2": 0, "volume_mm3": 0},
		},
		obj{
			"apartment": "A1", "room": "Store", "readings_mm": list{}, "triangles": list{}, "flatness_group": "group 3", "straightedges_broken": 0, "worst": list{}, "plane": nil,
			"fill": obj{"area_mm2": 161_200, "volume_mm3": 322_400}, "ground": obj{"area_mm2": 0, "volume_mm3": 0},
		},
	}
	room := func(apartment, name string) obj { return obj{"apartment": apartment, "type": "T", "room": name} }
	result["moisture_tests"] = list{
		obj{"place": "A1", "rooms": list{room("A1", "Hall"), room("A1", "Store")}, "count": 3},
		obj{"place": "A2", "rooms": list{room("A2", "Hall"), room("A2", "Store")}, "count": 3},
	}
	measured := func(name, item, by, waste, quantity, unit string) obj {
		return obj{"apartment": "A1", "room": name, "item": item, "measured_by": by, "factor": "1", "waste_pct": waste, "quantity": quantity, "unit": unit}
	}
	result["quantities"] = append(quantitiesFixture(),
		measured("Hall", "PRIMER", "levelled area", "0", "0.8015", "m2"),
		measured("Hall", "LEV", "area x depth", "5", "3.3665", "m2 x mm"),
		measured("Store", "LEV", "area x depth", "0", "0.3224", "m2 x mm"))
	return result
}

func TestSubfloorHolds(t *testing.T) {
	for _, claim := range check(t, withSubfloor()).Claims {
		if !claim.OK {
			t.Errorf("%s: %s", claim.Name, claim.Detail)
		}
	}
}

func TestFaultsOfTheSubfloorAreCaught(t *testing.T) {
	for _, fault := range []struct {
		name   string
		plant  func(obj)
		claims []string
	}{
		{"volume 5 % too small", set(3_045_837, "subfloors", 0, "fill", "volume_mm3"), []string{claimSubfloors, claimQuantities}},
		{"plane half a millimetre too low", set(-3.5, "subfloors", 0, "plane", "height_mm"), []string{claimSubfloors}},
		{"plane tilted", set("0.75", "subfloors", 0, "plane", "rise_x_mm_a_m"), []string{claimSubfloors}},
		{"limit of another distance", set(7, "subfloors", 0, "worst", 0, "limit_mm"), []string{claimSubfloors}},
		{"broken and said to be kept", set(0, "subfloors", 0, "straightedges_broken"), []string{claimSubfloors}},
		{"no plane", set(nil, "subfloors", 0, "plane"), []string{claimSubfloors}},
		{"ground where nothing stands out", set(500_000, "subfloors", 0, "ground", "volume_mm3"), []string{claimSubfloors}},
		{"triangle missing", drop(1, "subfloors", 0, "triangles"), []string{claimSubfloors}},
		{"triangles of other corners", set(list{list{0, 3, 1}, list{1, 3, 4}}, "subfloors", 0, "triangles"), []string{claimSubfloors}},
		{"triangle turned", func(r obj) { at(r, "subfloors", 0)["triangles"].(list)[0] = list{0, 1, 2} }, []string{claimSubfloors}},
		{"room twice", func(r obj) { r["subfloors"] = append(r["subfloors"].(list), r["subfloors"].(list)[0]) }, []string{claimSubfloors}},
		{"compound not as measured", set("3.3", "quantities", 8, "quantity"), []string{claimQuantities}},
		{"compound without a subfloor", drop(1, "subfloors"), []string{claimQuantities}},
		{"a test too many", set(4, "moisture_tests", 0, "count"), []string{claimTests}},
		{"a room tested in two places", set("A1", "moisture_tests", 1, "rooms", 0, "apartment"), []string{claimTests}},
	} {
		t.Run(fault.name, func(t *testing.T) {
			result := withSubfloor()
			fault.plant(result)
			expectFailures(t, check(t, result), fault.claims)
		})
	}
}
