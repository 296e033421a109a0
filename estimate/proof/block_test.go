package proof

import (
	"slices"
	"testing"
)

// A floor of blocks worked by hand: a room of 700 x 500 mm without a gap, laid in
// herringbone of blocks 400 x 100 whose right blocks lie along its x. From the
// origin 0,0 right blocks lie at (100k - 400m, 100k + 400m), left ones, 100 wide
// and 400 high, at (400 + 100k - 400m, -300 + 100k + 400m). The kerf is 3.
type blockFloor struct {
	pieces, stock list
	hands         map[string]int
}

func (f *blockFloor) add(hand string, x, y, wide, high int) {
	x0, y0, x1, y1 := max(0, x), max(0, y), min(700, x+wide), min(500, y+high)
	if x0 >= x1 || y0 >= y1 {
		return
	}
	number := len(f.pieces) + 1
	f.hands[hand]++
	f.pieces = append(f.pieces, obj{
		"row": 1, "seq": number, "hand": hand, "stock": number, "in_stock_mm": list{x0 - x, y0 - y, x1 - x, y1 - y},
		"at_mm": list{list{x0, y0}, list{x1, y0}, list{x1, y1}, list{x0, y1}},
	})
	f.stock = append(f.stock, obj{"product": "OAK", "pool": "A1", "number": number, "length_mm": 400, "width_mm": 100, "hand": hand})
}

// blockFixture is a result of that room alone. The spots count the right pieces
// that hold the middle of a right block and the left pieces that hold that of a
// left one, by hand as the pieces are made.
func blockFixture() obj {
	f := &blockFloor{hands: map[string]int{}}
	spots := map[string]int{}
	for m := -3; m <= 3; m++ {
		for k := -12; k <= 12; k++ {
			for _, b := range []struct {
				hand             string
				x, y, wide, high int
			}{
				{"right", 100*k - 400*m, 100*k + 400*m, 400, 100},
				{"left", 400 + 100*k - 400*m, -300 + 100*k + 400*m, 100, 400},
			} {
				f.add(b.hand, b.x, b.y, b.wide, b.high)
				if x, y := b.x+b.wide/2, b.y+b.high/2; x > 0 && x < 700 && y > 0 && y < 500 {
					spots[b.hand]++
				}
			}
		}
	}
	planks := len(f.stock)
	pack := 2 * max(f.hands["left"], f.hands["right"])
	area := 400 * 100 * 320 * 320
	return obj{
		"schema": Schema, "job": obj{"name": "Blocks", "currency": "EUR"},
		"rooms": list{obj{"apartment": "A1", "type": "T", "room": "Hall", "outline_mm": list{list{0, 0}, list{700, 0}, list{700, 500}, list{0, 500}},
			"holes_mm": list{}, "layout": "H", "pool": "A1"}},
		"layouts": list{obj{"id": "H", "product": "OAK", "kind": "herringbone", "direction_deg": 0, "gap_mm": 0, "kerf_mm": 3, "joint": "click",
			"rules": obj{}, "planks": planks, "blocks": obj{"origin_mm": list{0, 0}}, "pieces": f.pieces}},
		"stock": f.stock,
		"pools": list{obj{"product": "OAK", "pool": "A1", "planks": planks, "lower_bound_planks": spots["left"] + spots["right"],
			"spots": list{obj{"hand": "right", "at_mm": list{200, 50}, "pieces": spots["right"]}, obj{"hand": "left", "at_mm": list{50, 200}, "pieces": spots["left"]}}}},
		"materials": list{obj{"product": "OAK", "unit": "area", "bought": pack * area, "laid": 700 * 500 * 320 * 320, "spare": 0, "returned": 0,
			"left_over": (pack - planks) * area, "waste": planks*area - 700*500*320*320, "piece": area,
			"hands": obj{"packs": "both in a pack", "left": f.hands["left"], "right": f.hands["right"], "pieces_per_pack": 2}}},
		"orders": list{obj{"supplier": "S", "number": "1", "lines": list{obj{"product": "OAK", "quantity": pack / 2, "sold_by": "pack", "packs": pack / 2,
			"pieces_per_pack": 2, "pieces": pack}}}},
	}
}

// blockClaims are the claims that a floor of blocks is checked by.
var blockClaims = []string{claimPieces, claimCover, claimFloorArea, claimPoints, claimBlocks, claimInPlank, claimKerf, claimHand, claimStock, claimPlankBound,
	claimAccount, claimLaid, claimBought}

func brokenOf(report Report) []string {
	var broken []string
	for _, c := range report.Claims {
		if !c.OK && slices.Contains(blockClaims, c.Name) {
			broken = append(broken, c.Name+": "+c.Detail)
		}
	}
	return broken
}

