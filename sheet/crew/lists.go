// Package crew says in the crew's words how a result is laid: which apartments
// are laid alike, each room row by row, where every piece is cut from, what to
// bring, and how trims are cut. The workbook and the booklet print the same.
package crew

import (
	"fmt"
	"strings"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/cutlist"
	"laybill/estimate/drawing"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/quantity"
	"laybill/estimate/shape"
)

// Lists reads a result for the crew.
type Lists struct {
	result      *estimate.Result
	unit        measure.Unit
	steps       map[int][][]cutlist.Step // by the first floor with the plan
	byRoom      [][]quantity.Length
	byApartment map[*job.Apartment][]quantity.Line
}

// Of prepares the lists of a result. They may be read from several goroutines
// at once.
func Of(r *estimate.Result) *Lists {
	l := &Lists{result: r, unit: r.Job.Settings.LengthUnit, steps: map[int][][]cutlist.Step{},
		byRoom: make([][]quantity.Length, len(r.Building.Rooms)), byApartment: map[*job.Apartment][]quantity.Line{}}
	for i := range r.Floors {
		if floor := &r.Floors[i]; l.steps[floor.First] == nil {
			l.steps[floor.First] = cutlist.Of(floor.Plan, floor.Product.Length, floor.Product.Width)
		}
	}
	for _, length := range r.Takeoff.Lengths {
		if length.Room != nil {
			l.byRoom[length.Room.Index] = append(l.byRoom[length.Room.Index], length)
		}
	}
	for _, line := range r.Takeoff.Lines {
		if line.Repair != nil {
			continue // on the list of repairs: other apartments of the plan have none
		}
		l.byApartment[line.Apartment] = append(l.byApartment[line.Apartment], line)
	}
	return l
}

// Steps is the pieces of the room in the order of laying, none when its
// covering is not laid by pieces.
func (l *Lists) Steps(room *building.Room) []cutlist.Step {
	at := l.result.RoomFloor[room.Index]
	if at.Floor < 0 {
		return nil
	}
	return l.steps[l.result.Floors[at.Floor].First][at.Slot]
}

// Scene draws the room as large as the width and height in mm allow.
func (l *Lists) Scene(room *building.Room, width, height float64) *drawing.Scene {
	return drawing.Room(l.floor(room), width, height)
}

// SceneHeight is how high Scene draws the room.
func (l *Lists) SceneHeight(room *building.Room, width, height float64) float64 {
	return drawing.Height(l.floor(room), width, height)
}

func (l *Lists) floor(room *building.Room) drawing.Floor {
	floor := drawing.Floor{Room: room, Layout: l.result.Layout(room), Steps: l.Steps(room), Unit: l.unit}
	if covering := room.Spec.BuildUp.Covering(); covering != nil && covering.Product.Pattern.Rows() > 0 {
		floor.Pattern = covering.Product.Pattern.String()
	}
	if racked := l.result.RackedIn(room); racked != nil {
		floor.Layout, floor.Steps, floor.Racked = &racked.Rows.Layout, rowSteps(&racked.Rows.Layout), true
	}
	return floor
}

// Cut writes a length for the saw.
func (l *Lists) Cut(length measure.Length) string { return drawing.Cut(length, l.unit) }

// sixteenth of an inch, the fineness of a tape (common practice).
const sixteenth = measure.Inch / 16

// Saw rounds a length to what the crew's tape shows: whole millimetres or
// sixteenths of an inch.
func Saw(l measure.Length, unit measure.Unit) measure.Length {
	step := measure.Millimetre
	if unit.Imperial() {
		step = sixteenth
	}
	return (l + step/2) / step * step
}

// UnitWords says what cut lengths are written in.
func (l *Lists) UnitWords() string {
	if l.unit.Imperial() {
		return "inches to the nearest 1/16"
	}
	return "millimetres"
}

