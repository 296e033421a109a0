package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/quantity"
	"laybill/sheet/crew"
)

// quantitiesByType writes what one room of each type needs and how often it is
// built: what the quantities come to on paper.
func (b *book) quantitiesByType(sheet string, rows []alike[quantity.Line]) {
	l := list[alike[quantity.Line]]{
		title: "Quantities by type",
		note: "What a room of each apartment type needs, measured net, and how often. Rooms of one type that differ, such as a mirrored one with other cuts, stand one below the other. " +
			"The same quantities room by room are on Quantities.",
		landscape: true,
		dense:     true,
	}
	l.columns = []column[alike[quantity.Line]]{
		{heading: "Type", width: 11, cell: func(r alike[quantity.Line], _ int) cell { return text(lineApartment(r.first).Type).strong() }},
		{heading: "Room", width: 18, cell: func(r alike[quantity.Line], _ int) cell { return text(quantityRoom(r.first)) }},
		{heading: "Item", width: 14, cell: func(r alike[quantity.Line], _ int) cell { return text(r.first.Item()) }},
		{heading: "Description", width: 46, cell: func(r alike[quantity.Line], _ int) cell {
			return text(itemWords(r.first) + b.rackedIn(r.first))
		}},
		{heading: "Sort", width: 10, cell: func(r alike[quantity.Line], _ int) cell { return text(itemSort(r.first)) }},
		{heading: "Measured by", width: 15, cell: func(r alike[quantity.Line], _ int) cell { return text(r.first.Measure.String()) }},
		{heading: eachHeading, width: 12, cell: func(r alike[quantity.Line], _ int) cell { return number(r.first.Quantity, quantityFormat) }},
		{heading: "Unit", width: 9, cell: func(r alike[quantity.Line], _ int) cell { return text(r.first.Unit) }},
		{heading: timesHeading, width: 7, cell: func(r alike[quantity.Line], _ int) cell { return count(r.times) }},
		{heading: inAllHeading, width: 12},
		{heading: "Apartments", width: 20, cell: func(r alike[quantity.Line], _ int) cell { return text(b.inWords(r.in)) }},
	}
	at := l.listed(sheet, len(rows))
	l.columns[at.number(inAllHeading)-1].cell = func(r alike[quantity.Line], row int) cell {
		sum := r.first.Quantity.Mul(decimal.NewFromInt(int64(r.times)))
		return number(sum, quantityFormat).from(fmt.Sprintf("ROUND(%s%d*%s%d,%d)", at.letter(eachHeading), row, at.letter(timesHeading), row, quantity.Places)).strong()
	}
	l.write(b, sheet, rows)
}

// Headings of gathered lines that formulas refer to.
const (
	eachHeading  = "Each"
	inAllHeading = "In all"
)

// alikeQuantities are the quantities of each type.
func (b *book) alikeQuantities() []alike[quantity.Line] {
	return gathered(b.result.Takeoff.Lines, func(l quantity.Line) *job.Apartment { return l.Apartment }, func(l quantity.Line) lineKey {
		return lineKey{room: quantityRoom(l), item: l.Item() + " " + l.Measure.String(), says: l.Quantity.String() + " " + l.Unit + b.rackedIn(l)}
	})
}

// quantities writes a row a room and layer.
func (b *book) quantities(sheet, elsewhere string) {
	l := list[quantity.Line]{
		title:     "Quantities",
		note:      "What every room needs, measured net; a covering laid piece by piece carries no waste here: its planks are counted on the cut lists and ordered on Orders.",
		landscape: true,
		elsewhere: elsewhere,
		columns: []column[quantity.Line]{
			{heading: "Apartment", width: 14, cell: func(r quantity.Line, _ int) cell { return text(crew.Apartment(r.Apartment)) }},
			{heading: "Type", width: 12, cell: func(r quantity.Line, _ int) cell { return text(lineApartment(r).Type) }},
			{heading: "Floor", width: 8, cell: func(r quantity.Line, _ int) cell { return text(lineApartment(r).Floor) }},
			{heading: "Block", width: 8, cell: func(r quantity.Line, _ int) cell { return text(lineApartment(r).Block) }},
			{heading: "Room", width: 20, cell: func(r quantity.Line, _ int) cell { return text(quantityRoom(r)) }},
			{heading: "Item", width: 14, cell: func(r quantity.Line, _ int) cell { return text(r.Item()) }},
			{heading: "Description", width: 38, cell: func(r quantity.Line, _ int) cell { return text(itemWords(r) + b.rackedIn(r)) }},
			{heading: "Sort", width: 10, cell: func(r quantity.Line, _ int) cell { return text(itemSort(r)) }},
			{heading: "Measured by", width: 14, cell: func(r quantity.Line, _ int) cell { return text(r.Measure.String()) }},
			{heading: "Quantity", width: 12, cell: func(r quantity.Line, _ int) cell { return number(r.Quantity, quantityFormat) }},
			{heading: "Unit", width: 9, cell: func(r quantity.Line, _ int) cell { return text(r.Unit) }},
		},
	}
	l.write(b, sheet, b.result.Takeoff.Lines)
}

// lineApartment is the line's apartment; an empty one for a line of the job.
func lineApartment(l quantity.Line) *job.Apartment {
	if l.Apartment == nil {
		return &job.Apartment{}
	}
	return l.Apartment
}

func quantityRoom(l quantity.Line) string {
	switch {
	case l.Room != nil:
		return l.Room.Spec.Name
	case l.Apartment != nil:
		return "whole apartment"
	}
	return "whole job"
}

func itemWords(l quantity.Line) string {
	if l.Product != nil {
		return l.Product.Description
	}
	return l.Operation.Description
}

func itemSort(l quantity.Line) string {
	if l.Product != nil {
		return l.Product.Kind.String()
	}
	return "work"
}
