package proof

import (
	"slices"
	"testing"
)

// racks is a room of 2020 x 620 mm laid with boards of random lengths from 400 to
// 1200 mm, 200 mm wide, gap 10 mm, kerf 2 mm, least end piece 250 mm: three rows
// of 2000 mm. They take 1 200 000 mm2 at least. At most: 3 x (2000 + 125 + 2) x 200
// = 1 276 200, and two of the longest boards, 240 000 mm2 each, shared by the two
// rooms of the pool: 1 516 200 each. 4 000 000 are bought, of which 500 000 spare.
func racks() obj {
	rows := list{oblong(1, 1, 10, 10, 2010, 210, 0, 0), oblong(2, 1, 10, 210, 2010, 410, 0, 0), oblong(3, 1, 10, 410, 2010, 610, 0, 0)}
	l := layout("H", 0, rows)
	l["kind"] = "racked"
	l["racked"] = obj{"shortest_mm": 400, "longest_mm": 1200, "width_mm": 200, "least": area(1_200_000), "most": area(1_516_200)}
	other := hall("A1", false)
	other["room"] = "Second hall"
	return obj{
		"schema": Schema, "job": obj{"name": "Two halls", "currency": "EUR"}, "rooms": list{hall("A1", false), other}, "layouts": list{l},
		"materials": list{obj{"product": "OAK", "unit": "area", "bought": area(4_000_000), "laid": area(2_400_000), "spare": area(500_000),
			"returned": 0, "left_over": area(500_000), "waste": area(600_000), "per_sold_unit": area(2_000_000)}},
		"orders": list{obj{"supplier": "S", "number": "1", "lines": list{obj{"product": "OAK", "quantity": "2", "unit": "pack"}}}},
	}
}

func TestRackedFloors(t *testing.T) {
	most := func(mm2 int) func(obj) { return set(area(mm2), "layouts", 0, "racked", "most") }
	rows := []struct {
		name   string
		plant  func(obj)
		claims []string // that do not hold
	}{
		{"as laid", func(obj) {}, nil},
		{"most 1 mm2 less", most(1_516_199), []string{claimRacked}},
		{"a saw cut forgotten", most(1_515_000), []string{claimRacked}},
		{"most without the boards left over", most(1_276_200), []string{claimRacked}},
		{"a room moved to another pool", set("A2", "rooms", 1, "pool"), []string{claimRacked, claimLaid}},
		{"least more than the floor", set(area(1_200_001), "layouts", 0, "racked", "least"), []string{claimRacked}},
		{"boards narrower than the rows", both(set(199, "layouts", 0, "racked", "width_mm"), most(1_508_619)), []string{claimRacked}},
		{"all boards alike", set(1200, "layouts", 0, "racked", "shortest_mm"), []string{claimRacked}},
		{"row missing", drop(2, "layouts", 0, "pieces"), []string{claimCover, claimRacked, claimLaid}},
		{"row 1 mm into the gap", piece(0, oblong(1, 1, 9, 10, 2010, 210, 0, 0)), []string{claimCover, claimRacked, claimLaid}},
		{"least end piece longer than counted", set(252, "layouts", 0, "rules", "least_end"), []string{claimRacked}},
		{"bought less than the most", both(set(area(3_032_399), "materials", 0, "bought"), set(0, "materials", 0, "spare")), []string{claimLaid}},
		{"laid is not the rows", set(area(2_400_001), "materials", 0, "laid"), []string{claimLaid}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			result := racks()
			row.plant(result)
			for _, claim := range check(t, result).Claims {
				if of := []string{claimRacked, claimCover, claimLaid, claimStock, claimPieces}; slices.Contains(of, claim.Name) {
					if want := !slices.Contains(row.claims, claim.Name); claim.OK != want {
						t.Errorf("%q holds: %t, want %t: %s %s %s %s", claim.Name, claim.OK, want, claim.Place, claim.Left, claim.Right, claim.Detail)
					}
				}
			}
		})
	}
}
