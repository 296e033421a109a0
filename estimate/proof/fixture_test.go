package proof

import (
	"bytes"
	"encoding/json"
	"testing"
)

// obj and list are a JSON object and list under construction.
type (
	obj  = map[string]any
	list = []any
)

// A small result worked by hand. Two apartments of one type, A2 mirrored, each
// with a hall of 2020 x 620 mm and a store of 410 x 420 mm with a column of
// 110 x 100 mm in a corner. Planks 1200 x 200 mm, gap 10 mm, kerf 2 mm.
//
// Hall inside the gap: 2000 x 600 mm, three rows
//
//	row 1: 1200 (plank 1, whole)  800 (plank 2, left end)   joint at 1210
//	row 2:  800 (plank 3, right) 1200 (plank 4, whole)      joint at  810
//	row 3: 1100 (plank 5, right)  900 (plank 6, left end)   joint at 1110
//
// Store inside the gap: 390 x 400 mm less 110 x 100 mm, two rows of one piece
// each: from the rest of plank 2 (800 + 2 + 390 <= 1200) and of plank 3.
//
// Areas in mm2: hall 1 200 000, store 156 000 - 11 000 = 145 000, both
// apartments 2 690 000. 12 planks cut = 2 880 000, waste 190 000. Two packs of
// 8 = 3 840 000: 2 spare (12 x 4 % for breakage, 12 x 5 % as attic stock, one
// plank each) and 2 left over, 480 000 each.
//
// Lower bound of a pool: 1 345 000 / 240 000 = 5.6, so 6 planks. The values of
// the certificate, a third of a plank for every 400 mm, price a row of 2000 mm
// at 5 thirds: 5 planks.
//
// Skirting bars of 2400 mm, kerf 2: 2020, 2020, 620 620 420 420 (2086 with
// kerfs), 410 410. Weights 2020: 6, 620: 2, 420 and 410: 1 add up to 20, and no
// bar holds more than 6 (of 620 620 420 420 410 410, 2912 with a kerf each, 510
// must go: 620 or two smaller ones): at least 20/6, so 4 bars.

// store is the fixture's floor of the store with a column at x0..x1.
func store(apartment, layout string, mirrored bool, x0, x1 int) obj {
	return obj{
		"apartment": apartment, "type": "T", "room": "Store", "floor": "1", "block": "N",
		"outline_mm": list{list{0, 0}, list{410, 0}, list{410, 420}, list{0, 420}},
		"holes_mm":   list{list{list{x0, 0}, list{x1, 0}, list{x1, 100}, list{x0, 100}}},
		"area_m2":    "0.1612", "perimeter_mm": 1660, "layout": layout, "pool": apartment, "mirrored": mirrored,
	}
}

func hall(apartment string, mirrored bool) obj {
	return obj{
		"apartment": apartment, "type": "T", "room": "Hall", "floor": "1", "block": "N",
		"outline_mm": list{list{0, 0}, list{2020, 0}, list{2020, 620}, list{0, 620}}, "holes_mm": list{},
		"area_m2": "1.2524", "perimeter_mm": 5280, "layout": "H", "pool": apartment, "mirrored": mirrored,
	}
}

func layout(id string, planks int, pieces list) obj {
	return obj{
		"id": id, "product": "OAK", "kind": "plank", "direction_deg": 0, "gap_mm": 10, "kerf_mm": 2, "joint": "click",
		"rules":  obj{"least_end": 250, "least_stagger": 250, "least_row": 50, "least_line_up": 50},
		"planks": planks, "lower_bound_planks": nil, "certificate": nil, "pieces": pieces,
	}
}

// oblong is a rectangular piece whose plank begins at s0.
func oblong(row, seq, x0, y0, x1, y1, stock, s0 int) obj {
	return obj{
		"row": row, "seq": seq, "at_mm": list{list{x0, y0}, list{x1, y0}, list{x1, y1}, list{x0, y1}},
		"stock": stock, "in_stock_mm": list{s0, 0, s0 + x1 - x0, y1 - y0},
	}
}

func hallPieces() list {
	return list{
		oblong(1, 1, 10, 10, 1210, 210, 1, 0), oblong(1, 2, 1210, 10, 2010, 210, 2, 0),
		oblong(2, 1, 10, 210, 810, 410, 3, 400), oblong(2, 2, 810, 210, 2010, 410, 4, 0),
		oblong(3, 1, 10, 410, 1110, 610, 5, 100), oblong(3, 2, 1110, 410, 2010, 610, 6, 0),
	}
}

