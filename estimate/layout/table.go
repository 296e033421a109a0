package layout

import (
	"cmp"
	"slices"

	"laybill/estimate/shape"
)

// table is a pool on the planner's table: its rooms in the order of their IDs
// and what has been worked out about them.
type table struct {
	pool  *Pool
	saw   *saw
	rooms []*Room // by ID
	place []int   // of each in Pool.Rooms
	seen  []map[shape.Angle]floor
}

func newTable(p *Pool) *table {
	t := &table{pool: p, saw: newSaw(p), place: make([]int, len(p.Rooms)), seen: make([]map[shape.Angle]floor, len(p.Rooms))}
	for i := range t.place {
		t.place[i] = i
	}
	slices.SortStableFunc(t.place, func(a, b int) int { return cmp.Compare(p.Rooms[a].ID, p.Rooms[b].ID) })
	for _, at := range t.place {
		t.rooms = append(t.rooms, &p.Rooms[at])
	}
	return t
}

// floor is the floor of room i in a direction, worked out once.
func (t *table) floor(i int, direction shape.Angle) floor {
	if f, known := t.seen[i][direction]; known {
		return f
	}
	f := floorOf(t.rooms[i], direction, t.pool.Rules.Gap)
	if t.seen[i] == nil {
		t.seen[i] = map[shape.Angle]floor{}
	}
	t.seen[i][direction] = f
	return f
}
