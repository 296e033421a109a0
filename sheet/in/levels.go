package in

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// readLevels reads the level readings of rooms: of a room in every apartment of
// its type, or in one apartment.
func (r *reader) readLevels() {
	apartments := map[string]*job.Apartment{}
	var names []string
	for _, a := range r.job.Apartments {
		if a.Name != "" {
			apartments[nameKey(a.Name)] = a
			names = append(names, a.Name)
		}
	}
	r.each("levels", func(r row) {
		reading := job.Reading{Ref: r.record("room")}
		x, xState := read(r, "x", asCoordinate)
		y, yState := read(r, "y", asCoordinate)
		height, heightState := read(r, "height", asCoordinate)
		reading.At, reading.Height = shape.Point{X: x, Y: y}, height
		entry := r.levelled(&reading, apartments, names)
		if entry == nil || xState != given || yState != given || heightState != given {
			return
		}
		if max(x, -x, y, -y) > shape.Limit || max(height, -height) > shape.Limit {
			r.doubt(problem.ValueOutOfRange, "x", "a place and height within 1 km", "correct the number, or its unit")
			return
		}
		entry.room.Readings = append(entry.room.Readings, reading)
	})
}

// levelled finds the room of a reading; an apartment, where one is named,
// brings its type.
func (r row) levelled(reading *job.Reading, apartments map[string]*job.Apartment, names []string) *roomEntry {
	named, state := read(r, "apartment", asText)
	if state != given {
		return r.placed()
	}
	apartment := apartments[nameKey(named)]
	if apartment == nil {
		r.unknownName("apartment", named, "apartment", "Apartments", names, r.filled("apartments"))
		return nil
	}
	reading.Apartment = apartment.Name
	if typed, state := read(r, "type", asText); state == given && nameKey(typed) != nameKey(apartment.Type) {
		r.problems.add("", problem.Problem{Code: problem.NameUnknown, At: r.at("type"), Found: fmt.Sprintf("%s for apartment %s", quote(typed), quote(apartment.Name)),
			Want: "the apartment's type, " + quote(apartment.Type), Fix: "correct the type or the apartment"})
		return nil
	}
	name, state := read(r, "room", asText)
	if state != given {
		return nil
	}
	entry := r.rooms.rooms[roomKey{nameKey(apartment.Type), nameKey(name)}]
	if entry == nil && r.rooms.nameCount(r, name) == 0 {
		r.unknownName("room", name, "room", "Rooms", r.rooms.list, r.rooms.sound)
	} else if entry == nil {
		r.problems.add("", problem.Problem{Code: problem.NameUnknown, At: r.at("room"), Found: fmt.Sprintf("%s in apartment %s of type %s", quote(name), quote(apartment.Name), quote(apartment.Type)),
			Want: "a room of that type", Fix: "correct the room or the apartment"})
	}
	return entry
}

// readSubfloor reads what the job asks of its subfloors.
func (s *settings) readSubfloor() {
	j := &s.job.Settings
	flatness, _ := setting(s, "flatness", asChoice(job.FlatnessGroups))
	j.Flatness = job.FlatnessGroup(flatness)
	plane, _ := setting(s, "levelplane", asChoice(job.LevelPlanes))
	j.LevelPlane = job.LevelPlane(plane)
	j.TestsPer = s.level("testsper")
	subfloor, _ := setting(s, "subfloor", asChoice(job.Subfloors))
	s.subfloor = job.Subfloor(subfloor)
}
