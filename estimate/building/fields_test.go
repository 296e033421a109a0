package building

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/fields"
	"laybill/estimate/job"
	"laybill/estimate/shape"
)

// longRoom is 12.0 x 4.0 m with a neck of 2.0 m from 5.0 to 5.3 m, laid with a
// plank that may run 8 m.
func longRoom() *job.Room {
	plank := &job.Product{Code: "OAK", Kind: job.Plank, LongestRun: mm(8000), Gap: mm(12)}
	profile := &job.Product{Code: "EXP", Kind: job.Trim, Width: mm(40)}
	return &job.Room{Type: "A", Name: "Long", Direction: job.Direction{Choice: job.Auto},
		BuildUp: &job.BuildUp{Lines: []*job.Line{{Product: plank, Measure: job.LaidArea}, {Product: profile, Measure: job.ExpansionProfiles}}},
		Outline: shape.Normalise(shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(12000), Y: 0}, {X: mm(12000), Y: mm(4000)}, {X: mm(5300), Y: mm(4000)},
			{X: mm(5300), Y: mm(2000)}, {X: mm(5000), Y: mm(2000)}, {X: mm(5000), Y: mm(4000)}, {X: 0, Y: mm(4000)}}})}
}

// The profile stands in the neck of 2.0 m, on the side that leaves the fields
// more equal: 5.3 and 6.7 m. In a mirrored apartment it stands at 12.0 - 5.3 m.
func TestLongRoomIsDividedAndMirrored(t *testing.T) {
	rooms := build(longRoom(), &job.Apartment{Name: "1", Type: "A"}, &job.Apartment{Name: "2", Type: "A", Mirrored: true}).Rooms
	for i, x := range []int64{5300, 6700} {
		want := []fields.Profile{{From: shape.Point{X: mm(x)}, To: shape.Point{X: mm(x), Y: mm(2000)}}}
		if diff := cmp.Diff(want, rooms[i].Profiles); diff != "" {
			t.Errorf("apartment %d (-want +got):\n%s", i+1, diff)
		}
		if len(rooms[i].Fields) != 2 || len(rooms[i].Directions) != 1 || rooms[i].Directions[0] != 0 {
			t.Errorf("apartment %d: %d fields, directions %v, want 2 laid along the longer side", i+1, len(rooms[i].Fields), rooms[i].Directions)
		}
	}
	axis := mm(12000)
	for _, field := range rooms[0].Fields {
		mirrored := field.Mirror(axis)
		if !cmp.Equal(mirrored, rooms[1].Fields[0]) && !cmp.Equal(mirrored, rooms[1].Fields[1]) {
			t.Errorf("%v is in no mirror image: %v", mirrored, rooms[1].Fields)
		}
	}
	// Inside the gaps of 12 mm: 12.0 x 4.0 less 0.3 x 2.0 m is 47.4 m2; the walls
	// are 12 + 4 + 6.7 + 2 + 0.3 + 2 + 5 + 4 = 36 m. Along walls and both sides of
	// the profile, 40 m x 12 mm = 0.48 m2 are left out; corners count once: the
	// east field, a rectangle, has 4, the west one 6 of which 1 points inwards,
	// each 12 x 12 mm: 0.48 - (4 + 5 - 1) x 0.000144 m2 = 0.478848 m2.
	if got, want := rooms[0].InsideGaps(mm(12)), mm(1000).Times(mm(46_921))+mm(1).Times(mm(152)); got != want {
		t.Errorf("%d inside the gaps, want %d", got, want)
	}
	if rooms[0].ProfileLength() != mm(2000) {
		t.Errorf("profiles of %s, want 2000 mm", rooms[0].ProfileLength())
	}
}

// Without a profile in the build-up, or with a floor that may run on, the room
// is laid in one piece.
func TestRoomsLaidInOnePiece(t *testing.T) {
	noProfile, longer := longRoom(), longRoom()
	noProfile.BuildUp.Lines = noProfile.BuildUp.Lines[:1]
	longer.BuildUp.Covering().Product.LongestRun = mm(12000)
	for _, room := range []*job.Room{noProfile, longer} {
		built := build(room, &job.Apartment{Name: "1", Type: "A"}).Rooms[0]
		if len(built.Fields) > 0 || len(built.Profiles) > 0 || len(built.Directions) != 2 || len(built.LaidInOne()) != 1 {
			t.Errorf("%d fields, %d profiles, %d directions", len(built.Fields), len(built.Profiles), len(built.Directions))
		}
	}
}
