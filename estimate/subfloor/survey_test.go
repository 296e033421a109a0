package subfloor

import (
	"testing"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/shape"
)

// hollow is four level corners and a hollow of 15 mm a metre from the west wall.
func hollow(apartment string, x float64) []job.Reading {
	readings := []job.Reading{at(0, 0, 0), at(5000, 0, 0), at(5000, 4000, 0), at(0, 4000, 0), at(x, 2000, -15)}
	for i := range readings {
		readings[i].Apartment = apartment
	}
	return readings
}

// Readings of a type are drawn with it and mirrored with it; those of one
// apartment lie where they were read there and stand in place of the type's.
func TestReadingsAsBuilt(t *testing.T) {
	j := &job.Job{
		Rooms: []*job.Room{{Type: "A", Name: "Living", Flatness: job.Group3, Outline: shape.Rectangle(box(0, 0, 5000, 4000)), BuildUp: &job.BuildUp{},
			Readings: append(hollow("", 1000), hollow("3", 2000)...)}},
		Apartments: []*job.Apartment{{Name: "1", Type: "A"}, {Name: "2", Type: "A", Mirrored: true}, {Name: "3", Type: "A", Mirrored: true}},
	}
	rooms := Look(j, building.Build(j), noPrice).Rooms
	for i, want := range []struct {
		own bool
		x   float64
	}{{false, 1000}, {false, 4000}, {true, 2000}} {
		room := rooms[i]
		var lowest job.Reading
		for _, r := range room.Readings {
			if r.Height < lowest.Height {
				lowest = r
			}
		}
		if room.Own != want.own || lowest.At.X != mm(want.x) {
			t.Errorf("apartment %s: hollow at %s, read there %v", room.Room.Apartment.Name, lowest.At.X, room.Own)
		}
	}
	if a, b := rooms[0].Levelling, rooms[1].Levelling; a.Fill != b.Fill || a.Fill.Volume == 0 {
		t.Errorf("as drawn %+v, mirrored %+v", a.Fill, b.Fill)
	}
}

// A room without readings takes its depth, one with readings that is flat
// enough nothing.
func TestDepthsWithoutCause(t *testing.T) {
	j := &job.Job{Apartments: []*job.Apartment{{Name: "1", Type: "A"}}}
	pour := &job.BuildUp{Lines: []*job.Line{{Operation: &job.Operation{}, Measure: job.AreaDepth}}}
	j.Rooms = []*job.Room{
		{Type: "A", Name: "By depth", LevelBy: mm(4), Outline: shape.Rectangle(box(0, 0, 5000, 4000)), BuildUp: pour},
		{Type: "A", Name: "Flat", Flatness: job.Group3, Outline: shape.Rectangle(box(0, 0, 5000, 4000)), BuildUp: pour, Readings: []job.Reading{at(0, 0, 0), at(5000, 0, 4), at(0, 4000, -3), at(5000, 4000, 1)}},
	}
	rooms := Look(j, building.Build(j), noPrice).Rooms
	if r := rooms[0]; r.AreaDepth().FloatString(0) != "8192000000000" || r.MeanDepth() != mm(4) || r.DryingDays() != 2 { // 20 m2 x 4 mm
		t.Errorf("by depth: %s, mean %s, %d days", r.AreaDepth().FloatString(0), r.MeanDepth(), r.DryingDays())
	}
	if r := rooms[1]; !r.Flatness.Kept() || r.AreaDepth().Sign() != 0 || r.LevelledArea() != 0 || r.DryingDays() != 0 {
		t.Errorf("flat: %+v", r.Levelling)
	}
}

// A room with 16 readings, one with 300: triangles, straightedges, and the plane
// of least cost with grinding, level and tilted.
func BenchmarkLook(b *testing.B) {
	for _, c := range []struct {
		name  string
		side  int
		plane job.LevelPlane
	}{{"16 readings, horizontal", 4, job.Horizontal}, {"16 readings, tilted", 4, job.Tilted}, {"289 readings, horizontal", 17, job.Horizontal}} {
		var readings []job.Reading
		for x := range c.side {
			for y := range c.side {
				readings = append(readings, at(float64(x*6000/(c.side-1)), float64(y*5000/(c.side-1)), float64((x*7+y*13)%17)))
			}
		}
		spec := &job.Room{Outline: rectangle(6000, 5000)[0], Flatness: job.Group3, BuildUp: &job.BuildUp{}}
		room := &building.Room{Spec: spec, Floor: rectangle(6000, 5000), Apartment: &job.Apartment{}}
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				lookAt(room, readings, c.plane, testRates)
			}
		})
	}
}
