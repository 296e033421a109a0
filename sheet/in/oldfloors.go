package in

import (
	"laybill/estimate/job"
)

func (r *reader) readOldFloors() {
	r.oldFloors = newNames[*job.OldFloor]("old floor", "Old floors", true)
	r.each("oldfloors", func(r row) {
		old := &job.OldFloor{Ref: r.record("name"), Name: r.name("name"), Thickness: r.length("thickness"), Weight: r.number("weight")}
		old.Operation, _ = refer(r, "operation", r.operations)
		r.job.OldFloors = append(r.job.OldFloors, old)
		r.oldFloors.add(r, "name", old.Name, old)
	})
}

// oldFloor reads whether a room's old floor is lifted, and which it is when the
// cell names one.
func (r row) oldFloor() (lifted bool, old *job.OldFloor) {
	text, state := read(r, "lift", asText)
	if state != given {
		return false, nil
	}
	if yes, flaw := asYesNo(input{text: text}); flaw == nil {
		return yes, nil
	}
	old, state = refer(r, "lift", r.oldFloors)
	return state == given, old
}
