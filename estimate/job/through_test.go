package job

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

func mm(n int) measure.Length { return measure.Length(n) * measure.Millimetre }

func oblong(name string, b *BuildUp, x, y int) *Room {
	return &Room{Type: "A", Name: name, BuildUp: b, Outline: shape.Rectangle(shape.Box{X1: mm(x), Y1: mm(y)})}
}

// flat is a living room of 5.2 x 3.9 m with a bedroom of 3.6 x 2.9 m east of it,
// behind a wall of 120 mm with an opening of 900 mm, 1.0 m from the south in both.
func flat() *Job {
	floor := &BuildUp{Name: "Floor", Lines: []*Line{{Product: &Product{Code: "OAK", Kind: Plank}, Measure: LaidArea}}}
	living, bed := oblong("Living", floor, 5200, 3900), oblong("Bed", floor, 3600, 2900)
	living.Openings = []Opening{{Wall: 1, From: mm(1000), Width: mm(900), Depth: mm(120), LeadsTo: "Bed", Through: true}, {Wall: 0, From: mm(200), Width: mm(800), LeadsTo: "Hall"}}
	bed.Openings = []Opening{{Wall: 3, From: mm(1000), Width: mm(900), Depth: mm(120), LeadsTo: "living"}}
	return &Job{Rooms: []*Room{living, bed, oblong("Hall", floor, 3000, 1200)}}
}

func TestRoomsThatDoNotFitTogether(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Job)
		says   string
	}{
		{"all well", func(*Job) {}, ""},
		{"no way back", func(j *Job) { j.Rooms[1].Openings = nil }, "without one back"},
		{"another width", func(j *Job) { j.Rooms[1].Openings[0].Width = mm(890) }, "without one back"},
		{"a profile", func(j *Job) { j.Rooms[1].Openings[0].Profile = &Product{Code: "PR"} }, "a profile stands in the opening"},
		{"another wall", func(j *Job) { j.Rooms[1].Openings[0].Depth = mm(100) }, "100 mm deep"},
		{"not opposite", func(j *Job) { j.Rooms[1].Openings[0].Wall = 1 }, "do not face"},
		{"another build-up", func(j *Job) { j.Rooms[1].BuildUp = &BuildUp{} }, "build-ups differ"},
		{"another depth", func(j *Job) { j.Rooms[1].LevelBy = mm(2) }, "levelling depths differ"},
		{"heated", func(j *Job) { j.Rooms[1].Heated = true }, "subfloors differ"},
		{"surveyed", func(j *Job) { j.Rooms[1].Readings = make([]Reading, 3) }, "level readings"},
		// A wing of the living room reaches over where the bedroom lies.
		{"overlap", func(j *Job) {
			j.Rooms[0].Outline = shape.Normalise(shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(5200), Y: 0}, {X: mm(5200), Y: mm(2000)}, {X: mm(7000), Y: mm(2000)}, {X: mm(7000), Y: mm(3900)}, {X: 0, Y: mm(3900)}}})
		}, "overlap"},
		// A second opening that would put the bedroom 100 mm further north.
		{"a ring that does not close", func(j *Job) {
			j.Rooms[0].Openings = append(j.Rooms[0].Openings, Opening{Wall: 1, From: mm(2100), Width: mm(700), Depth: mm(120), LeadsTo: "Bed", Through: true})
			j.Rooms[1].Openings = append(j.Rooms[1].Openings, Opening{Wall: 3, From: mm(200), Width: mm(700), Depth: mm(120), LeadsTo: "Living"})
		}, "the same place"},
	} {
		j := flat()
		c.change(j)
		found := checkThrough(j)
		switch {
		case c.says == "" && len(found) > 0:
			t.Errorf("%s: %s", c.name, found[0].Found)
		case c.says != "" && (len(found) != 1 || found[0].Code != problem.ThroughUnfit || !strings.Contains(found[0].Found, c.says)):
			t.Errorf("%s: %v, want one that says %q", c.name, found, c.says)
		}
	}
}

