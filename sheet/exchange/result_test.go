package exchange

import (
	"testing"

	"laybill/estimate/measure"
)

// Lengths of 1/320 mm are 0.003125 mm: 12.7 mm is half an inch, 0.396875 mm a
// 64th of an inch (NIST SP 811, 25.4 mm to the inch).
func TestLengthsAreExactMillimetres(t *testing.T) {
	for _, c := range []struct {
		length measure.Length
		want   string
	}{
		{0, "0"}, {1, "0.003125"}, {-1, "-0.003125"}, {320, "1"}, {127, "0.396875"}, {measure.Inch / 2, "12.7"},
		{-3*measure.Millimetre - 160, "-3.5"}, {measure.Metre, "1000"},
	} {
		if got := string(mm(c.length).append(nil)); got != c.want {
			t.Errorf("%d units are written as %s, want %s", c.length, got, c.want)
		}
	}
}

func TestRingIsAListOfPoints(t *testing.T) {
	text := string(must(ring{{X: 320, Y: 0}, {X: 640, Y: -160}}.MarshalJSON()))
	if text != "[[1,0],[2,-0.5]]" {
		t.Errorf("a ring is written as %s", text)
	}
}

func must(text []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return text
}
