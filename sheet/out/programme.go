package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/programme"
	"laybill/sheet/crew"
)

// programme writes the steps of every apartment with their days.
func (b *book) programme(sheet string) {
	rows := b.result.Programme.Entries
	total := decimal.Zero
	for _, e := range rows {
		if e.Crew > 0 {
			total = total.Add(e.Hours)
		}
	}
	l := list[programme.Entry]{
		title: "Programme",
		note: b.programmeWords() + " A crew works one step after another and may be in several apartments on one day. In a hold point, drying and acclimatisation nobody works: nothing goes on before the reading is " +
			"released by whoever is responsible for it, the compound is dry and the goods are used to the room.",
		landscape: true,
		dense:     true,
		columns: []column[programme.Entry]{
			{heading: "Apartment", width: 14, cell: func(e programme.Entry, _ int) cell { return text(entryPlace(e)).strong() }},
			{heading: "Block", width: 12, cell: func(e programme.Entry, _ int) cell {
				return ofApartment(e, func(a *job.Apartment) string { return a.Block })
			}},
			{heading: "Floor", width: 9, cell: func(e programme.Entry, _ int) cell {
				return ofApartment(e, func(a *job.Apartment) string { return a.Floor })
			}},
			{heading: "Phase", width: 9, cell: func(e programme.Entry, _ int) cell {
				return ofApartment(e, func(a *job.Apartment) string { return a.Phase })
			}},
			{heading: "Step", width: 20, cell: func(e programme.Entry, _ int) cell { return text(e.Step.String()) }},
			{heading: "Crew", width: 8, cell: func(e programme.Entry, _ int) cell {
				return plainCount(e.Crew).in(style{align: middle}).orBlank(e.Crew > 0)
			}},
			{heading: "Start", width: 12, cell: func(e programme.Entry, _ int) cell { return day(e.Start.Day.Date()) }},
			{heading: "End", width: 12, cell: func(e programme.Entry, _ int) cell { return day(e.End.Day.Date()) }},
			{heading: "Man-hours", width: 12, total: hours(total), places: labour.HourPlaces, cell: func(e programme.Entry, _ int) cell { return hours(e.Hours).orBlank(e.Crew > 0) }},
			{heading: "Waiting hours", width: 10, cell: func(e programme.Entry, _ int) cell {
				return number(e.Hours, wholeFormat).orBlank(e.Crew == 0 && !e.Hours.IsZero())
			}},
		},
	}
	l.write(b, sheet, rows)
}

// programmeWords says how long the job takes and how good that is.
func (b *book) programmeWords() string {
	p := &b.result.Programme
	s := b.result.Job.Settings
	words := fmt.Sprintf("From %s to %s: %s (%s) with %s of %d.", p.Start, p.Finish, crew.Counted(p.Days, "working day"), s.WorkingWeek, crew.Counted(s.Crews, "crew"), s.CrewSize)
	if p.Finish == p.Bound {
		return words + " No programme of these crews ends earlier."
	}
	return words + fmt.Sprintf(" No programme of these crews ends before %s, after %d.", p.Bound, p.BoundDays)
}

// programmeRules are what the days of the job rest on.
func (b *book) programmeRules() []rule {
	if !b.result.Programme.Dated() {
		return []rule{{"Programme", "The job gives no Start date: there is no programme, and deliveries have no days.", "", jobSheet}}
	}
	s := b.result.Job.Settings
	storage := "no limit"
	if s.FloorStorage.Sign() > 0 {
		storage = s.FloorStorage.String() + " kg"
	}
	rules := []rule{
		{"Programme", "Work on working days: man-hours of a step over the workers and the hours a day of one crew, one step after another. A crew is never in two places at once.",
			fmt.Sprintf("%s, %s of %d, %s h a day, %s", s.WorkingWeek, crew.Counted(s.Crews, "crew"), s.CrewSize, s.HoursADay, crew.Counted(len(b.result.Job.Holidays), "holiday")), "NAVEDTRA 14045, chapter 2 (duration); Job and Holidays sheets"},
		{"Programme", "An apartment starts on its own Start date or later, else on the earliest of its phase, else on the job's; work of the whole job comes before all apartments, its handing over after them.", "", "Apartments sheet"},
		{"Programme", "On a mineral subfloor the moisture test lies a day before it is read; nothing goes on until then.", "24 h", "plastic-sheet test, common practice; the product's test method rules"},
		{"Programme", "Levelling compound dries a day up to 3 mm of its greatest depth and a day for each further millimetre begun.", "", "common practice; the data sheet of the bag rules"},
		{"Programme", "Goods lie in their rooms before laying for the longest acclimatisation of the apartment's products.", fmt.Sprintf("%d h for planks", job.UsualAcclimatisation), "common practice; Products sheet; confirm with the maker's instructions"},
		{"Deliveries", "Goods are on site when they are carried in, compound and what goes under it when it is poured. A supplier's goods for a floor and phase come at once as far as the floor can store them, and are ordered the longest lead time, in working days, before.",
			"floor storage " + storage, jobSheet},
	}
	return rules
}

// entryPlace is the entry's apartment, or the whole job.
func entryPlace(e programme.Entry) string { return crew.Place(crew.Apartment(e.Apartment)) }

func ofApartment(e programme.Entry, of func(*job.Apartment) string) cell {
	if e.Apartment == nil {
		return cell{}
	}
	return text(of(e.Apartment))
}
