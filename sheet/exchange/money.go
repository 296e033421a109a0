package exchange

import (
	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/price"
	"laybill/estimate/problem"
)

func work(r *estimate.Result) []labourEntry {
	entries := make([]labourEntry, len(r.Labour))
	for i, line := range r.Labour {
		op := line.Operation
		entries[i] = labourEntry{place: wherever(line.Apartment, line.Room), Operation: op.Code, Trade: op.Trade.Name,
			Quantity: dec(line.Quantity), HoursPerUnit: dec(op.HoursPerUnit), LeastHours: dec(op.LeastHours), Hours: dec(line.Hours),
			Wage: dec(op.Trade.Wage), Burden: dec(op.Trade.BurdenPercent), Overtime: dec(op.Trade.Overtime), CallOut: line.CallOut, Cost: amount(line.Cost)}
		if line.Repeat > 0 {
			factor := dec(line.Factor)
			entries[i].Repeat, entries[i].Factor = line.Repeat, &factor
		}
	}
	return entries
}

func extras(r *estimate.Result) []extraEntry {
	entries := make([]extraEntry, len(r.Price.Extras))
	for i, line := range r.Price.Extras {
		entries[i] = extraEntry{Description: line.Extra.Description, Per: line.Extra.Per.String(), Times: line.Times,
			Quantity: dec(line.Extra.Quantity), UnitCost: dec(line.Extra.UnitCost), Amount: amount(line.Amount)}
	}
	return entries
}

func costs(r *estimate.Result) []costEntry {
	l := r.Price.Ladder
	return []costEntry{
		{"material", amount(l.Material)}, {"labour", amount(l.Labour)}, {"other", amount(l.Other)},
		{"contingency", amount(l.Contingency)}, {"overhead", amount(l.Overhead)},
	}
}

func priceOf(r *estimate.Result) priceEntry {
	s, l := r.Job.Settings, r.Price.Ladder
	return priceEntry{
		PurchaseTaxIsCost: s.PurchaseTaxIsCost,
		Material:          amount(l.Material), Labour: amount(l.Labour), Other: amount(l.Other),
		MaterialContingencyPct: dec(s.MaterialContingency), LabourContingencyPct: dec(s.LabourContingency), OtherContingencyPct: dec(s.OtherContingency),
		MaterialContingency: amount(l.MaterialContingency), LabourContingency: amount(l.LabourContingency), OtherContingency: amount(l.OtherContingency),
		Contingency: amount(l.Contingency), OverheadPct: dec(s.OverheadPercent), Overhead: amount(l.Overhead), Cost: amount(l.Cost),
		ProfitPct: dec(s.ProfitPercent), ProfitBasis: s.ProfitBasis.String(), Step: amount(s.PriceStep),
		Profit: amount(l.Profit), Net: amount(l.Net), TaxName: s.TaxName, TaxPct: dec(s.TaxPercent), Tax: amount(l.Tax), Gross: amount(l.Gross),
		RetentionPct: dec(s.RetentionPercent), Retention: amount(l.Retention), Margin: share(l.Margin), Markup: share(l.Markup),
	}
}

// options are the job's options, each as a whole job; difference is from the
// job's own price before tax.
func options(r *estimate.Result) []optionEntry {
	entries := make([]optionEntry, len(r.Alternatives))
	for i, a := range r.Alternatives {
		entries[i] = optionEntry{Option: a.Option.Name, Note: a.Option.Note, Apartments: a.Apartments, Cost: amount(a.Ladder.Cost), Profit: amount(a.Ladder.Profit),
			Net: amount(a.Ladder.Net), Margin: share(a.Ladder.Margin), Hours: dec(a.Hours), Packs: dec(a.Packs), Difference: amount(a.Difference)}
	}
	return entries
}

// share is a percentage as a share of one, as the result file states margins.
func share(percent decimal.Decimal) dec { return dec(percent.Shift(-2)) }

func shareOf(at place, s price.Share) shareEntry {
	return shareEntry{place: at, Material: amount(s.Material), Labour: amount(s.Labour), Other: amount(s.Other),
		Contingency: amount(s.Contingency), Overhead: amount(s.Overhead), Profit: amount(s.Profit), Price: amount(s.Price)}
}

func roomShares(r *estimate.Result) []shareEntry {
	entries := make([]shareEntry, len(r.Price.Rooms))
	places := r.Building.Places()
	for i, share := range r.Price.Rooms {
		entries[i] = shareOf(placeOf(places[i]), share)
	}
	return entries
}

// byApartment has one entry an apartment, or one a type in a job without
// apartments, or one for a job
// without rooms and repairs.
func byApartment(r *estimate.Result) []shareEntry {
	if len(r.Price.Rooms) == 0 {
		l := r.Price.Ladder
		return []shareEntry{shareOf(place{}, price.Share{Material: l.Material, Labour: l.Labour, Other: l.Other,
			Contingency: l.Contingency, Overhead: l.Overhead, Profit: l.Profit, Price: l.Net})}
	}
	key := func(room *building.Room) string { return room.Apartment.Name + "\x00" + room.Apartment.Type }
	var entries []shareEntry
	for _, group := range price.GroupBy(r.Building.Places(), r.Price.Rooms, key) {
		apartment := group.Rooms[0].Apartment
		entries = append(entries, shareOf(place{Apartment: apartment.Name, Type: apartment.Type}, group.Share))
	}
	return entries
}

// problemsOf are the cautions and the warnings. A rule that a layout could not
// keep is listed for every room laid so.
func problemsOf(r *estimate.Result) (cautions, problems []problemEntry) {
	for _, p := range r.Problems {
		if p.Code == problem.LayingRule || p.Code == problem.RoomNotLaid {
			continue
		}
		e := problemEntry{Code: string(p.Code), Severity: p.Severity.String(), At: p.At.String(), Apartment: p.Apartment, Room: p.Room, Rule: p.Rule,
			Text: p.Found, Expected: p.Want, Remedy: p.Fix}
		if p.Severity == problem.Caution {
			cautions = append(cautions, e)
		} else {
			problems = append(problems, e)
		}
	}
	return append(cautions, shortfalls(r)...), problems
}

func shortfalls(r *estimate.Result) []problemEntry {
	var entries []problemEntry
	for i := range r.Floors {
		floor := &r.Floors[i]
		slots := map[string]*building.Room{}
		for slot, room := range floor.Rooms {
			slots[floor.Plan.Layouts[slot].Room] = room
		}
		for _, short := range floor.Plan.Shortfalls {
			room := slots[short.Room]
			entries = append(entries, problemEntry{Code: string(problem.LayingRule), Severity: problem.Caution.String(), At: room.Spec.Ref.String(),
				Apartment: room.Apartment.Name, Type: room.Spec.Type, Room: room.Spec.Name, Rule: short.Rule, Row: short.Row, Text: short.Sentence()})
		}
	}
	return entries
}

func checks(r *estimate.Result) []checkEntry {
	entries := make([]checkEntry, len(r.Checks))
	for i, c := range r.Checks {
		entries[i] = checkEntry(c)
	}
	return entries
}
