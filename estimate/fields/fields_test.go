package fields

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"laybill/estimate/measure"
	"laybill/estimate/published"
	"laybill/estimate/shape"
)

const mm = measure.Millimetre

func ring(corners ...[2]int) shape.Ring {
	var r shape.Ring
	for _, c := range corners {
		r = append(r, shape.Point{X: measure.Length(c[0]) * mm, Y: measure.Length(c[1]) * mm})
	}
	return r
}

func profile(x0, y0, x1, y1 int) Profile {
	r := ring([2]int{x0, y0}, [2]int{x1, y1})
	return Profile{r[0], r[1]}
}

// Longest runs of 8 to 13 m are usual (makers' guidance, from memory); where a
// profile goes is common practice: necks and inner corners, else equal parts.
func TestProfilesByHand(t *testing.T) {
	for _, c := range []struct {
		name     string
		outline  shape.Ring
		holes    []shape.Ring
		longest  int64 // m
		fields   int
		profiles []Profile
	}{
		{"short enough", ring([2]int{0, 0}, [2]int{8000, 0}, [2]int{8000, 4000}, [2]int{0, 4000}), nil, 8, 1, nil},
		// 12 m is more than 8 and less than 16: two fields of 6 m.
		{"long rectangle", ring([2]int{0, 0}, [2]int{12000, 0}, [2]int{12000, 4000}, [2]int{0, 4000}), nil, 8, 2,
			[]Profile{profile(6000, 0, 6000, 4000)}},
		{"three parts", ring([2]int{0, 0}, [2]int{1500, 0}, [2]int{1500, 24000}, [2]int{0, 24000}), nil, 8, 3,
			[]Profile{profile(0, 8000, 1500, 8000), profile(0, 16000, 1500, 16000)}},
		// 9 m across takes a profile too: the first cut is the shorter, 9 m, then
		// both halves are cut at 4.5 m.
		{"too long both ways", ring([2]int{0, 0}, [2]int{12000, 0}, [2]int{12000, 9000}, [2]int{0, 9000}), nil, 8, 4,
			[]Profile{profile(0, 4500, 6000, 4500), profile(6000, 0, 6000, 9000), profile(6000, 4500, 12000, 4500)}},
		// An L of 12 x 9 m with arms of 5 and 4 m: both profiles at its inner corner.
		{"L", ring([2]int{0, 0}, [2]int{12000, 0}, [2]int{12000, 4000}, [2]int{5000, 4000}, [2]int{5000, 9000}, [2]int{0, 9000}), nil, 8, 3,
			[]Profile{profile(0, 4000, 5000, 4000), profile(5000, 0, 5000, 4000)}},
		// Two rooms drawn as one, a doorway of 838 in a wall of 120 between: the
		// profile stands in the doorway, on the side that leaves the fields more equal.
		{"doorway", ring([2]int{0, 0}, [2]int{6000, 0}, [2]int{6000, 1000}, [2]int{6120, 1000}, [2]int{6120, 0}, [2]int{11000, 0}, [2]int{11000, 4000},
			[2]int{6120, 4000}, [2]int{6120, 1838}, [2]int{6000, 1838}, [2]int{6000, 4000}, [2]int{0, 4000}), nil, 8, 2,
			[]Profile{profile(6000, 1000, 6000, 1838)}},
		// A Z: bars of 7 m that overlap by 1 m are parted at the neck of 1 m.
		{"Z", ring([2]int{0, 0}, [2]int{7000, 0}, [2]int{7000, 2000}, [2]int{13000, 2000}, [2]int{13000, 4000}, [2]int{6000, 4000}, [2]int{6000, 2000},
			[2]int{0, 2000}), nil, 8, 2, []Profile{profile(6000, 2000, 7000, 2000)}},
		// A column of 400 mm at the middle of 12 m: the profile ends at its side that
		// parts the floor more equally, and goes on behind it.
		{"column", ring([2]int{0, 0}, [2]int{12000, 0}, [2]int{12000, 4000}, [2]int{0, 4000}),
			[]shape.Ring{ring([2]int{5900, 1800}, [2]int{5900, 2200}, [2]int{6300, 2200}, [2]int{6300, 1800})}, 8, 2,
			[]Profile{profile(5900, 0, 5900, 1800), profile(5900, 2200, 5900, 4000)}},
		// The neck at 300 mm from the end would leave a field thinner than a metre.
		{"neck too near the end", ring([2]int{0, 0}, [2]int{300, 0}, [2]int{300, 1000}, [2]int{8100, 1000}, [2]int{8100, 3000}, [2]int{300, 3000}, [2]int{300, 4000},
			[2]int{0, 4000}), nil, 8, 2, []Profile{profile(4050, 1000, 4050, 3000)}},
	} {
		floor := shape.Region{shape.Normalise(shape.Polygon{Outer: c.outline, Holes: c.holes})}
		fields, profiles := Divide(floor, measure.Length(c.longest)*measure.Metre)
		if len(fields) != c.fields {
			t.Errorf("%s: %d fields, want %d", c.name, len(fields), c.fields)
		}
		if diff := cmp.Diff(c.profiles, profiles); diff != "" {
			t.Errorf("%s: profiles (-want +got):\n%s", c.name, diff)
		}
	}
}

