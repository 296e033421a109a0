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
	paired := map[*Opening]bool{}
	var doorways []Doorway
	for i, room := range ordered {
		for k := range room.Openings {
			opening := &room.Openings[k]
			for _, other := range ordered[i+1:] {
				if other.Type != room.Type {
					break
				}
				if !leads(opening, other) {
					continue
				}
				if back := other.wayBack(room, opening, paired); back != nil {
					paired[back] = true
					doorways = append(doorways, Doorway{room, other, opening, back})
				}
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
		if leads(back, to) && back.Width == opening.Width && !paired[back] {
			return back
		}
	}
	return nil
}

// leads tells whether an opening leads to a room; names ignore case.
func leads(o *Opening, to *Room) bool {
	return strings.EqualFold(strings.TrimSpace(o.LeadsTo), to.Name)
}
