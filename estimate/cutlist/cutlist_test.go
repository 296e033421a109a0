package cutlist

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// piece is a piece of a plank 100 long and 10 wide, lying in row r from x0 to
// x1.
func piece(row, seq, stock int, x0, x1 measure.Length) layout.Piece {
	y := measure.Length(row * 10)
	at := shape.Rectangle(shape.Box{X0: x0, X1: x1, Y0: y - 10, Y1: y}).Outer
	return layout.Piece{Row: row, Seq: seq, At: at, Stock: stock}
}

// Hand working. Room 0: row 1 is a whole plank 1 and 60 of plank 2; row 2 is
// the 40 left of plank 2 and 100 of plank 3, notched; row 3 is parted by a
// column. Room 1: 30 of plank 4 and, though it comes earlier in the list of
// pieces, the rest of plank 4 in row 2.
func TestOf(t *testing.T) {
	notched := piece(2, 2, 3, 40, 140)
	notched.At = shape.Ring{{X: 40, Y: 10}, {X: 140, Y: 10}, {X: 140, Y: 15}, {X: 130, Y: 15}, {X: 130, Y: 20}, {X: 40, Y: 20}}
	plan := &layout.Plan{Layouts: []layout.Layout{
		{Pieces: []layout.Piece{piece(1, 1, 1, 0, 100), piece(1, 2, 2, 100, 160), piece(2, 1, 2, 0, 40), notched, piece(3, 1, 5, 0, 50), piece(3, 2, 6, 70, 160)}},
		{Pieces: []layout.Piece{piece(2, 1, 4, 0, 70), piece(1, 1, 4, 0, 30)}},
	}}
	var got []string
	for room, steps := range Of(plan, 100, 10) {
		for _, segment := range Segments(steps) {
			for _, s := range segment.Steps {
				got = append(got, fmt.Sprintf("room %d row %d piece %d: %s%s%s", room, segment.Row, s.Piece.Seq,
					[]string{"whole", "new", "off-cut"}[s.Source], from(s.Before, " after"), from(s.After, " before")))
			}
			got = append(got, "-")
		}
	}
	want := []string{
		"room 0 row 1 piece 1: whole", "room 0 row 1 piece 2: new before 0/2.1", "-",
		"room 0 row 2 piece 1: off-cut after 0/1.2", "room 0 row 2 piece 2: new", "-",
		"room 0 row 3 piece 1: new", "-",
		"room 0 row 3 piece 2: new", "-",
		"room 1 row 1 piece 1: new before 1/2.1", "-",
		"room 1 row 2 piece 1: off-cut after 1/1.1", "-",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func from(p *Place, word string) string {
	if p == nil {
		return ""
	}
	return fmt.Sprintf("%s %d/%d.%d", word, p.Room, p.Piece.Row, p.Piece.Seq)
}
