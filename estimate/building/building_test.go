package building

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

func mm(n int64) measure.Length { return measure.Length(n) * measure.Millimetre }

// lRoom is an L-shaped room, 6.0 x 4.8 m with 2.5 x 2.2 m missing in the north
// east. Its walls in walking order: 1 S 6.0, 2 E 2.6, 3 N 2.5, 4 E 2.2, 5 N 3.5,
// 6 W 4.8.
func lRoom() *job.Room {
	return &job.Room{Type: "A", Name: "Living", Skirting: true, BuildUp: &job.BuildUp{},
		Outline: shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(6000), Y: 0}, {X: mm(6000), Y: mm(2600)}, {X: mm(3500), Y: mm(2600)}, {X: mm(3500), Y: mm(4800)}, {X: 0, Y: mm(4800)}}},
		Openings: []job.Opening{
			{Wall: 0, From: mm(500), Width: mm(900)},
			{Wall: 0, From: mm(2400), Width: mm(1600)},
			{Wall: 5, From: mm(3900), Width: mm(900)},
		}}
}

func build(room *job.Room, apartments ...*job.Apartment) *Building {
	return Build(&job.Job{Settings: job.Settings{DoorWidth: mm(900)}, Rooms: []*job.Room{room}, Apartments: apartments})
}

func TestSkirtingIsWallsLessOpenings(t *testing.T) {
	room := build(lRoom(), &job.Apartment{Name: "1", Type: "A"}).Rooms[0]
	// South wall 6.0 m: 0.5 | door 0.9 | 1.0 | opening 1.6 | 2.0. West wall 4.8 m:
	// 3.9 | door 0.9 in the corner, nothing after it.
	want := []string{"1 500", "1 1000", "1 2000", "2 2600", "3 2500", "4 2200", "5 3500", "6 3900"}
	var got []string
	for _, run := range room.Skirting {
		got = append(got, fmt.Sprint(run.Wall, " ", int64(run.Length/measure.Millimetre)))
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("runs (-want +got):\n%s", diff)
	}
	// 21.6 m of walls less 3.4 m of openings.
	var total measure.Length
	for _, run := range room.Skirting {
		total += run.Length
	}
	if total != mm(21600-3400) || room.Perimeter != mm(21600) {
		t.Errorf("skirting %s of perimeter %s, want 18200 mm of 21600 mm", total, room.Perimeter)
	}
}

func TestCountedDoorsShortenTheLongestRun(t *testing.T) {
	spec := lRoom()
	spec.Openings, spec.Doors = nil, 2
	room := build(spec, &job.Apartment{Name: "1", Type: "A"}).Rooms[0]
	// Longest wall 6.0 - 0.9 = 5.1, again the longest: 5.1 - 0.9 = 4.2.
	if room.Runs[0].Length != mm(4200) || len(room.Openings) != 2 {
		t.Errorf("run 1 is %s with %d openings, want 4200 mm with 2", room.Runs[0].Length, len(room.Openings))
	}
}

func TestMirroredRoomIsTheMirrorImage(t *testing.T) {
	spec := lRoom()
	spec.Fixtures = []job.Fixture{{Box: shape.Box{X0: mm(1000), Y0: mm(1000), X1: mm(1400), Y1: mm(1300)}}}
	b := build(spec, &job.Apartment{Name: "1", Type: "A"}, &job.Apartment{Name: "2", Type: "A", Mirrored: true})
	plain, mirrored := b.Rooms[0], b.Rooms[1]
	want := shape.Ring{{X: 0, Y: 0}, {X: mm(6000), Y: 0}, {X: mm(6000), Y: mm(4800)}, {X: mm(2500), Y: mm(4800)}, {X: mm(2500), Y: mm(2600)}, {X: 0, Y: mm(2600)}}
	if diff := cmp.Diff(want, mirrored.Walls.Outer); diff != "" {
		t.Errorf("mirrored outline (-want +got):\n%s", diff)
	}
	if got := mirrored.Holes[0].Bounds(); got != (shape.Box{X0: mm(4600), Y0: mm(1000), X1: mm(5000), Y1: mm(1300)}) {
		t.Errorf("mirrored column at %v", got)
	}
	if plain.Area != mirrored.Area || plain.Perimeter != mirrored.Perimeter {
		t.Errorf("areas %v and %v, perimeters %v and %v differ", plain.Area, mirrored.Area, plain.Perimeter, mirrored.Perimeter)
	}
	// The west wall is now the east wall, second in the walk.
	if got := mirrored.Openings[2].Wall; got != 2 {
		t.Errorf("the west door is in wall %d of the mirrored room, want 2", got)
	}
	if again := shape.Normalise(mirrored.Walls.Mirror(mm(6000))); cmp.Diff(plain.Walls, again) != "" {
		t.Errorf("mirrored twice the room is %v, want %v", again, plain.Walls)
	}
}

func TestDirections(t *testing.T) {
	for _, c := range []struct {
		name      string
		direction job.Direction
		mirrored  bool
		want      []shape.Angle
	}{
		{"longer side", job.Direction{}, false, []shape.Angle{0}},
		{"auto tries both", job.Direction{Choice: job.Auto}, false, []shape.Angle{0, 90_000}},
		{"given", job.Direction{Choice: job.AtAngle, Angle: 30_000}, false, []shape.Angle{30_000}},
		{"mirrored d becomes 180 - d", job.Direction{Choice: job.AtAngle, Angle: 30_000}, true, []shape.Angle{150_000}},
		{"mirrored along the width", job.Direction{Choice: job.AtAngle, Angle: 90_000}, true, []shape.Angle{90_000}},
	} {
		spec := lRoom()
		spec.Direction = c.direction
		room := build(spec, &job.Apartment{Name: "1", Type: "A", Mirrored: c.mirrored}).Rooms[0]
		if diff := cmp.Diff(c.want, room.Directions); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

func TestPlaces(t *testing.T) {
	room := build(lRoom(), &job.Apartment{Name: "E-101", Type: "A", Floor: "1", Block: "East"}).Rooms[0]
	for level, want := range map[job.Level]string{job.LevelRoom: "E-101 / Living", job.LevelApartment: "E-101",
		job.LevelFloor: "East / 1", job.LevelBlock: "East", job.LevelJob: ""} {
		if got := room.Place(level); got != want {
			t.Errorf("place at level %s is %q, want %q", level, got, want)
		}
	}
}