// storePieces is the store's rows; notched goes round the column.
func storePieces(notched list) list {
	first := oblong(1, 1, 10, 10, 400, 210, 2, 802)
	first["at_mm"] = notched
	return list{first, oblong(2, 1, 10, 210, 400, 410, 3, 0)}
}

func poolFixture(name string) obj {
	return obj{
		"product": "OAK", "pool": name, "planks": 6, "lower_bound_planks": 6,
		"certificate": obj{
			"plank": 3,
			"values": list{
				obj{"from_mm": 400, "weight": 1}, obj{"from_mm": 800, "weight": 2}, obj{"from_mm": 1200, "weight": 3},
			},
			"rows": list{
				obj{"row_length_mm": 2000, "count": 1, "price": 5},
				obj{"row_length_mm": 2000, "edges": "far", "count": 1, "price": 5},
				obj{"row_length_mm": 2000, "edges": "near", "count": 1, "price": 5},
			},
		},
	}
}

func trimFixture(name string) obj {
	return obj{
		"product": "SKIRT", "pool": name, "stock_length_mm": 2400, "kerf_mm": 2,
		"bars": list{
			obj{"cuts_mm": list{2020}, "count": 2},
			obj{"cuts_mm": list{620, 620, 420, 420}, "count": 1},
			obj{"cuts_mm": list{410, 410}, "count": 1},
		},
		"lower_bound_bars": 4, "proven": true,
		"certificate": obj{"bar": 6, "cuts": list{
			obj{"length_mm": 2020, "weight": 6}, obj{"length_mm": 620, "weight": 2},
			obj{"length_mm": 420, "weight": 1}, obj{"length_mm": 410, "weight": 1},
		}},
	}
}

// lengthsFixture is an apartment's skirting: every wall in one piece.
func lengthsFixture(apartment string) list {
	var all list
	for _, room := range []struct {
		name          string
		length, width int
	}{{"Hall", 2020, 620}, {"Store", 410, 420}} {
		for wall, l := range []int{room.length, room.width, room.length, room.width} {
			all = append(all, obj{"apartment": apartment, "room": room.name, "product": "SKIRT", "pool": apartment, "for": "skirting",
				"wall": wall + 1, "run_mm": l, "length_mm": l})
		}
	}
	return all
}

// area and span are materials' units: squares of 1/320 mm and 1/320 mm.
func area(mm2 int) int { return mm2 * unit * unit }
func span(mm int) int  { return mm * unit }