func TestBlocksHold(t *testing.T) {
	report := check(t, blockFixture())
	if broken := brokenOf(report); len(broken) > 0 {
		t.Errorf("%q", broken)
	}
	if report.Pieces != 12 {
		t.Errorf("%d pieces", report.Pieces)
	}
}

// TestBlockFaultsAreCaught plants one fault and names the claim that must not
// hold any more.
func TestBlockFaultsAreCaught(t *testing.T) {
	whole := wholePiece(t)
	pieces := func(r obj) list { return at(r, "layouts", 0)["pieces"].(list) }
	for _, fault := range []struct {
		name  string
		plant func(obj)
		claim string
	}{
		{"hand exchanged", set("left", "layouts", 0, "pieces", whole, "hand"), claimHand},
		{"both hands exchanged", both(set("left", "layouts", 0, "pieces", whole, "hand"), set("left", "stock", whole, "hand")), claimInPlank},
		{"neither hand", both(set("", "layouts", 0, "pieces", whole, "hand"), set("", "stock", whole, "hand")), claimBlocks},
		{"pattern begun 1 mm off", set(list{1, 0}, "layouts", 0, "blocks", "origin_mm"), claimBlocks},
		{"another pattern", set("double herringbone", "layouts", 0, "kind"), claimBlocks},
		{"piece cut elsewhere from its block", set(list{-1, 0, 399, 100}, "layouts", 0, "pieces", whole, "in_stock_mm"), claimBlocks},
		{"piece missing", drop(whole, "layouts", 0, "pieces"), claimCover},
		{"piece twice", func(r obj) { at(r, "layouts", 0)["pieces"] = append(pieces(r), pieces(r)[whole]) }, claimCover},
		{"number twice", set(whole+2, "layouts", 0, "pieces", whole, "seq"), claimPieces},
		{"piece 1 mm beyond its block", grown(whole), claimInPlank},
		{"block cut in two", func(r obj) {
			p := at(r, "layouts", 0, "pieces", whole)
			x, y := p["at_mm"].(list)[0].(list)[0].(int), p["at_mm"].(list)[0].(list)[1].(int)
			number := len(pieces(r)) + 1
			rest := obj{"row": 2, "seq": 1, "hand": "right", "stock": number, "in_stock_mm": list{200, 0, 400, 100},
				"at_mm": list{list{x + 200, y}, list{x + 400, y}, list{x + 400, y + 100}, list{x + 200, y + 100}}}
			p["in_stock_mm"], p["at_mm"] = list{0, 0, 200, 100}, list{list{x, y}, list{x + 200, y}, list{x + 200, y + 100}, list{x, y + 100}}
			at(r, "layouts", 0)["pieces"] = append(pieces(r), rest)
			r["stock"] = append(r["stock"].(list), obj{"product": "OAK", "pool": "A1", "number": number, "length_mm": 400, "width_mm": 100, "hand": "right"})
		}, claimHand},
		{"whole pieces share a block", set(whole+1, "layouts", 0, "pieces", another(t, whole), "stock"), claimKerf},
		{"bound raised by 1", func(r obj) {
			pool := at(r, "pools", 0)
			pool["lower_bound_planks"] = pool["planks"].(int) + 1
		}, claimPlankBound},
		{"spot of more pieces than hold it", set(99, "pools", 0, "spots", 0, "pieces"), claimPlankBound},
		{"bought for one hand only", set(12, "orders", 0, "lines", 0, "pieces"), claimBought},
		{"fewer needed than cut", set(1, "materials", 0, "hands", "left"), claimBought},
	} {
		t.Run(fault.name, func(t *testing.T) {
			result := blockFixture()
			fault.plant(result)
			report := check(t, result)
			i := slices.IndexFunc(report.Claims, func(c Claim) bool { return c.Name == fault.claim })
			if c := report.Claims[i]; c.OK || c.Detail == "" {
				t.Errorf("%q holds; broken: %q", fault.claim, brokenOf(report))
			}
		})
	}
}

// wholePiece is the place of a whole right block in the fixture.
func wholePiece(t *testing.T) int { return another(t, -1) }

// another is the place of the next whole right block.
func another(t *testing.T, after int) int {
	t.Helper()
	for i, p := range at(blockFixture(), "layouts", 0)["pieces"].(list) {
		in := p.(obj)["in_stock_mm"].(list)
		if i > after && p.(obj)["hand"] == "right" && in[0] == 0 && in[2] == 400 && in[1] == 0 && in[3] == 100 {
			return i
		}
	}
	t.Fatal("no whole block")
	return 0
}

// grown makes a piece 1 mm longer than its block.
func grown(i int) func(obj) {
	return func(r obj) {
		p := at(r, "layouts", 0, "pieces", i)
		for _, k := range []int{1, 2} {
			corner := p["at_mm"].(list)[k].(list)
			corner[0] = corner[0].(int) + 1
		}
		p["in_stock_mm"] = list{0, 0, 401, 100}
	}
}
