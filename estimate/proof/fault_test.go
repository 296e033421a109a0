package proof

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"
)

// set puts a value at a key of the object at a path.
func set(value any, path ...any) func(obj) {
	return func(result obj) {
		last := len(path) - 1
		at(result, path[:last]...)[path[last].(string)] = value
	}
}

// cent raises the amount at a path by one minor unit.
func cent(path ...any) func(obj) {
	return func(result obj) {
		last := len(path) - 1
		holder, key := at(result, path[:last]...), path[last].(string)
		holder[key] = decimal.RequireFromString(holder[key].(string)).Add(decimal.New(1, -2)).StringFixed(2)
	}
}

// drop takes one entry out of a list.
func drop(index int, path ...any) func(obj) {
	return func(result obj) {
		last := len(path) - 1
		holder, key := at(result, path[:last]...), path[last].(string)
		holder[key] = slices.Delete(slices.Clone(holder[key].(list)), index, index+1)
	}
}

// piece replaces a piece of the hall.
func piece(index int, p obj) func(obj) {
	return func(result obj) { at(result, "layouts", 0)["pieces"].(list)[index] = p }
}

func both(changes ...func(obj)) func(obj) {
	return func(result obj) {
		for _, change := range changes {
			change(result)
		}
	}
}

// TestFaultsAreCaught plants one fault in the fixture and names the claims that
// must not hold any more.
func TestFaultsAreCaught(t *testing.T) {
	faults := []struct {
		name   string
		plant  func(obj)
		claims []string
	}{
		// Floors.
		{"joint shifted by 1 mm", piece(1, oblong(1, 2, 1211, 10, 2010, 210, 2, 0)), []string{claimCover, claimFloorArea}},
		{"piece 1 mm into the gap", piece(0, oblong(1, 1, 9, 10, 1209, 210, 1, 0)), []string{claimCover}},
		{"piece twice", func(r obj) {
			h := at(r, "layouts", 0)
			h["pieces"] = append(h["pieces"].(list), h["pieces"].(list)[5])
		}, []string{claimCover, claimPieces, claimFloorArea, claimPoints, claimKerf}},
		{"piece missing", drop(3, "layouts", 0, "pieces"), []string{claimCover, claimFloorArea, claimPoints, claimStock}},
		{"two rows swapped", func(r obj) {
			for i, row := range []int{2, 2, 1, 1} {
				at(r, "layouts", 0, "pieces", i)["row"] = row
			}
		}, []string{claimPieces}},
		{"places in a row swapped", both(set(2, "layouts", 0, "pieces", 0, "seq"), set(1, "layouts", 0, "pieces", 1, "seq")), []string{claimPieces}},
		{"row number left out", both(set(4, "layouts", 0, "pieces", 4, "row"), set(4, "layouts", 0, "pieces", 5, "row")), []string{claimPieces}},
		{"hole ignored", set(list{list{10, 10}, list{400, 10}, list{400, 210}, list{10, 210}}, "layouts", 1, "pieces", 0, "at_mm"),
			[]string{claimCover, claimFloorArea, claimPoints}},
		{"gap wider than laid", set(11, "layouts", 0, "gap_mm"), []string{claimCover}},
		{"direction turned", set(90, "layouts", 0, "direction_deg"), []string{claimCover, claimPoints}},
		{"slanted joint", both(
			set(list{list{10, 10}, list{1211, 10}, list{1209, 210}, list{10, 210}}, "layouts", 0, "pieces", 0, "at_mm"),
			set(list{list{1211, 10}, list{2010, 10}, list{2010, 210}, list{1209, 210}}, "layouts", 0, "pieces", 1, "at_mm")),
			[]string{claimPieces}},
		{"layout unknown", set("X", "rooms", 1, "layout"), []string{claimLayouts}},
		{"rooms of a layout differ", set(list{list{0, 0}, list{2021, 0}, list{2021, 620}, list{0, 620}}, "rooms", 2, "outline_mm"),
			[]string{claimLayouts, claimMirror, claimRooms}},
		{"mirrored room not mirrored", both(set(list{list{list{300, 0}, list{410, 0}, list{410, 100}, list{300, 100}}}, "rooms", 3, "holes_mm"),
			set("S", "rooms", 3, "layout")), []string{claimMirror}},
		{"area misstated", set("1.2525", "rooms", 0, "area_m2"), []string{claimRooms}},
		{"perimeter misstated", set(5281, "rooms", 0, "perimeter_mm"), []string{claimRooms}},
		{"room named twice", set("Hall", "rooms", 1, "room"), []string{claimRooms}},

		// Rules.
		{"stagger under the rule", set(301, "layouts", 0, "rules", "least_stagger"), []string{claimStagger}},
		{"end piece under the rule", set(801, "layouts", 0, "rules", "least_end"), []string{claimEnd}},
		{"rows narrower than the planks", func(r obj) {
			for i := range r["stock"].(list) {
				at(r, "stock", i)["width_mm"] = 210
			}
		}, []string{claimBands, claimHand}},
		{"line between two rows in two places", both(set(list{list{10, 210}, list{810, 210}, list{810, 411}, list{10, 411}}, "layouts", 0, "pieces", 2, "at_mm"),
			set(list{list{10, 411}, list{810, 411}, list{810, 410}, list{1110, 410}, list{1110, 610}, list{10, 610}}, "layouts", 0, "pieces", 4, "at_mm")), []string{claimBands}},
		{"first row under the rule", set(201, "layouts", 0, "rules", "least_row"), []string{claimRow}},
		{"joints in line two rows apart", set(101, "layouts", 0, "rules", "least_line_up"), []string{claimLineUp}},
		{"caution for another room", both(set(301, "layouts", 0, "rules", "least_stagger"),
			set(list{obj{"code": "laying-rule", "apartment": "", "room": "Store", "rule": "stagger"}}, "cautions")), []string{claimStagger}},
		{"caution for another row", both(set(301, "layouts", 0, "rules", "least_stagger"),
			set(list{obj{"code": "laying-rule", "apartment": "", "room": "Hall", "rule": "stagger", "row": 2}}, "cautions")), []string{claimStagger}},
		{"caution for one apartment of two", both(set(301, "layouts", 0, "rules", "least_stagger"),
			set(list{obj{"code": "laying-rule", "apartment": "A1", "room": "Hall", "rule": "stagger"}}, "cautions")), []string{claimStagger}},

		// Planks.
		{"wrong hand", set(list{0, 0, 800, 200}, "layouts", 0, "pieces", 2, "in_stock_mm"), []string{claimHand, claimKerf}},
		{"ripped on the wrong side", set(list{0, 1, 1200, 201}, "layouts", 0, "pieces", 3, "in_stock_mm"), []string{claimHand, claimInPlank}},
		{"kerf eaten", set(list{801, 0, 1191, 200}, "layouts", 1, "pieces", 0, "in_stock_mm"), []string{claimKerf}},
		{"overfull plank", set(5, "layouts", 1, "pieces", 1, "stock"), []string{claimKerf}},
		{"beyond the plank", set(list{811, 0, 1201, 200}, "layouts", 1, "pieces", 0, "in_stock_mm"), []string{claimInPlank}},
		{"cut smaller than the piece", set(list{802, 0, 1191, 200}, "layouts", 1, "pieces", 0, "in_stock_mm"), []string{claimInPlank}},
		{"plank of another pool", set("A2", "stock", 5, "pool"), []string{claimStock}},
		{"unused plank", func(r obj) {
			r["stock"] = append(r["stock"].(list), obj{"product": "OAK", "pool": "A1", "number": 7, "length_mm": 1200, "width_mm": 200})
		}, []string{claimStock, claimLaid}},
		{"plank listed twice", func(r obj) { r["stock"] = append(r["stock"].(list), r["stock"].(list)[0]) }, []string{claimStock, claimLaid}},
		{"layout's planks wrong", set(5, "layouts", 0, "planks"), []string{claimStock}},
		{"planks counted with a room that only uses what is left of them", both(set(5, "layouts", 0, "planks"), set(1, "layouts", 1, "planks"), set(1, "layouts", 2, "planks")), []string{claimStock}},
		{"pool's planks wrong", set(7, "pools", 0, "planks"), []string{claimStock}},
		{"bound raised by 1", set(7, "pools", 0, "lower_bound_planks"), []string{claimPlankBound}},
		{"certificate price raised by 1", set(6, "pools", 0, "certificate", "rows", 0, "price"), []string{claimPlankBound}},
		{"certificate counts a row twice", set(2, "pools", 0, "certificate", "rows", 0, "count"), []string{claimPlankBound}},
		{"certificate counts rows not laid", set(2001, "pools", 0, "certificate", "rows", 0, "row_length_mm"), []string{claimPlankBound}},
		{"values fall", set(0, "pools", 0, "certificate", "values", 2, "weight"), []string{claimPlankBound}},
		{"values over a whole plank", set(4, "pools", 0, "certificate", "values", 2, "weight"), []string{claimPlankBound}},

		// Trims.
		{"bar over-full", set(list{2399, 2}, "trims", 0, "bars", 0, "cuts_mm"), []string{claimBars}},
		{"kerf of a bar eaten", set(list{620, 620, 420, 735}, "trims", 0, "bars", 1, "cuts_mm"), []string{claimBars}},
		{"cut missing", set(list{410}, "trims", 0, "bars", 2, "cuts_mm"), []string{claimLaid}},
		{"bar missing", drop(0, "trims", 0, "bars"), []string{claimLaid, claimBarBound}},
		{"certificate weight raised", set(3, "trims", 0, "certificate", "cuts", 1, "weight"), []string{claimBarBound}},
		{"certificate bar lowered", set(5, "trims", 0, "certificate", "bar"), []string{claimBarBound}},
		{"bar bound raised by 1", set(5, "trims", 0, "lower_bound_bars"), []string{claimBarBound}},
		{"proven without a proof", set(3, "trims", 0, "lower_bound_bars"), []string{claimBarBound}},

		{"no skirting cut at all", both(set(list{}, "lengths"), set(list{}, "trims")), []string{claimRuns}},
		{"room without skirting", func(r obj) {
			r["lengths"] = slices.Delete(slices.Clone(r["lengths"].(list)), 4, 8)
		}, []string{claimCuts, claimRuns}},
		{"wall without skirting", drop(3, "lengths"), []string{claimRuns, claimCuts}},
		{"skirting through a door", set(list{obj{"wall": 1, "from_mm": 500, "width_mm": 800}}, "rooms", 0, "openings"), []string{claimRuns}},
		{"piece of another length", set(2019, "lengths", 0, "length_mm"), []string{claimRuns, claimCuts}},
		{"cut for nobody", both(set(list{620, 620, 420, 410}, "trims", 0, "bars", 1, "cuts_mm"), set(list{410, 420}, "trims", 0, "bars", 2, "cuts_mm"),
			set(list{2020, 2}, "trims", 0, "bars", 0, "cuts_mm")), []string{claimCuts}},
		{"cut in another apartment's pool", set("A2", "lengths", 0, "pool"), []string{claimCuts}},
		{"piece for no room", set("Attic", "lengths", 0, "room"), []string{claimRuns}},

		// Material and orders.
		{"pack one short", both(set("1", "orders", 0, "lines", 0, "quantity"), set("1", "orders", 0, "lines", 0, "packs"),
			set("8", "orders", 0, "lines", 0, "pieces")), []string{claimBought, claimLines}},
		{"packs opened in every apartment, rounded over the job", set("apartment", "job", "pack_rounding"), []string{claimPacks}}, // 6 and a spare each of both kinds: 4 spares
		{"pack short for the places, made up by what is left over", both(set("1", "orders", 0, "lines", 0, "quantity"), set("1", "orders", 0, "lines", 0, "packs"),
			set("14", "orders", 0, "lines", 0, "pieces"), set("7", "orders", 0, "lines", 0, "pieces_per_pack")), []string{claimPacks}},
		{"a spare less", both(set(area(240_000), "materials", 0, "spare"), set(area(720_000), "materials", 0, "left_over")), []string{claimPacks}},
		{"attic stock for breakage", set(area(480_000), "materials", 0, "attic"), []string{claimPacks}},
		{"breakage forgotten", set("0", "job", "breakage_pct"), []string{claimPacks}},
		{"off-cuts carried from room to room", set("room", "job", "offcut_sharing"), []string{claimSharing}},
		{"off-cuts carried to a place unknown", set("street", "job", "offcut_sharing"), []string{claimSharing}},
		{"packs opened room by room, off-cuts not", set("room", "job", "pack_rounding"), []string{claimPacks}},
		{"more attic stock than spares", set(area(480_000)+1, "materials", 0, "attic"), []string{claimAccount}},
		{"spare forgotten", set(0, "materials", 0, "spare"), []string{claimAccount}},
		{"waste as left over", both(set(area(190_000-1), "materials", 0, "waste"), set(area(480_000+1), "materials", 0, "left_over")), []string{claimLaid}},
		{"one unit laid more", both(set(area(2_690_000)+1, "materials", 0, "laid"), set(area(190_000)-1, "materials", 0, "waste")), []string{claimLaid}},
		{"material missing", drop(1, "materials"), []string{claimBought}},
		{"pieces are not the packs", set("15", "orders", 0, "lines", 0, "pieces"), []string{claimLines, claimBought}},
		{"quantity misread", set("1.201", "quantities", 0, "quantity"), []string{claimQuantities, claimLabour}},
		{"use moved to another room", both(set(area(1_200_001), "uses", 0, "amount"), set(area(144_999), "uses", 1, "amount")), []string{claimLaid}},
		{"use in no room of the file", set("Attic", "uses", 1, "room"), []string{claimLaid}},
		{"quantity in no room of the file", set("Attic", "quantities", 2, "room"), []string{claimQuantities}},
		{"work not measured", set("POLISH", "labour", 0, "operation"), []string{claimLabour}},
		{"cut from goods not accounted for", set("PLINTH", "trims", 0, "product"), []string{claimLaid}},
		{"film laid by another width", set(area(2_400), "materials", 1, "piece"), []string{claimLaid, claimBought}},
		{"costs do not add up", cent("costs", 1, "amount"), []string{claimLadder}},
		{"wrong price break", set("7.90", "orders", 0, "lines", 1, "price"), []string{claimLines}},
		{"discount forgotten", set("0", "orders", 0, "lines", 1, "discount_pct"), []string{claimLines}},
		{"delivery though free", set("100", "orders", 0, "free_from"), []string{claimOrders}},
		{"tax rate changed", set("21", "orders", 0, "lines", 0, "tax_pct"), []string{claimOrders}},
		{"purchase tax taken as a cost", set(true, "price", "purchase_tax_is_cost"), []string{claimLadder}},

		// Programme and deliveries. Steps: 0 preparation, then of A1 1 hold point, 2
		// delivery, 3 acclimatisation, 4 laying, and the same of A2.
		{"crew in two places", both(set("2", "programme", 8, "start_worked_h"), set("3", "programme", 8, "end_worked_h")), []string{claimCrews}},
		{"crew that is not there", set(2, "programme", 8, "crew"), []string{claimCrews}},
		{"work on a holiday", both(set("2027-01-13", "programme", 8, "start"), set("2027-01-13", "programme", 8, "end")), []string{claimDays, claimSteps}},
		{"work on a Sunday", both(set("2027-01-17", "programme", 8, "start"), set("2027-01-17", "programme", 8, "end")), []string{claimDays}},
		{"shorter than its hours", set("3.4", "programme", 8, "end_worked_h"), []string{claimDays}},
		{"longer than a day", both(set("7.5", "programme", 8, "start_worked_h"), set("8.5", "programme", 8, "end_worked_h")), []string{claimDays}},
		{"dried too short", set("2027-01-13", "programme", 3, "end"), []string{claimDays}},
		{"acclimatised too short", both(set("24", "programme", 3, "hours"), set("2027-01-13", "programme", 3, "end")), []string{claimSteps}},
		{"laid before the goods are used to it", both(set("1.4", "programme", 4, "start_worked_h"), set("2.4", "programme", 4, "end_worked_h")), []string{claimSteps}},
		{"steps in another order", both(set("laying", "programme", 3, "step"), set("acclimatisation", "programme", 4, "step")), []string{claimSteps}},
		{"step twice", set("laying", "programme", 2, "step"), []string{claimSteps}},
		{"work left out", drop(4, "programme"), []string{claimHours}},
		{"work of nobody's", set("C9", "programme", 8, "apartment"), []string{claimHours}},
		{"bound beaten", set("2027-01-15", "calendar", "lower_bound_finish"), []string{claimDays}},
		{"finish misstated", set("2027-01-15", "calendar", "finish"), []string{claimDays}},
		{"steps without a calendar", set(nil, "calendar"), []string{claimDays}},
		{"floor over-full", set("47", "calendar", "floor_storage_kg"), []string{claimStorage}},
		{"floor over-full with two apartments' goods", both(set("47", "calendar", "floor_storage_kg"), set(list{obj{"code": "floor-full"}}, "cautions")), []string{claimStorage}},
		{"goods come late", set("2027-01-14", "deliveries", 0, "on_site"), []string{claimDeliveries}},
		{"ordered a day late", set("2027-01-08", "deliveries", 0, "order_by"), []string{claimDeliveries}},
		{"ordered on a Sunday", both(set("2027-01-10", "deliveries", 0, "order_by"), set(1, "deliveries", 0, "lines", 0, "lead_days"),
			set(1, "deliveries", 0, "lines", 1, "lead_days"), set(1, "deliveries", 0, "lines", 2, "lead_days"), set(1, "deliveries", 0, "lines", 3, "lead_days")), []string{claimDeliveries}},
		{"order needed a day late", set("2027-01-13", "orders", 0, "needed_by"), []string{claimOrderDates}},
		{"order placed a day late", set("2027-01-08", "orders", 0, "order_by"), []string{claimOrderDates}},
		{"order of another part", set("phase 2", "orders", 0, "for"), []string{claimOrderDates}},
		{"more brought than ordered", set("2", "deliveries", 0, "lines", 0, "quantity"), []string{claimDeliveries}},

		// Labour, extras, price, shares.
		{"hours changed", set("0.67", "labour", 0, "hours"), []string{claimLabour}},
		{"wage changed", set("25", "labour", 0, "wage"), []string{claimLabour}},
		{"least hours not reached", drop(2, "labour"), []string{claimLabour, claimLadder}},
		{"more added than least hours miss", set("0.27", "labour", 2, "hours"), []string{claimLabour}},
		{"labour line twice", func(r obj) { r["labour"] = append(r["labour"].(list), r["labour"].(list)[0]) }, []string{claimLabour, claimLadder}},
		{"extra for three apartments", set(3, "extras", 1, "times"), []string{claimExtras}},
		{"profit basis changed", set("on cost", "price", "profit_basis"), []string{claimLadder}},
		{"price not at a step", both(set("599.81", "price", "net"), set("89.97", "price", "profit")), []string{claimLadder}},
		{"room share moved", both(cent("room_shares", 0, "material"), cent("room_shares", 0, "price"),
			set("16.98", "room_shares", 1, "material"), set("39.54", "room_shares", 1, "price")), []string{claimShares}},
		{"overhead moved between rooms", both(set("3.05", "room_shares", 1, "overhead"), set("39.54", "room_shares", 1, "price"),
			set("3.06", "room_shares", 3, "overhead"), set("39.55", "room_shares", 3, "price")), []string{claimShares, claimApartments}},
		{"room not charged", drop(3, "room_shares"), []string{claimShareSums, claimShares}},
		{"apartment missing", drop(1, "by_apartment"), []string{claimApartments}},
		{"currency unknown", set("ZZZ", "job", "currency"), []string{claimAmounts}},
		{"currency without cents", set("JPY", "job", "currency"), []string{claimAmounts}},
		{"amount finer than a cent", set("55.860001", "orders", 0, "lines", 1, "net"), []string{claimAmounts, claimLines}},
		{"own check fails", set(false, "checks", 0, "ok"), []string{claimOwnChecks}},
	}
	for _, fault := range faults {
		t.Run(fault.name, func(t *testing.T) {
			result := fixture()
			fault.plant(result)
			expectFailures(t, check(t, result), fault.claims)
		})
	}
}

