package programme

import (
	"slices"
)

// slot is the time that a visit has, and its crew, from 0; nobody where there
// is no work.
type slot struct {
	crew       int
	start, end moment
}

const nobody = -1

// diary is the work of one crew in the order of time.
type diary []slot

// earliest is the first start from m on at which so much work fits.
func (d diary) earliest(m, work moment) moment {
	at, _ := slices.BinarySearchFunc(d, m, func(s slot, m moment) int { return int(s.end - m) })
	for _, taken := range d[at:] {
		if taken.start >= m+work {
			break
		}
		m = max(m, taken.end)
	}
	return m
}

// latest is the last start from m on at which so much work ends by the limit;
// found is false when there is none.
func (d diary) latest(m, work, limit moment) (start moment, found bool) {
	end := limit
	for i := len(d) - 1; i >= 0 && end-work >= m; i-- {
		switch taken := d[i]; {
		case taken.start >= end:
		case taken.end <= end-work:
			return end - work, true
		default:
			end = taken.start
		}
	}
	return end - work, end-work >= m
}

func (d *diary) add(s slot) {
	at, _ := slices.BinarySearchFunc(*d, s.start, func(t slot, m moment) int { return int(t.start - m) })
	*d = slices.Insert(*d, at, s)
}

func (d *diary) remove(s slot) {
	at, _ := slices.BinarySearchFunc(*d, s.start, func(t slot, m moment) int { return int(t.start - m) })
	*d = slices.Delete(*d, at, at+1)
}

// worth is less for a better schedule: its end, and on top how long an
// apartment's goods lie about in the mean.
func (s *schedule) worth() moment { return s.finish + s.waited/moment(max(len(s.slots), 1)) }

// store is the goods on one floor, in grams by the number of the working day.
type store []int64

// full is the last of the days at whose end so much more would be above the
// limit. Goods that are above it by themselves are stored alone. found is false
// when there is room on all of them.
func (s store) full(from, until int, grams, limit int64) (day int, found bool) {
	for n := min(until, len(s)-1); n >= from; n-- {
		if s[n] > 0 && s[n]+grams > limit {
			return n, true
		}
	}
	return 0, false
}

func (s *store) add(from, until int, grams int64) {
	if missing := until + 1 - len(*s); missing > 0 {
		*s = append(*s, make(store, missing)...)
	}
	for n := from; n <= until; n++ {
		(*s)[n] += grams
	}
}

// schedule gives visits their time, apartment after apartment.
type schedule struct {
	clock  *clock
	crews  []diary
	limit  int64 // grams a floor can store; 0: no limit
	floors map[floor]*store
	slots  map[*chain][visits]slot
	finish moment
	waited moment // of all goods, from carrying in to laying
}

// floor is a floor of a block; its goods share its storage.
type floor struct{ block, floor string }

func floorOf(c *chain) floor { return floor{c.apartment.Block, c.apartment.Floor} }

func newSchedule(clock *clock, crews int, limit int64) *schedule {
	return &schedule{clock: clock, crews: make([]diary, crews), limit: limit, floors: map[floor]*store{}, slots: map[*chain][visits]slot{}}
}

func (s *schedule) store(f floor) *store {
	if s.floors[f] == nil {
		s.floors[f] = &store{}
	}
	return s.floors[f]
}

// prepare gives all visits of a chain but the laying their time, the carrying in
// not before a moment. It holds until the chain is placed.
func (s *schedule) prepare(c *chain, carryFrom moment) {
	slots := s.forward(c, [visits]moment{testVisit: c.ready, supplyVisit: carryFrom})
	slots[layVisit] = slot{crew: nobody}
	s.enter(slots)
	s.slots[c] = slots
}

// place gives the visits of a chain the earliest time that their crews and the
// floor's storage leave, keeping to what is prepared. A delivery that the floor
// has no room for waits until there is, and no goods come earlier than they must.
func (s *schedule) place(c *chain) {
	notBefore := [visits]moment{testVisit: c.ready}
	slots, prepared := s.slots[c]
	if prepared {
		s.leave(slots)
		slots = s.follow(c, slots)
	} else {
		slots = s.fit(c, notBefore)
	}
	for c.apartment != nil && s.limit > 0 {
		n, full, found := s.crowded(c, slots)
		if !found {
			break
		}
		notBefore[n] = moment(full+1) * s.clock.aDay
		slots = s.fit(c, notBefore)
	}
	s.enter(slots)
	if c.apartment != nil {
		s.keep(c.loads, s.store(floorOf(c)), slots, 1)
	}
	s.slots[c] = slots
	for _, slot := range slots {
		if slot.crew != nobody {
			s.finish = max(s.finish, slot.end)
		}
	}
	s.waited += slots[layVisit].start - slots[supplyVisit].end
}

