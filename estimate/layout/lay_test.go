package layout

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

func TestLayIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	kinds := map[string]func(*rand.Rand) Room{"rectangle": rectangleRoom, "corner": cornerRoom, "columns": columnRoom}
	for name, room := range kinds {
		t.Run(name, func(t *testing.T) {
			for i := range 4 {
				rules := trialRules
				rules.Ends = []Ends{Handed, Free}[i/2]
				p := poolOf(trialPlanks[i], rules, room(r))
				plan := mustLay(t, Lay, p)
				report(t, p, plan)
				if plan.Planks > plan.ByEye && !mustLay(t, ByEye, p).broken() {
					t.Errorf("%d planks, by eye %d", plan.Planks, plan.ByEye)
				}
			}
		})
	}
}

// A pool is laid validly, and the order in which its rooms are listed changes
// nothing.
func TestLayOfApartmentsIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for _, ends := range []Ends{Handed, Free} {
		rules := trialRules
		rules.Ends = ends
		p := poolOf(trialPlanks[0], rules, rectangleRoom(r), cornerRoom(r))
		plan := mustLay(t, Lay, p)
		report(t, p, plan)
		slices.Reverse(p.Rooms)
		other := mustLay(t, Lay, p)
		slices.Reverse(other.Layouts)
		if diff := cmp.Diff(plan, other); diff != "" {
			t.Errorf("rooms listed the other way round are laid otherwise:\n%s", diff)
		}
	}
}

func TestLayLaysRealRooms(t *testing.T) {
	for _, set := range []string{"residential", "commercial", "ifc_rooms"} {
		rooms := planRooms(t, set, false)
		short := map[Rule]int{}
		planks, eye, bound := 0, 0, 0
		for i, room := range rooms {
			if i%500 > 0 { // all of them: BenchmarkRealRooms
				continue
			}
			p := poolOf(trialPlanks[i/500%4], trialRules, room)
			plan := mustLay(t, Lay, p)
			report(t, p, plan)
			if len(plan.Layouts[0].Pieces) == 0 {
				t.Errorf("%s is lost", room.ID)
			}
			for _, s := range plan.Shortfalls {
				short[s.Rule]++
			}
			planks, eye, bound = planks+plan.Planks, eye+plan.ByEye, bound+plan.RowBound
		}
		t.Logf("%s: %d rooms, %d planks, %d by eye, row bound %d, shortfalls %v", set, len(rooms), planks, eye, bound, short)
	}
}

// Rooms at the edge of what can be laid: no plan may be wrong and none may
// panic; what cannot be kept is named.
func TestOddRooms(t *testing.T) {
	box := func(x, y measure.Length) shape.Region {
		return shape.Region{shape.Rectangle(shape.Box{X1: x, Y1: y})}
	}
	niche := shape.Subtract(box(2000*mm, 1200*mm), shape.Box{X0: 500 * mm, Y0: 600 * mm, X1: 2000 * mm, Y1: 660 * mm})
	comb := shape.Subtract(box(2800*mm, 1000*mm),
		shape.Box{X0: 200 * mm, Y0: 400 * mm, X1: 900 * mm, Y1: 1000 * mm}, shape.Box{X0: 1100 * mm, Y0: 400 * mm, X1: 1800 * mm, Y1: 1000 * mm})
	short := trialRules
	short.LeastEnd, short.LeastStagger = 900*mm, 800*mm
	square, slanted := []shape.Angle{shape.QuarterTurn}, []shape.Angle{shape.QuarterTurn, 30_000}
	rows := []struct {
		name  string
		plank Plank
		rules Rules
		floor shape.Region
		rule  Rule // that must be named, "" for none in particular
		// further directions; slanted cuts of odd shapes are searched for long
		turned []shape.Angle
	}{
		{"no floor", trialPlanks[0], trialRules, nil, RuleRoom, slanted},
		{"no wider than two gaps", trialPlanks[0], trialRules, box(24*mm, 3000*mm), RuleRoom, slanted},
		{"one millimetre left", trialPlanks[0], trialRules, box(25*mm, 25*mm), RuleRow, slanted},
		{"closet narrower than the least end", trialPlanks[0], trialRules, box(250*mm, 250*mm), RuleEnd, slanted},
		{"corridor of one row", trialPlanks[0], trialRules, box(5000*mm, 200*mm), "", square},
		{"wall within a row", trialPlanks[0], trialRules, niche, "", square},
		{"comb", trialPlanks[0], trialRules, comb, RuleEnd, square},
		{"ends and stagger over half a plank", trialPlanks[0], short, box(5000*mm, 3000*mm), "", slanted},
		{"narrow strips", Plank{500 * mm, 60 * mm}, trialRules, box(3000*mm, 1000*mm), "", slanted},
		{"hall of 40 by 40 m", trialPlanks[0], trialRules, box(40_000*mm, 40_000*mm), "", nil},
		{"no gap, no kerf, no rules", trialPlanks[0], Rules{}, comb, "", slanted},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			for _, direction := range append([]shape.Angle{0}, row.turned...) {
				p := poolOf(row.plank, row.rules, Room{Floor: row.floor, Directions: []shape.Angle{direction}})
				plan := mustLay(t, Lay, p)
				report(t, p, plan)
				if row.rule != "" && direction == 0 && !slices.ContainsFunc(plan.Shortfalls, func(s Shortfall) bool { return s.Rule == row.rule }) {
					t.Errorf("%s is not named: %v", row.rule, plan.Shortfalls)
				}
			}
		})
	}
	if plan := mustLay(t, Lay, Pool{Plank: trialPlanks[0], Rules: trialRules}); plan.Planks != 0 {
		t.Errorf("%d planks for no room", plan.Planks)
	}
}

// The saw's work by hand, planks of 1000 x 200 mm and no gap. A floor of 900 x 500
// mm with a column of 100 x 100 mm at the edge of its second row takes three rows
// of 200, 200 and 100 mm, a plank each: three cross cuts, one rip and one notch. A
// row with a slanted end takes its cross cut and the slant, which is no notch.
func TestTheSawsWork(t *testing.T) {
	column := shape.Polygon{Outer: shape.Rectangle(shape.Box{X1: 900 * mm, Y1: 500 * mm}).Outer,
		Holes: []shape.Ring{{{X: 400 * mm, Y: 200 * mm}, {X: 400 * mm, Y: 300 * mm}, {X: 500 * mm, Y: 300 * mm}, {X: 500 * mm, Y: 200 * mm}}}}
	slant := shape.Polygon{Outer: shape.Ring{{}, {X: 900 * mm}, {X: 700 * mm, Y: 200 * mm}, {Y: 200 * mm}}}
	for _, c := range []struct {
		name                string
		floor               shape.Polygon
		cuts, rips, notches int
	}{{"column", column, 3, 1, 1}, {"slant", slant, 2, 0, 0}} {
		p := poolOf(Plank{1000 * mm, 200 * mm}, Rules{LeastRow: 100 * mm}, Room{ID: c.name, Floor: shape.Region{c.floor}, Directions: []shape.Angle{0}})
		l := mustLay(t, Lay, p).Layouts[0]
		if l.Cuts != c.cuts || l.Rips != c.rips || l.Notches != c.notches {
			t.Errorf("%s: %d cuts, %d rips, %d notches, want %d, %d, %d", c.name, l.Cuts, l.Rips, l.Notches, c.cuts, c.rips, c.notches)
		}
	}
}