// expectFailures wants at least the named claims to fail, and nothing to pass.
func expectFailures(t *testing.T, report Report, names []string) {
	t.Helper()
	if report.OK() {
		t.Fatal("the fault was not noticed")
	}
	for _, name := range names {
		i := slices.IndexFunc(report.Claims, func(c Claim) bool { return c.Name == name })
		if c := report.Claims[i]; c.OK || c.Place == "" || c.Detail == "" || c.Left == "" {
			t.Errorf("%q holds or says too little: %+v", name, c)
		}
	}
	if t.Failed() {
		for _, c := range report.Claims {
			if !c.OK {
				t.Logf("failed: %s: %s", c.Name, c.Detail)
			}
		}
	}
}

// TestOneCentIsNoticed raises every amount of the fixture by a cent, one at a
// time.
func TestOneCentIsNoticed(t *testing.T) {
	paths := [][]any{
		{"orders", 0, "lines", 0, "net"}, {"orders", 0, "lines", 1, "net"}, {"orders", 0, "goods"}, {"orders", 0, "delivery"},
		{"orders", 0, "supplement"}, {"orders", 0, "net"}, {"orders", 0, "taxes", 0, "base"}, {"orders", 0, "taxes", 1, "tax"},
		{"orders", 0, "tax"}, {"orders", 0, "gross"}, {"extras", 0, "amount"}, {"extras", 1, "amount"},
	}
	for i := range 7 {
		paths = append(paths, []any{"labour", i, "cost"})
	}
	for _, key := range []string{"material", "labour", "other", "material_contingency", "labour_contingency", "other_contingency",
		"contingency", "overhead", "cost", "profit", "net", "tax", "gross", "retention", "margin", "markup"} {
		paths = append(paths, []any{"price", key})
	}
	for _, key := range columns {
		for i := range 4 {
			paths = append(paths, []any{"room_shares", i, key})
		}
	}
	for _, key := range []string{"material", "labour", "other", "price"} {
		paths = append(paths, []any{"by_apartment", 0, key}, []any{"by_apartment", 1, key})
	}
	for _, path := range paths {
		result := fixture()
		cent(path...)(result)
		if check(t, result).OK() {
			t.Errorf("a cent more at %v was not noticed", path)
		}
	}
}

