package proof

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// halves is a room of 2020 x 620 mm laid in halves from planks of 1200 x 200 mm,
// gap 10 mm, kerf 2 mm, least end piece 250 mm:
//
//	rows 1, 3: 1000 (right end)  1000 (left end)      joints at 1010
//	row 2:      400 (right end)  1200 400 (left end)  joints at 410 and 1610
//
// The two pieces of 400 are one plank: 6 planks. No phase takes fewer: with
// starters a of rows 1 and 3 and a - 600 of row 2 only a - 600 + 1400 - a fit one
// plank, 7 pieces less 1; with a and a + 600 two of 8.
func halves() obj {
	pieces := list{
		oblong(1, 1, 10, 10, 1010, 210, 1, 200), oblong(1, 2, 1010, 10, 2010, 210, 2, 0),
		oblong(2, 1, 10, 210, 410, 410, 3, 800), oblong(2, 2, 410, 210, 1610, 410, 4, 0), oblong(2, 3, 1610, 210, 2010, 410, 3, 0),
		oblong(3, 1, 10, 410, 1010, 610, 5, 200), oblong(3, 2, 1010, 410, 2010, 610, 6, 0),
	}
	l := layout("H", 6, pieces)
	l["rules"].(obj)["least_line_up"] = 0 // halves are in line two rows apart
	l["pattern"] = obj{"name": "half", "phase_mm": 1010, "shifts_mm": list{0, 600}}
	return obj{
		"schema": Schema, "job": obj{"name": "One hall", "currency": "EUR"}, "rooms": list{hall("A1", false)}, "layouts": list{l},
		"stock": stockFixture("A1"),
		"pools": list{obj{"product": "OAK", "pool": "A1", "planks": 6, "lower_bound_planks": 6, "all_phases": true}},
	}
}

// aloneAgain cuts the last piece of row 2 from a plank of its own.
func aloneAgain(result obj) {
	at(result, "layouts", 0, "pieces", 4)["stock"] = 7
	at(result, "layouts", 0)["planks"] = 7
	at(result, "pools", 0)["planks"] = 7
	result["stock"] = append(result["stock"].(list), obj{"product": "OAK", "pool": "A1", "number": 7, "length_mm": 1200, "width_mm": 200})
}

func TestPatterns(t *testing.T) {
	rows := []struct {
		name   string
		plant  func(obj)
		claims []string // that do not hold
	}{
		{"in pattern", func(obj) {}, nil},
		{"phase a plank on", set(1010+1200, "layouts", 0, "pattern", "phase_mm"), nil},
		{"glued down, either end", set("glue-down", "layouts", 0, "joint"), nil},
		{"phase 1 mm off", set(1011, "layouts", 0, "pattern", "phase_mm"), []string{claimPattern}},
		{"row shifted by 1 mm", both(piece(2, oblong(2, 1, 10, 210, 411, 410, 3, 799)), piece(3, oblong(2, 2, 411, 210, 1611, 410, 4, 0)),
			piece(4, oblong(2, 3, 1611, 210, 2010, 410, 3, 0))), []string{claimPattern}},
		{"shift that is no half", set(list{0, 601}, "layouts", 0, "pattern", "shifts_mm"), []string{claimPattern, claimPlankBound}},
		{"pattern of one row", set(list{0}, "layouts", 0, "pattern", "shifts_mm"), []string{claimPattern, claimPlankBound}},
		{"named as out of pattern", both(set(1011, "layouts", 0, "pattern", "phase_mm"),
			set(list{obj{"code": "laying-rule", "apartment": "A1", "room": "Hall", "rule": "pattern"}}, "cautions")), nil},
		{"a plank more, bound as before", aloneAgain, nil},
		{"a plank more, bound raised to it", both(aloneAgain, set(7, "pools", 0, "lower_bound_planks")), []string{claimPlankBound}},
		{"bound over the planks", set(7, "pools", 0, "lower_bound_planks"), []string{claimPlankBound}},
		{"phases without a pattern", func(r obj) { delete(at(r, "layouts", 0), "pattern") }, []string{claimPlankBound}},
		{"end pieces that no phase keeps", set(601, "layouts", 0, "rules", "least_end"), []string{claimPlankBound, claimEnd}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			result := halves()
			row.plant(result)
			for _, claim := range check(t, result).Claims {
				if of := []string{claimPattern, claimPlankBound, claimEnd, claimStock}; slices.Contains(of, claim.Name) {
					if want := !slices.Contains(row.claims, claim.Name); claim.OK != want {
						t.Errorf("%q holds: %t, want %t: %s %s %s %s", claim.Name, claim.OK, want, claim.Place, claim.Left, claim.Right, claim.Detail)
					}
				}
			}
		})
	}
}

// Pairs by the rule of thumb against every way to pair.
func TestPairsAreMost(t *testing.T) {
	const room = 12
	lengths := rapid.SliceOfN(rapid.Map(rapid.IntRange(1, 12), func(n int) length { return length(n) }), 0, 6)
	rapid.Check(t, func(t *rapid.T) {
		a, b := lengths.Draw(t, "starters"), lengths.Draw(t, "ends")
		if got, want := pairsOfTwo(a, b, room), everyPairing(a, b, room); got != want {
			t.Fatalf("%v with %v: %d pairs, want %d", a, b, got, want)
		}
		if got, want := pairsOfOne(a, room), everyPairingOfOne(a, room); got != want {
			t.Fatalf("%v among themselves: %d pairs, want %d", a, got, want)
		}
	})
}

func everyPairing(a, b []length, room length) int {
	if len(a) == 0 {
		return 0
	}
	best := everyPairing(a[1:], b, room)
	for i := range b {
		if a[0]+b[i] <= room {
			best = max(best, 1+everyPairing(a[1:], slices.Delete(slices.Clone(b), i, i+1), room))
		}
	}
	return best
}

func everyPairingOfOne(a []length, room length) int {
	if len(a) < 2 {
		return 0
	}
	best := everyPairingOfOne(a[1:], room)
	for i := 1; i < len(a); i++ {
		if a[0]+a[i] <= room {
			best = max(best, 1+everyPairingOfOne(slices.Delete(slices.Clone(a[1:]), i-1, i), room))
		}
	}
	return best
}
