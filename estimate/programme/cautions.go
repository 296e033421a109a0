package programme

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// Cautions are what a person must decide about the dates.
func (p *Programme) Cautions(j *job.Job) problem.List {
	var list problem.List
	if !p.Dated() {
		return nil
	}
	p.lateStarts(j, &list)
	p.lateOrders(j, &list)
	p.fullFloors(j, &list)
	return list
}

// lateStarts finds apartments that no crew is free for on the day they ask for,
// and names the one that waits longest.
func (p *Programme) lateStarts(j *job.Job, list *problem.List) {
	calendar := NewCalendar(j)
	seen := map[*job.Apartment]bool{}
	late, worst, longest := 0, (*job.Apartment)(nil), Day(0)
	begins := NoDay
	for _, e := range p.Entries {
		a := e.Apartment
		if a == nil || seen[a] {
			continue
		}
		seen[a] = true
		if a.Start.IsZero() || e.Start.Day <= calendar.Next(DayOf(a.Start)) {
			continue
		}
		late++
		if wait := e.Start.Day - DayOf(a.Start); wait > longest {
			worst, longest, begins = a, wait, e.Start.Day
		}
	}
	if worst == nil {
		return
	}
	list.Add(problem.Problem{Code: problem.StartLate, At: worst.Ref, Apartment: worst.Name,
		Found: fmt.Sprintf("work in %s begins on %s (%d apartments begin later than asked)", worst.Name, begins, late),
		Want:  fmt.Sprintf("its start date, %s", DayOf(worst.Start)), Fix: "put more crews on the job, or agree on later start dates"})
}

// lateOrders finds products that would have to be ordered before the date of
// the estimate.
func (p *Programme) lateOrders(j *job.Job, list *problem.List) {
	today := DayOf(j.Settings.Date)
	if today == NoDay {
		return
	}
	calendar := NewCalendar(j)
	seen := map[*job.Product]bool{}
	for _, d := range p.Deliveries {
		for _, supply := range d.Supplies {
			product := supply.Product
			by := calendar.Back(d.Day, product.LeadDays)
			if seen[product] || by >= today {
				continue
			}
			seen[product] = true
			list.Add(problem.Problem{Code: problem.OrderLate, At: product.Ref,
				Found: fmt.Sprintf("%s must be on site on %s; with a lead time of %d working days it is ordered by %s", product.Code, d.Day, product.LeadDays, by),
				Want:  fmt.Sprintf("an order on or after the date of the estimate, %s", today), Fix: "agree on a shorter lead time, choose another product, or start later"})
		}
	}
}

// fullFloors finds apartments whose goods alone are more than a floor can
// store, and names the heaviest.
func (p *Programme) fullFloors(j *job.Job, list *problem.List) {
	limit := j.Settings.FloorStorage
	if limit.Sign() <= 0 || len(p.tooHeavy) == 0 {
		return
	}
	worst := p.tooHeavy[0]
	for _, heavy := range p.tooHeavy {
		if heavy.grams > worst.grams {
			worst = heavy
		}
	}
	list.Add(problem.Problem{Code: problem.FloorFull, At: worst.apartment.Ref, Apartment: worst.apartment.Name,
		Found: fmt.Sprintf("the goods for %s weigh %d kg (too much in %d apartments)", worst.apartment.Name, worst.grams/1000, len(p.tooHeavy)),
		Want:  fmt.Sprintf("at most %s kg on a floor at a time", limit), Fix: "bring the goods in several loads, or have the engineer allow more"})
}
