package shape

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"laybill/estimate/measure"
)

// slantedFloor draws a floor on squared paper with squares of 200 mm and turns
// it by an odd angle, so that every wall is slanted.
func slantedFloor(t *rapid.T) (straight, slanted Region, angle Angle) {
	const scale = 100 * measure.Millimetre // half a square
	paper := drawPixels(t)
	for _, part := range paper.region() {
		straight = append(straight, part.each(func(p Point) Point { return Point{p.X * scale, p.Y * scale} }))
	}
	angle = Angle(rapid.IntRange(1, 89_999).Draw(t, "angle"))
	return straight, straight.Turn(angle), angle
}

func (r Region) perimeter() measure.Length {
	var sum measure.Length
	for _, part := range r {
		sum += part.Perimeter()
	}
	return sum
}

func (r Region) holes() int {
	count := 0
	for _, part := range r {
		count += len(part.Holes)
	}
	return count
}

// doubleSlack is twice the area that rounding corners by at most 0.71 of a
// unit, twice, can move along the walls, with four squares a part to spare.
func doubleSlack(r Region) int64 { return 3*int64(r.perimeter()) + 4*int64(len(r)) }

// A gap along the walls of a turned floor is the turned gap: the same parts and
// the same area to the rounding of the walls.
func TestInsetOfTurnedFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		straight, slanted, angle := slantedFloor(t)
		gap := measure.Length(rapid.IntRange(1, 90).Draw(t, "gap")) * measure.Millimetre
		want, got := Inset(straight, gap), Inset(slanted, gap)
		if len(got) != len(want) || got.holes() != want.holes() {
			t.Fatalf("turned by %d: %d parts with %d holes, want %d with %d",
				angle, len(got), got.holes(), len(want), want.holes())
		}
		if off := got.DoubleArea() - want.DoubleArea(); off > doubleSlack(want) || -off > doubleSlack(want) {
			t.Fatalf("turned by %d: doubled area %d, want %d", angle, got.DoubleArea(), want.DoubleArea())
		}
		for _, part := range got {
			if faults := Validate(part); len(faults) > 0 {
				t.Fatalf("turned by %d: faults %v in %v", angle, faults, part)
			}
		}
	})
}

// Turned and turned back, a corner is where it was to within a unit or so.
func TestTurnBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := Angle(rapid.IntRange(-720_000, 720_000).Draw(t, "angle"))
		p := Point{
			measure.Length(rapid.Int64Range(-int64(Limit), int64(Limit)).Draw(t, "x")),
			measure.Length(rapid.Int64Range(-int64(Limit), int64(Limit)).Draw(t, "y")),
		}
		back := Ring{p}.Turn(angle).TurnBack(angle)[0]
		if off := distance(p, back); off > 1 {
			t.Fatalf("%v comes back as %v", p, back)
		}
	})
}

// Rows of a slanted floor stay within their heights and add up to it to half a
// unit times its walls; cutting each part of a row into columns loses no more.
func TestRowsOfTurnedFloorAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, slanted, _ := slantedFloor(t)
		box := slanted.Bounds()
		height := measure.Length(rapid.IntRange(40, 2000).Draw(t, "row")) * measure.Millimetre
		edges := rowEdges(box, height)
		var rows, pieces int64
		for i, parts := range Rows(slanted, edges) {
			for _, part := range parts {
				bounds := part.Bounds()
				if bounds.Y0 < edges[i] || bounds.Y1 > edges[i+1] {
					t.Fatalf("row %d reaches from %d to %d, edges %d to %d", i, bounds.Y0, bounds.Y1, edges[i], edges[i+1])
				}
				rows += part.DoubleArea()
				for _, column := range Columns(part, columnCuts(bounds, height)) {
					pieces += Region(column).DoubleArea()
				}
			}
		}
		slack := int64(slanted.perimeter())
		if off := rows - slanted.DoubleArea(); off > slack || -off > slack {
			t.Fatalf("rows have a doubled area of %d, the floor %d", rows, slanted.DoubleArea())
		}
		if off := pieces - rows; off > slack || -off > slack {
			t.Fatalf("pieces have a doubled area of %d, rows %d", pieces, rows)
		}
	})
}

func columnCuts(box Box, width measure.Length) []measure.Length {
	return rowEdges(Box{Y0: box.X0, Y1: box.X1}, width)
}

// What a box takes off a floor and what it leaves are the floor.
func TestSubtractAndTheBoxAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, slanted, _ := slantedFloor(t)
		box := slanted.Bounds()
		x := rapid.Int64Range(int64(box.X0), int64(box.X1)).Draw(t, "x")
		y := rapid.Int64Range(int64(box.Y0), int64(box.Y1)).Draw(t, "y")
		size := rapid.Int64Range(1, int64(3*measure.Metre)).Draw(t, "size")
		column := Box{measure.Length(x), measure.Length(y), measure.Length(x + size), measure.Length(y + size)}
		rest := Subtract(slanted, column)

		var taken int64
		for _, part := range Rows(slanted, []measure.Length{column.Y0, column.Y1})[0] {
			for _, inside := range Columns(part, []measure.Length{column.X0, column.X1})[0] {
				taken += inside.DoubleArea()
			}
		}
		slack := 3 * int64(slanted.perimeter())
		if off := rest.DoubleArea() + taken - slanted.DoubleArea(); off > slack || -off > slack {
			t.Fatalf("doubled area left %d + taken %d, floor %d", rest.DoubleArea(), taken, slanted.DoubleArea())
		}
	})
}

