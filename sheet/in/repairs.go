package in

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// mostReplaced is how many pieces one repair may have: more is a floor to be laid.
const mostReplaced = 10_000

func (r *reader) readRepairs() {
	places := repairPlaces{reader: r, apartments: map[string]*job.Apartment{}, rooms: map[repairedRoom]string{}, listed: len(r.job.Apartments) > 0 && r.filled("apartments")}
	for _, a := range r.job.Apartments {
		places.apartments[nameKey(a.Named())] = a
	}
	r.each("repairs", func(r row) {
		repair := &job.Repair{Ref: r.record("room"), FromStock: r.whole("stock", mostReplaced), Rows: r.whole("rows", mostReplaced), Note: r.text("note")}
		room, placed := read(r, "room", asText)
		product, known := refer(r, "product", r.products)
		method, worked := refer(r, "method", r.buildUps)
		pieces, counted := r.pieces()
		length, measured := read(r, "length", asLength)
		if placed != given || known != given || worked != given || !counted || measured == unknown {
			return
		}
		if measured == given && length == 0 {
			r.doubt(problem.ValueOutOfRange, "length", "a length above 0", "correct the length, or leave the cell empty for whole planks")
			return
		}
		if measured == blank {
			length = product.Length
		}
		repair.Product, repair.Method, repair.Pieces, repair.Length = product, method, pieces, length
		repair.Apartment = places.apartment(r)
		repair.Room = places.room(repair.Apartment, room)
		r.job.Repairs = append(r.job.Repairs, repair)
	})
}

// pieces reads how many pieces are replaced.
func (r row) pieces() (int, bool) {
	pieces, state := read(r, "count", asWholeUpTo(mostReplaced))
	if state == given && pieces == 0 {
		r.doubt(problem.ValueOutOfRange, "count", fmt.Sprintf("a whole number from 1 to %d", mostReplaced), "count the damaged planks, or delete the row")
	}
	return pieces, state == given && pieces > 0
}

// repairPlaces finds where repairs are: apartments and rooms are spelled as
// their own sheets do, or as they are first written here.
type repairPlaces struct {
	*reader
	apartments map[string]*job.Apartment
	rooms      map[repairedRoom]string
	listed     bool // the job lists its apartments
}

type repairedRoom struct {
	apartment *job.Apartment
	name      string
}

// apartment is the one that a row names; one that the job does not list is an
// apartment in which only repairs are done.
func (p *repairPlaces) apartment(r row) *job.Apartment {
	name := r.text("apartment")
	if a := p.apartments[nameKey(name)]; a != nil {
		return a
	}
	a := &job.Apartment{Ref: r.at("apartment"), Name: name, Unlisted: true}
	p.apartments[nameKey(name)] = a
	p.job.Apartments = append(p.job.Apartments, a)
	if p.listed && name != "" {
		r.doubt(problem.RepairUnlisted, "apartment", "an apartment of Apartments", "correct the name; nothing, if only repairs are done there")
	}
	return a
}

func (p *repairPlaces) room(apartment *job.Apartment, name string) string {
	if entry := p.reader.rooms.rooms[roomKey{nameKey(apartment.Type), nameKey(name)}]; entry != nil && !apartment.Unlisted {
		return entry.room.Name
	}
	key := repairedRoom{apartment, nameKey(name)}
	if p.rooms[key] == "" {
		p.rooms[key] = name
	}
	return p.rooms[key]
}
