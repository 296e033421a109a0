package proof

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// clipped cuts a convex outline to the band between two heights.
func clipped(l loop, low, high float64) loop {
	cut := func(l loop, inside func(spot) bool, y float64) loop {
		var out loop
		for i, p := range l {
			q := l[(i+1)%len(l)]
			if inside(p) {
				out = append(out, p)
			}
			if inside(p) != inside(q) {
				out = append(out, spot{p.x + (q.x-p.x)*(y-p.y)/(q.y-p.y), y})
			}
		}
		return out
	}
	l = cut(l, func(s spot) bool { return s.y >= low }, low)
	return cut(l, func(s spot) bool { return s.y <= high }, high)
}

// onGrid rounds an outline to 1/320 mm and drops repeated corners.
func onGrid(l loop) ring {
	var r ring
	for _, s := range l {
		p := point{length(math.Round(s.x)), length(math.Round(s.y))}
		if len(r) == 0 || r[len(r)-1] != p {
			r = append(r, p)
		}
	}
	if len(r) > 1 && r[0] == r[len(r)-1] {
		r = r[:len(r)-1]
	}
	return r
}

// mmOf writes a ring as JSON numbers of mm.
func mmOf(r ring) list {
	var points list
	for _, p := range r {
		points = append(points, list{float64(p.x) / unit, float64(p.y) / unit})
	}
	return points
}

// convexResult lays a convex room with one piece a row, each from its own
// plank, and wraps it up as a result. inside is the floor inside the gap, in the
// layout's frame.
func convexResult(outline ring, direction, gap int, inside loop, longPlank, widePlank length) obj {
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range inside {
		low, high = math.Min(low, s.y), math.Max(high, s.y)
	}
	low, high = math.Ceil(low), math.Floor(high)
	var pieces, stock list
	for y := low; y < high; y += float64(widePlank) {
		at := onGrid(clipped(inside, y, math.Min(high, y+float64(widePlank))))
		b := at.bounds()
		number := len(pieces) + 1
		pieces = append(pieces, obj{"row": number, "seq": 1, "at_mm": mmOf(at), "stock": number,
			"in_stock_mm": mmOf(ring{{0, 0}, {b.width(), b.height()}})})
		in := pieces[number-1].(obj)["in_stock_mm"].(list)
		pieces[number-1].(obj)["in_stock_mm"] = append(slices.Clone(in[0].(list)), in[1].(list)...)
		stock = append(stock, obj{"product": "OAK", "pool": "P", "number": number, "length_mm": float64(longPlank) / unit, "width_mm": float64(widePlank) / unit})
	}
	l := layout("L", len(pieces), pieces)
	l["gap_mm"], l["direction_deg"] = gap, direction
	l["rules"] = obj{}
	return obj{
		"schema": Schema, "job": obj{"currency": "EUR"},
		"rooms":   list{obj{"apartment": "", "type": "T", "room": "R", "outline_mm": mmOf(outline), "layout": "L", "pool": "P"}},
		"layouts": list{l}, "stock": stock,
		"pools": list{obj{"product": "OAK", "pool": "P", "planks": len(pieces)}},
	}
}

func mmRing(points ...[2]float64) ring {
	var r ring
	for _, p := range points {
		r = append(r, point{length(math.Round(p[0] * unit)), length(math.Round(p[1] * unit))})
	}
	return r
}

// slantedRooms are convex rooms with the corners of the floor inside a gap of
// 10 mm worked by hand.
func slantedRooms() map[string]obj {
	const gap = 10 * unit
	diagonal := 10 * math.Sqrt2 // a wall at 45 degrees moves by this along x
	// 600 mm deep, the right wall rising at 45 degrees from 620 to 1220.
	trapezoid := mmRing([2]float64{0, 0}, [2]float64{620, 0}, [2]float64{1220, 600}, [2]float64{0, 600})
	inTrapezoid := loop{{gap, gap}, {(630 - diagonal) * unit, gap}, {(1210 - diagonal) * unit, 590 * unit}, {gap, 590 * unit}}
	// A square of 720 mm seen at 45 degrees: half its diagonal inside the gap is
	// 700 / sqrt 2, its centre lies at 720 / sqrt 2 along x.
	square := mmRing([2]float64{0, 0}, [2]float64{720, 0}, [2]float64{720, 720}, [2]float64{0, 720})
	half, centre := 700/math.Sqrt2*unit, 720/math.Sqrt2*unit
	diamond := loop{{centre - half, 0}, {centre, -half}, {centre + half, 0}, {centre, half}}
	return map[string]obj{
		"trapezoid": convexResult(trapezoid, 0, 10, inTrapezoid, 1300*unit, 200*unit),
		"diagonal":  convexResult(square, 45, 10, diamond, 1300*unit, 100*unit),
	}
}

