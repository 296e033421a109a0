package exchange

import (
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/labour"
	"laybill/estimate/programme"
)

type calendarEntry struct {
	WorkingDays  []string `json:"working_days"`
	Holidays     []string `json:"holidays"`
	Crews        int      `json:"crews"`
	CrewSize     int      `json:"crew_size"`
	HoursADay    dec      `json:"hours_a_day"`
	FloorStorage dec      `json:"floor_storage_kg"`
	Start        string   `json:"start"`
	Finish       string   `json:"finish"`
	Bound        string   `json:"lower_bound_finish"`
}

type stepEntry struct {
	place
	Step        string `json:"step"`
	Crew        *int   `json:"crew"`
	Hours       dec    `json:"hours"`
	Start       string `json:"start"`
	StartWorked dec    `json:"start_worked_h"`
	End         string `json:"end"`
	EndWorked   dec    `json:"end_worked_h"`
}

type deliveryEntry struct {
	Supplier string        `json:"supplier"`
	For      string        `json:"for"`
	Phase    string        `json:"phase"`
	Block    string        `json:"block"`
	Floor    string        `json:"floor"`
	OnSite   *string       `json:"on_site"`
	OrderBy  *string       `json:"order_by"`
	Lines    []supplyEntry `json:"lines"`
}

type supplyEntry struct {
	place
	Product     string  `json:"product"`
	Quantity    dec     `json:"quantity"`
	Unit        string  `json:"unit"`
	Weight      dec     `json:"weight_kg"`
	NeededBy    *string `json:"needed_by"`
	Until       *string `json:"until"`
	Lead        int     `json:"lead_days"`
	Acclimatise int     `json:"acclimatisation_h"`
}

// calendar is null for a job without dates.
func calendar(r *estimate.Result) *calendarEntry {
	p := &r.Programme
	if !p.Dated() {
		return nil
	}
	s := r.Job.Settings
	e := &calendarEntry{WorkingDays: []string{}, Holidays: []string{}, Crews: s.Crews, CrewSize: s.CrewSize, HoursADay: dec(s.HoursADay), FloorStorage: dec(s.FloorStorage),
		Start: p.Start.String(), Finish: p.Finish.String(), Bound: p.Bound.String()}
	for day := time.Sunday; day <= time.Saturday; day++ {
		if s.WorkingWeek.Has(day) {
			e.WorkingDays = append(e.WorkingDays, day.String())
		}
	}
	for _, holiday := range r.Job.Holidays {
		e.Holidays = append(e.Holidays, isoDate(holiday.Date))
	}
	return e
}

func steps(r *estimate.Result) []stepEntry {
	entries := make([]stepEntry, len(r.Programme.Entries))
	for i, e := range r.Programme.Entries {
		entries[i] = stepEntry{place: wherever(e.Apartment, nil), Step: e.Step.String(), Hours: dec(e.Hours),
			Start: e.Start.Day.String(), StartWorked: workedHours(e.Start), End: e.End.Day.String(), EndWorked: workedHours(e.End)}
		if e.Crew > 0 {
			crew := e.Crew
			entries[i].Crew = &crew
		}
	}
	return entries
}

func workedHours(p programme.Point) dec { return dec(decimal.New(p.Worked, -labour.HourPlaces)) }

func deliveries(r *estimate.Result) []deliveryEntry {
	entries := make([]deliveryEntry, len(r.Programme.Deliveries))
	for i, d := range r.Programme.Deliveries {
		entries[i] = deliveryEntry{Supplier: d.Supplier.Code, For: r.Consignments[d.Consignment].Name, Phase: d.Phase, Block: d.Block, Floor: d.Floor,
			OnSite: dateOrNull(d.Day.Date()), OrderBy: dateOrNull(d.OrderBy.Date())}
		for _, s := range d.Supplies {
			entries[i].Lines = append(entries[i].Lines, supplyEntry{place: wherever(s.Apartment, nil), Product: s.Product.Code, Quantity: dec(s.Bring), Unit: s.Product.SoldBy.String(),
				Weight: dec(s.Weight()), NeededBy: dateOrNull(s.By.Date()), Until: dateOrNull(s.Until.Date()), Lead: s.Product.LeadDays, Acclimatise: s.Product.Acclimatise})
		}
	}
	return entries
}
