package shape

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestWalls(t *testing.T) {
	slanted := Polygon{Outer: Ring{{5, 0}, {9, 3}, {9, 9}, {2, 9}, {2, 3}}}
	tests := []struct {
		name string
		in   Polygon
		want []Wall
	}{
		{"an L with a column", corner, []Wall{
			{0, Point{0, 0}, Point{6, 0}, 6, South},
			{0, Point{6, 0}, Point{6, 3}, 3, East},
			{0, Point{6, 3}, Point{4, 3}, 2, North},
			{0, Point{4, 3}, Point{4, 4}, 1, East},
			{0, Point{4, 4}, Point{0, 4}, 4, North},
			{0, Point{0, 4}, Point{0, 0}, 4, West},
			// The column's west side faces east of the floor beside it.
			{1, Point{1, 1}, Point{1, 2}, 1, East},
			{1, Point{1, 2}, Point{2, 2}, 1, South},
			{1, Point{2, 2}, Point{2, 1}, 1, West},
			{1, Point{2, 1}, Point{1, 1}, 1, North},
		}},
		// The corner 2,3 lies 3.6 from 0,0, the lowest 5. A wall of 4 on 3 falls
		// more along than across; one of 3 on 3 is halfway.
		{"slanted walls, first corner not the lowest", slanted, []Wall{
			{0, Point{2, 3}, Point{5, 0}, 4, South},
			{0, Point{5, 0}, Point{9, 3}, 5, South},
			{0, Point{9, 3}, Point{9, 9}, 6, East},
			{0, Point{9, 9}, Point{2, 9}, 7, North},
			{0, Point{2, 9}, Point{2, 3}, 6, West},
		}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, test.in.Walls()); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestSideLetters(t *testing.T) {
	letters := ""
	for _, side := range []Side{North, East, South, West} {
		letters += side.String()
	}
	if letters != "NESW" {
		t.Errorf("letters %s", letters)
	}
}

func TestLongerSide(t *testing.T) {
	for name, test := range map[string]struct {
		box  Box
		want Angle
	}{
		"wide":   {Box{0, 0, 5, 4}, 0},
		"deep":   {Box{0, 0, 4, 5}, QuarterTurn},
		"square": {Box{0, 0, 5, 5}, 0},
	} {
		if got := Rectangle(test.box).LongerSide(); got != test.want {
			t.Errorf("%s: %d, want %d", name, got, test.want)
		}
	}
}

// The walk E 5.2, N 2.4, W 1.2, N 1.2, W 4.0, S 3.6 in tenths.
func TestFromLegs(t *testing.T) {
	legs := []Leg{{52, 0}, {0, 24}, {-12, 0}, {0, 12}, {-40, 0}, {0, -36}}
	want := Ring{{0, 0}, {52, 0}, {52, 24}, {40, 24}, {40, 36}, {0, 36}}
	tests := []struct {
		name    string
		legs    []Leg
		corners Ring
		closing Leg
	}{
		{"closed", legs, want, Leg{}},
		{"closing leg left out", legs[:5], want, Leg{0, -36}},
		{"two legs left out", legs[:4], want[:5], Leg{-40, -36}},
		{"no legs", nil, Ring{}, Leg{}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			corners, closing := FromLegs(test.legs)
			if diff := cmp.Diff(test.corners, corners); diff != "" || closing != test.closing {
				t.Errorf("closing leg %v, want %v; corners %s", closing, test.closing, diff)
			}
		})
	}
}
