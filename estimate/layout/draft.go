package layout

import "laybill/estimate/measure"

// draft is a pool with every piece given its plank, before the pieces are
// drawn.
type draft struct {
	grids  []grid     // of the rooms in the order they are worked
	slots  [][][]slot // by grid and segment, left to right
	planks int
}

// slot is the stretch of a segment that one piece of plank takes.
type slot struct {
	x0, x1 measure.Length
	plank  int            // from 0
	at     measure.Length // where in the plank it begins
}

func (d *draft) newPlank() int {
	d.planks++
	return d.planks - 1
}

// courseSlots are the slots of a segment that starts with a starter of the
// given plank; the whole planks and the end piece take new ones.
func (d *draft) courseSlots(s *saw, seg *segment, starter measure.Length, plank int) []slot {
	whole, _ := s.course(seg.length(), starter)
	slots := make([]slot, 0, whole+2)
	slots = append(slots, slot{seg.x0, seg.x0 + starter, plank, s.plank.Length - starter})
	for x := seg.x0 + starter; x < seg.x1; x += s.plank.Length {
		slots = append(slots, slot{x, min(x+s.plank.Length, seg.x1), d.newPlank(), 0})
	}
	return slots
}
