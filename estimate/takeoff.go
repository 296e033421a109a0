package estimate

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
)

// Compared is a room of an apartment type as the job has it beside what a
// takeoff says of it; one of the two may be missing.
type Compared struct {
	Type, Name string
	Times      int // apartments of the type
	Ours       *building.Room
	Given      *job.TakeoffRoom
	Price      money.Amount // of the room in all its apartments
}

// CompareTakeoff sets every room of the job beside the takeoff's, by type and
// room; nil when the job has no takeoff.
func (r *Result) CompareTakeoff() []Compared {
	if len(r.Job.Takeoff) == 0 {
		return nil
	}
	given := map[key]*job.TakeoffRoom{}
	for _, t := range r.Job.Takeoff {
		if t.Ours != nil {
			given[key{t.Ours.Type, t.Ours.Name}] = t
		}
	}
	at := map[key]int{}
	var all []Compared
	for i, room := range r.Building.Rooms {
		k := key{room.Spec.Type, room.Spec.Name}
		n, known := at[k]
		if !known {
			n = len(all)
			at[k] = n
			all = append(all, Compared{Type: k.typ, Name: k.room, Ours: room, Given: given[k], Price: r.Job.Settings.Currency.Zero()})
		}
		all[n].Times++
		all[n].Price = all[n].Price.Add(r.Price.Rooms[i].Price)
	}
	for _, t := range r.Job.Takeoff {
		if t.Ours == nil {
			all = append(all, Compared{Type: t.Type, Name: t.Room, Given: t, Times: max(1, r.apartmentsOf(t.Type)), Price: r.Job.Settings.Currency.Zero()})
		}
	}
	slices.SortStableFunc(all, func(a, b Compared) int { return cmp.Or(cmp.Compare(a.Type, b.Type), cmp.Compare(a.Name, b.Name)) })
	return all
}

type key struct{ typ, room string }

func (r *Result) apartmentsOf(name string) int {
	n := 0
	for _, a := range r.Job.Apartments {
		if a.Type == name {
			n++
		}
	}
	return n
}

// AreaPlaces is the number of decimals that areas are compared with, in the
// job's area unit.
const AreaPlaces = 4

// Areas are the areas of one room in the job's unit: ours and the takeoff's, 0
// where there is none.
func (c Compared) Areas(unit measure.AreaUnit) (ours, given decimal.Decimal) {
	if c.Ours != nil {
		ours = c.Ours.Area.Decimal(unit, AreaPlaces)
	}
	if c.Given != nil {
		given = c.Given.Area.Decimal(unit, AreaPlaces)
	}
	return ours, given
}

// Verdict says how the room stands to the takeoff's: within the job's tolerance,
// differs, or not in one of the two.
func (c Compared) Verdict(s job.Settings) string {
	ours, given := c.Areas(s.AreaUnit)
	switch {
	case ours.IsZero():
		return "only in takeoff"
	case given.IsZero():
		return "not in takeoff"
	case c.Off(s.AreaUnit).Abs().Cmp(s.TakeoffTolerance.Shift(-2)) > 0:
		return "differs"
	}
	return "within"
}

// Off is how far the takeoff is off our area, as a share of it with four
// decimals; 0 for a room that the job does not have.
func (c Compared) Off(unit measure.AreaUnit) decimal.Decimal {
	ours, given := c.Areas(unit)
	if ours.IsZero() {
		return decimal.Zero
	}
	return given.Sub(ours).DivRound(ours, 4)
}

// PriceOfTakeoff is what the room would be charged for by the takeoff's area:
// the room's own price by its area, or the job's price by its floor for a room
// that the job does not have.
func (c Compared) PriceOfTakeoff(r *Result) money.Amount {
	unit := r.Job.Settings.AreaUnit
	ours, given := c.Areas(unit)
	currency := r.Job.Settings.Currency
	if c.Ours != nil {
		if ours.IsZero() {
			return currency.Zero()
		}
		return currency.Round(c.Price.Decimal().Mul(given).DivRound(ours, currency.Minor))
	}
	floor := r.FloorArea()
	if floor.IsZero() {
		return currency.Zero()
	}
	return currency.Round(r.Price.Ladder.Net.Decimal().Mul(given).Mul(decimal.NewFromInt(int64(c.Times))).DivRound(floor, currency.Minor))
}

// FloorArea is the net floor of all rooms in the job's area unit.
func (r *Result) FloorArea() decimal.Decimal {
	var total measure.Area
	for _, room := range r.Building.Rooms {
		total += room.Area
	}
	return total.Decimal(r.Job.Settings.AreaUnit, AreaPlaces)
}
