package shape

import (
	"encoding/binary"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/measure"
	"laybill/estimate/published"
)

func TestValidate(t *testing.T) {
	room := Rectangle(Box{0, 0, 100, 100}).Outer
	hole := func(x0, y0, x1, y1 measure.Length) Ring { return Rectangle(Box{x0, y0, x1, y1}).Outer }
	tests := []struct {
		name string
		in   Polygon
		want []Fault
	}{
		{"sound, with columns", Polygon{room, []Ring{hole(10, 10, 20, 20), hole(30, 10, 40, 20)}}, nil},
		{"a triangle", Polygon{Outer: Ring{{0, 0}, {10, 0}, {3, 7}}}, nil},
		{"clockwise", Polygon{Outer: Ring{{0, 0}, {0, 10}, {10, 10}, {10, 0}}}, nil},
		{"a corner on a straight wall", Polygon{Outer: Ring{{0, 0}, {5, 0}, {10, 0}, {10, 10}}}, nil},
		{"nothing", Polygon{}, []Fault{{Kind: FewCorners}}},
		{"two corners", Polygon{Outer: Ring{{1, 2}, {5, 5}}}, []Fault{{Kind: FewCorners, At: Point{1, 2}}}},
		{"a leg of no length", Polygon{Outer: Ring{{0, 0}, {10, 0}, {10, 0}, {10, 10}}},
			[]Fault{{Kind: ZeroLeg, Leg: 1, At: Point{10, 0}}}},
		{"closed twice", Polygon{Outer: Ring{{0, 0}, {10, 0}, {10, 10}, {0, 0}}},
			[]Fault{{Kind: ZeroLeg, Leg: 3, At: Point{0, 0}}}},
		{"a bow", Polygon{Outer: Ring{{0, 0}, {10, 10}, {10, 0}, {0, 10}}},
			[]Fault{{Kind: Crossing, Leg: 0, Other: 2, At: Point{5, 5}}}},
		{"a corner on another wall", Polygon{Outer: Ring{{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}},
			[]Fault{{Kind: Touching, Leg: 0, Other: 2, At: Point{5, 0}}}},
		{"two corners in one place", Polygon{Outer: Ring{{0, 0}, {5, 5}, {10, 0}, {10, 10}, {5, 5}, {0, 10}}},
			[]Fault{{Kind: Touching, Leg: 0, Other: 3, At: Point{5, 5}}}},
		{"straight back along the wall", Polygon{Outer: Ring{{0, 0}, {10, 0}, {5, 0}, {5, 10}}},
			[]Fault{{Kind: Touching, Leg: 0, Other: 1, At: Point{10, 0}}, {Kind: Touching, Leg: 0, Other: 2, At: Point{5, 0}}}},
		{"all on one line", Polygon{Outer: Ring{{0, 0}, {10, 0}, {20, 0}}},
			[]Fault{{Kind: NoArea}}},
		{"there and back round a corner", Polygon{Outer: Ring{{1, 0}, {10, 0}, {10, 9}, {10, 0}}},
			[]Fault{{Kind: NoArea, At: Point{1, 0}}}},
		{"too far", Polygon{Outer: Ring{{0, 0}, {Limit + 1, 0}, {0, 10}}},
			[]Fault{{Kind: TooFar, Leg: 1, At: Point{Limit + 1, 0}}}},
		{"a column outside", Polygon{room, []Ring{hole(200, 10, 210, 20)}},
			[]Fault{{Kind: HoleOutside, Ring: 1, At: Point{200, 10}}}},
		{"a column through the wall", Polygon{room, []Ring{hole(90, 10, 110, 20)}},
			[]Fault{{Kind: HoleCrosses, Ring: 1, Leg: 0, Other: 1, At: Point{100, 10}}}},
		{"a column at the wall", Polygon{room, []Ring{hole(90, 10, 100, 20)}},
			[]Fault{{Kind: HoleCrosses, Ring: 1, Leg: 0, Other: 1, At: Point{100, 10}}}},
		{"columns that cross", Polygon{room, []Ring{hole(10, 10, 30, 30), hole(20, 15, 40, 20)}},
			[]Fault{{Kind: HolesMeet, Ring: 2, Leg: 0, OtherRing: 1, Other: 1, At: Point{30, 15}}}},
		{"a column in a column", Polygon{room, []Ring{hole(10, 10, 30, 30), hole(15, 15, 20, 20)}},
			[]Fault{{Kind: HolesMeet, Ring: 2, OtherRing: 1, At: Point{15, 15}}}},
		{"a column round a column", Polygon{room, []Ring{hole(15, 15, 20, 20), hole(10, 10, 30, 30)}},
			[]Fault{{Kind: HolesMeet, Ring: 2, OtherRing: 1, At: Point{10, 10}}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, Validate(test.in)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Rooms off real plans are sound, and so is everything cut from them.
func TestPlanRoomsAreSound(t *testing.T) {
	for _, set := range published.RoomSets {
		for _, room := range planRooms(t, set) {
			for _, angle := range []Angle{0, 30 * degree} {
				turned := Region{room.floor}.Turn(angle)
				mustBeSound(t, room.name+" turned", turned)
				inset := Inset(turned, planGap)
				mustBeSound(t, room.name+" inset", inset)
				for _, parts := range Rows(inset, rowEdges(inset.Bounds(), planRow)) {
					mustBeSound(t, room.name+" row", parts)
				}
			}
		}
	}
}

const degree Angle = 1000

func mustBeSound(t *testing.T, what string, parts []Polygon) {
	t.Helper()
	for _, part := range parts {
		if faults := Validate(part); len(faults) > 0 {
			t.Errorf("%s: faults %v in %v", what, faults, part)
		}
	}
}

// No outline, however tangled, makes a cut panic; a sound one keeps its area.
func FuzzCuts(f *testing.F) {
	bow := []byte{0, 0, 0, 0, 0, 9, 0, 9, 0, 9, 0, 0, 0, 0, 0, 9}
	f.Add(bow, uint16(3), uint32(12_345), uint8(4))
	f.Add([]byte{0, 0, 0, 0, 0, 9, 0, 0, 0, 9, 0, 9, 0, 0, 0, 9, 0, 2, 0, 2, 0, 3, 0, 2, 0, 3, 0, 3}, uint16(1), uint32(90_000), uint8(4))
	f.Fuzz(func(t *testing.T, corners []byte, gap uint16, angle uint32, split uint8) {
		if len(corners) > 400 {
			return
		}
		const scale = Limit / (1 << 16) // 16-bit corners, turned, stay within the limit
		ring := make(Ring, 0, len(corners)/4)
		for ; len(corners) >= 4; corners = corners[4:] {
			ring = append(ring, Point{
				scale * measure.Length(int16(binary.BigEndian.Uint16(corners))),
				scale * measure.Length(int16(binary.BigEndian.Uint16(corners[2:]))),
			})
		}
		floor := Polygon{Outer: ring}
		if int(split) < len(ring) {
			floor = Polygon{Outer: ring[:split], Holes: []Ring{ring[split:]}}
		}
		sound := len(Validate(floor)) == 0
		floor.Contains(Point{1, 1})
		floor.Walls()
		turned := Region{floor}.Turn(Angle(angle))
		cutAll(turned, measure.Length(gap)*scale/16)
		cutAll(Region{floor}, measure.Length(gap)*scale/16)
		if !sound {
			return
		}
		floor = Normalise(floor)
		whole := Region{floor}
		box := whole.Bounds()
		var rows int64
		for _, parts := range Rows(whole, []measure.Length{box.Y0, (box.Y0 + box.Y1) / 2, box.Y1}) {
			rows += Region(parts).DoubleArea()
		}
		if off := rows - floor.DoubleArea(); off > int64(floor.Perimeter()) || -off > int64(floor.Perimeter()) {
			t.Errorf("rows have a doubled area of %d, the floor %d", rows, floor.DoubleArea())
		}
		if inset := Inset(whole, scale); inset.DoubleArea() > floor.DoubleArea() {
			t.Errorf("the inset has a doubled area of %d, the floor %d", inset.DoubleArea(), floor.DoubleArea())
		}
	})
}

func cutAll(r Region, gap measure.Length) {
	Inset(r, gap)
	box := r.Bounds()
	middle := Box{box.X0 / 2, box.Y0 / 2, box.X1 / 2, box.Y1 / 2}
	for _, part := range Subtract(r, middle) {
		Columns(part, []measure.Length{box.X0, middle.X0, middle.X1, box.X1})
	}
	Rows(r, []measure.Length{box.Y0, middle.Y0, middle.Y1, box.Y1})
}
