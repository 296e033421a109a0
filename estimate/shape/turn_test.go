package shape

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/measure"
)

func TestSineCosine(t *testing.T) {
	for a := -FullTurn; a <= 2*FullTurn; a += 37 {
		sine, cosine := sineCosine(a)
		radians := float64(a) / 1000 * math.Pi / 180
		const scale, slack = 1 << fixed, 5e-15
		if math.Abs(float64(sine)/scale-math.Sin(radians)) > slack || math.Abs(float64(cosine)/scale-math.Cos(radians)) > slack {
			t.Fatalf("angle %d: sine %d, cosine %d", a, sine, cosine)
		}
	}
	for quarters, want := range [][2]int64{{0, 1}, {1, 0}, {0, -1}, {-1, 0}, {0, 1}} {
		sine, cosine := sineCosine(Angle(quarters) * QuarterTurn)
		if sine != want[0]<<fixed || cosine != want[1]<<fixed {
			t.Errorf("%d quarter turns: sine %d, cosine %d", quarters, sine, cosine)
		}
	}
}

// Hand working: seen along y, the point 3 east and 1 north lies 1 ahead and 3
// to the right. A right triangle of legs 3 and 4 seen along its longest side,
// at 53.130 degrees, ends 5 ahead.
func TestTurn(t *testing.T) {
	got := Ring{{3, 1}, {0, 0}}.Turn(QuarterTurn)
	if want := (Ring{{1, -3}, {0, 0}}); !cmp.Equal(got, want) {
		t.Errorf("a quarter turn gives %v, want %v", got, want)
	}
	got = Ring{{300 * measure.Millimetre, 400 * measure.Millimetre}}.Turn(53_130)
	if want := (Ring{{500 * measure.Millimetre, 0}}); !cmp.Equal(got, want) {
		t.Errorf("turned to the longest side %v, want %v", got, want)
	}
}
