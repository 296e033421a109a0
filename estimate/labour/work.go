package labour

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/quantity"
)

// HourPlaces is the number of decimals of the hours of a line.
const HourPlaces = 2

// Work prices the operations of a takeoff: one line an apartment, room and
// operation, and one for what the operation's least hours add in an apartment.
// What the job's least call-out adds is the last line.
// Lines are by apartment and room; those of a whole apartment follow its rooms
// and those of the job come last.
func Work(j *job.Job, takeoff []quantity.Line) []Line {
	lines, overtime := measured(takeoff), OvertimeOf(j.Settings)
	learn(j, lines)
	for i := range lines {
		lines[i].Hours = lines[i].Quantity.Mul(lines[i].Operation.HoursPerUnit).Mul(lines[i].Factor).Round(HourPlaces)
	}
	lines = append(lines, leastHours(lines)...)
	slices.SortStableFunc(lines, byPlace)
	lines = append(lines, callOut(j.Settings.LeastCallOut, lines)...)
	for i := range lines {
		lines[i].Cost = overtime.pay(j.Settings.Currency, lines[i].Hours, lines[i].Operation.Trade)
	}
	return lines
}

// measured gathers the quantities of each operation in each room.
func measured(takeoff []quantity.Line) []Line {
	type key struct {
		apartment *job.Apartment
		room      *building.Room
		operation *job.Operation
	}
	at := map[key]int{}
	var lines []Line
	for _, t := range takeoff {
		if t.Operation == nil {
			continue
		}
		k := key{t.Apartment, t.Room, t.Operation}
		i, known := at[k]
		if !known {
			i = len(lines)
			at[k] = i
			lines = append(lines, Line{Apartment: t.Apartment, Room: t.Room, Operation: t.Operation, Factor: decimal.NewFromInt(1)})
		}
		lines[i].Quantity = lines[i].Quantity.Add(t.Quantity)
	}
	return lines
}

// leastHours is what is missing to an operation's least hours in each
// apartment it is done in.
func leastHours(lines []Line) []Line {
	type key struct {
		apartment *job.Apartment
		operation *job.Operation
	}
	at := map[key]int{}
	var missing []Line
	for _, line := range lines {
		if line.Apartment == nil || line.Operation.LeastHours.Sign() <= 0 {
			continue
		}
		k := key{line.Apartment, line.Operation}
		i, known := at[k]
		if !known {
			i = len(missing)
			at[k] = i
			least := line.Operation.LeastHours.Round(HourPlaces)
			missing = append(missing, Line{Apartment: line.Apartment, Operation: line.Operation, Hours: least})
		}
		missing[i].Hours = missing[i].Hours.Sub(line.Hours)
	}
	return slices.DeleteFunc(missing, func(line Line) bool { return line.Hours.Sign() <= 0 })
}

func byPlace(a, b Line) int {
	if a.Apartment == nil || b.Apartment == nil {
		return lastWhen(a.Apartment == nil, b.Apartment == nil)
	}
	if a.Apartment != b.Apartment {
		return cmp.Or(cmp.Compare(a.Apartment.Name, b.Apartment.Name), cmp.Compare(a.Apartment.Type, b.Apartment.Type))
	}
	if a.Room == nil || b.Room == nil {
		return lastWhen(a.Room == nil, b.Room == nil)
	}
	return cmp.Compare(a.Room.Index, b.Room.Index)
}

func lastWhen(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}
