package proof

import "testing"

// dividedRoom is a room of 2020 x 620 mm in two fields, an expansion profile of
// 620 mm at 1010. Inside the gap of 10 mm each field is 990 x 600 mm: three rows
// of one piece, each from a plank of its own.
func dividedRoom() obj {
	square := func(x0, x1 int) obj {
		return obj{"outline_mm": list{list{x0, 0}, list{x1, 0}, list{x1, 620}, list{x0, 620}}, "holes_mm": list{}}
	}
	var pieces, stock list
	for row := 1; row <= 6; row++ {
		x0, y0 := 10, 10+(row-1)*200
		if row > 3 {
			x0, y0 = 1020, 10+(row-4)*200
		}
		pieces = append(pieces, oblong(row, 1, x0, y0, x0+990, y0+200, row, 0))
		stock = append(stock, obj{"product": "OAK", "pool": "P", "number": row, "length_mm": 1200, "width_mm": 200})
	}
	l := layout("L", 6, pieces)
	l["rules"] = obj{"longest_run": 1500, "least_row": 50}
	return obj{
		"schema": Schema, "job": obj{"currency": "EUR"},
		"rooms": list{obj{"apartment": "", "type": "T", "room": "R", "outline_mm": list{list{0, 0}, list{2020, 0}, list{2020, 620}, list{0, 620}},
			"fields": list{square(0, 1010), square(1010, 2020)}, "layout": "L", "pool": "P"}},
		"layouts": list{l}, "stock": stock,
		"pools":   list{obj{"product": "OAK", "pool": "P", "planks": 6}},
		"lengths": list{obj{"apartment": "", "type": "T", "room": "R", "product": "EXP", "pool": "P", "for": "expansion profiles", "run_mm": 620, "length_mm": 620}},
		"quantities": list{
			obj{"apartment": "", "type": "T", "room": "R", "item": "EXP", "measured_by": "expansion profiles", "factor": "1", "quantity": "0.62", "unit": "m"},
			obj{"apartment": "", "type": "T", "room": "R", "item": "OAK", "measured_by": "laid area", "factor": "1", "quantity": "1.188", "unit": "m2"}, // 2 x 0.99 x 0.6
		},
	}
}

// TestFieldsAreProven holds the divided room against the claims on floors, and
// plants one fault at a time.
func TestFieldsAreProven(t *testing.T) {
	claims := append([]string{claimFields, claimRun, claimRow, claimPlankBound, claimQuantities, claimRuns}, floorClaimNames...)
	faults := []struct {
		name   string
		plant  func(obj)
		claims []string
	}{
		{"none", func(obj) {}, nil},
		{"fields left out", set(nil, "rooms", 0, "fields"), []string{claimRun, claimCover, claimFloorArea, claimPoints, claimQuantities, claimRuns}},
		{"profile misstated", set("0.621", "quantities", 0, "quantity"), []string{claimQuantities}},
		{"profile cut short", set(619, "lengths", 0, "length_mm"), []string{claimRuns}},
		{"profile left out", set(list{}, "lengths"), []string{claimRuns}},
		{"longer than the rule", set(1009, "layouts", 0, "rules", "longest_run"), []string{claimRun}},
		{"longer than the rule, named", both(set(1009, "layouts", 0, "rules", "longest_run"),
			set(list{obj{"code": "long-run", "apartment": "", "room": "R", "rule": "run"}}, "cautions")), nil},
		{"floor in no field", set(list{list{1010, 0}, list{2019, 0}, list{2019, 620}, list{1010, 620}}, "rooms", 0, "fields", 1, "outline_mm"),
			[]string{claimFields, claimCover, claimFloorArea}},
		{"floor in two fields", set(list{list{1009, 0}, list{2020, 0}, list{2020, 620}, list{1009, 620}}, "rooms", 0, "fields", 1, "outline_mm"),
			[]string{claimFields, claimCover, claimFloorArea, claimQuantities, claimRuns}},
		{"field beyond the walls", set(list{list{1010, 0}, list{2021, 0}, list{2021, 620}, list{1010, 620}}, "rooms", 0, "fields", 1, "outline_mm"),
			[]string{claimFields, claimCover, claimFloorArea}},
		{"piece in the profile's gap", func(r obj) {
			at(r, "layouts", 0)["pieces"].(list)[0] = oblong(1, 1, 10, 10, 1001, 210, 1, 0)
		}, []string{claimCover, claimFloorArea, claimQuantities}},
		{"piece in no field", func(r obj) {
			at(r, "layouts", 0)["pieces"].(list)[0] = oblong(1, 1, 3010, 10, 4000, 210, 1, 0)
		}, []string{claimCover, claimPoints}},
		{"first row of the second field under the rule", func(r obj) {
			at(r, "layouts", 0, "rules")["least_row"] = 201
		}, []string{claimRow}},
		{"bound of the room raised", func(r obj) { at(r, "layouts", 0)["lower_bound_planks"] = 7 }, []string{claimPlankBound}},
	}
	for _, fault := range faults {
		result := dividedRoom()
		fault.plant(result)
		report := check(t, result)
		want := map[string]bool{}
		for _, name := range fault.claims {
			want[name] = true
		}
		for _, name := range claims {
			if c := claimOf(t, report, name); c.OK == want[name] {
				t.Errorf("%s: %s holds: %v (%s)", fault.name, name, c.OK, c.Detail)
			}
		}
	}
}
