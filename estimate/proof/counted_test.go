package proof

import "testing"

// withCounts adds what is counted in the rooms of the fixture. A hall has the four
// corners of a rectangle; of its pieces one end each is sawn of those in planks 2,
// 3, 5 and 6; its 6 planks of 8 a pack are 0.75 packs. The store's first piece goes
// round the column and is sawn at both ends, its second at one: 1 + 2 + 1 cuts.
// Mortar is ordered as 8 bags and used as 5.25 and 2.75; with the hall's packs it is
// carried three storeys, from floor -2 to floor 1: 3 x (0.75 + 5.25).
func withCounts() obj {
	result := fixture()
	counted := func(name, item, by, factor, quantity string) obj {
		return obj{"apartment": "A1", "room": name, "item": item, "measured_by": by, "factor": factor, "quantity": quantity, "unit": "each"}
	}
	bags := func(name, n string) obj {
		line := counted(name, "MORTAR", "bed", "1", "12")
		line["bags"] = n
		return line
	}
	mortar := obj{"supplier": "MASON", "number": "2", "lines": list{obj{"product": "MORTAR", "quantity": "8", "sold_by": "bag", "price": "1", "price_per": "bag", "net": "8"}}}
	result["orders"] = append(result["orders"].(list), mortar)
	result["quantities"] = append(quantitiesFixture(),
		counted("Hall", "MITRE", "inside corners", "1", "4"), counted("Hall", "CAP", "outside corners", "1", "0"),
		counted("Hall", "SAW", "cuts", "1.5", "6"), counted("Hall", "CARRY", "packs", "1", "0.75"),
		counted("Store", "SAW", "cuts", "1", "4"), counted("Store", "FIT", "notches", "1", "1"), counted("Store", "RIP", "rips", "1", "0"),
		bags("Hall", "5.25"), bags("Store", "2.75"), counted("Store", "MIX", "bags", "2", "5.5"),
		counted("Hall", "STAIRS", "carried", "1", "18"))
	result["job"].(obj)["entrance_floor"] = -2
	return result
}

func TestFaultsOfCountsAreCaught(t *testing.T) {
	own := len(quantitiesFixture()) // the first entry of withCounts
	for _, fault := range []struct {
		name  string
		plant func(obj)
		holds bool
	}{
		{"none", func(obj) {}, true},
		{"corner forgotten", set("3", "quantities", own, "quantity"), false},
		{"outside corner found", set("1", "quantities", own+1, "quantity"), false},
		{"cut forgotten", set("4.5", "quantities", own+2, "quantity"), false},
		{"packs of whole planks", set("6", "quantities", own+3, "quantity"), false},
		{"notch counted as two", set("2", "quantities", own+5, "quantity"), false},
		{"rip made up", set("1", "quantities", own+6, "quantity"), false},
		{"bag forgotten", set("3.5", "quantities", own+9, "quantity"), false},
		{"a storey forgotten", set("12", "quantities", own+10, "quantity"), false},
		{"carried in a lift", set(true, "job", "lift"), false},
		{"carried in a lift, counted once", both(set(true, "job", "lift"), set("6", "quantities", own+10, "quantity")), true},
		{"more bags than ordered", set("5.26", "quantities", own+7, "bags"), false},
	} {
		result := withCounts()
		fault.plant(result)
		for _, claim := range check(t, result).Claims {
			if claim.Name == claimQuantities && claim.OK != fault.holds {
				t.Errorf("%s: holds %v: %s", fault.name, claim.OK, claim.Detail)
			}
		}
	}
}

// Pieces of a plank of 1200 x 200 mm: whole; ripped and sawn at its right; sawn on
// the slant; with a corner cut out; round a hole.
func TestSawing(t *testing.T) {
	whole := ring{{0, 0}, {1200 * unit, 0}, {1200 * unit, 200 * unit}, {0, 200 * unit}}
	for _, c := range []struct {
		piece pieceEntry
		want  saw
	}{
		{pieceEntry{At: whole, InStock: box{0, 0, 1200 * unit, 200 * unit}}, saw{}},
		{pieceEntry{At: ring{{0, 0}, {900 * unit, 0}, {900 * unit, 90 * unit}, {0, 90 * unit}}, InStock: box{0, 0, 900 * unit, 90 * unit}}, saw{cuts: 1, rips: 1}},
		{pieceEntry{At: ring{{0, 0}, {1200 * unit, 0}, {1100 * unit, 200 * unit}, {0, 200 * unit}}, InStock: box{0, 0, 1200 * unit, 200 * unit}}, saw{cuts: 1}},
		{pieceEntry{At: ring{{0, 0}, {1200 * unit, 0}, {1200 * unit, 100 * unit}, {900 * unit, 100 * unit}, {900 * unit, 200 * unit}, {0, 200 * unit}},
			InStock: box{0, 0, 1200 * unit, 200 * unit}}, saw{notches: 1}},
		{pieceEntry{At: whole, Holes: []ring{whole}, InStock: box{0, 0, 1200 * unit, 200 * unit}}, saw{notches: 1}},
	} {
		got := saw{}
		if got.add(&c.piece, plankSize{1200 * unit, 200 * unit}); got != c.want {
			t.Errorf("%v: %+v, want %+v", c.piece.At, got, c.want)
		}
	}
}
