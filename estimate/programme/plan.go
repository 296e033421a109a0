package programme

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
	"laybill/estimate/subfloor"
)

// Work is what a job that is measured has to do.
type Work struct {
	Places       []*building.Room
	Subfloor     *subfloor.Survey // of those that are laid
	Consignments []int            // by index of the place: what its goods are ordered and delivered with
	Labour       []labour.Line
	Uses         []quantity.Use
	Needs        []purchase.Need
}

// Plan makes the programme of a job.
func Plan(j *job.Job, w Work) Programme {
	p := &planner{settings: j.Settings, calendar: NewCalendar(j), chains: apartmentChains(j, w)}
	p.before, p.after = jobChains(w.Labour)
	p.shares = p.shareOut(w)
	p.weighGoods()
	start := p.start()
	if start == NoDay || len(p.chains) == 0 {
		return Programme{Start: NoDay, Finish: NoDay, Bound: NoDay, Deliveries: p.deliveries(nil)}
	}
	aDay := j.Settings.HoursADay.Mul(decimal.NewFromInt(int64(j.Settings.CrewSize))).Shift(labour.HourPlaces).IntPart()
	p.clock = newClock(p.calendar, start, moment(max(aDay, 1)))
	p.settle()
	best := p.search()
	return p.programme(best)
}

// planner makes a programme out of an order of the apartments.
type planner struct {
	settings      job.Settings
	calendar      Calendar
	clock         *clock
	before, after *chain // work of the whole job; nil where there is none
	chains        []*chain
	shares        []*share
}

// start is the job's first day, or that of its first apartment.
func (p *planner) start() Day {
	start := DayOf(p.settings.StartDate)
	for _, c := range p.chains {
		if c.asked != NoDay && (start == NoDay || c.asked < start) {
			start = c.asked
		}
	}
	return start
}

// settle says from when on each apartment may be worked in: as asked, and after
// the work that comes before all.
func (p *planner) settle() {
	first := moment(0)
	if p.before != nil {
		first = p.before.work()
	}
	for _, c := range p.chains {
		c.ready = first
		if c.asked != NoDay {
			c.ready = max(first, p.clock.morning(c.asked))
		}
	}
}

// run schedules the apartments in an order. Before one is laid so many others
// that follow are prepared, their goods not carried in before the laying of the
// apartment before begins: so there is time for it between the layings.
func (p *planner) run(order []*chain, ahead int) *schedule {
	crews := p.crews()
	s := newSchedule(p.clock, crews, p.limit())
	if p.before != nil {
		s.place(p.before)
	}
	prepared := 0
	for i, c := range order {
		from := moment(0)
		if i >= crews {
			from = s.slots[order[i-crews]][layVisit].start
		}
		for ; ahead > 0 && prepared < min(i+ahead+1, len(order)); prepared++ {
			s.prepare(order[prepared], from)
		}
		s.place(c)
	}
	if p.after != nil {
		p.after.ready = s.finish
		s.place(p.after)
	}
	return s
}

func (p *planner) crews() int { return max(p.settings.Crews, 1) }

// limit is what a floor can store, in grams.
func (p *planner) limit() int64 { return grams(p.settings.FloorStorage) }

func grams(kg decimal.Decimal) int64 { return kg.Shift(3).Ceil().IntPart() }

// mostPlaced bounds the search by the apartments it places.
const mostPlaced = 6_000

// search changes the order of the apartments as long as the work ends earlier,
// until the bound's day is reached: by the longest work first among those asked
// for on one day, then by exchanging two. The order asked for stays when no
// other ends on an earlier day.
func (p *planner) search() *schedule {
	asked, ahead := p.aheadOf(p.chains)
	t := trial{planner: p, ahead: ahead, best: asked, order: slices.Clone(p.chains), left: mostPlaced, goal: p.clock.lastDayNumber(p.bound())}
	t.try(longestFirst(p.chains))
	for better := true; better; {
		better = false
		for i := range t.order {
			for j := i + 1; j < len(t.order) && !t.done(); j++ {
				order := slices.Clone(t.order)
				order[i], order[j] = order[j], order[i]
				better = t.try(order) || better
			}
		}
	}
	if p.clock.lastDayNumber(t.best.finish) < p.clock.lastDayNumber(asked.finish) {
		return t.best
	}
	return asked
}

// aheadOf finds how many apartments are best prepared ahead.
func (p *planner) aheadOf(order []*chain) (best *schedule, ahead int) {
	for waves := range mostWaves + 1 {
		if s := p.run(order, waves*p.crews()); best == nil || s.worth() < best.worth() {
			best, ahead = s, waves*p.crews()
		}
	}
	return best, ahead
}

