package crew

import (
	"testing"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Blocks of 400 x 100 mm, right ones along x and left ones along y, cut by one
// straight cut, two or none, in words. Hand working: the long sides of a right
// block are y = 0 on the right and y = 100 on the left, its rear end is x = 0; a
// left block has x = 100 on the right, x = 0 on the left and its rear end at
// y = 0.
func TestBlockCutsInWords(t *testing.T) {
	blocks := &layout.Blocks{
		Outlines: [2]shape.Ring{ring(0, 0, 100, 0, 100, 400, 0, 400), ring(0, 0, 400, 0, 400, 100, 0, 100)},
		Sides:    [2]shape.Point{{Y: 400 * measure.Millimetre}, {X: 400 * measure.Millimetre}},
	}
	w := blockWriter{Lists: &Lists{unit: measure.MM}, blocks: blocks, unit: measure.MM}
	for _, tt := range []struct {
		hand layout.Hand
		at   shape.Ring
		want string
	}{
		{layout.Right, ring(0, 0, 245, 0, 145, 100, 0, 100), "Rear, left 145, right 245"},
		{layout.Right, ring(245, 0, 400, 0, 400, 100, 145, 100), "Front, left 255, right 155"},
		{layout.Right, ring(0, 0, 280, 0, 400, 60, 400, 100, 0, 100), "Off front right 120 x 60"},
		{layout.Right, ring(0, 40, 60, 100, 0, 100), "Only rear left 60 x 60"},
		{layout.Right, ring(0, 0, 400, 0, 400, 58, 0, 60), "Right side, front 58, rear 60"},
		{layout.Right, ring(0, 60, 400, 58, 400, 100, 0, 100), "Left side, front 42, rear 40"},
		{layout.Right, ring(100, 0, 300, 0, 200, 100), "100 x 0,  300 x 0,  200 x 100"},
		{layout.Left, ring(0, 0, 100, 0, 100, 200, 0, 300), "Rear, left 300, right 200"},
		{layout.Left, ring(100, 340, 100, 400, 40, 400), "Only front right 60 x 60"},
	} {
		box := tt.at.Bounds()
		if got := w.words(&layout.Piece{At: tt.at, In: box, Hand: tt.hand}); got != tt.want {
			t.Errorf("%v of a %s block: %q, want %q", tt.at, tt.hand, got, tt.want)
		}
	}
}

func ring(mm ...measure.Length) shape.Ring {
	var r shape.Ring
	for i := 0; i < len(mm); i += 2 {
		r = append(r, shape.Point{X: mm[i] * measure.Millimetre, Y: mm[i+1] * measure.Millimetre})
	}
	return r
}

// Three or more in a run are drawn together, two are not; a run keeps its order,
// its step and its row.
func TestPiecesTogether(t *testing.T) {
	for want, pieces := range map[string][]string{
		"1.2, 1.3":                      {"1.2", "1.3"},
		"1.9–1.11":                      {"1.9", "1.10", "1.11"},
		"1.1, every second 1.2–1.6":     {"1.1", "1.2", "1.4", "1.6"},
		"1.1–1.3, 2.4, 1.5":             {"1.1", "1.2", "1.3", "2.4", "1.5"},
		"3.3, 3.2, 3.1":                 {"3.3", "3.2", "3.1"},
		"1.1–1.3, every second 1.5–1.9": {"1.1", "1.2", "1.3", "1.5", "1.7", "1.9"},
	} {
		if got := piecesTogether(pieces); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestPlacesOfARoomTogether(t *testing.T) {
	for want, places := range map[string][]string{
		"R2 7.1, 7.2, R3 1.1": {"R2 7.1", "R2 7.2", "R3 1.1"},
		"1.1, 1.2":            {"1.1", "1.2"},
	} {
		if got := placesTogether(places); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
