package proof

import (
	"slices"
	"testing"
)

// An L-shaped room with skirting 18 mm thick, mitred: walls 1 S 5000, 2 E 3400,
// 3 N 1000, 4 E 600, 5 N 4000, 6 W 4000, an outside corner between 3 and 4. In
// wall 1 from 1500 a gap of 900 that the skirting turns 100 into, in wall 6 a
// door of 800 in the corner with wall 1, so that wall 1 begins butted. Bars of
// 3000: the runs of 3400 and 4000 come in parts.
//
//	1: S 1518 O   return S 118 O  return O 118 S   O 2618 I -> left end first:
//	facing wall 1 the walk comes from the right, so the run from the corner to
//	the gap ends on the left in an outside mitre.
func roundCorners() obj {
	piece := func(wall, run, length, part, parts int, left, right string) obj {
		return obj{"apartment": "", "type": "T", "room": "Room", "product": "SKIRT", "pool": "T", "for": "skirting",
			"wall": wall, "run_mm": run, "length_mm": length, "part": part, "parts": parts, "ends": list{left, right}}
	}
	reveal := func(left, right string) obj {
		p := piece(1, 100, 118, 0, 0, left, right)
		p["return"] = true
		return p
	}
	const in, out, square, joint = "inside mitre", "outside mitre", "square", "joint"
	return obj{
		"schema": Schema, "job": obj{"name": "Corners", "currency": "EUR"},
		"rooms": list{obj{"apartment": "", "type": "T", "room": "Room",
			"outline_mm": list{list{0, 0}, list{5000, 0}, list{5000, 3400}, list{4000, 3400}, list{4000, 4000}, list{0, 4000}},
			"openings":   list{obj{"wall": 1, "from_mm": 1500, "width_mm": 900, "return_mm": 100}, obj{"wall": 6, "from_mm": 3200, "width_mm": 800}}}},
		"corners": list{obj{"product": "SKIRT", "corner_cut": "mitred", "thickness_mm": 18}},
		"lengths": list{
			piece(1, 1500, 1518, 0, 0, out, square), reveal(square, out), reveal(out, square), piece(1, 2600, 2618, 0, 0, in, out),
			piece(2, 3400, 3000, 1, 2, in, joint), piece(2, 3400, 400, 2, 2, joint, in), piece(3, 1000, 1018, 0, 0, out, in), piece(4, 600, 618, 0, 0, in, out),
			piece(5, 4000, 3000, 1, 2, in, joint), piece(5, 4000, 1000, 2, 2, joint, in), piece(6, 3200, 3000, 1, 2, square, joint), piece(6, 3200, 200, 2, 2, joint, in),
		},
		"trims": list{obj{"product": "SKIRT", "pool": "T", "stock_length_mm": 3000, "kerf_mm": 0, "bars": list{
			obj{"cuts_mm": list{3000}, "count": 3}, obj{"cuts_mm": list{2618, 118, 118}, "count": 1}, obj{"cuts_mm": list{1518, 1018, 400}, "count": 1},
			obj{"cuts_mm": list{1000, 618, 200}, "count": 1},
		}}},
	}
}

func holds(t *testing.T, result obj, name string) bool {
	t.Helper()
	claims := check(t, result).Claims
	claim := claims[slices.IndexFunc(claims, func(c Claim) bool { return c.Name == name })]
	if !claim.OK {
		t.Logf("%s: %s", name, claim.Detail)
	}
	return claim.OK
}

func TestPiecesRoundCorners(t *testing.T) {
	if !holds(t, roundCorners(), claimRuns) || !holds(t, roundCorners(), claimCuts) {
		t.Fatal("a right result does not hold")
	}
	for _, fault := range []struct {
		name  string
		plant func(obj)
	}{
		{"allowance of an outside mitre forgotten", set(1000, "lengths", 6, "length_mm")},
		{"allowance at an inside mitre", set(618+18, "lengths", 7, "length_mm")},
		{"hands exchanged", set(list{"inside mitre", "outside mitre"}, "lengths", 6, "ends")},
		{"return forgotten", drop(1, "lengths")},
		{"return in the wall", set(false, "lengths", 1, "return")},
		{"mitred into the door", set(list{"inside mitre", "joint"}, "lengths", 10, "ends")},
		{"scribed, not mitred", set("scribed", "corners", 0, "corner_cut")},
		{"thicker skirting", set(19, "corners", 0, "thickness_mm")},
		{"part missing", drop(5, "lengths")},
		{"opening moved", set(1501, "rooms", 0, "openings", 0, "from_mm")},
	} {
		t.Run(fault.name, func(t *testing.T) {
			result := roundCorners()
			fault.plant(result)
			if holds(t, result, claimRuns) {
				t.Error("the fault was not noticed")
			}
		})
	}
}

// Profiles as wide as openings, trims along whole walls, and a door that is only
// counted: 14000 of walls less 900.
func TestOtherPieces(t *testing.T) {
	room := obj{"apartment": "", "type": "T", "room": "Room", "outline_mm": list{list{0, 0}, list{4000, 0}, list{4000, 3000}, list{0, 3000}},
		"openings": list{obj{"wall": 0, "width_mm": 900, "profiles": list{"openings"}}}}
	piece := func(by string, wall, run int) obj {
		return obj{"apartment": "", "type": "T", "room": "Room", "product": by, "pool": "T", "for": by, "wall": wall, "run_mm": run, "length_mm": run}
	}
	result := func() obj {
		return obj{"schema": Schema, "job": obj{"name": "Others", "currency": "EUR"}, "rooms": list{room}, "lengths": list{
			piece("openings", 0, 900), piece("perimeter", 1, 4000), piece("perimeter", 2, 3000), piece("perimeter", 3, 4000), piece("perimeter", 4, 3000),
			piece("skirting", 1, 3100), piece("skirting", 2, 3000), piece("skirting", 3, 4000), piece("skirting", 4, 3000),
		}}
	}
	if !holds(t, result(), claimRuns) {
		t.Fatal("a right result does not hold")
	}
	for name, plant := range map[string]func(obj){
		"profile of another width": set(901, "lengths", 0, "length_mm"),
		"wall shortened":           set(3900, "lengths", 1, "length_mm"),
		"door not taken off":       set(4000, "lengths", 5, "run_mm"),
		"wall left out":            drop(8, "lengths"),
		"profile left out":         drop(0, "lengths"),
		"profile of another kind":  set("T-profile", "lengths", 0, "product"),
		"no lengths at all":        set(list{}, "lengths"),
	} {
		wrong := result()
		plant(wrong)
		if holds(t, wrong, claimRuns) {
			t.Errorf("%s: not noticed", name)
		}
	}
}