// fixture is the whole result. Order, in EUR:
//
//	OAK   2 packs x 1.92 m2 x 31.27 less 5 %  = 114.07296  114.07  tax 20 %
//	SKIRT 8 x 7.35 less 5 %                                 55.86  tax  5 %
//	goods 169.93, delivery 25.00 (free from 500), up to the minimum of 200: 30.07
//	net 225.00; tax 5 % of 55.86 = 2.79, 20 % of 114.07 + 55.07 = 33.83: 36.62
//
// Labour at 24.50 + 30 %, 0.55 h/m2, at least 1 h an apartment: hall 0.66 h
// 21.02, store 0.08 h 2.55, added 0.26 h 8.28; setting up 1.5 h 47.78;
// 2 x 31.85 + 47.78 = 111.48. Extras: skip 90.00, lift 2 x 12.345 = 24.69.
//
//	225.00 + 111.48 + 114.69 = 451.17; contingency 3 % 6.75, 5 % 5.57, 0: 12.32
//	overhead 10 % of 463.49 = 46.35; cost 509.84
//	profit 15 % of the price: 509.84 / 0.85 = 599.81, to the nearest 5: 600.00
//	profit 90.16 (15.03 % of price, 17.68 % of cost); tax 120.00; retention 36.00
func fixture() obj {
	return obj{
		"schema": Schema,
		"job":    obj{"name": "Two flats", "currency": "EUR", "offcut_sharing": "apartment", "pack_rounding": "job", "breakage_pct": "4", "attic_pct": "5"},
		"rooms": list{
			hall("A1", false), store("A1", "S", false, 300, 410),
			hall("A2", true), store("A2", "SM", true, 0, 110),
		},
		"layouts": list{
			layout("H", 6, hallPieces()),
			layout("S", 0, storePieces(list{
				list{10, 10}, list{290, 10}, list{290, 110}, list{400, 110}, list{400, 210}, list{10, 210}})),
			layout("SM", 0, storePieces(list{
				list{120, 10}, list{400, 10}, list{400, 210}, list{10, 210}, list{10, 110}, list{120, 110}})),
		},
		"stock": append(stockFixture("A1"), stockFixture("A2")...),
		"pools": list{poolFixture("A1"), poolFixture("A2")},
		"trims": list{trimFixture("A1"), trimFixture("A2")}, "lengths": append(lengthsFixture("A1"), lengthsFixture("A2")...),
		"materials": list{
			obj{"product": "OAK", "unit": "area", "bought": area(3_840_000), "laid": area(2_690_000), "spare": area(480_000), "attic": area(240_000),
				"returned": 0, "left_over": area(480_000), "waste": area(190_000), "piece": area(240_000)},
			obj{"product": "SKIRT", "unit": "length", "bought": span(19_200), "laid": span(13_880), "spare": 0,
				"returned": 0, "left_over": 0, "waste": span(5_320), "piece": span(2_400)},
		},
		"quantities": quantitiesFixture(),
		"uses":       usesFixture(),
		"orders":     list{orderFixture()},
		"labour":     labourFixture(),
		"calendar":   calendarFixture(),
		"programme":  programmeFixture(),
		"deliveries": list{deliveryFixture()},
		"extras": list{
			obj{"description": "Skip", "per": "job", "times": 1, "quantity": "1", "unit_cost": "90", "amount": "90.00"},
			obj{"description": "Lift", "per": "apartment", "times": 2, "quantity": "1", "unit_cost": "12.345", "amount": "24.69"},
		},
		"costs": list{obj{"category": "prime", "amount": "451.17"}, obj{"category": "on top", "amount": "58.67"}}, // 12.32 + 46.35
		"price": obj{
			"purchase_tax_is_cost": false, "material": "225.00", "labour": "111.48", "other": "114.69",
			"material_contingency_pct": "3", "labour_contingency_pct": "5", "other_contingency_pct": "0",
			"material_contingency": "6.75", "labour_contingency": "5.57", "other_contingency": "0.00", "contingency": "12.32",
			"overhead_pct": "10", "overhead": "46.35", "cost": "509.84",
			"profit_pct": "15", "profit_basis": "on price", "price_step": "5", "profit": "90.16", "net": "600.00",
			"tax_pct": "20", "tax": "120.00", "gross": "720.00", "retention_pct": "5", "retention": "36.00",
			"margin": "0.1503", "markup": "0.1768",
		},
		"room_shares": sharesFixture(),
		"by_apartment": list{
			obj{"apartment": "A1", "material": "112.50", "labour": "55.74", "other": "57.35", "price": "300.01"},
			obj{"apartment": "A2", "material": "112.50", "labour": "55.74", "other": "57.34", "price": "299.99"},
		},
		"cautions": list{}, "problems": list{},
		"checks": list{obj{"name": "planks", "ok": true, "left": "12", "right": "12"}},
	}
}

