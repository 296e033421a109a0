package proof

import "testing"

// TestGluedDownPlanks: planks without handed ends may be turned half round, so
// either end of a plank starts or ends a row (common practice with glued-down
// vinyl). A sawn end or edge still only comes to a wall.
func TestGluedDownPlanks(t *testing.T) {
	cut := func(piece, x0, y0, x1, y1 int) func(obj) {
		return set(list{x0, y0, x1, y1}, "layouts", 0, "pieces", piece, "in_stock_mm")
	}
	for _, c := range []struct {
		name  string
		plant func(obj)
		holds bool
	}{
		{"starter from the left end", cut(0, 0, 0, 1000, 200), true},
		{"end piece from the right end", cut(1, 200, 0, 1200, 200), true},
		{"both halves of a plank start rows", both(cut(2, 0, 0, 400, 200), cut(4, 402, 0, 802, 200)), false}, // 400 mm of the plank are left beyond the second
		{"both ends of a plank, exchanged", both(cut(2, 0, 0, 400, 200), cut(4, 800, 0, 1200, 200)), true},
		{"starter from the middle", cut(0, 100, 0, 1100, 200), false},
	} {
		result := halves()
		at(result, "layouts", 0)["joint"] = "glue-down"
		c.plant(result)
		report := check(t, result)
		if got := claimOf(t, report, claimHand); got.OK != c.holds {
			t.Errorf("%s: holds %t, want %t (%s)", c.name, got.OK, c.holds, got.Detail)
		}
		if got := claimOf(t, report, claimKerf); !got.OK {
			t.Errorf("%s: %s", c.name, got.Detail)
		}
	}
}

// TestHolesAreNamed: a pipe of 40 x 40 mm stands inside the first plank of the
// hall, which with the gap has a hole of 60 x 60 mm. No board goes over it whole,
// so a caution must say so (common practice: pipes are drilled for, at a column
// the board is sawn in two).
func TestHolesAreNamed(t *testing.T) {
	named := func(row int) func(obj) {
		return set(list{obj{"code": "laying-rule", "apartment": "", "room": "Hall", "rule": "hole", "row": row}}, "cautions")
	}
	square := func(x0, y0, x1, y1 int) list {
		return list{list{list{x0, y0}, list{x1, y0}, list{x1, y1}, list{x0, y1}}}
	}
	for _, c := range []struct {
		name  string
		plant func(obj)
		holds bool
	}{
		{"not named", func(obj) {}, false},
		{"named", named(1), true},
		{"another row named", named(2), false},
	} {
		result := fixture()
		for _, room := range []int{0, 2} {
			at(result, "rooms", room)["holes_mm"] = square(300, 90, 340, 130)
		}
		at(result, "layouts", 0, "pieces", 0)["holes_mm"] = square(290, 80, 350, 140)
		c.plant(result)
		report := check(t, result)
		if got := claimOf(t, report, claimHoles); got.OK != c.holds {
			t.Errorf("%s: holds %t, want %t (%s)", c.name, got.OK, c.holds, got.Detail)
		}
		if got := claimOf(t, report, claimCover); !got.OK {
			t.Errorf("%s: %s", c.name, got.Detail)
		}
	}
}
