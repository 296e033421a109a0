package job

import (
	"cmp"
	"slices"
	"strings"
)

// Doorway is an opening between two rooms of an apartment type, listed in each
// of them: Room is the one whose name comes first.
type Doorway struct {
	Room, Other   *Room
	Opening, Back *Opening
}

// Doorways are the openings that lead from one room to another of its type and
// back with the same width, in the order of rooms and of the table. Where rooms
// share several of one width, they pair off in the table's order.
func Doorways(rooms []*Room) []Doorway {
	ordered := slices.Clone(rooms)
	slices.SortStableFunc(ordered, func(a, b *Room) int { return cmp.Or(cmp.Compare(a.Type, b.Type), cmp.Compare(a.Name, b.Name)) })
	named := map[called]int{}
	for i, room := range ordered {
		named[room.called()] = i
	}
	paired := map[*Opening]bool{}
	var doorways []Doorway
	for i, room := range ordered {
		for k := range room.Openings {
			opening := &room.Openings[k]
			n, known := named[opening.to(room)]
			if !known || n <= i {
				continue
			}
			if back := ordered[n].wayBack(room, opening, paired); back != nil {
				paired[back] = true
				doorways = append(doorways, Doorway{room, ordered[n], opening, back})
			}
		}
	}
	return doorways
}

// wayBack is the room's first opening to another that is as wide as that one's
// and has no other side yet.
func (r *Room) wayBack(to *Room, opening *Opening, paired map[*Opening]bool) *Opening {
	for k := range r.Openings {
		back := &r.Openings[k]
		if back.to(r) == to.called() && back.Width == opening.Width && !paired[back] {
			return back
		}
	}
	return nil
}

// called is a room's type and name; names ignore case.
type called struct{ apartmentType, name string }

func (r *Room) called() called { return called{r.Type, strings.ToLower(r.Name)} }

// to is the room that an opening of a room leads to.
func (o *Opening) to(from *Room) called {
	return called{from.Type, strings.ToLower(strings.TrimSpace(o.LeadsTo))}
}
