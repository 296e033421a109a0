// Package building turns a job's rooms and apartments into the building as
// built: every room of every apartment with its walls in place, mirrored where
// the apartment is, its fixtures cut out and its skirting runs measured.
package building

import (
	"cmp"
	"slices"

	"laybill/estimate/fields"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Building is the job's rooms in the order of apartment, then room name, so
// that the order of rows in the workbook never matters.
type Building struct {
	Rooms    []*Room
	Repaired []*Room  // where planks are replaced and nothing else is laid: no walls, no floor
	Repairs  []Repair // by place, product and method
}

// Room is one room of one apartment as built.
type Room struct {
	Index      int  // place in Building.Places
	Repaired   bool // one of Building.Repaired
	Apartment  *job.Apartment
	Spec       *job.Room
	Walls      shape.Polygon // outline and holes, mirrored where the apartment is
	Holes      []shape.Ring  // rings of the outline and fixtures the floor goes round
	Floor      shape.Region  // walls less holes: the net floor, before the expansion gap
	Directions []shape.Angle // laying directions to choose from; one when the job says which
	Openings   []Opening
	Jambs      []Opening        // sides of openings laid through: wall without skirting
	Runs       []Run            // walls less openings, by wall in walking order
	Skirting   []Run            // the runs and the returns into openings; none where the room has no skirting
	Fields     []shape.Polygon  // parts of the floor laid in one piece each; none when all of it is
	Profiles   []fields.Profile // expansion profiles between the fields
	Area       measure.Area     // net floor area; where planks are replaced, theirs
	Perimeter  measure.Length   // of the outer walls; columns and fixtures are not counted
}

// Opening is a doorway as built; Spec is nil for a door that is only counted.
type Opening struct {
	Spec    *job.Opening
	Wall    int            // number of the wall in walking order, from 1; 0 when only counted
	From    measure.Length // from the wall's first corner, walking anticlockwise
	Width   measure.Length
	Profile *job.Product
	Covered bool // the room on its other side has the profile
}

// Build makes the building. The job must be free of errors.
func Build(j *job.Job) *Building {
	rooms := map[string][]*job.Room{}
	for _, room := range j.Rooms {
		rooms[room.Type] = append(rooms[room.Type], room)
	}
	made := newCache(j)
	b := &Building{}
	for _, apartment := range j.Apartments {
		if apartment.Unlisted {
			continue
		}
		for _, spec := range rooms[apartment.Type] {
			b.Rooms = append(b.Rooms, made.room(apartment, spec))
		}
	}
	slices.SortStableFunc(b.Rooms, inOrder)
	for i, room := range b.Rooms {
		room.Index = i
	}
	b.repair(j)
	return b
}

func inOrder(x, y *Room) int {
	return cmp.Or(cmp.Compare(x.Apartment.Name, y.Apartment.Name), cmp.Compare(x.Spec.Type, y.Spec.Type), cmp.Compare(x.Spec.Name, y.Spec.Name))
}

// Place names the part of the building that a level groups the room under; the
// job as a whole has no name.
func (r *Room) Place(level job.Level) string {
	switch level {
	case job.LevelRoom:
		return join(r.Place(job.LevelApartment), r.Spec.Name)
	case job.LevelApartment:
		return cmp.Or(r.Apartment.Name, r.Spec.Type)
	case job.LevelFloor:
		return join(r.Apartment.Block, r.Apartment.Floor)
	case job.LevelBlock:
		return r.Apartment.Block
	}
	return ""
}

func join(outer, inner string) string {
	if outer == "" {
		return inner
	}
	return outer + " / " + inner
}

// key tells rooms apart that are built differently: two rooms with the same key
// are built alike.
type key struct {
	spec     *job.Room
	mirrored bool
}

// cache makes each room of each type once, and once more mirrored.
type cache struct {
	doorWidth measure.Length
	covered   map[*job.Opening]bool
	made      map[key]*Room
}

func newCache(j *job.Job) *cache {
	return &cache{doorWidth: j.Settings.DoorWidth, covered: covered(j.Rooms), made: map[key]*Room{}}
}

func (c *cache) room(apartment *job.Apartment, spec *job.Room) *Room {
	k := key{spec, apartment.Mirrored}
	if c.made[k] == nil {
		c.made[k] = asBuilt(spec, apartment.Mirrored, c.doorWidth)
		c.cover(c.made[k].Openings)
	}
	room := *c.made[k]
	room.Apartment = apartment
	return &room
}

func asBuilt(spec *job.Room, mirrored bool, doorWidth measure.Length) *Room {
	axis := spec.Outline.Bounds().X0 + spec.Outline.Bounds().X1
	room := &Room{Spec: spec, Walls: spec.Outline}
	boxes := fixtureBoxes(spec, mirrored, axis)
	if mirrored {
		room.Walls = shape.Normalise(spec.Outline.Mirror(axis))
	}
	room.Holes = append(room.Holes, room.Walls.Holes...)
	for _, box := range boxes {
		room.Holes = append(room.Holes, shape.Rectangle(box).Outer)
	}
	room.Floor = shape.Subtract(shape.Region{room.Walls}, boxes...)
	room.Directions = directions(spec, mirrored)
	room.divide(mirrored, axis)
	room.Area = room.Floor.Area()
	room.Perimeter = shape.Polygon{Outer: room.Walls.Outer}.Perimeter()
	room.Openings = openings(room, mirrored, doorWidth)
	room.Jambs = asBuiltIn(spec, spec.Jambs, mirrored)
	room.Runs = runs(room)
	if spec.Skirting {
		room.Skirting = withReturns(room.Runs, room.Openings)
	}
	return room
}

func fixtureBoxes(spec *job.Room, mirrored bool, axis measure.Length) []shape.Box {
	var boxes []shape.Box
	for _, fixture := range spec.Fixtures {
		if fixture.FloorUnder {
			continue
		}
		box := fixture.Box
		if mirrored {
			box.X0, box.X1 = axis-box.X1, axis-box.X0
		}
		boxes = append(boxes, box)
	}
	return boxes
}

// directions are the laying directions the room may take; in a mirrored room a
// direction of d becomes 180 - d.
func directions(spec *job.Room, mirrored bool) []shape.Angle {
	switch spec.Direction.Choice {
	case job.Auto:
		longer := spec.Outline.LongerSide()
		return []shape.Angle{longer, shape.QuarterTurn - longer}
	case job.AtAngle:
		angle := spec.Direction.Angle
		if mirrored && angle != 0 {
			angle = 2*shape.QuarterTurn - angle
		}
		return []shape.Angle{angle.Normal()}
	}
	return []shape.Angle{spec.Outline.LongerSide()}
}