// Facts is what a person wants to know of a room before starting.
func (l *Lists) Facts(room *building.Room) string {
	unit := l.result.Job.Settings.AreaUnit
	area := fmt.Sprintf("%s %s", room.Area.Decimal(unit, 2).StringFixed(2), unit)
	covering := room.Spec.BuildUp.Covering()
	if covering == nil {
		return area
	}
	product := covering.Product
	if racked := l.result.RackedIn(room); racked != nil {
		return l.rackedFacts(racked, area)
	}
	laid := l.result.Layout(room)
	if laid == nil || len(laid.Rows) == 0 {
		return strings.Join([]string{product.Description, area, "not laid piece by piece"}, " · ")
	}
	if laid.Blocks != nil {
		return l.blockFacts(room, area)
	}
	facts := []string{
		product.Description,
		fmt.Sprintf("plank %s x %s", l.Cut(product.Length), l.Cut(product.Width)),
		area,
		fmt.Sprintf("gap %s all round", l.Cut(product.Gap)),
		l.edgeRows(laid),
		fmt.Sprintf("planks lie %s", directionWords(laid.Direction)),
		strings.Join([]string{Counted(len(laid.Rows), "row"), Counted(len(laid.Pieces), "piece"), Counted(laid.Planks, "new plank")}, ", "),
		fmt.Sprintf("%s, %s, %d notched", Counted(laid.Cuts, "cut"), Counted(laid.Rips, "rip"), laid.Notches),
	}
	if rows := product.Pattern.Rows(); rows > 0 {
		facts = append(facts, fmt.Sprintf("pattern %s: joints of each row 1/%d of a plank further right than in the row before", product.Pattern, rows))
	}
	if room.Spec.Heated {
		facts = append(facts, "HEATED FLOOR")
	}
	return strings.Join(facts, " · ")
}

// Counted is a number of things: "1 room", "3 rooms".
func Counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// edgeRows are the widths of the first and last row, field by field.
func (l *Lists) edgeRows(laid *layout.Layout) string {
	width := func(number int) string { return l.Cut(laid.Rows[number-1].Y1 - laid.Rows[number-1].Y0) }
	if len(laid.Fields) == 0 {
		return fmt.Sprintf("first row %s, last row %s wide", width(1), width(len(laid.Rows)))
	}
	fields := make([]string, len(laid.Fields))
	for i, field := range laid.Fields {
		fields[i] = fmt.Sprintf("rows %d to %d, the first %s, the last %s wide", field.First, field.Last, width(field.First), width(field.Last))
	}
	return fmt.Sprintf("%d FIELDS, the gap on both sides of each expansion profile: ", len(fields)) + strings.Join(fields, "; ")
}

// directionWords says which way the planks lie in the room.
func directionWords(a shape.Angle) string {
	switch a.Normal() % (2 * shape.QuarterTurn) {
	case 0:
		return "east to west"
	case shape.QuarterTurn:
		return "north to south"
	}
	return fmt.Sprint(float64(a.Normal())/1000) + " degrees from east"
}

// Trims is a line for each product that is cut to lengths for the room, such
// as skirting or film: "SKIRTING:  3988 (wall 1),  2400 (wall 2)".
func (l *Lists) Trims(room *building.Room) []string {
	var products []*job.Product
	at := map[*job.Product][]string{}
	for _, length := range l.byRoom[room.Index] {
		if at[length.Product] == nil {
			products = append(products, length.Product)
		}
		words := l.piece(length.Product, length.Length, length.Ends)
		if place := l.lies(length); place != "" {
			words += " (" + place + ")"
		}
		at[length.Product] = append(at[length.Product], words)
	}
	lines := make([]string, len(products))
	for i, product := range products {
		lines[i] = product.Description + l.endsKey(room, product) + ":  " + strings.Join(at[product], ",  ")
	}
	return lines
}

// lies says where a piece of trim or a strip goes: its wall, or the side of the
// opening, or what it is cut into.
func (l *Lists) lies(length quantity.Length) string {
	var words []string
	if length.Wall > 0 {
		words = append(words, fmt.Sprintf("wall %d", length.Wall))
	}
	if purpose := l.Purpose(length); purpose != "" {
		words = append(words, purpose)
	}
	return strings.Join(words, ", ")
}

// Purpose says what a piece is for, where that goes without saying neither by
// its wall nor by its product.
func (l *Lists) Purpose(length quantity.Length) string {
	switch {
	case length.Return:
		return "into the opening"
	case length.By == job.ExpansionProfiles && length.Room != nil:
		return "between fields"
	case length.Along > 1:
		return fmt.Sprintf("cut along into %d, laid end to end", length.Along)
	case length.Opening != nil && length.Opening.Depth > 0:
		return fmt.Sprintf("in a wall %s deep", l.Cut(length.Opening.Depth))
	}
	return ""
}
