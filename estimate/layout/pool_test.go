package layout

import (
	"context"
	"math/rand/v2"
	"testing"
)

// A pool as large as a building is searched in groups and stays valid.
func TestLayOfALargePoolIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 10))
	rooms := append(apartmentRooms(r), apartmentRooms(r)[:2]...)
	p := poolOf(trialPlanks[0], trialRules, rooms...)
	if groups := searchOf(p).groups(); len(groups) < 2 {
		t.Fatalf("searched in %d group", len(groups))
	}
	plan := mustLay(t, Lay, p)
	report(t, p, plan)
	if plan.Planks > plan.ByEye || float64(plan.Planks) > 1.02*float64(plan.LowerBound) {
		t.Errorf("%d planks, %d by eye, bound %d", plan.Planks, plan.ByEye, plan.LowerBound)
	}
	t.Logf("%d planks, %d by eye, bound %d, row bound %d", plan.Planks, plan.ByEye, plan.LowerBound, plan.RowBound)
}

// searchOf is a search that has found the ways to cut each room.
func searchOf(p Pool) *search {
	s := &search{table: newTable(&p), ctx: context.Background()}
	if err := s.choose(); err != nil {
		panic(err) // the context's only
	}
	return s
}
