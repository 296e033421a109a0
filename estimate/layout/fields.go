package layout

import (
	"cmp"
	"fmt"
	"slices"

	"laybill/estimate/shape"
)

// byField is the pool with every field as a room of its own, and the room of
// the pool that each of them belongs to. The fields of a room are worked one
// after the other.
func byField(p Pool) (parts Pool, of []int) {
	parts = p
	parts.Rooms = nil
	for i, room := range p.Rooms {
		if len(room.Fields) == 0 {
			parts.Rooms, of = append(parts.Rooms, room), append(of, i)
			continue
		}
		for n, field := range inOrderOfRows(room.Fields, directionsOf(&room)[0]) {
			part := Room{ID: fmt.Sprintf("%s\x00%04d", room.ID, n), Floor: field, Directions: directionsOf(&room)[:1]}
			parts.Rooms, of = append(parts.Rooms, part), append(of, i)
		}
	}
	return parts, of
}

// inOrderOfRows orders fields as their rows and pieces are: upwards, and along
// the planks.
func inOrderOfRows(fields []shape.Region, direction shape.Angle) []shape.Region {
	ordered := slices.Clone(fields)
	slices.SortStableFunc(ordered, func(a, b shape.Region) int {
		x, y := a.Turn(direction).Bounds(), b.Turn(direction).Bounds()
		return cmp.Or(cmp.Compare(x.Y0, y.Y0), cmp.Compare(x.X0, y.X0))
	})
	return ordered
}

// gathered is a plan of parts with the parts of each room in one layout, rows
// and shortfalls numbered on from field to field.
func gathered(plan Plan, p Pool, of []int) Plan {
	if !slices.ContainsFunc(p.Rooms, func(r Room) bool { return len(r.Fields) > 0 }) {
		return plan
	}
	parts := plan.Layouts
	plan.Layouts = make([]Layout, len(p.Rooms))
	type place struct{ room, rowsBefore int }
	places := map[string]place{}
	for i, part := range parts {
		room := of[i]
		whole := &plan.Layouts[room]
		places[part.Room] = place{room, len(whole.Rows)}
		if len(p.Rooms[room].Fields) == 0 {
			*whole = part
			continue
		}
		whole.Room, whole.Direction = p.Rooms[room].ID, part.Direction
		whole.addField(part)
	}
	if len(p.Rooms) == 1 {
		plan.Layouts[0].LowerBound = plan.LowerBound
	}
	shortfalls := plan.Shortfalls
	plan.Shortfalls = nil
	for _, short := range shortfalls {
		at := places[short.Room]
		short.Room = p.Rooms[at.room].ID
		if short.Row > 0 {
			short.Row += at.rowsBefore
		}
		plan.Shortfalls = append(plan.Shortfalls, short)
	}
	return plan
}

// addField adds the layout of a field after those there are. A field without
// rows, which the gap takes whole, is none.
func (l *Layout) addField(field Layout) {
	before := len(l.Rows)
	if len(field.Rows) == 0 {
		return
	}
	l.Rows = append(l.Rows, field.Rows...)
	l.Fields = append(l.Fields, Field{before + 1, len(l.Rows), field.Phase})
	for _, piece := range field.Pieces {
		piece.Row += before
		l.Pieces = append(l.Pieces, piece)
	}
	l.Planks += field.Planks
	l.Cuts += field.Cuts
	l.Rips += field.Rips
	l.Notches += field.Notches
}
