package estimate

import (
	"strings"
	"testing"

	"laybill/estimate/published"
)

// The lifting equation, NIOSH publication 94-110: 23 kg x 25/H x
// (1 - 0.003 |V - 75|) x (0.82 + 4.5/D) x (1 - 0.0032 A), H, V and D in cm. The
// ideal lift is published; the others are worked by hand:
//
//	from the floor: 23 x 1 x (1 - 0.225) x (0.82 + 0.06) = 23 x 0.775 x 0.88 = 15.686
//	arm's length:   23 x 25/50 x 1 x 1 = 11.5
//	turned by 45:   23 x (1 - 0.144) = 19.688
//	overhead:       23 x 1 x (1 - 0.3) x (0.82 + 0.045) = 23 x 0.7 x 0.865 = 13.9265
func TestLiftLimits(t *testing.T) {
	for _, c := range []struct {
		name string
		lift lift
		want string
	}{
		{"ideal", idealLift, "23"},
		{"from the floor", fromFloor, "15.7"},
		{"at arm's length", lift{reach: 50, height: 75, travel: 25}, "11.5"},
		{"turned by 45 degrees", lift{reach: 25, height: 75, travel: 25, turn: 45}, "19.7"},
		{"over the head", lift{reach: 25, height: 175, travel: 100}, "13.9"},
	} {
		if got := c.lift.limit().String(); got != c.want {
			t.Errorf("%s: %s kg, want %s", c.name, got, c.want)
		}
	}
}

// The load constant as published, read in the table of safety limits.
func TestLiftConstantIsThePublishedOne(t *testing.T) {
	limit := published.Keyed(t, "safety_limits.csv")["NIOSH lifting load constant"]
	if kg, _, _ := strings.Cut(limit[1], " "); kg != liftConstant.String() {
		t.Errorf("%s kg published, %s used", kg, liftConstant)
	}
}
