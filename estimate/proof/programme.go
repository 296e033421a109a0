package proof

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"
)

// stepOrder is the steps of an apartment in their order; nobody works in the
// waits.
var (
	stepOrder = []string{"preparation", "moisture test", "hold point", "levelling", "drying", "delivery", "acclimatisation",
		"film and underlay", "laying", "trims", "snag and handover"}
	waits = []string{"hold point", "drying", "acclimatisation"}
)

const (
	deliveryStep        = "delivery"
	acclimatisationStep = "acclimatisation"
)

// unit of the building that a programme is for: an apartment, or the job.
type programmed struct{ apartment, typ string }

func (p place) programmed() programmed {
	if p.Apartment != "" {
		return programmed{apartment: p.Apartment}
	}
	return programmed{typ: p.Type}
}

func (p programmed) sign() string { return cmp.Or(p.apartment, p.typ, "job") }

func (s *stepEntry) sign() string { return s.programmed().sign() + ", " + s.Step }

// checkProgramme looks at every step: its crew, its days, its order and its
// hours.
func (c *checker) checkProgramme() {
	crews, days, steps, hours := c.claim(claimCrews), c.claim(claimDays), c.claim(claimSteps), c.claim(claimHours)
	if c.f.Calendar == nil {
		days.want(len(c.f.Programme) == 0, "programme", fmt.Sprint(len(c.f.Programme)), "0", "steps without a calendar")
		return
	}
	c.checkCrews(crews)
	c.checkDays(days)
	c.checkSteps(steps)
	c.checkHours(hours)
}

// checkCrews wants every crew to end one step before it begins another.
func (c *checker) checkCrews(t *tally) {
	byCrew := map[int][]*stepEntry{}
	for i := range c.f.Programme {
		s := &c.f.Programme[i]
		if s.Crew != nil && t.want(*s.Crew >= 1 && *s.Crew <= c.f.Calendar.Crews, s.sign(), fmt.Sprint(*s.Crew), fmt.Sprintf("1 to %d", c.f.Calendar.Crews), "there is no such crew") {
			byCrew[*s.Crew] = append(byCrew[*s.Crew], s)
		}
	}
	for crew := 1; crew <= c.f.Calendar.Crews && len(byCrew) > 0; crew++ {
		work := byCrew[crew]
		delete(byCrew, crew)
		slices.SortStableFunc(work, func(a, b *stepEntry) int {
			return cmp.Or(comparePoints(a.Start, a.StartWorked, b.Start, b.StartWorked), comparePoints(a.End, a.EndWorked, b.End, b.EndWorked))
		})
		for i := 1; i < len(work); i++ {
			before, s := work[i-1], work[i]
			t.want(comparePoints(before.End, before.EndWorked, s.Start, s.StartWorked) <= 0, s.sign(), s.Start.String(), before.End.String()+" ("+before.sign()+")",
				fmt.Sprintf("crew %d is still at work elsewhere", crew))
		}
	}
}

func comparePoints(a day, worked number, b day, later number) int {
	return cmp.Or(cmp.Compare(a, b), worked.Cmp(later.Decimal))
}

// checkDays wants a crew's step to begin and end on working days and to have its
// hours between, and waiting to last its hours.
func (c *checker) checkDays(t *tally) {
	w := c.f.Calendar.week()
	aDay := c.f.Calendar.HoursADay.Mul(decimal.NewFromInt(int64(c.f.Calendar.CrewSize)))
	last := noDay
	for i := range c.f.Programme {
		s := &c.f.Programme[i]
		if !t.want(s.Start != noDay && s.End != noDay, s.sign(), "no day", "a day", "the step has no days") {
			continue
		}
		if s.Crew == nil {
			passed := int64(s.End-s.Start) * 24
			t.want(s.EndWorked.Cmp(s.StartWorked.Decimal) >= 0 && s.Hours.Cmp(decimal.NewFromInt(passed)) <= 0, s.sign(), fmt.Sprint(passed), s.Hours.String(), "less time passes than must")
			continue
		}
		last = max(last, s.End)
		t.want(w.works(s.Start) && w.works(s.End), s.sign(), s.Start.String()+" to "+s.End.String(), "working days", "work on a day off")
		for _, worked := range []number{s.StartWorked, s.EndWorked} {
			t.want(worked.Sign() >= 0 && worked.Cmp(aDay) <= 0, s.sign(), worked.String(), "0 to "+aDay.String(), "more hours than a day has")
		}
		between := decimal.NewFromInt(int64(w.days(s.Start, s.End))).Mul(aDay.Truncate(hourPlaces)).Add(s.EndWorked.Decimal).Sub(s.StartWorked.Decimal)
		t.equal(s.sign(), s.Hours, between, "not the hours between start and end")
	}
	t.want(last == c.f.Calendar.Finish, "calendar", c.f.Calendar.Finish.String(), last.String(), "not the last day of work")
	t.want(c.f.Calendar.Bound <= c.f.Calendar.Finish, "calendar", c.f.Calendar.Bound.String(), "not after "+c.f.Calendar.Finish.String(), "the bound is beaten")
}

