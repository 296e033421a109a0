package layout

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestLayIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	kinds := map[string]func(*rand.Rand) Room{"rectangle": rectangleRoom, "corner": cornerRoom, "columns": columnRoom}
	for name, room := range kinds {
		t.Run(name, func(t *testing.T) {
			for i := range 12 {
				for _, ends := range []Ends{Handed, Free} {
					rules := trialRules
					rules.Ends = ends
					p := poolOf(trialPlanks[i%4], rules, room(r))
					plan := mustLay(t, Lay, p)
					report(t, p, plan)
					if plan.Planks > plan.ByEye && !mustLay(t, ByEye, p).broken() {
						t.Errorf("%d planks, by eye %d", plan.Planks, plan.ByEye)
					}
				}
			}
		})
	}
}

func TestLayOfApartmentsIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for i := range 2 {
		for _, ends := range []Ends{Handed, Free} {
			rules := trialRules
			rules.Ends = ends
			p := poolOf(trialPlanks[i%4], rules, apartmentRooms(r)...)
			plan := mustLay(t, Lay, p)
			report(t, p, plan)
			if diff := cmp.Diff(plan, mustLay(t, Lay, p)); diff != "" {
				t.Errorf("two runs differ:\n%s", diff)
			}
		}
	}
}

func TestLayLaysRealRooms(t *testing.T) {
	for _, set := range []string{"residential", "commercial", "ifc_rooms"} {
		rooms := planRooms(t, set, false)
		short := map[Rule]int{}
		planks, eye, bound := 0, 0, 0
		for i, room := range rooms {
			if i%20 > 0 { // all of them: BenchmarkRealRooms
				continue
			}
			p := poolOf(trialPlanks[i%4], trialRules, room)
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
