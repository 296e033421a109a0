package layout

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/shape"
)

// fieldsOfTheTrial is a room of 12.0 x 4.0 m in two fields of 6.0 m, given in
// the wrong order, beside an ordinary room.
func fieldsOfTheTrial() Pool {
	west := shape.Region{shape.Rectangle(shape.Box{X1: 6000 * mm, Y1: 4000 * mm})}
	east := shape.Region{shape.Rectangle(shape.Box{X0: 6000 * mm, X1: 12000 * mm, Y1: 4000 * mm})}
	whole := roomOf(shape.Rectangle(shape.Box{X1: 12000 * mm, Y1: 4000 * mm}))
	whole.Fields = []shape.Region{east, west}
	return poolOf(trialPlanks[0], trialRules, whole, rectangleRoom(rand.New(rand.NewPCG(1, 1))))
}

// Fields are laid like rooms of their own, and numbered on: inside the gap
// of 12 mm a field is 5976 x 3976 mm, 21 rows of 192 mm (20 x 192 = 3840).
func TestFieldsAreLaidLikeRooms(t *testing.T) {
	p := fieldsOfTheTrial()
	plan := mustLay(t, Lay, p)
	laid := &plan.Layouts[0]
	if diff := cmp.Diff([]Field{{First: 1, Last: 21}, {First: 22, Last: 42}}, laid.Fields); diff != "" {
		t.Fatalf("fields (-want +got):\n%s", diff)
	}
	if area := 2 * (5976 * mm).Times(3976*mm); laid.Area() != area {
		t.Errorf("laid %d, want %d", laid.Area(), area)
	}
	parts := p
	parts.Rooms = nil
	for i, field := range []int{1, 0} {
		parts.Rooms = append(parts.Rooms, Room{ID: fmt.Sprintf("room 000 %d", i), Floor: p.Rooms[0].Fields[field]})
	}
	parts.Rooms = append(parts.Rooms, p.Rooms[1])
	apart := mustLay(t, Lay, parts)
	report(t, parts, apart)
	if plan.Planks != apart.Planks || laid.Planks != apart.Layouts[0].Planks+apart.Layouts[1].Planks {
		t.Errorf("%d planks, %d in the divided room, want those of three rooms", plan.Planks, laid.Planks)
	}
	want := apart.Layouts[0].Pieces
	for _, piece := range apart.Layouts[1].Pieces {
		piece.Row += 21
		want = append(want, piece)
	}
	if diff := cmp.Diff(want, laid.Pieces); diff != "" {
		t.Errorf("pieces (-want +got):\n%s", diff)
	}
}

// Fields lie in the order of their rows, which rise with y in the layout's
// frame: across the room's length that is from east to west.
func TestFieldsAreInOrderOfRows(t *testing.T) {
	p := fieldsOfTheTrial()
	p.Rooms[0].Directions = []shape.Angle{shape.QuarterTurn}
	laid := mustLay(t, Lay, p).Layouts[0]
	last := laid.Rows[0]
	for i, row := range laid.Rows[1:] {
		if row.Y0 < last.Y1 {
			t.Fatalf("row %d begins at %s, the one before ends at %s", i+2, row.Y0, last.Y1)
		}
		last = row
	}
	// The gap of 12 mm on both sides of the profile.
	first, second := laid.Fields[0], laid.Fields[1]
	if gap := laid.Rows[second.First-1].Y0 - laid.Rows[first.Last-1].Y1; gap != 24*mm {
		t.Errorf("%s between the fields, want 24 mm", gap)
	}
}

// A shortfall names its row as the drawing numbers it: a field of 130 mm inside
// the gap, laid with planks of 192 mm, has one row, narrower than a least row of
// 150 mm.
func TestShortfallsOfFieldsAreNumberedOn(t *testing.T) {
	p := fieldsOfTheTrial()
	p.Rules.LeastRow = 150 * mm
	narrow := shape.Region{shape.Rectangle(shape.Box{X1: 6000 * mm, Y0: 4000 * mm, Y1: 4154 * mm})}
	p.Rooms[0].Fields = append(p.Rooms[0].Fields, narrow)
	plan := mustLay(t, Lay, p)
	for _, short := range plan.Shortfalls {
		if short.Room == "room 000" && short.Rule == RuleRow && short.Row == 43 {
			if want := "row 43 is 130 mm wide, less than 150 mm"; short.Sentence() != want {
				t.Errorf("%q, want %q", short.Sentence(), want)
			}
			return
		}
	}
	t.Errorf("the narrow row 43 is not named: %v", plan.Shortfalls)
}
