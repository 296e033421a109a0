package in

import (
	"fmt"
	"strconv"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// Limits on apartments: alike ones in one row, and all of a job.
const (
	mostAlike      = 10_000
	mostApartments = 100_000
)

// readApartments reads the building. A job without the table has one
// apartment without a name for each type.
func (r *reader) readApartments() {
	if !r.found("apartments") && !r.blank["apartments"] {
		for _, name := range r.rooms.types {
			r.job.Apartments = append(r.job.Apartments, &job.Apartment{Type: name})
		}
		return
	}
	apartments := newNames[*job.Apartment]("apartment", "Apartments", true)
	used := map[string]bool{}
	r.each("apartments", func(r row) {
		a := &job.Apartment{Ref: r.record("apartment"), Name: r.name("apartment"), Floor: r.text("floor"), Block: r.text("block"),
			Phase: r.text("phase"), Mirrored: r.yes("mirrored"), Option: r.text("option"), Start: r.date("start")}
		a.Type = r.apartmentType(used)
		count, state := read(r, "count", asWhole)
		if state == given && (count < 1 || count > mostAlike) {
			r.doubt(problem.ValueOutOfRange, "count", fmt.Sprintf("a whole number from 1 to %d", mostAlike), "correct the count, or delete the row")
			count = 1
		}
		if len(r.job.Apartments)+count > mostApartments {
			r.doubt(problem.ValueOutOfRange, "apartment", fmt.Sprintf("at most %d apartments in a job", mostApartments), "split the job")
			return
		}
		for i := range count {
			alike := *a
			if count > 1 {
				alike.Name = a.Name + "-" + strconv.Itoa(i+1)
			}
			r.job.Apartments = append(r.job.Apartments, &alike)
			apartments.add(r, "apartment", alike.Name, &alike)
		}
	})
	r.checkTypesUsed(used)
}

// apartmentType reads the type of an apartment, spelled as in Rooms.
func (r row) apartmentType(used map[string]bool) string {
	name, state := read(r, "type", asText)
	if state != given {
		return ""
	}
	used[nameKey(name)] = true
	spelled, known := r.rooms.spelling[nameKey(name)]
	if !known {
		r.unknownName("type", name, "apartment type", "Rooms", r.rooms.types, r.rooms.sound)
	}
	return spelled
}

// checkTypesUsed warns of types whose rooms are in no apartment.
func (r *reader) checkTypesUsed(used map[string]bool) {
	for _, name := range r.rooms.types {
		if !used[nameKey(name)] && len(r.job.Apartments) > 0 {
			what := "apartment type " + quote(name)
			if name == "" {
				what = "rooms without an apartment type"
			}
			r.problems.add("", problem.Problem{Code: problem.TypeUnused, At: r.rooms.first[nameKey(name)], Found: what,
				Want: "at least one apartment of the type", Fix: "add the apartments of this type, or correct the type's name"})
		}
	}
}
