// Package subfloor is what has to be true under a floor before it is laid: how
// flat the subfloor is and what compound and grinding make it so, how many
// moisture tests it needs, how long what was poured dries, whether a film
// belongs under the covering, and what holds the work until somebody decides.
//
// It never says that a subfloor is fit: it counts what the job tells, and names
// who decides.
package subfloor

import (
	"math/big"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// Survey is the subfloor of the whole building.
type Survey struct {
	Rooms []Room // by the room's index in the building
	Tests []Test
}

// Room is the subfloor of one room.
type Room struct {
	Room      *building.Room
	Readings  []job.Reading // by place, as built; none: not surveyed
	Own       bool          // read in this apartment, not for its type
	Triangles [][3]int      // of readings by index, anticlockwise: the surface between them
	Flatness  Flatness
	Filled    Levelling // with compound alone
	Levelling Levelling // at least cost; what is counted
	Rates     Rates
}

// Told tells whether the job says anything of its subfloors: what they are,
// their heights, depths of compound, moisture or heating.
func (s *Survey) Told() bool {
	for i := range s.Rooms {
		r, spec := &s.Rooms[i], s.Rooms[i].Room.Spec
		if r.Surveyed() || spec.LevelBy > 0 || spec.Subfloor != job.NotSaid || spec.Heated || spec.Moisture.Sign() > 0 {
			return true
		}
	}
	return false
}

// Surveyed tells whether any room has level readings.
func (s *Survey) Surveyed() bool {
	for i := range s.Rooms {
		if s.Rooms[i].Surveyed() {
			return true
		}
	}
	return false
}

// Surveyed tells whether the room has level readings.
func (r *Room) Surveyed() bool { return len(r.Readings) > 0 }

// LevelledArea is the floor that gets compound: of a surveyed room what lies
// under the plane, of another all of it when it says a depth.
func (r *Room) LevelledArea() measure.Area {
	switch {
	case r.Surveyed():
		return r.Levelling.Fill.Area
	case r.Room.Spec.LevelBy > 0:
		return r.Room.Area
	}
	return 0
}

// AreaDepth is the compound in squares of 1/320 mm times millimetres: of a
// surveyed room the volume up to the plane, of another its floor by the depth
// it says.
func (r *Room) AreaDepth() *big.Rat {
	if r.Surveyed() {
		return squaresByMillimetres(r.Levelling.Fill.Volume)
	}
	depth := big.NewRat(int64(r.Room.Spec.LevelBy), int64(measure.Millimetre))
	return depth.Mul(depth, big.NewRat(int64(r.Room.Area), 1))
}

// Grinding is what is ground off, as AreaDepth.
func (r *Room) Grinding() *big.Rat { return squaresByMillimetres(r.Levelling.Ground.Volume) }

func squaresByMillimetres(cubicMillimetres int64) *big.Rat {
	return new(big.Rat).Mul(big.NewRat(cubicMillimetres, 1), big.NewRat(int64(measure.SquareMillimetre), 1))
}

// MeanDepth is the compound's mean depth over the whole floor of the room, to a
// tenth of a millimetre, and MostDepth the greatest.
func (r *Room) MeanDepth() measure.Length {
	if !r.Surveyed() {
		return r.Room.Spec.LevelBy
	}
	if r.Room.Area == 0 {
		return 0
	}
	return tenths(float64(r.Levelling.Fill.Volume) / (float64(r.Room.Area) / float64(measure.SquareMillimetre)))
}

// MostDepth is the greatest depth of compound.
func (r *Room) MostDepth() measure.Length {
	if !r.Surveyed() {
		return r.Room.Spec.LevelBy
	}
	return r.Levelling.Fill.Most
}

// LeastDepth is the least depth of compound anywhere in the room.
func (r *Room) LeastDepth() measure.Length {
	if !r.Surveyed() {
		return r.Room.Spec.LevelBy
	}
	return r.Levelling.Least
}

// DryingDays is how long the room's compound dries before the floor is laid: 0
// where its build-up pours none.
func (r *Room) DryingDays() int {
	if !r.Poured() {
		return 0
	}
	return DryingDays(LevellingCompound, r.MostDepth())
}

// Poured tells whether the room's build-up pours compound by area x depth.
func (r *Room) Poured() bool {
	for _, line := range r.Room.Spec.BuildUp.Lines {
		if line.Measure == job.AreaDepth {
			return true
		}
	}
	return false
}

// Look surveys the building. The job must be free of errors. Prices only decide
// between filling and grinding.
func Look(j *job.Job, b *building.Building, priceOf SoldPrice) *Survey {
	s := &Survey{Rooms: make([]Room, len(b.Rooms)), Tests: tests(j.Settings.TestsPer, b)}
	looked := map[alike]Room{}
	for i, room := range b.Rooms {
		readings, own := room.Spec.ReadingsIn(room.Apartment.Name)
		if len(readings) == 0 {
			s.Rooms[i] = Room{Room: room}
			continue
		}
		key := alike{room.Spec, room.Apartment.Mirrored}
		found, known := looked[key]
		if own || !known {
			found = lookAt(room, asBuilt(readings, room, own), j.Settings.LevelPlane, ratesOf(room.Spec.BuildUp, j.Settings.AreaUnit, priceOf))
			if !own {
				looked[key] = found
			}
		}
		found.Room, found.Own = room, own
		s.Rooms[i] = found
	}
	return s
}

// alike tells rooms apart whose subfloors differ, where they have only the
// readings of their type.
type alike struct {
	spec     *job.Room
	mirrored bool
}

// asBuilt are the readings where they lie in the room as built. Those read in
// the apartment itself are so already.
func asBuilt(readings []job.Reading, room *building.Room, own bool) []job.Reading {
	built := append([]job.Reading(nil), readings...)
	if room.Apartment.Mirrored && !own {
		bounds := room.Spec.Outline.Bounds()
		for i := range built {
			built[i].At.X = bounds.X0 + bounds.X1 - built[i].At.X
		}
	}
	return built
}

// lookAt finds how flat a surveyed room is and how it is levelled at least cost.
func lookAt(room *building.Room, readings []job.Reading, plane job.LevelPlane, costs Rates) Room {
	s := surfaceOf(readings, room.Floor)
	r := Room{Readings: s.readings, Flatness: s.flatness(room.Spec.Flatness, room.Floor, nil), Rates: costs}
	for _, t := range s.triangles {
		r.Triangles = append(r.Triangles, t)
	}
	if r.Flatness.Kept() || len(room.Floor) == 0 {
		return r
	}
	allowed := allowance(r.Flatness)
	r.Filled = s.levelled(s.leastPlane(plane, r.Flatness, rates{fill: 1}, room.Floor), allowed)
	r.Filled.Ground = Layer{}
	r.Levelling = r.Filled
	if r.Rates.compare() {
		r.Levelling = s.levelled(s.leastPlane(plane, r.Flatness, r.Rates.asFloats(), room.Floor), allowed)
		r.Levelling.dropFill(s, room)
	}
	return r
}

// dropFill leaves the compound out where grinding alone makes the floor keep its
// group.
func (l *Levelling) dropFill(s *surface, room *building.Room) {
	if l.Ground.Volume == 0 {
		return
	}
	ground := l.Plane.raised(l.Allowance).affine()
	if after := s.flatness(room.Spec.Flatness, room.Floor, &ground); after.Kept() {
		l.Fill, l.Least = Layer{}, 0
	}
}
