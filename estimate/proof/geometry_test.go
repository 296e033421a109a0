package proof

import (
	"math"
	"testing"

	"laybill/estimate/published"
)

// planRoom is a room of a real plan with what GEOS 3.11 computed for it.
type planRoom struct {
	id         string
	room       roomEntry
	doubleArea float64 // mm2
	insetArea  float64 // mm2, after a mitred gap of 12 mm
}

// planRooms reads a set of rooms with their reference values, as drawn and
// tidied.
func planRooms(t testing.TB, set string) []planRoom {
	t.Helper()
	measured := published.RoomsMeasured(t, set)
	var rooms []planRoom
	for _, plan := range published.Rooms(t, set) {
		drawn := roomEntry{Outline: ringOf(plan.Outer)}
		for _, hole := range plan.Holes {
			drawn.Holes = append(drawn.Holes, ringOf(hole))
		}
		geos := measured[plan.ID]
		rooms = append(rooms,
			planRoom{plan.ID, drawn, float64(geos[0].DoubleArea), geos[0].InsetArea},
			planRoom{plan.ID + " tidied", roomEntry{Outline: ringOf(plan.Simple)}, float64(geos[1].DoubleArea), geos[1].InsetArea})
	}
	return rooms
}

func ringOf(outline published.Outline) ring {
	var r ring
	for _, corner := range outline {
		r = append(r, point{length(corner[0]) * unit, length(corner[1]) * unit})
	}
	return r
}

// TestInsetOfRealRooms compares floor and floor inside a gap of 12 mm with the
// values of GEOS 3.11: exactly for axis-parallel rooms, to a part in a million
// of the area or 1 mm2 for slanted ones.
func TestInsetOfRealRooms(t *testing.T) {
	for _, set := range published.RoomSets {
		t.Run(set, func(t *testing.T) {
			for _, plan := range planRooms(t, set) {
				g := plan.room.whole().ground(0)
				w := sweep{}
				w.addGround(g)
				for _, strip := range g.margins(12 * unit) {
					w.add(innerStrip, strip)
				}
				steps := sweepSteps
				found, ok := w.measure(&steps)
				if !ok {
					t.Fatalf("%s: too intricate", plan.id)
				}
				if got, want := found.ground/unit/unit*2, plan.doubleArea; math.Abs(got-want) > want*1e-12 {
					t.Errorf("%s: doubled area %.6f mm2, want %.0f", plan.id, got, want)
				}
				allowed := 0.001
				if g.slanted {
					allowed = math.Max(1, plan.insetArea*1e-6)
				}
				if got, want := found.inner/unit/unit, plan.insetArea; math.Abs(got-want) > allowed {
					t.Errorf("%s: floor inside the gap %.3f mm2, want %.3f", plan.id, got, want)
				}
			}
		})
	}
}