// The bedroom lies 5200 + 120 mm east of the living room. What the doorway's
// sides take from the walls, what openings remain and where others lead now.
func TestJoinedRoom(t *testing.T) {
	j := flat()
	j.Rooms[2].Openings = []Opening{{Width: mm(800), LeadsTo: "LIVING"}}
	j.Takeoff = []*TakeoffRoom{{Room: "Living", Ours: j.Rooms[0], Area: 20}, {Room: "Bed", Ours: j.Rooms[1], Area: 10, Perimeter: 5}, {Room: "Hall", Ours: j.Rooms[2], Area: 3}}
	joined, problems := j.Joined()
	if len(problems) > 0 || len(joined.Rooms) != 2 || joined.Rooms[0].Name != "Bed + Living" {
		t.Fatalf("%d rooms, the first %q; problems %v", len(joined.Rooms), joined.Rooms[0].Name, problems)
	}
	whole := joined.Rooms[0]
	// 5.2 x 3.9 + 3.6 x 2.9 + 0.9 x 0.12 m2.
	if want := mm(5200).Times(mm(3900)) + mm(3600).Times(mm(2900)) + mm(900).Times(mm(120)); whole.Outline.Area() != want {
		t.Errorf("area %d, want %d", whole.Outline.Area(), want)
	}
	if len(whole.Openings) != 1 || whole.Openings[0].Wall != 0 || whole.Openings[0].From != mm(200) {
		t.Errorf("openings %+v, want the living room's other one in wall 1", whole.Openings)
	}
	if len(whole.Jambs) != 2 || whole.Jambs[0].Width != mm(120) {
		t.Errorf("jambs %+v, want both sides of the doorway", whole.Jambs)
	}
	if to := joined.Rooms[1].Openings[0].LeadsTo; to != "Bed + Living" {
		t.Errorf("the hall leads to %q", to)
	}
	if rows := joined.Takeoff; len(rows) != 2 || rows[0].Area != 30 || rows[0].Ours != whole || rows[0].Perimeter != 0 || rows[1].Ours != joined.Rooms[1] {
		t.Errorf("takeoff %+v", rows)
	}
	if j.Rooms[2].Openings[0].LeadsTo != "LIVING" || len(j.Rooms) != 3 {
		t.Error("the job itself has changed")
	}
}

// Two rooms laid through an opening in any of their walls make up one floor with
// the floor in the wall between them, and walls that are longer by its sides and
// shorter by its two ends.
func TestAnyTwoRoomsJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, from, to int) int { return rapid.IntRange(from, to).Draw(t, name) }
		floor := &BuildUp{Name: "Floor"}
		rooms := []*Room{oblong("A", floor, length("x", 1000, 6000), length("y", 1000, 6000)), oblong("B", floor, length("u", 1000, 6000), length("v", 1000, 6000))}
		wall, width, depth := length("wall", 0, 3), length("width", 600, 1000), length("depth", 0, 400)
		for i, room := range rooms {
			at := (wall + 2*i) % 4
			room.Openings = []Opening{{Wall: at, Width: mm(width), Depth: mm(depth), LeadsTo: rooms[1-i].Name, Through: i == 1,
				From: mm(length("from", 0, int(room.Outline.Walls()[at].Length/measure.Millimetre)-width))}}
		}
		j := &Job{Rooms: rooms}
		if found := checkThrough(j); len(found) > 0 {
			t.Fatalf("%s", found[0].Found)
		}
		joined, _ := j.Joined()
		whole := joined.Rooms[0]
		area := rooms[0].Outline.Area() + rooms[1].Outline.Area() + mm(width).Times(mm(depth))
		if len(joined.Rooms) != 1 || whole.Outline.Area() != area {
			t.Fatalf("%d rooms of %d, want one of %d", len(joined.Rooms), whole.Outline.Area(), area)
		}
		walls := rooms[0].Outline.Perimeter() + rooms[1].Outline.Perimeter() - 2*mm(width) + 2*mm(depth)
		if depth > 0 && whole.Outline.Perimeter() != walls {
			t.Errorf("walls of %s, want %s", whole.Outline.Perimeter(), walls)
		}
		if box := whole.Outline.Bounds(); box.X0 != 0 || box.Y0 != 0 {
			t.Errorf("the whole begins at %s, %s", box.X0, box.Y0)
		}
		if depth > 0 && len(whole.Jambs) != 2 {
			t.Errorf("%d jambs", len(whole.Jambs))
		}
		for _, jamb := range whole.Jambs {
			if wall := whole.Outline.Walls()[jamb.Wall]; jamb.From < 0 || jamb.From+jamb.Width > wall.Length {
				t.Errorf("a jamb from %s in a wall of %s", jamb.From, wall.Length)
			}
		}
	})
}
