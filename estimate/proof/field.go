package proof

import (
	"cmp"
	"fmt"
	"slices"
)

// ground turns an outline with its holes into the frame of a layout.
func (e fieldEntry) ground(degrees float64) ground { return groundOf(e.Outline, e.Holes, degrees) }

// drawn tells whether every ring has three corners.
func (e fieldEntry) drawn() bool {
	for _, hole := range e.Holes {
		if len(hole) < 3 {
			return false
		}
	}
	return len(e.Outline) >= 3
}

// whole is the room as one field.
func (r *roomEntry) whole() fieldEntry { return fieldEntry{r.Outline, r.Holes} }

// laidInOne are the parts of the room that are laid in one piece each.
func (r *roomEntry) laidInOne() []fieldEntry {
	if len(r.Fields) == 0 {
		return []fieldEntry{r.whole()}
	}
	return r.Fields
}

// checkFields lays the fields of every room over its floor: they cover it once.
// Rooms drawn alike are checked once.
func (c *checker) checkFields() {
	t := c.claim(claimFields)
	rooms, fields := 0, 0
	known := map[string]bool{}
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		if len(room.Fields) == 0 || !room.drawn() {
			continue
		}
		rooms++
		fields += len(room.Fields)
		if key := room.signature(false, false); !known[key] {
			known[key] = true
			c.coverByFields(t, room)
		}
	}
	t.hold(true)
	t.remark = fmt.Sprintf("%d rooms are laid in %d fields", rooms, fields)
}

func (c *checker) coverByFields(t *tally, room *roomEntry) {
	floor := room.whole().ground(0)
	w := sweep{}
	w.addGround(floor)
	for _, field := range room.Fields {
		outlines := []loop{field.Outline.loop()}
		for _, hole := range field.Holes {
			outlines = append(outlines, hole.loop())
		}
		w.add(pieceLayer, outlines...)
	}
	found, ok := w.measure(&c.steps)
	if !t.want(ok, room.sign(), "too much", "fields", "the room is too intricate to check") {
		return
	}
	nothing := floor.steep * unit / 50 // ends of profiles on slanted walls are rounded
	for _, fault := range []struct {
		area float64
		at   spot
		why  string
	}{
		{found.uncovered, found.uncoveredAt, "floor in no field"},
		{found.twice, found.twiceAt, "floor in two fields"},
		{found.outside, found.outsideAt, "a field outside the room"},
	} {
		t.want(fault.area <= nothing, room.sign(), squareMillimetres(fault.area), "0 mm2", fault.why+" at "+fault.at.sign())
	}
}

// profileLength is the length of the sides that fields have in common: what
// stands between them.
func (r *roomEntry) profileLength() length {
	var s sides
	for i, field := range r.Fields {
		s.add(i, field.Outline.anticlockwise(true))
		for _, hole := range field.Holes {
			s.add(i, hole.anticlockwise(false))
		}
	}
	sum := length(0)
	for _, m := range append(meetings(s.rights, s.lefts, 0), meetings(s.tops, s.bottoms, 0)...) {
		sum += m.to - m.from
	}
	return sum
}

// parted is a layout's floor by fields, each with its own pieces; the floor
// itself when it is laid in one piece. A piece that lies in no field is left to
// the first, which then does not hold it either.
func (f *floor) parted() []*floor {
	degrees := f.entry.Direction.InexactFloat64()
	if len(f.rooms[0].Fields) == 0 {
		f.ground = f.rooms[0].whole().ground(degrees)
		return []*floor{f}
	}
	parts := make([]*floor, len(f.rooms[0].Fields))
	for i, field := range f.rooms[0].Fields {
		entry := *f.entry
		entry.Pieces = nil
		if i > 0 {
			entry.Planks = 0 // counted with the first
		}
		parts[i] = &floor{entry: &entry, of: f, number: i + 1, rooms: f.rooms, ground: field.ground(degrees), sound: true}
	}
	for i := range f.entry.Pieces {
		part := parts[0]
		for _, other := range parts {
			if other.ground.holds(f.entry.Pieces[i].At.within()) {
				part = other
				break
			}
		}
		part.entry.Pieces = append(part.entry.Pieces, f.entry.Pieces[i])
		part.bounds = append(part.bounds, f.bounds[i])
	}
	for _, part := range parts {
		for i := range part.entry.Pieces {
			twice, _ := part.entry.Pieces[i].twiceArea()
			part.area += twice
		}
		part.area /= 2
	}
	givePhases(parts)
	return parts
}

// givePhases gives every field its phase of the layout's fixed pattern.
func givePhases(parts []*floor) {
	pattern := parts[0].entry.Pattern
	if pattern == nil {
		return
	}
	laid := slices.DeleteFunc(slices.Clone(parts), func(f *floor) bool { return len(f.entry.Pieces) == 0 })
	slices.SortStableFunc(laid, func(a, b *floor) int {
		first, _ := a.firstAndLast()
		other, _ := b.firstAndLast()
		return cmp.Compare(first, other)
	})
	for i, part := range laid {
		own := *pattern
		if i < len(own.Phases) {
			own.Phase = own.Phases[i]
		}
		part.entry.Pattern = &own
	}
}

// within is a spot just inside an anticlockwise ring, beside the middle of its
// first side.
func (r ring) within() spot {
	l := r[:2].loop()
	middle := spot{(l[0].x + l[1].x) / 2, (l[0].y + l[1].y) / 2}
	return middle.plus(leftOf(l[0], l[1], 0.25))
}

// checkRun compares the longest side of any field with the layout's rule. A
// longer one needs, in every room with the layout, an entry that names the rule.
func (c *checker) checkRun(f *floor, t *tally) {
	most, long := f.entry.Rules.LongestRun, length(0)
	for _, field := range f.rooms[0].laidInOne() {
		b := field.Outline.bounds()
		long = max(long, b.width(), b.height())
	}
	for _, room := range f.rooms {
		ok := most <= 0 || long <= most || c.excused(room, "run", 0)
		t.want(ok, room.sign(), long.mm(), "at most "+most.mm(), `a field is longer than the rule, and no caution says so under "run"`)
	}
}
