package programme

import (
	"cmp"
	"slices"
	"unicode"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/subfloor"
)

// The visits of crews to an apartment, in their order. Time passes after the
// first three: until the test is read, the compound is dry, the goods are used
// to the room.
const (
	testVisit = iota
	levelVisit
	supplyVisit
	layVisit
	visits
)

// visitOf is the visit in which a step is done.
func visitOf(s job.Step) int {
	switch {
	case s <= job.MoistureTest:
		return testVisit
	case s == job.Levelling:
		return levelVisit
	case s == job.Delivering:
		return supplyVisit
	}
	return layVisit
}

// part is the work of one step of a visit.
type part struct {
	step job.Step
	work moment
}

// visit is work that one crew does in an apartment without leaving it for
// another, and the calendar days that pass before the next visit.
type visit struct {
	parts   []part
	work    moment
	wait    int
	waiting job.Step // the step that the wait is, where there is one
	hours   int      // of the clock, that the wait takes at least
}

// chain is an apartment's visits, one after another.
type chain struct {
	apartment *job.Apartment // nil: work of the whole job
	asked     Day            // no work before it
	ready     moment
	visits    [visits]visit
	loads     []load
	supplied  bool // goods are brought for laying
}

// load is all goods that a chain needs for one visit, stored on its floor from
// the day of that visit to the end of the one that uses them up.
type load struct {
	from, until int // visits
	grams       int64
}

const hoursADay = 24

// apartmentChains are the chains of the apartments in the order in which the
// job asks for them.
func apartmentChains(j *job.Job, w Work) []*chain {
	work := hoursByStep(w.Labour)
	at := map[*job.Apartment]*chain{}
	var chains []*chain
	asked := askedStarts(j)
	for _, place := range w.Places {
		c := at[place.Apartment]
		if c == nil {
			c = &chain{apartment: place.Apartment, asked: asked(place.Apartment)}
			at[place.Apartment], chains = c, append(chains, c)
		}
		if !place.Repaired {
			c.waitForFloor(&w.Subfloor.Rooms[place.Index])
		}
		c.waitForGoods(place.Spec.BuildUp)
	}
	for _, c := range chains {
		for _, step := range job.WorkSteps {
			c.add(step, work[stepOf{c.apartment, step}])
		}
	}
	slices.SortStableFunc(chains, inAskedOrder)
	return chains
}

// jobChains are the work of the whole job that comes before all apartments, and
// what of it belongs to handing over and comes after them; nil where there is
// none.
func jobChains(lines []labour.Line) (before, after *chain) {
	work := hoursByStep(lines)
	before, after = &chain{asked: NoDay}, &chain{asked: NoDay}
	for _, step := range job.WorkSteps {
		to := before
		if step == job.HandingOver {
			to = after
		}
		to.add(step, work[stepOf{nil, step}])
	}
	return before.orNil(), after.orNil()
}

func (c *chain) orNil() *chain {
	if c.work() == 0 {
		return nil
	}
	return c
}

func (c *chain) work() moment {
	total := moment(0)
	for i := range c.visits {
		total += c.visits[i].work
	}
	return total
}

func (c *chain) add(step job.Step, work moment) {
	if work > 0 {
		v := &c.visits[visitOf(step)]
		v.parts = append(v.parts, part{step, work})
		v.work += work
	}
}

// waitForFloor lets the time pass that a floor needs: until its moisture test is
// read and its compound is dry.
func (c *chain) waitForFloor(room *subfloor.Room) {
	if room.Room.Spec.Subfloor.Mineral() {
		c.wait(testVisit, job.HoldPoint, hoursADay*subfloor.TestDays)
	}
	c.wait(levelVisit, job.Drying, hoursADay*room.DryingDays())
}

// waitForGoods lets the time pass until the goods are used to their room.
func (c *chain) waitForGoods(buildUp *job.BuildUp) {
	for _, line := range buildUp.Lines {
		if line.Product != nil {
			c.wait(supplyVisit, job.Acclimatisation, line.Product.Acclimatise)
		}
	}
}

// wait lets so many hours pass after a visit at least, in whole days.
func (c *chain) wait(n int, step job.Step, hours int) {
	if v := &c.visits[n]; hours > v.hours {
		v.wait, v.waiting, v.hours = (hours+hoursADay-1)/hoursADay, step, hours
	}
}

type stepOf struct {
	apartment *job.Apartment
	step      job.Step
}

// hoursByStep adds up the hours of the labour lines, in hundredths of a
// man-hour.
func hoursByStep(lines []labour.Line) map[stepOf]moment {
	work := map[stepOf]moment{}
	for _, line := range lines {
		work[stepOf{line.Apartment, line.Operation.Step}] += moment(line.Hours.Shift(labour.HourPlaces).IntPart())
	}
	return work
}

// manHours is work in hours again.
func manHours(work moment) decimal.Decimal { return decimal.New(int64(work), -labour.HourPlaces) }

// askedStarts finds the first day on which an apartment may be worked in: its
// own, else the earliest of its phase, else the job's.
func askedStarts(j *job.Job) func(*job.Apartment) Day {
	byPhase := map[string]Day{}
	for _, a := range j.Apartments {
		if start, known := byPhase[a.Phase]; a.Phase != "" && !a.Start.IsZero() && (!known || DayOf(a.Start) < start) {
			byPhase[a.Phase] = DayOf(a.Start)
		}
	}
	return func(a *job.Apartment) Day {
		if !a.Start.IsZero() {
			return DayOf(a.Start)
		}
		if start, known := byPhase[a.Phase]; known {
			return start
		}
		return DayOf(j.Settings.StartDate)
	}
}

// inAskedOrder is by asked start, then phase, block, floor and name.
func inAskedOrder(x, y *chain) int {
	a, b := x.apartment, y.apartment
	return cmp.Or(cmp.Compare(x.asked, y.asked), byNumber(a.Phase, b.Phase), byNumber(a.Block, b.Block), byNumber(a.Floor, b.Floor),
		byNumber(a.Name, b.Name), cmp.Compare(a.Type, b.Type))
}

// byNumber compares names so that numbers in them count as numbers: 9 before
// 10.
func byNumber(a, b string) int {
	x, y := []rune(a), []rune(b)
	for len(x) > 0 && len(y) > 0 {
		if unicode.IsDigit(x[0]) && unicode.IsDigit(y[0]) {
			var m, n []rune
			m, x = digits(x)
			n, y = digits(y)
			if order := cmp.Or(cmp.Compare(len(m), len(n)), slices.Compare(m, n)); order != 0 {
				return order
			}
			continue
		}
		if x[0] != y[0] {
			return cmp.Compare(x[0], y[0])
		}
		x, y = x[1:], y[1:]
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

// digits takes the number that a text begins with off it, without leading
// zeros.
func digits(text []rune) (number, rest []rune) {
	n := slices.IndexFunc(text, func(r rune) bool { return !unicode.IsDigit(r) })
	if n < 0 {
		n = len(text)
	}
	number, rest = text[:n], text[n:]
	for len(number) > 0 && number[0] == '0' {
		number = number[1:]
	}
	return number, rest
}