// TestOneApartmentMayFillAFloor accepts goods above what a floor can store where
// they are one apartment's and a caution says so.
func TestOneApartmentMayFillAFloor(t *testing.T) {
	result := fixture()
	at(result, "calendar")["floor_storage_kg"] = "10"
	lines := at(result, "deliveries", 0)
	lines["lines"] = lines["lines"].(list)[:1] // 20 kg for A1
	expectFailures(t, check(t, result), []string{claimStorage})
	result["cautions"] = list{obj{"code": "floor-full", "apartment": "A1"}}
	if report := check(t, result); !report.OK() {
		expectFailures(t, report, nil)
		t.Error("a full floor with its caution is not accepted")
	}
}

// TestExcusedRules accepts a rule not kept where a caution or a problem names
// room, rule and rows. Joints lie at 1210, 810 and 1110: rows 2 and 3 are 300
// apart, rows 1 and 3 are 100; row 1 ends with 800.
func TestExcusedRules(t *testing.T) {
	rules := []struct {
		name, rule string
		least      int
		rows       []int
	}{{"end", "least_end", 801, []int{1, 2}}, {"stagger", "least_stagger", 301, []int{3}}, {"row", "least_row", 201, []int{1, 3}}, {"line-up", "least_line_up", 101, []int{3}}}
	for _, rule := range rules {
		for _, where := range []string{"cautions", "problems"} {
			result := fixture()
			at(result, "layouts", 0, "rules")[rule.rule] = rule.least
			var named list
			for _, row := range rule.rows {
				named = append(named, obj{"code": "laying-rule", "apartment": "", "type": "T", "room": "Hall", "rule": rule.name, "row": row})
			}
			result[where] = named
			if report := check(t, result); !report.OK() {
				expectFailures(t, report, nil)
				t.Errorf("%s in %s is not accepted", rule.name, where)
			}
		}
	}
}