// floorClaimNames are the claims that slanted floors must keep.
var floorClaimNames = []string{claimRooms, claimLayouts, claimPieces, claimCover, claimFloorArea, claimPoints, claimInPlank, claimKerf, claimHand, claimStock}

func TestSlantedFloorsHold(t *testing.T) {
	for name, result := range slantedRooms() {
		report := check(t, result)
		for _, claim := range floorClaimNames {
			if c := claimOf(t, report, claim); !c.OK {
				t.Errorf("%s: %s: %s", name, c.Name, c.Detail)
			}
		}
	}
}

// TestSlantedTolerance moves the slanted ends of a row: by 0.3 mm is within the
// slack of 0.5 mm, by 1 mm is a fault.
func TestSlantedTolerance(t *testing.T) {
	for _, c := range []struct {
		by   float64
		want bool
	}{{0.3, true}, {-0.3, true}, {1, false}, {-1, false}} {
		result := slantedRooms()["trapezoid"]
		p := at(result, "layouts", 0, "pieces", 1)
		for _, corner := range p["at_mm"].(list) {
			if xy := corner.(list); xy[0].(float64) > 100 {
				xy[0] = math.Round((xy[0].(float64)+c.by)*unit) / unit
			}
		}
		report := check(t, result)
		if got := claimOf(t, report, claimCover).OK; got != c.want {
			t.Errorf("ends moved by %v mm: %v, want %v (%s)", c.by, got, c.want, claimOf(t, report, claimCover).Detail)
		}
	}
}

// TestQuarterTurns lays the hand-worked hall in a room turned by quarter turns:
// the layout's frame, and so its pieces, must follow the direction.
func TestQuarterTurns(t *testing.T) {
	// The room of the fixture turned by d about 0,0 looks, from a frame turned
	// by d, as it did before.
	turned := map[int]list{
		0:   {list{0, 0}, list{2020, 0}, list{2020, 620}, list{0, 620}},
		90:  {list{0, 0}, list{0, 2020}, list{-620, 2020}, list{-620, 0}},
		180: {list{0, 0}, list{-2020, 0}, list{-2020, -620}, list{0, -620}},
		270: {list{0, 0}, list{0, -2020}, list{620, -2020}, list{620, 0}},
	}
	for direction, outline := range turned {
		result := fixture()
		for _, room := range []int{0, 2} {
			at(result, "rooms", room)["outline_mm"] = outline
		}
		at(result, "layouts", 0)["direction_deg"] = direction
		if report := check(t, result); !report.OK() {
			t.Errorf("direction %d", direction)
			expectFailures(t, report, nil)
		}
		at(result, "layouts", 0)["direction_deg"] = direction + 180
		if check(t, result).OK() {
			t.Errorf("direction %d half a turn off was not noticed", direction)
		}
	}
}