// checkDivision checks that fields make up the floor, run no further than they
// may, and have the profiles and nothing else between them: the walls of all
// fields are those of the floor and both sides of every profile.
func checkDivision(t interface {
	Helper()
	Errorf(string, ...any)
}, floor shape.Region, longest measure.Length) (fields int) {
	t.Helper()
	parts, profiles := Divide(floor, longest)
	slanted := !floor.AxisParallel()
	var area int64
	var walls, between measure.Length
	for _, part := range parts {
		area += part.DoubleArea()
		walls += part.Perimeter()
		box := part.Bounds()
		if box.X1-box.X0 > longest || box.Y1-box.Y0 > longest {
			t.Errorf("a field of %s by %s", box.X1-box.X0, box.Y1-box.Y0)
		}
	}
	for _, p := range profiles {
		between += p.Length()
		if p.Length() <= 0 {
			t.Errorf("a profile of %s", p.Length())
		}
	}
	var round measure.Length
	for _, part := range floor {
		round += part.Perimeter()
	}
	areaSlack, lengthSlack := int64(0), measure.Length(0)
	if slanted { // ends of profiles on slanted walls are rounded to 1/320 mm
		areaSlack, lengthSlack = int64(round), measure.Length(4*len(parts)*len(parts))
	}
	if off := area - floor.DoubleArea(); off > areaSlack || off < -areaSlack {
		t.Errorf("fields of %d, floor of %d", area, floor.DoubleArea())
	}
	if off := walls - round - 2*between; off > lengthSlack || off < -lengthSlack {
		t.Errorf("walls of the fields %s, of the floor %s, profiles %s", walls, round, between)
	}
	return len(parts)
}

// Any room of axis-parallel walls with columns is divided into fields that make
// it up; a rectangle leaves none thinner than a metre.
func TestFieldsMakeUpTheFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, from, to int) measure.Length {
			return measure.Length(rapid.IntRange(from, to).Draw(t, name)) * mm
		}
		whole := shape.Box{X1: length("x", 1500, 30000), Y1: length("y", 1500, 30000)}
		longest := length("longest", 3000, 13000)
		parts, _ := Divide(shape.Region{shape.Rectangle(whole)}, longest)
		for _, part := range parts {
			if box := part.Bounds(); box.X1-box.X0 < LeastField || box.Y1-box.Y0 < LeastField {
				t.Errorf("a rectangle of %v has a field of %v", whole, box)
			}
		}
		var boxes []shape.Box
		for range rapid.IntRange(0, 4).Draw(t, "boxes") {
			at := shape.Point{X: length("at x", -2000, 30000), Y: length("at y", -2000, 30000)}
			boxes = append(boxes, shape.Box{X0: at.X, Y0: at.Y, X1: at.X + length("wide", 200, 9000), Y1: at.Y + length("deep", 200, 9000)})
		}
		checkDivision(t, shape.Subtract(shape.Region{shape.Rectangle(whole)}, boxes...), longest)
	})
}

// Rooms of real plans: Swiss apartments (Archilyse), public buildings
// (OpenStudio models) and the spaces of nine building models (IFC).
func TestRealRoomsAreDivided(t *testing.T) {
	for _, set := range published.RoomSets {
		for _, longest := range []measure.Length{3 * measure.Metre, 8 * measure.Metre} {
			rooms, divided, fields := 0, 0, 0
			for _, room := range planRooms(t, set) {
				n := checkDivision(t, shape.Region{room}, longest)
				if rooms++; n > 1 {
					divided++
					fields += n
				}
				if t.Failed() {
					t.Fatalf("%s, room %d, longest run %s", set, rooms, longest)
				}
			}
			t.Logf("%s, longest run %s: %d of %d rooms divided into %d fields", set, longest, divided, rooms, fields)
		}
	}
}

func planRooms(t *testing.T, set string) []shape.Polygon {
	t.Helper()
	var rooms []shape.Polygon
	for _, plan := range published.Rooms(t, set) {
		room := shape.Polygon{Outer: ring(plan.Outer...)}
		for _, hole := range plan.Holes {
			room.Holes = append(room.Holes, ring(hole...))
		}
		rooms = append(rooms, shape.Normalise(room))
	}
	return rooms
}
