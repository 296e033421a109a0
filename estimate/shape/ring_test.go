package shape

import (
	"encoding/csv"
	"math"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/measure"
	"laybill/estimate/published"
)

// Perimeters as the open plan data state them, rounded there, to 1 mm a room.
func TestPlanRoomPerimeters(t *testing.T) {
	for _, set := range published.RoomSets {
		records, err := csv.NewReader(published.Open(t, "benchmarks", "rooms", set+".csv")).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		stated := map[string]float64{}
		column := columnOf(t, records[0], "perimeter")
		for _, record := range records[1:] {
			number, err := strconv.ParseFloat(record[column], 64)
			if err != nil {
				t.Fatal(err)
			}
			stated[record[0]] = number
		}
		checked := 0
		for _, room := range planRooms(t, set) {
			want, known := stated[room.name]
			if !known {
				continue
			}
			checked++
			got := float64(room.floor.Perimeter()) / float64(measure.Metre)
			if math.Abs(got-want) > 0.001 {
				t.Errorf("%s: perimeter %.6f m, want %.6f", room.name, got, want)
			}
		}
		if checked < 100 {
			t.Errorf("%s: only %d perimeters were checked", set, checked)
		}
	}
}

func columnOf(t *testing.T, header []string, prefix string) int {
	t.Helper()
	for i, name := range header {
		if len(name) >= len(prefix) && name[:len(prefix)] == prefix {
			return i
		}
	}
	t.Fatalf("no column %s in %v", prefix, header)
	return 0
}

// An L of 6 × 4 with 2 × 1 missing at the north-east and a column of 1 × 1.
var corner = Polygon{
	Outer: Ring{{0, 0}, {6, 0}, {6, 3}, {4, 3}, {4, 4}, {0, 4}},
	Holes: []Ring{{{1, 1}, {1, 2}, {2, 2}, {2, 1}}},
}

// Hand working: 6×4 - 2×1 - 1×1 = 21; round the outline 6+3+2+1+4+4 = 20, round
// the column 4.
func TestAreaAndPerimeter(t *testing.T) {
	if got := corner.DoubleArea(); got != 42 {
		t.Errorf("doubled area %d, want 42", got)
	}
	if got := corner.Area(); got != 21 {
		t.Errorf("area %d, want 21", got)
	}
	if got := corner.Perimeter(); got != 24 {
		t.Errorf("perimeter %d, want 24", got)
	}
	// Half a square unit is rounded up.
	if got := (Polygon{Outer: Ring{{0, 0}, {1, 0}, {0, 1}}}).Area(); got != 1 {
		t.Errorf("area of half a square %d, want 1", got)
	}
	// A leg of 1 on 1 is 1.414 long, one of 3 on 4 is 5.
	if got := (Polygon{Outer: Ring{{0, 0}, {3, 4}, {-1, 7}}}).Perimeter(); got != 5+5+7 {
		t.Errorf("perimeter %d, want 17", got)
	}
}

func TestNormalise(t *testing.T) {
	tests := []struct {
		name     string
		in, want Polygon
	}{
		{"already so", corner, corner},
		{
			"clockwise with another first corner",
			Polygon{Outer: Ring{{4, 3}, {6, 3}, {6, 0}, {0, 0}, {0, 4}, {4, 4}}},
			Polygon{Outer: corner.Outer},
		},
		{
			"repeated corners, corners on a wall, the first repeated last",
			Polygon{Outer: Ring{{0, 0}, {3, 0}, {6, 0}, {6, 0}, {6, 3}, {4, 3}, {4, 4}, {0, 4}, {0, 2}, {0, 0}}},
			Polygon{Outer: corner.Outer},
		},
		{
			"a corner on the wall where the ring begins",
			Polygon{Outer: Ring{{3, 0}, {6, 0}, {6, 3}, {4, 3}, {4, 4}, {0, 4}, {0, 0}}},
			Polygon{Outer: corner.Outer},
		},
		{
			"a leg that goes straight back",
			Polygon{Outer: Ring{{0, 0}, {6, 0}, {9, 0}, {6, 0}, {6, 3}, {4, 3}, {4, 4}, {0, 4}}},
			Polygon{Outer: corner.Outer},
		},
		{
			"holes in order, clockwise; one without area",
			Polygon{Outer: Rectangle(Box{0, 0, 9, 9}).Outer, Holes: []Ring{
				{{5, 5}, {6, 5}, {6, 6}, {5, 6}}, {{7, 7}, {8, 8}}, {{2, 2}, {1, 2}, {1, 1}, {2, 1}},
			}},
			Polygon{Outer: Rectangle(Box{0, 0, 9, 9}).Outer, Holes: []Ring{
				{{1, 1}, {1, 2}, {2, 2}, {2, 1}}, {{5, 5}, {5, 6}, {6, 6}, {6, 5}},
			}},
		},
		{"no area at all", Polygon{Outer: Ring{{0, 0}, {5, 0}, {2, 0}}}, Polygon{}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, Normalise(test.in)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestContains(t *testing.T) {
	tests := []struct {
		name string
		at   Point
		want bool
	}{
		{"inside", Point{3, 2}, true},
		{"level with a corner", Point{5, 2}, true},
		{"on a wall", Point{5, 0}, true},
		{"on a corner", Point{4, 3}, true},
		{"on the column's wall", Point{1, 2}, true},
		{"outside the re-entrant corner", Point{5, 4}, false},
		{"west of it, level with a wall", Point{-1, 3}, false},
		{"east of it", Point{7, 3}, false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := corner.Contains(test.at); got != test.want {
				t.Errorf("Contains(%v) = %v", test.at, got)
			}
		})
	}
	ten := corner.each(func(p Point) Point { return Point{10 * p.X, 10 * p.Y} })
	if ten.Contains(Point{15, 15}) {
		t.Error("a point in the column is on the floor")
	}
}

func TestBounds(t *testing.T) {
	region := Region{corner, Rectangle(Box{-3, 2, -1, 9})}
	if got, want := region.Bounds(), (Box{-3, 0, 6, 9}); got != want {
		t.Errorf("bounds %v, want %v", got, want)
	}
	if got := (Region{}).Bounds(); got != (Box{}) {
		t.Errorf("bounds of nothing %v", got)
	}
	if !region.AxisParallel() || (Region{corner, {Outer: Ring{{0, 0}, {9, 1}, {0, 5}}}}).AxisParallel() {
		t.Error("axis-parallel walls are not told from slanted ones")
	}
}

func TestMirror(t *testing.T) {
	want := Polygon{
		Outer: Ring{{0, 0}, {6, 0}, {6, 4}, {2, 4}, {2, 3}, {0, 3}},
		Holes: []Ring{{{4, 1}, {4, 2}, {5, 2}, {5, 1}}},
	}
	if diff := cmp.Diff(want, corner.Mirror(6)); diff != "" {
		t.Error(diff)
	}
}