// TestHolesMayTouch: a fixture against a wall, two fixtures against each other,
// and one that reaches outside, all take the gap around what they leave of the
// floor. Floor 1000 x 1000, gap 10; worked by hand in mm2.
func TestHolesMayTouch(t *testing.T) {
	square := mmRing([2]float64{0, 0}, [2]float64{1000, 0}, [2]float64{1000, 1000}, [2]float64{0, 1000})
	hole := func(x0, y0, x1, y1 float64) ring {
		return mmRing([2]float64{x0, y0}, [2]float64{x1, y0}, [2]float64{x1, y1}, [2]float64{x0, y1})
	}
	cases := []struct {
		name          string
		holes         []ring
		floor, inside float64
	}{
		{"none", nil, 1_000_000, 980 * 980},
		{"in the middle", []ring{hole(400, 400, 500, 500)}, 990_000, 980*980 - 120*120},
		{"at a wall", []ring{hole(400, 0, 500, 100)}, 990_000, 980*980 - 120*100},
		{"in a corner", []ring{hole(0, 0, 100, 100)}, 990_000, 980*980 - 100*100},
		{"thinner than the gap, at a wall", []ring{hole(400, 0, 500, 5)}, 999_500, 980*980 - 120*5},
		{"two as one", []ring{hole(400, 400, 450, 500), hole(450, 400, 500, 500)}, 990_000, 980*980 - 120*120},
		{"overlapping", []ring{hole(400, 400, 480, 500), hole(420, 400, 500, 500)}, 990_000, 980*980 - 120*120},
		{"reaching outside", []ring{hole(400, -50, 500, 100)}, 990_000, 980*980 - 120*100},
		{"two with less than two gaps between", []ring{hole(400, 400, 500, 500), hole(515, 400, 600, 500)}, 1_000_000 - 10_000 - 8_500, 980*980 - 220*120},
	}
	for _, c := range cases {
		g := groundOf(square, c.holes, 0)
		w := sweep{}
		w.addGround(g)
		for _, strip := range g.margins(10 * unit) {
			w.add(innerStrip, strip)
		}
		steps := sweepSteps
		found, _ := w.measure(&steps)
		if got := found.ground / unit / unit; got != c.floor {
			t.Errorf("%s: floor %.0f mm2, want %.0f", c.name, got, c.floor)
		}
		if got := found.inner / unit / unit; got != c.inside {
			t.Errorf("%s: inside the gap %.0f mm2, want %.0f", c.name, got, c.inside)
		}
	}
}

// manyRooms is a result with so many distinct rooms of the hall's kind, each
// with its own layout and pool, for speed.
func manyRooms(rooms int) obj {
	var all, layouts, stock, pools list
	for i := range rooms {
		name := fmt.Sprint(i)
		room := hall(name, false)
		room["room"], room["layout"], room["pool"] = "Hall", name, name
		// Each 30 rows deep and of its own length.
		const rows = 30
		long, deep := 2020+i%500, 20+200*rows
		room["outline_mm"] = list{list{0, 0}, list{long, 0}, list{long, deep}, list{0, deep}}
		delete(room, "area_m2")
		delete(room, "perimeter_mm")
		all = append(all, room)
		var pieces list
		for row := range rows {
			at := 1210 - 400*(row%2)
			y, planks := 10+200*row, 2*row
			first := oblong(row+1, 1, 10, y, at, y+200, planks+1, 1200-(at-10))
			last := oblong(row+1, 2, at, y, long-10, y+200, planks+2, 0)
			pieces = append(pieces, first, last)
			for n := 1; n <= 2; n++ {
				stock = append(stock, obj{"product": "OAK", "pool": name, "number": planks + n, "length_mm": 1700, "width_mm": 200})
			}
			if at-10 <= 1200 {
				first["in_stock_mm"] = list{1700 - (at - 10), 0, 1700, 200}
			}
		}
		l := layout(name, 2*rows, pieces)
		delete(l["rules"].(obj), "least_line_up") // joints of every other row are in line
		layouts = append(layouts, l)
		pools = append(pools, obj{"product": "OAK", "pool": name, "planks": 2 * rows})
	}
	return obj{"schema": Schema, "job": obj{"currency": "EUR"}, "rooms": all, "layouts": layouts, "stock": stock, "pools": pools}
}

func TestManyRoomsHold(t *testing.T) {
	report := check(t, manyRooms(20))
	for _, claim := range append(floorClaimNames, claimStagger, claimEnd, claimLineUp, claimRow) {
		if c := claimOf(t, report, claim); !c.OK {
			t.Errorf("%s: %s", c.Name, c.Detail)
		}
	}
}
