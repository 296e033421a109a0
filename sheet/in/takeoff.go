package in

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// readTakeoff reads the quantities that others took off the plans; a room that
// the job does not have is kept, to be shown as missing.
func (r *reader) readTakeoff() {
	seen := map[roomKey]problem.Ref{}
	r.each("takeoff", func(r row) {
		t := &job.TakeoffRoom{Ref: r.record("room"), Type: r.text("type"), Room: r.name("room"), Perimeter: r.length("perimeter"), Source: r.text("source")}
		area, state := read(r, "area", asArea)
		t.Area = area
		t.Openings, _ = read(r, "openings", asWhole)
		if state != given || t.Room == "" {
			return
		}
		key := roomKey{nameKey(t.Type), nameKey(t.Room)}
		if earlier, twice := seen[key]; twice {
			r.problems.add("", problem.Problem{Code: problem.NameRepeated, At: t.Ref, Also: []problem.Ref{earlier}, Found: fmt.Sprintf("%s a second time", quote(t.Room)),
				Want: "each room of an apartment type once", Fix: "add the two rows up, or delete the one that is not meant"})
			return
		}
		seen[key] = t.Ref
		if entry := r.rooms.rooms[key]; entry != nil {
			t.Ours = entry.room
		}
		r.job.Takeoff = append(r.job.Takeoff, t)
	})
}
