package layout

import (
	"slices"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Where rules cannot all be kept they give way in this order, and every row that
// does not keep one is named: the pattern, joints two rows apart, the stagger and
// last the least end piece (common practice: a short end piece comes loose, a
// joint too near another is only seen).
//
// Planks of 1200 x 200 mm, no gap. Rows of 1210 mm are two pieces: with
// 450 mm at least at each end the joint lies from 450 to 760, in 310 mm. A stagger
// of 300 leaves 450 to 460 and 750 to 760 by turns, so that joints two rows apart
// are within 10 mm of one line; no small change of one row leads there from any
// other twenty rows. A stagger of 320 cannot be kept at all. Of 250 mm
// a row is one piece, shorter than the least end.
func TestRulesGiveWayInOrder(t *testing.T) {
	rules := Rules{LeastEnd: 450 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm, LineUp: 50 * mm}
	with := func(change func(*Rules)) Rules {
		changed := rules
		change(&changed)
		return changed
	}
	for _, c := range []struct {
		name  string
		long  measure.Length
		deep  int64 // rows
		rules Rules
		rule  Rule
		rows  []int
	}{
		{"all are kept", 1500 * mm, 4, with(func(r *Rules) { r.LeastEnd = 300 * mm }), "", nil},
		// Of the starters 400 apart, less whole planks, the least is 400 at most: see
		// TestPatternsByHand, where rows 1 and 4 leave it.
		{"the pattern", 3000 * mm, 4, with(func(r *Rules) { r.LeastEnd, r.Pattern = 310*mm, Third }), RulePattern, []int{1, 4}},
		{"joints two rows apart", 1210 * mm, 4, rules, RuleLineUp, []int{3, 4}},
		{"joints two rows apart, in twenty rows", 1210 * mm, 20, rules, RuleLineUp, []int{3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20}},
		{"the stagger", 1210 * mm, 4, with(func(r *Rules) { r.LeastStagger, r.LineUp = 320*mm, 0 }), RuleStagger, []int{2, 3, 4}},
		{"the least end", 250 * mm, 4, rules, RuleEnd, []int{1, 2, 3, 4}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := poolOf(Plank{1200 * mm, 200 * mm}, c.rules, Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: c.long, Y1: measure.Length(200*c.deep) * mm})}, Directions: []shape.Angle{0}})
			plan := mustLay(t, Lay, p)
			report(t, p, plan)
			var rows []int
			for _, short := range plan.Shortfalls {
				if short.Rule != c.rule || short.Room != p.Rooms[0].ID || short.Found >= short.Want || short.Text == "" {
					t.Errorf("%+v", short)
				}
				rows = append(rows, short.Row)
			}
			if !slices.Equal(rows, c.rows) {
				t.Errorf("rows %v give way, want %v", rows, c.rows)
			}
		})
	}
}

// A pipe that stands inside one plank cannot be a notch: the row is named, with
// the hole that the plank needs. Rows of 200 mm, a gap of 10 mm; the pipe of 40 x
// 40 mm in the middle of row 2 takes 60 x 60 mm (common practice: pipes are drilled
// for, a board at a column is sawn in two).
func TestFixtureInsideAPieceIsNamed(t *testing.T) {
	rules := Rules{Gap: 10 * mm, LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm}
	room := func(x, y int64) Room {
		pipe := shape.Box{X0: measure.Length(x) * mm, Y0: measure.Length(y) * mm, X1: measure.Length(x+40) * mm, Y1: measure.Length(y+40) * mm}
		return Room{Floor: shape.Subtract(shape.Region{shape.Rectangle(shape.Box{X1: 1000 * mm, Y1: 620 * mm})}, pipe), Directions: []shape.Angle{0}}
	}
	for name, want := range map[string]int{"inside row 2": 2, "across rows 1 and 2": 0} {
		p := poolOf(Plank{1200 * mm, 200 * mm}, rules, room(480, 290-int64(2-want)*50))
		plan := mustLay(t, Lay, p)
		report(t, p, plan)
		switch {
		case want == 0 && len(plan.Shortfalls) > 0:
			t.Errorf("%s: %v", name, plan.Shortfalls)
		case want > 0 && (len(plan.Shortfalls) != 1 || plan.Shortfalls[0].Rule != RuleHole || plan.Shortfalls[0].Sentence() != "row 2 has a piece all round a fixture, a hole of 60 mm by 60 mm"):
			t.Errorf("%s: %v", name, plan.Shortfalls)
		}
	}
}
