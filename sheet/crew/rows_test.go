package crew

import (
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// The lengths of a row's pieces, rounded to the tape, add up to the row's
// rounded length, in both systems.
func TestRowsClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]measure.Unit{measure.MM, measure.Ft}).Draw(t, "unit")
		l := &Lists{unit: unit}
		start := measure.Length(rapid.Int64Range(0, 5000).Draw(t, "start"))
		at, sum := start, measure.Length(0)
		for range rapid.IntRange(1, 8).Draw(t, "pieces") {
			length := measure.Length(rapid.Int64Range(1, 2_000_000).Draw(t, "length"))
			piece := &layout.Piece{At: shape.Rectangle(shape.Box{X0: at, X1: at + length, Y1: 1}).Outer}
			sum += l.closed(piece, start)
			at += length
		}
		if want := Saw(at-start, unit); sum != want {
			t.Fatalf("pieces add up to %v, the row is %v", sum, want)
		}
	})
}

func TestRanges(t *testing.T) {
	for _, tt := range []struct {
		numbers []int
		want    string
	}{
		{[]int{7}, "7"},
		{[]int{4, 2, 3}, "2-4"},
		{[]int{9, 1, 2, 5}, "1-2, 5, 9"},
	} {
		if got := ranges(tt.numbers); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.numbers, got, tt.want)
		}
	}
}

func TestPiecesOfABarInWords(t *testing.T) {
	if got, want := joined([]string{"1400", "640", "640"}), "1400  +  2 x 640"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