// enter writes slots into the crews' diaries, leave takes them out.
func (s *schedule) enter(slots [visits]slot) {
	for _, slot := range slots {
		if slot.crew != nobody {
			s.crews[slot.crew].add(slot)
		}
	}
}

func (s *schedule) leave(slots [visits]slot) {
	for _, slot := range slots {
		if slot.crew != nobody {
			s.crews[slot.crew].remove(slot)
		}
	}
}

// stored is the working days on which goods lie on their floor.
func (s *schedule) stored(slots [visits]slot, l load) (first, last int) {
	first = s.clock.dayNumber(slots[l.from].start)
	return first, max(first, s.clock.lastDayNumber(slots[l.until].end))
}

// fit finds the earliest slots of the visits, none before its time, and then
// puts off the delivery as long as nothing has to wait for it.
func (s *schedule) fit(c *chain, notBefore [visits]moment) [visits]slot {
	return s.putOff(c, s.forward(c, notBefore))
}

// follow finds the earliest slot of the laying after visits that are prepared.
func (s *schedule) follow(c *chain, slots [visits]slot) [visits]slot {
	carrying := &c.visits[supplyVisit]
	slots[layVisit] = s.earliest(s.clock.after(slots[supplyVisit].end, carrying.work, carrying.wait), c.visits[layVisit].work)
	return s.putOff(c, slots)
}

func (s *schedule) putOff(c *chain, slots [visits]slot) [visits]slot {
	carrying := &c.visits[supplyVisit]
	limit := s.clock.until(slots[layVisit].start, carrying.work, carrying.wait)
	slots[supplyVisit] = s.latest(slots[supplyVisit], carrying.work, limit)
	return slots
}

// forward finds the earliest slots of the visits, none before its time.
func (s *schedule) forward(c *chain, notBefore [visits]moment) [visits]slot {
	var slots [visits]slot
	m := moment(0)
	for n := range c.visits {
		v := &c.visits[n]
		slots[n] = s.earliest(max(m, notBefore[n]), v.work)
		m = s.clock.after(slots[n].end, v.work, v.wait)
	}
	return slots
}

func (s *schedule) earliest(m, work moment) slot {
	if work == 0 {
		return slot{nobody, m, m}
	}
	best := slot{crew: nobody}
	for crew, diary := range s.crews {
		if start := diary.earliest(m, work); best.crew == nobody || start < best.start {
			best = slot{crew, start, start + work}
		}
	}
	return best
}

// latest moves a slot as late as the limit for its end and the crews allow.
func (s *schedule) latest(at slot, work, limit moment) slot {
	if work == 0 {
		return slot{nobody, max(at.start, limit), max(at.start, limit)}
	}
	for crew, diary := range s.crews {
		if start, found := diary.latest(at.start, work, limit); found && start > at.start {
			at = slot{crew, start, start + work}
		}
	}
	return at
}

// crowded finds the visit whose goods the floor has no room for, and the last
// working day on which that is so.
func (s *schedule) crowded(c *chain, slots [visits]slot) (n, day int, found bool) {
	goods := s.store(floorOf(c))
	for i, l := range c.loads {
		first, last := s.stored(slots, l)
		if day, found := goods.full(first, last, l.grams, s.limit); found {
			s.keep(c.loads[:i], goods, slots, -1)
			return l.from, day, true
		}
		goods.add(first, last, l.grams)
	}
	s.keep(c.loads, goods, slots, -1)
	return 0, 0, false
}

// keep stores loads, or with -1 takes them away again.
func (s *schedule) keep(loads []load, goods *store, slots [visits]slot, times int64) {
	for _, l := range loads {
		first, last := s.stored(slots, l)
		goods.add(first, last, times*l.grams)
	}
}