// mostWaves is how many apartments a crew is ahead at most.
const mostWaves = 3

func longestFirst(chains []*chain) []*chain {
	order := slices.Clone(chains)
	slices.SortStableFunc(order, func(a, b *chain) int {
		return cmp.Or(cmp.Compare(a.ready, b.ready), cmp.Compare(b.work(), a.work()))
	})
	return order
}

// trial is the best order so far.
type trial struct {
	*planner
	order []*chain
	ahead int // apartments that are prepared ahead
	best  *schedule
	left  int // apartments that may still be placed
	goal  int // working day that nothing ends before
}

func (t *trial) done() bool {
	return t.left < 0 || t.clock.lastDayNumber(t.best.finish) <= t.goal
}

// try takes an order over when it is better than the best.
func (t *trial) try(order []*chain) bool {
	if t.done() {
		return false
	}
	t.left -= len(order)
	s := t.run(order, t.ahead)
	if s.worth() >= t.best.worth() {
		return false
	}
	t.best, t.order = s, order
	return true
}

// bound is a moment that no schedule of these crews ends before: the end of
// every apartment as if it were alone, and for every time the work that cannot
// begin before it, shared by all crews.
func (p *planner) bound() moment {
	type task struct{ head, work moment }
	var tasks []task
	bound := moment(0)
	alone := newSchedule(p.clock, 1, 0)
	for _, c := range p.chains {
		slots := alone.forward(c, [visits]moment{c.ready})
		for n, slot := range slots {
			if slot.crew != nobody {
				tasks = append(tasks, task{slot.start, c.visits[n].work})
				bound = max(bound, slot.end)
			}
		}
	}
	slices.SortStableFunc(tasks, func(a, b task) int { return cmp.Compare(b.head, a.head) })
	crews, work := moment(p.crews()), moment(0)
	for _, t := range tasks {
		work += t.work
		bound = max(bound, t.head+(work+crews-1)/crews)
	}
	if p.after != nil {
		bound += p.after.work()
	}
	return bound
}

// programme states a schedule in days.
func (p *planner) programme(s *schedule) Programme {
	result := Programme{Deliveries: p.deliveries(s)}
	var all []*chain
	for _, c := range slices.Concat([]*chain{p.before}, p.chains, []*chain{p.after}) {
		if c != nil {
			all = append(all, c)
			result.Entries = append(result.Entries, p.entries(c, s.slots[c])...)
		}
	}
	result.tooHeavy = p.tooHeavy()
	first, bound := s.finish, p.bound()
	for _, c := range all {
		first = min(first, s.slots[c][testVisit].start)
	}
	result.Start, result.Finish, result.Bound = p.clock.begins(first).Day, p.clock.ends(s.finish).Day, p.clock.ends(bound).Day
	result.Days = p.clock.lastDayNumber(s.finish) - p.clock.dayNumber(first) + 1
	result.BoundDays = p.clock.lastDayNumber(bound) - p.clock.dayNumber(first) + 1
	return result
}

// tooHeavy are the apartments whose goods alone are more than a floor can store.
func (p *planner) tooHeavy() []heavy {
	var list []heavy
	for _, c := range p.chains {
		most := int64(0)
		for _, l := range c.loads {
			most = max(most, l.grams)
		}
		if p.limit() > 0 && most > p.limit() {
			list = append(list, heavy{c.apartment, most})
		}
	}
	return list
}

// entries are the steps of a chain, those of no length left out but for the
// delivery.
func (p *planner) entries(c *chain, slots [visits]slot) []Entry {
	var entries []Entry
	for n, slot := range slots {
		v := &c.visits[n]
		at := slot.start
		for _, part := range v.parts {
			entries = append(entries, Entry{Apartment: c.apartment, Step: part.step, Crew: slot.crew + 1, Hours: manHours(part.work),
				Start: p.clock.begins(at), End: p.clock.ends(at + part.work)})
			at += part.work
		}
		ended := p.clock.begins(slot.end)
		if v.work > 0 {
			ended = p.clock.ends(slot.end)
		} else if n == supplyVisit && c.supplied {
			entries = append(entries, Entry{Apartment: c.apartment, Step: job.Delivering, Start: ended, End: ended})
		}
		if v.wait > 0 {
			entries = append(entries, Entry{Apartment: c.apartment, Step: v.waiting, Hours: decimal.NewFromInt(int64(v.hours)),
				Start: ended, End: ended.later(v.wait)})
		}
	}
	return entries
}
