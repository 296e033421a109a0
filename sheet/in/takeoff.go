package in

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// readTakeoff reads the quantities that others took off the plans. They come
// before the rooms, which may have no other size.
func (r *reader) readTakeoff() {
	r.takeoff = map[roomKey]row{}
	r.each("takeoff", func(r row) {
		t := &job.TakeoffRoom{Ref: r.record("room"), Type: r.text("type"), Room: r.name("room"), Perimeter: r.length("perimeter"), Source: r.text("source")}
		area, state := read(r, "area", asArea)
		t.Area = area
		t.Openings, _ = read(r, "openings", asWhole)
		if state != given || t.Room == "" {
			return
		}
		key := roomKey{nameKey(t.Type), nameKey(t.Room)}
		if earlier, twice := r.takeoff[key]; twice {
			r.problems.add("", problem.Problem{Code: problem.NameRepeated, At: t.Ref, Also: []problem.Ref{earlier.at("room")}, Found: fmt.Sprintf("%s a second time", quote(t.Room)),
				Want: "each room of an apartment type once", Fix: "add the two rows up, or delete the one that is not meant"})
			return
		}
		r.takeoff[key] = r
		r.job.Takeoff = append(r.job.Takeoff, t)
	})
}

// placeTakeoff finds the job's rooms that the takeoff measured; a room that the
// job does not have is shown as missing.
func (r *reader) placeTakeoff() {
	for _, t := range r.job.Takeoff {
		if entry := r.rooms.rooms[roomKey{nameKey(t.Type), nameKey(t.Room)}]; entry != nil {
			t.Ours = entry.room
		}
	}
}

// takenOff is the shape of a room that has no size of its own, by the takeoff's
// area and perimeter, with its openings as doors; ok is false when the takeoff
// has no such room or no area of it.
func (r row) takenOff(room *job.Room) (rings []shape.Ring, ok bool) {
	for _, t := range r.job.Takeoff {
		key := roomKey{nameKey(t.Type), nameKey(t.Room)}
		if key != (roomKey{nameKey(room.Type), nameKey(room.Name)}) {
			continue
		}
		perimeter := given
		if t.Perimeter == 0 {
			perimeter = blank
		}
		if room.Doors == 0 {
			room.Doors = t.Openings
		}
		return r.takeoff[key].assumed(room, t.Area, t.Perimeter, given, perimeter)
	}
	r.noShape(room)
	return nil, false
}
