package crew

import (
	"cmp"
	"slices"
	"strconv"

	"laybill/estimate/job"
	"laybill/estimate/programme"
)

// Dates are the days of one apartment's steps, or of the work of the whole job.
type Dates struct {
	Apartment *job.Apartment // nil for the whole job
	entries   map[job.Step]programme.Entry
}

// Dates lists the programme apartment by apartment, those first that are laid
// first; nothing for a job without dates.
func (l *Lists) Dates() []Dates {
	var list []Dates
	at := map[*job.Apartment]int{}
	for _, e := range l.result.Programme.Entries {
		i, known := at[e.Apartment]
		if !known {
			i = len(list)
			at[e.Apartment] = i
			list = append(list, Dates{e.Apartment, map[job.Step]programme.Entry{}})
		}
		list[i].entries[e.Step] = e
	}
	slices.SortStableFunc(list, func(a, b Dates) int { return cmp.Compare(a.laid(), b.laid()) })
	return list
}

// laid is the day on which laying begins; where nothing is laid, the first day.
func (d Dates) laid() programme.Day {
	if e, taken := d.entries[job.Laying]; taken {
		return e.Start.Day
	}
	first := programme.NoDay
	for step := job.HandingOver; step >= job.Preparation; step-- {
		if e, taken := d.entries[step]; taken {
			first = e.Start.Day
		}
	}
	return first
}

// Place is the apartment, or the whole job.
func (d Dates) Place() string { return Place(Apartment(d.Apartment)) }

// Floor is the apartment's floor.
func (d Dates) Floor() string {
	if d.Apartment == nil {
		return ""
	}
	return d.Apartment.Floor
}

// Days are the days from the first of the steps to the last of them:
// "Mon 18 Jan – Tue 19 Jan"; nothing where the apartment has none of the steps.
func (d Dates) Days(steps ...job.Step) string {
	first, last := d.span(steps)
	if first == last {
		return dayWords(first)
	}
	return dayWords(first) + " \u2013 " + dayWords(last)
}

// Until is the last day of a step.
func (d Dates) Until(step job.Step) string {
	_, last := d.span([]job.Step{step})
	return dayWords(last)
}

func (d Dates) span(steps []job.Step) (first, last programme.Day) {
	first, last = programme.NoDay, programme.NoDay
	for _, step := range steps {
		e, taken := d.entries[step]
		if !taken {
			continue
		}
		if first == programme.NoDay {
			first = e.Start.Day
		}
		last = e.End.Day
	}
	return first, last
}

// Crew is the number of the crew of a step.
func (d Dates) Crew(step job.Step) string {
	if n := d.entries[step].Crew; n > 0 {
		return strconv.Itoa(n)
	}
	return ""
}

func dayWords(d programme.Day) string {
	if d == programme.NoDay {
		return ""
	}
	return d.Date().Format("Mon 2 Jan")
}
