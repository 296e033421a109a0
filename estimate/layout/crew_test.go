package layout

import (
	"math/rand/v2"
	"testing"
)

func TestByEyeIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	kinds := map[string]func(*rand.Rand) Room{"rectangle": rectangleRoom, "corner": cornerRoom, "columns": columnRoom}
	for name, room := range kinds {
		t.Run(name, func(t *testing.T) {
			for range 15 {
				for _, plank := range trialPlanks {
					p := poolOf(plank, trialRules, room(r))
					report(t, p, mustLay(t, ByEye, p))
				}
			}
		})
	}
}

func report(t *testing.T, p Pool, plan Plan) {
	t.Helper()
	if faults := faultsOf(p, plan); len(faults) > 0 {
		t.Errorf("%d faults in %s, first %s\nfloor %v", len(faults), p.Rooms[0].ID, faults[0], p.Rooms[0].Floor)
	}
}

func TestByEyeLaysRealRooms(t *testing.T) {
	for _, set := range []string{"residential", "commercial", "ifc_rooms"} {
		for _, simple := range []bool{true, false} {
			rooms := planRooms(t, set, simple)
			lost, short := 0, map[Rule]int{}
			for i, room := range rooms {
				if i%80 > 0 { // all of them: BenchmarkRealRooms
					continue
				}
				p := poolOf(trialPlanks[i/80%4], trialRules, room)
				plan := mustLay(t, ByEye, p)
				report(t, p, plan)
				if len(plan.Layouts[0].Pieces) == 0 {
					lost++
				}
				for _, s := range plan.Shortfalls {
					short[s.Rule]++
				}
			}
			t.Logf("%s simple=%t: %d rooms, %d lost, shortfalls %v", set, simple, len(rooms), lost, short)
		}
	}
}
