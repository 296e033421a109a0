package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/money"
)

// groupHeading is that of the lines' numbers on the list by type.
const groupHeading = "By type no"

// groupColumn says for each labour line where it stands by type.
func groupColumn(numbers []int) column[labour.Line] {
	return column[labour.Line]{heading: groupHeading, width: 8, cell: func(_ labour.Line, row int) cell { return plainCount(numbers[row-listFirst]) }}
}

// alikeLabour are the labour lines of each type.
func (b *book) alikeLabour() []alike[labour.Line] {
	return gathered(b.result.Labour, func(l labour.Line) *job.Apartment { return l.Apartment }, func(l labour.Line) lineKey {
		return lineKey{room: labourRoom(l), item: l.Operation.Code, says: l.Quantity.String() + " " + l.Hours.String() + " " + l.Cost.String()}
	})
}

// labourByType writes the work in a room of each type and how often it is done.
// Hours and costs are sums of the labour lines and follow them.
func (b *book) labourByType(sheet string, lines listing, rows []alike[labour.Line]) {
	all := b.crewTotals(func(labour.Line) bool { return true })
	units := b.workUnits()
	l := list[alike[labour.Line]]{
		title:     "Labour by type",
		note:      "The work in a room of each apartment type, and how often it is done. Hours and costs are sums of the lines on Labour, where quantities may be changed.",
		landscape: true,
		dense:     true,
	}
	l.columns = []column[alike[labour.Line]]{
		{heading: numberHeading, width: 6},
		{heading: "Type", width: 11, cell: func(r alike[labour.Line], _ int) cell { return text(typeOfLine(r.first)).strong() }},
		{heading: roomHeading, width: 18, cell: func(r alike[labour.Line], _ int) cell { return text(labourRoom(r.first)) }},
		{heading: "Operation", width: 46, cell: func(r alike[labour.Line], _ int) cell { return text(r.first.Operation.Description) }},
		{heading: "Trade", width: 14, cell: func(r alike[labour.Line], _ int) cell { return text(r.first.Operation.Trade.Name) }},
		{heading: eachHeading, width: 11, cell: func(r alike[labour.Line], _ int) cell {
			return number(r.first.Quantity, quantityFormat).orBlank(!isLeast(r.first) && !r.first.CallOut)
		}},
		{heading: "Unit", width: 9, cell: func(r alike[labour.Line], _ int) cell {
			return text(units[workPlace{r.first.Apartment, r.first.Room, r.first.Operation}])
		}},
		{heading: "Hours each", width: 10},
		{heading: timesHeading, width: 7, cell: func(r alike[labour.Line], _ int) cell { return count(r.times) }},
		{heading: hoursHeading, width: 11, total: hours(all.hours), places: labour.HourPlaces},
		{heading: costHeading, width: 13, total: amount(all.cost), places: b.minor()},
		{heading: "Apartments", width: 20, cell: func(r alike[labour.Line], _ int) cell { return text(b.inWords(r.in)) }},
	}
	at := l.listed(sheet, len(rows))
	set := func(heading string, cell func(alike[labour.Line], int) cell) {
		l.columns[at.number(heading)-1].cell = cell
	}
	own := func(heading string, row int) string { return fmt.Sprintf("%s%d", at.letter(heading), row) }
	sum := func(heading string, row int, places int32) string {
		return fmt.Sprintf("ROUND(SUMIF(%s,%s,%s),%d)", lines.column(groupHeading), own(numberHeading, row), lines.column(heading), places)
	}
	set(numberHeading, func(_ alike[labour.Line], row int) cell { return plainCount(row - listFirst + 1) })
	set("Hours each", func(r alike[labour.Line], row int) cell {
		return hours(r.first.Hours).from(fmt.Sprintf("ROUND(%s/%s,%d)", own(hoursHeading, row), own(timesHeading, row), labour.HourPlaces))
	})
	set(hoursHeading, func(r alike[labour.Line], row int) cell {
		return hours(r.first.Hours.Mul(decimal.NewFromInt(int64(r.times)))).from(sum(hoursHeading, row, labour.HourPlaces))
	})
	set(costHeading, func(r alike[labour.Line], row int) cell {
		return amount(times(r.first.Cost, r.times)).from(sum(costHeading, row, b.minor())).strong()
	})
	l.write(b, sheet, rows)
}

func typeOfLine(l labour.Line) string {
	if l.Apartment == nil {
		return ""
	}
	return l.Apartment.Type
}

// times is so many like amounts together.
func times(a money.Amount, n int) money.Amount {
	return a.Currency().Round(a.Decimal().Mul(decimal.NewFromInt(int64(n))))
}
