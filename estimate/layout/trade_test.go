package layout

import (
	"context"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Rules of thumb that every floor layer keeps (common practice; the values are
// settings of the product): a last row that would come out under 50 mm is not
// laid, the first row is ripped instead; an off-cut under 300 mm starts no row;
// the gap at the walls is 12 to 15 mm.
func TestRulesOfTheTrade(t *testing.T) {
	const mm = measure.Millimetre
	rules := Rules{Gap: 12 * mm, Kerf: 3 * mm, LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm}
	for _, c := range []struct {
		name          string
		length, width measure.Length
		gap           measure.Length
		rows          int
	}{
		// 1944 - 2 x 12 = 1920 mm are ten rows of 192 mm, none ripped.
		{"rows come out even", 4000 * mm, 1944 * mm, 12 * mm, 10},
		// 1954 - 24 = 1930 mm: ten rows and 10 mm. The first row is ripped so
		// that eleven rows have at least 50 mm.
		{"last row would be 10 mm", 4000 * mm, 1954 * mm, 12 * mm, 11},
		// 1993 - 24 = 1969 mm: ten rows and 49 mm, just too narrow.
		{"last row would be 49 mm", 4000 * mm, 1993 * mm, 12 * mm, 11},
		// 1994 - 24 = 1970 mm: ten rows and 50 mm may stay.
		{"last row is 50 mm", 4000 * mm, 1994 * mm, 12 * mm, 11},
		{"gap of 15 mm", 4000 * mm, 1994 * mm, 15 * mm, 11},
	} {
		t.Run(c.name, func(t *testing.T) {
			rules := rules
			rules.Gap = c.gap
			pool := Pool{Plank: Plank{1285 * mm, 192 * mm}, Rules: rules, PiecesPerPack: 8,
				Rooms: []Room{{ID: "room", Floor: shape.Region{shape.Rectangle(shape.Box{X1: c.length, Y1: c.width})}, Directions: []shape.Angle{0}}}}
			for name, lay := range map[string]func(context.Context, Pool) (Plan, error){"by eye": ByEye, "planned": Lay} {
				plan, _ := lay(context.Background(), pool)
				keepsTheTrade(t, name, pool, plan, c.rows)
			}
		})
	}
}

func keepsTheTrade(t *testing.T, name string, pool Pool, plan Plan, rows int) {
	t.Helper()
	room := pool.Rooms[0].Floor.Bounds()
	layout := plan.Layouts[0]
	if len(layout.Rows) != rows {
		t.Errorf("%s: %d rows, want %d", name, len(layout.Rows), rows)
	}
	for i, row := range layout.Rows {
		if row.Y1-row.Y0 < pool.Rules.LeastRow {
			t.Errorf("%s: row %d is %s wide", name, i+1, row.Y1-row.Y0)
		}
	}
	for _, piece := range layout.Pieces {
		b := piece.At.Bounds()
		if b.X1-b.X0 < pool.Rules.LeastEnd {
			t.Errorf("%s: piece %d.%d is %s long", name, piece.Row, piece.Seq, b.X1-b.X0)
		}
		if b.X0 < room.X0+pool.Rules.Gap || b.X1 > room.X1-pool.Rules.Gap || b.Y0 < room.Y0+pool.Rules.Gap || b.Y1 > room.Y1-pool.Rules.Gap {
			t.Errorf("%s: piece %d.%d stands in the expansion gap", name, piece.Row, piece.Seq)
		}
	}
	if len(plan.Shortfalls) > 0 {
		t.Errorf("%s: %v", name, plan.Shortfalls)
	}
}