// Hand working in units: a triangle of base 12 and height 8, cut at height 3.
// Its left wall climbs 8 on 6, so it stands at x = 3/8 × 6 = 2.25 there, rounded
// to 2; the right wall at 9.75, rounded to 10.
func TestRowsShareRoundedPoints(t *testing.T) {
	triangle := Region{{Outer: Ring{{0, 0}, {12, 0}, {6, 8}}}}
	got := Rows(triangle, []measure.Length{0, 3, 8})
	want := [][]Polygon{
		{{Outer: Ring{{0, 0}, {12, 0}, {10, 3}, {2, 3}}}},
		{{Outer: Ring{{2, 3}, {10, 3}, {6, 8}}}},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestPartsThatMeet(t *testing.T) {
	slantLeft := Polygon{Outer: Ring{{0, 0}, {10, 0}, {20, 30}, {0, 30}}}
	slantRight := Polygon{Outer: Ring{{10, 0}, {40, 0}, {40, 30}, {20, 30}}}
	below := Rectangle(Box{0, 0, 40, 10})
	apexDown := Polygon{Outer: Ring{{20, 10}, {30, 30}, {10, 30}}}
	apexUp := Polygon{Outer: Ring{{10, -10}, {30, -10}, {20, 0}}}
	tests := []struct {
		name string
		in   Region
		want Region
	}{
		{"a shared slanted wall disappears", Region{slantLeft, slantRight}, Region{Rectangle(Box{0, 0, 40, 30})}},
		{"a corner on the wall above is no way through", Region{below, apexDown}, Region{below, apexDown}},
		{"a corner on the wall below is no way through", Region{below, apexUp}, Region{below, apexUp}},
		{
			// The left part's wall stands at 10.4 where the right part has a corner at 10.
			"a gap narrower than the unit is none",
			Region{
				{Outer: Ring{{0, 0}, {10, 0}, {11, 10}, {0, 10}}},
				{Outer: Ring{{10, 0}, {40, 0}, {40, 10}, {11, 10}, {10, 4}}},
			},
			Region{Rectangle(Box{0, 0, 40, 10})},
		},
		{
			"two boxes corner to corner",
			Region{Rectangle(Box{0, 0, 10, 10}), Rectangle(Box{10, 10, 20, 20})},
			Region{Rectangle(Box{0, 0, 10, 10}), Rectangle(Box{10, 10, 20, 20})},
		},
		{
			"two boxes with part of a side in common",
			Region{Rectangle(Box{0, 0, 10, 10}), Rectangle(Box{5, 10, 15, 20})},
			Region{{Outer: Ring{{0, 0}, {10, 0}, {10, 10}, {15, 10}, {15, 20}, {5, 20}, {5, 10}, {0, 10}}}},
		},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, Subtract(test.in)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Hand working in units: walls of 20 with a neck of width 4 in the middle. A gap
// of 2 leaves the neck no width and the floor in two; a gap of 1 leaves it 2.
func TestInsetThroughANeck(t *testing.T) {
	floor := Region{{Outer: Ring{{0, 0}, {20, 0}, {20, 10}, {12, 10}, {12, 20}, {20, 20}, {20, 30}, {0, 30}, {0, 20}, {8, 20}, {8, 10}, {0, 10}}}}
	two := Region{Rectangle(Box{2, 2, 18, 8}), Rectangle(Box{2, 22, 18, 28})}
	if diff := cmp.Diff(two, Inset(floor, 2)); diff != "" {
		t.Errorf("gap 2: %s", diff)
	}
	one := Region{{Outer: Ring{{1, 1}, {19, 1}, {19, 9}, {11, 9}, {11, 21}, {19, 21}, {19, 29}, {1, 29}, {1, 21}, {9, 21}, {9, 9}, {1, 9}}}}
	if diff := cmp.Diff(one, Inset(floor, 1)); diff != "" {
		t.Errorf("gap 1: %s", diff)
	}
	if got := Inset(floor, 5); got != nil {
		t.Errorf("gap 5 leaves %v, want nothing", got)
	}
}

// Hand working: the inset of a triangle with sides 3, 4 and 5 m is a triangle
// of the same angles whose inscribed circle, 1 m in radius, is less the gap of
// 0.1 m: sides 2.7, 3.6 and 4.5 m, area 0.5 × 2.7 × 3.6 = 4.86 m².
func TestInsetOfARightTriangle(t *testing.T) {
	const m = measure.Metre
	floor := Region{{Outer: Ring{{0, 0}, {4 * m, 0}, {0, 3 * m}}}}
	got := Inset(floor, m/10)
	want := Region{{Outer: Ring{{m / 10, m / 10}, {37 * m / 10, m / 10}, {m / 10, 28 * m / 10}}}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// A thin wedge of wall pokes into the floor from the left, 1 in 20 on each
// side: its mitre would lie 20 gaps out and is cut off at ten.
func TestInsetCutsOffALongMitre(t *testing.T) {
	const m = measure.Metre
	floor := Region{{Outer: Ring{{0, -3 * m}, {5 * m, -3 * m}, {5 * m, 3 * m}, {0, 3 * m}, {0, m / 10}, {2 * m, 0}, {0, -m / 10}}}}
	gap := m / 100
	got := Inset(floor, gap)
	if len(got) != 1 {
		t.Fatalf("%d parts, want 1", len(got))
	}
	reach, corners := measure.Length(0), 0
	for _, p := range got[0].Outer {
		if p.X > m && p.X < 4*m {
			reach = max(reach, p.X-2*m)
			corners++
		}
	}
	if corners != 2 || reach < 10*gap || reach > 11*gap {
		t.Errorf("the wedge ends in %d corners %s past its point, want 2, ten to eleven gaps of %s", corners, reach, gap)
	}
}