// checkSteps wants every apartment to have each step once, in the order of the
// steps, and nobody working while time passes.
func (c *checker) checkSteps(t *tally) {
	byApartment := map[programmed][]*stepEntry{}
	var order []programmed
	for i := range c.f.Programme {
		s := &c.f.Programme[i]
		at := s.programmed()
		if !t.want(slices.Contains(stepOrder, s.Step), s.sign(), s.Step, "a step", "there is no such step") {
			continue
		}
		t.want(s.Crew == nil || !slices.Contains(waits, s.Step), s.sign(), "a crew", "nobody", "somebody works while time passes")
		if byApartment[at] == nil {
			order = append(order, at)
		}
		byApartment[at] = append(byApartment[at], s)
	}
	for _, at := range order {
		steps := byApartment[at]
		slices.SortStableFunc(steps, func(a, b *stepEntry) int {
			return cmp.Compare(slices.Index(stepOrder, a.Step), slices.Index(stepOrder, b.Step))
		})
		for i := 1; i < len(steps); i++ {
			before, s := steps[i-1], steps[i]
			t.want(before.Step != s.Step, s.sign(), "twice", "once", "the step stands twice")
			if at != (programmed{}) {
				t.want(comparePoints(before.End, before.EndWorked, s.Start, s.StartWorked) <= 0, s.sign(), s.Start.String(), before.End.String()+" ("+before.Step+")", "begins before the step before it has ended")
			}
		}
	}
	c.checkAcclimatisation(t, byApartment)
}

// checkAcclimatisation wants an apartment's goods to lie there as long as they
// must.
func (c *checker) checkAcclimatisation(t *tally, steps map[programmed][]*stepEntry) {
	for _, d := range c.f.Deliveries {
		for _, line := range d.Lines {
			if line.Acclimatise == 0 || line.programmed() == (programmed{}) {
				continue
			}
			lain := decimal.Zero
			for _, s := range steps[line.programmed()] {
				if s.Step == acclimatisationStep {
					lain = s.Hours.Decimal
				}
			}
			t.want(lain.Cmp(decimal.NewFromInt(int64(line.Acclimatise))) >= 0, line.programmed().sign(), lain.String()+" h", fmt.Sprintf("%d h", line.Acclimatise), line.Product+" is laid too soon")
		}
	}
}

// checkHours wants each apartment's hours to be those of the labour.
func (c *checker) checkHours(t *tally) {
	planned, paid := map[programmed]decimal.Decimal{}, map[programmed]decimal.Decimal{}
	var order []programmed
	for i := range c.f.Programme {
		if s := &c.f.Programme[i]; s.Crew != nil {
			planned[s.programmed()] = planned[s.programmed()].Add(s.Hours.Decimal)
		}
	}
	for _, l := range c.f.Labour {
		at := l.programmed()
		if _, known := paid[at]; !known {
			order = append(order, at)
		}
		paid[at] = paid[at].Add(l.Hours.Decimal)
	}
	for _, at := range order {
		t.want(planned[at].Equal(paid[at]), at.sign(), planned[at].String(), paid[at].String(), "not the hours of the labour")
		delete(planned, at)
	}
	for i := range c.f.Programme {
		s := &c.f.Programme[i]
		hours, left := planned[s.programmed()]
		t.want(!left || hours.IsZero(), s.sign(), hours.String(), "0", "work that is not in the labour")
	}
}