// calendarFixture starts on Monday the 11th; Wednesday the 13th is a holiday.
func calendarFixture() obj {
	return obj{
		"working_days": list{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday"}, "holidays": list{"2027-01-13"},
		"crews": 1, "crew_size": 1, "hours_a_day": "8", "floor_storage_kg": "50", "finish": "2027-01-14", "lower_bound_finish": "2027-01-14",
	}
}

// programmeFixture sets up for 1.5 h on Monday. The tests of both apartments lie
// from then to Tuesday, the goods for 48 hours to Thursday; then each is laid in
// 1 h (0.66 + 0.08 + 0.26).
func programmeFixture() list {
	step := func(apartment, name string, crew any, hours, start, startWorked, end, endWorked string) obj {
		return obj{"apartment": apartment, "room": nil, "step": name, "crew": crew, "hours": hours,
			"start": "2027-01-" + start, "start_worked_h": startWorked, "end": "2027-01-" + end, "end_worked_h": endWorked}
	}
	all := list{step("", "preparation", 1, "1.5", "11", "0", "11", "1.5")}
	for i, apartment := range []string{"A1", "A2"} {
		from, until := []string{"1.5", "2.5"}[i], []string{"2.5", "3.5"}[i]
		all = append(all,
			step(apartment, "hold point", nil, "24", "11", "1.5", "12", "1.5"), step(apartment, "delivery", nil, "0", "12", "1.5", "12", "1.5"),
			step(apartment, "acclimatisation", nil, "48", "12", "1.5", "14", "1.5"), step(apartment, "laying", 1, "1", "14", from, "14", until))
	}
	return all
}

// deliveryFixture is 2 x 20 kg of planks and 2 x 4 kg of skirting on Tuesday the
// 12th. Three working days before it are Monday, Friday and Thursday the 7th.
func deliveryFixture() obj {
	line := func(apartment, product, quantity, kg string, acclimatisation int) obj {
		return obj{"apartment": apartment, "room": nil, "product": product, "quantity": quantity, "weight_kg": kg, "needed_by": "2027-01-12",
			"until": "2027-01-14", "lead_days": 3, "acclimatisation_h": acclimatisation}
	}
	return obj{"supplier": "TIMBER", "block": "N", "floor": "1", "on_site": "2027-01-12", "order_by": "2027-01-07",
		"lines": list{line("A1", "OAK", "1", "20", 48), line("A1", "SKIRT", "4", "4", 0), line("A2", "OAK", "1", "20", 48), line("A2", "SKIRT", "4", "4", 0)}}
}

func stockFixture(pool string) list {
	var stock list
	for number := 1; number <= 6; number++ {
		stock = append(stock, obj{"product": "OAK", "pool": pool, "number": number, "length_mm": 1200, "width_mm": 200})
	}
	return stock
}

func quantitiesFixture() list {
	var all list
	for _, apartment := range []string{"A1", "A2"} {
		all = append(all,
			obj{"apartment": apartment, "room": "Hall", "item": "LAY", "measured_by": "laid area", "factor": "1", "quantity": "1.2", "unit": "m2"},
			obj{"apartment": apartment, "room": "Store", "item": "LAY", "measured_by": "laid area", "factor": "1", "quantity": "0.145", "unit": "m2"},
			obj{"apartment": apartment, "room": "Hall", "item": "FELT", "measured_by": "floor area", "factor": "1", "waste_pct": "4",
				"quantity": "1.3025", "unit": "m2"}, // 1.2524 x 1.04 = 1.302496
		)
	}
	all = append(all, obj{"apartment": "", "room": nil, "item": "SETUP", "measured_by": "fixed", "quantity": "1", "unit": "each"})
	for _, apartment := range []string{"A1", "A2"} {
		for _, of := range [][2]string{{"Hall", "5.28"}, {"Store", "1.66"}} {
			all = append(all, obj{"apartment": apartment, "room": of[0], "item": "SKIRT", "measured_by": "skirting", "factor": "1", "quantity": of[1], "unit": "m"})
		}
	}
	return all
}

func usesFixture() list {
	var all list
	for _, apartment := range []string{"A1", "A2"} {
		all = append(all,
			obj{"apartment": apartment, "room": "Hall", "product": "OAK", "amount": area(1_200_000)},
			obj{"apartment": apartment, "room": "Store", "product": "OAK", "amount": area(145_000)},
			obj{"apartment": apartment, "room": "Hall", "product": "SKIRT", "amount": span(5280)},
			obj{"apartment": apartment, "room": "Store", "product": "SKIRT", "amount": span(1660)},
		)
	}
	return all
}

func orderFixture() obj {
	return obj{
		"supplier": "TIMBER", "needed_by": "2027-01-12", "order_by": "2027-01-07", "number": "1",
		"lines": list{
			obj{"product": "OAK", "quantity": "2", "sold_by": "pack", "packs": "2", "pieces_per_pack": "8", "pieces": "16",
				"price": "31.27", "price_per": "m2", "units_per_sold": "1.92", "discount_pct": "5", "net": "114.07", "tax_pct": "20"},
			obj{"product": "SKIRT", "quantity": "8", "sold_by": "piece", "pieces": "8", "price": "7.35", "price_per": "piece",
				"list_price": "7.90", "breaks": list{obj{"from_quantity": "5", "price": "7.35"}, obj{"from_quantity": "50", "price": "7"}},
				"discount_pct": "5", "net": "55.86", "tax_pct": "5"},
		},
		"goods": "169.93", "minimum_order": "200", "delivery_charge": "25", "free_from": "500",
		"delivery": "25.00", "supplement": "30.07", "net": "225.00",
		"taxes": list{
			obj{"tax_pct": "5", "base": "55.86", "tax": "2.79"},
			obj{"tax_pct": "20", "base": "169.14", "tax": "33.83"},
		},
		"tax": "36.62", "gross": "261.62",
	}
}

func labourFixture() list {
	var all list
	for _, apartment := range []string{"A1", "A2"} {
		line := func(room any, quantity, hours, cost string) obj {
			return obj{"apartment": apartment, "room": room, "operation": "LAY", "trade": "fitter", "quantity": quantity,
				"hours_per_unit": "0.55", "least_hours": "1", "hours": hours, "wage": "24.50", "burden_pct": "30", "cost": cost}
		}
		all = append(all, line("Hall", "1.2", "0.66", "21.02"), line("Store", "0.145", "0.08", "2.55"), line(nil, "0", "0.26", "8.28"))
	}
	return append(all, obj{"apartment": "", "room": nil, "operation": "SETUP", "trade": "fitter", "quantity": "1",
		"hours_per_unit": "1.5", "hours": "1.5", "wage": "24.50", "burden_pct": "30", "cost": "47.78"})
}

// sharesFixture is the rooms' shares. Material: OAK bears 114.07 + 36.97 of the
// charges of 55.07 = 151.04, SKIRT 55.86 + 18.10 = 73.96; by 1200 : 145 a hall
// takes 67.38, a store 8.14; by 5280 : 1660 a hall 28.13, a store 8.85. Labour:
// own lines, then 8.28 by 1252.4 : 161.2 is 7.34 and 0.94, 47.78 over both
// apartments 21.17 and 2.72. Other: skip 39.87 and 5.13; lift 12.35 for A1
// (10.94, 1.41) and 12.34 for A2 (10.93, 1.41). The rest by 195.85, 29.74,
// 195.84, 29.74.
func sharesFixture() list {
	share := func(apartment, room string, amounts ...string) obj {
		s := obj{"apartment": apartment, "room": room}
		for i, name := range columns {
			s[name] = amounts[i]
		}
		return s
	}
	return list{
		share("A1", "Hall", "95.51", "49.53", "50.81", "5.35", "20.12", "39.14", "260.46"),
		share("A1", "Store", "16.99", "6.21", "6.54", "0.81", "3.06", "5.94", "39.55"),
		share("A2", "Hall", "95.51", "49.53", "50.80", "5.35", "20.12", "39.14", "260.45"),
		share("A2", "Store", "16.99", "6.21", "6.54", "0.81", "3.05", "5.94", "39.54"),
	}
}

// check runs the proof on a result under construction.
func check(t *testing.T, result obj) Report {
	t.Helper()
	text, err := json.Marshal(result)
	if err != nil {
		t.Fatal(err)
	}
	report, err := Check(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return report
}

// at walks to the object at a path of keys and indexes.
func at(result obj, path ...any) obj {
	var here any = result
	for _, step := range path {
		switch s := step.(type) {
		case string:
			here = here.(obj)[s]
		case int:
			here = here.(list)[s]
		}
	}
	return here.(obj)
}

func TestFixtureHolds(t *testing.T) {
	report := check(t, fixture())
	for _, claim := range report.Claims {
		if !claim.OK {
			t.Errorf("%s: %s", claim.Name, claim.Detail)
		}
	}
	want := Report{Rooms: 4, Layouts: 3, Floors: 4, Pieces: 16, Planks: 12, Bars: 8, Orders: 1, OrderLines: 2, LabourLines: 7}
	report.Claims = nil
	if got := report; got.Rooms != want.Rooms || got.Layouts != want.Layouts || got.Floors != want.Floors || got.Pieces != want.Pieces ||
		got.Planks != want.Planks || got.Bars != want.Bars || got.Orders != want.Orders || got.OrderLines != want.OrderLines || got.LabourLines != want.LabourLines {
		t.Errorf("counts %+v, want %+v", got, want)
	}
}
