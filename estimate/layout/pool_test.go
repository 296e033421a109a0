package layout

import (
	"math/rand/v2"
	"testing"
)

// A pool as large as a building is searched in groups and stays valid.
func TestLayOfALargePoolIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 10))
	var rooms []Room
	for range 3 {
		rooms = append(rooms, apartmentRooms(r)...)
	}
	p := poolOf(trialPlanks[0], trialRules, rooms...)
	plan := mustLay(t, Lay, p)
	report(t, p, plan)
	if plan.Planks > plan.ByEye || float64(plan.Planks) > 1.02*float64(plan.LowerBound) {
		t.Errorf("%d planks, %d by eye, bound %d", plan.Planks, plan.ByEye, plan.LowerBound)
	}
	t.Logf("%d planks, %d by eye, bound %d, row bound %d", plan.Planks, plan.ByEye, plan.LowerBound, plan.RowBound)
}
