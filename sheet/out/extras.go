package out

import (
	"fmt"

	"laybill/estimate/price"
)

// extras writes the costs by name.
func (b *book) extras(sheet string) listing {
	ladder := b.result.Price.Ladder
	l := list[price.ExtraLine]{
		title: "Other costs",
		note:  "Boxed, slanted cells may be changed. Amount = times x quantity x unit cost, rounded once.",
	}
	l.columns = []column[price.ExtraLine]{
		{heading: "Description", width: 40, cell: func(r price.ExtraLine, _ int) cell { return text(r.Extra.Description) }},
		{heading: categoryHeading, width: 16, cell: func(r price.ExtraLine, _ int) cell { return text(r.Extra.Category) }},
		{heading: "Per", width: 10, cell: func(r price.ExtraLine, _ int) cell { return text(r.Extra.Per.String()) }},
		{heading: "Times", width: 7, cell: func(r price.ExtraLine, _ int) cell { return count(r.Times) }},
		{heading: quantityHeading, width: 10, cell: func(r price.ExtraLine, _ int) cell { return number(r.Extra.Quantity, "#,##0.####").input() }},
		{heading: "Unit cost", width: 12, cell: func(r price.ExtraLine, _ int) cell { return unitPrice(r.Extra.UnitCost, b.minor()).input() }},
		{heading: "Amount", width: 14, total: amount(ladder.Other), places: b.minor()},
	}
	at := l.listed(sheet, len(b.result.Price.Extras))
	l.columns[at.number("Amount")-1].cell = func(r price.ExtraLine, row int) cell {
		return amount(r.Amount).from(fmt.Sprintf("ROUND(%s%d*%s%d*%s%d,%d)", at.letter("Times"), row, at.letter(quantityHeading), row, at.letter("Unit cost"), row, b.minor()))
	}
	return l.write(b, sheet, b.result.Price.Extras)
}
