package out

import (
	"laybill/estimate/job"
	"laybill/estimate/quantity"
	"laybill/sheet/crew"
)

// quantities writes a row a room and layer.
func (b *book) quantities(sheet string) {
	l := list[quantity.Line]{
		title:     "Quantities",
		note:      "What every room needs, measured net; a covering laid piece by piece carries no waste here: its planks are counted on the cut lists and ordered on Orders.",
		landscape: true,
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
