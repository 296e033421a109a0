package out

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/money"
	"laybill/sheet/crew"
)

// crewBook numbers trades, operations and apartments, so that formulas find
// them by a number and never by what a person called them.
type crewBook struct {
	trades     []*job.Trade
	operations []*job.Operation
	apartments []*job.Apartment
}

func (b *book) crewBook() crewBook {
	return crewBook{b.result.Job.Trades, b.result.Job.Operations, b.result.Job.Apartments}
}

// place is the number of a thing in a list, from 1; 0 when it is not there.
func place[T comparable](list []T, thing T) int {
	for i := range list {
		if list[i] == thing {
			return i + 1
		}
	}
	return 0
}

// Headings of the trades, operations and labour lines that formulas refer to.
const (
	numberHeading    = "No"
	wageHeading      = "Wage an hour"
	burdenHeading    = "Burden"
	factorHeading    = "Overtime factor"
	overtimeHeading  = "Overtime of hours"
	normHeading      = "Hours per unit"
	learningHeading  = "Learning"
	repeatHeading    = "Repeat"
	learnedHeading   = "Factor"
	categoryHeading  = "Category"
	leastHeading     = "Least hours"
	tradeNoHeading   = "Trade no"
	operationHeading = "Operation no"
	apartmentHeading = "Apartment no"
	roomHeading      = "Room"
	measuredHeading  = "Measured hours"
	hoursHeading     = "Hours"
	costHeading      = "Cost"
)

// crewTotals adds hours and costs up by one property of the lines.
type crewTotals struct {
	hours decimal.Decimal
	cost  money.Amount
}

func (b *book) crewTotals(of func(labour.Line) bool) crewTotals {
	t := crewTotals{cost: b.result.Job.Settings.Currency.Zero()}
	for _, line := range b.result.Labour {
		if of(line) {
			t.hours, t.cost = t.hours.Add(line.Hours), t.cost.Add(line.Cost)
		}
	}
	return t
}

// hours is a number of hours with the two places it is worked with.
func hours(d decimal.Decimal) cell { return number(d, "#,##0.00") }

// labourSheets says where the labour of the job stands.
type labourSheets struct{ trades, operations, apartments, lines listing }

// plan says where every list will stand before any is written: they refer to
// one another.
func (b *book) planLabour(trades, operations, apartments, lines string) labourSheets {
	crew := b.crewBook()
	return labourSheets{
		trades:     (&list[*job.Trade]{columns: b.tradeColumns(labourSheets{})}).listed(trades, len(crew.trades)),
		operations: (&list[*job.Operation]{columns: b.operationColumns(labourSheets{})}).listed(operations, len(crew.operations)),
		apartments: (&list[*job.Apartment]{columns: b.apartmentColumns(labourSheets{})}).listed(apartments, len(crew.apartments)),
		lines:      (&list[labour.Line]{columns: b.labourColumns(labourSheets{})}).listed(lines, len(b.result.Labour)),
	}
}

// labour writes the lists. The lines of apartments of one type are gathered on a
// sheet of their own where that is not "".
func (b *book) labour(at labourSheets, byType string, alike []alike[labour.Line]) {
	crew := b.crewBook()
	trades := list[*job.Trade]{title: "Labour by trade", note: "Boxed, slanted cells may be changed: every labour line of the trade follows.", columns: b.tradeColumns(at)}
	trades.write(b, at.trades.sheet, crew.trades)
	operations := list[*job.Operation]{title: "Labour by operation", note: "Boxed, slanted cells may be changed. Hours = quantity x hours per unit, rounded to 0.01 h; least hours hold for the operation's total in one apartment.",
		columns: b.operationColumns(at), landscape: true}
	operations.write(b, at.operations.sheet, crew.operations)
	apartments := list[*job.Apartment]{title: "Labour by apartment", note: "Hours by trade, all hours, and wages with burden, from the labour lines. Work of the whole job stands on Labour only.", columns: b.apartmentColumns(at)}
	apartments.write(b, at.apartments.sheet, crew.apartments)
	lines := list[labour.Line]{title: "Labour lines", note: b.learningNote() + "One line an apartment, room and operation. Cost = hours x wage x (1 + burden), rounded once. Quantities may be changed" + b.callOutWords() + ".", columns: b.labourColumns(at), landscape: true, elsewhere: byType}
	if byType != "" {
		lines.columns = append(lines.columns, groupColumn(groupNumbers(alike, len(b.result.Labour))))
		b.labourByType(byType, lines.listed(at.lines.sheet, len(b.result.Labour)), alike)
	}
	lines.write(b, at.lines.sheet, b.result.Labour)
}

// callOutWords says what does not follow a change where a least call-out is paid.
func (b *book) callOutWords() string {
	if slices.ContainsFunc(b.result.Labour, func(l labour.Line) bool { return l.CallOut }) {
		return "; the hours of the least call-out are a value and do not follow"
	}
	return ""
}

// learningNote says how hours fall from apartment to apartment, where they do.
func (b *book) learningNote() string {
	if !labour.Learned(b.result.Job.Settings) {
		return ""
	}
	return "Repeat is the apartment's number among those of its type; Factor = repeat ^ log2(learning), to 4 decimals, and multiplies the hours. "
}

// sumIf adds up a column of the labour lines over the rows that hold the
// number in column A of the row.
func (b *book) sumIf(at labourSheets, key, heading string, row int, places int32) string {
	return fmt.Sprintf("ROUND(SUMIF(%s,$A%d,%s),%d)", at.lines.column(key), row, at.lines.column(heading), places)
}

func (b *book) tradeColumns(at labourSheets) []column[*job.Trade] {
	totals := func(t *job.Trade) crewTotals {
		return b.crewTotals(func(l labour.Line) bool { return l.Operation.Trade == t })
	}
	all := b.crewTotals(func(labour.Line) bool { return true })
	trades := b.crewBook().trades
	columns := []column[*job.Trade]{
		{heading: numberHeading, width: 6, cell: func(t *job.Trade, _ int) cell { return plainCount(place(trades, t)) }},
		{heading: "Trade", width: 28, cell: func(t *job.Trade, _ int) cell { return text(t.Name) }},
		{heading: wageHeading, width: 12, cell: func(t *job.Trade, _ int) cell { return unitPrice(t.Wage, b.minor()).input() }},
		{heading: burdenHeading, width: 10, cell: func(t *job.Trade, _ int) cell { return percent(t.BurdenPercent).input() }},
		{heading: hoursHeading, width: 12, total: hours(all.hours), places: labour.HourPlaces, cell: func(t *job.Trade, row int) cell {
			return hours(totals(t).hours).from(b.sumIf(at, tradeNoHeading, hoursHeading, row, labour.HourPlaces))
		}},
		{heading: costHeading, width: 14, total: amount(all.cost), places: b.minor(), cell: func(t *job.Trade, row int) cell {
			return amount(totals(t).cost).from(b.sumIf(at, tradeNoHeading, costHeading, row, b.minor()))
		}},
	}
	if overtime := b.overtime(); !overtime.Hours.IsZero() {
		columns = slices.Insert(columns, 4, overtimeColumns(overtime)...)
	}
	return columns
}

// overtime is the job's hours of overtime in a day.
func (b *book) overtime() labour.Overtime { return labour.OvertimeOf(b.result.Job.Settings) }

// overtimeColumns are what a trade is paid for overtime, and how many of its
// hours are that.
func overtimeColumns(o labour.Overtime) []column[*job.Trade] {
	return []column[*job.Trade]{
		{heading: factorHeading, width: 10, cell: func(t *job.Trade, _ int) cell { return number(t.Overtime, "0.00##").input() }},
		{heading: overtimeHeading, width: 10, cell: func(*job.Trade, int) cell {
			share := float(o.Hours) / float(o.Day)
			return cell{value: share, style: style{format: percentFormat}}.from(o.Hours.String() + "/" + o.Day.String())
		}},
	}
}

func (b *book) operationColumns(at labourSheets) []column[*job.Operation] {
	totals := func(o *job.Operation) crewTotals {
		return b.crewTotals(func(l labour.Line) bool { return l.Operation == o })
	}
	all := b.crewTotals(func(labour.Line) bool { return true })
	crew := b.crewBook()
	columns := []column[*job.Operation]{
		{heading: numberHeading, width: 6, cell: func(o *job.Operation, _ int) cell { return plainCount(place(crew.operations, o)) }},
		{heading: "Operation", width: 14, cell: func(o *job.Operation, _ int) cell { return text(o.Code) }},
		{heading: "Description", width: 40, cell: func(o *job.Operation, _ int) cell { return text(o.Description) }},
		{heading: "Measured by", width: 14, cell: func(o *job.Operation, _ int) cell { return text(o.Measure.String()) }},
		{heading: normHeading, width: 11, cell: func(o *job.Operation, _ int) cell { return number(o.HoursPerUnit, "0.00####").input() }},
		{heading: leastHeading, width: 10, cell: func(o *job.Operation, _ int) cell { return orBlank(hours(o.LeastHours)).input() }},
		{heading: categoryHeading, width: 14, cell: func(o *job.Operation, _ int) cell { return text(o.Category) }},
		{heading: tradeNoHeading, width: 8, cell: func(o *job.Operation, _ int) cell { return plainCount(place(crew.trades, o.Trade)) }},
		{heading: "Trade", width: 20, cell: func(o *job.Operation, _ int) cell { return text(o.Trade.Name) }},
		{heading: hoursHeading, width: 12, total: hours(all.hours), places: labour.HourPlaces, cell: func(o *job.Operation, row int) cell {
			return hours(totals(o).hours).from(b.sumIf(at, operationHeading, hoursHeading, row, labour.HourPlaces))
		}},
		{heading: costHeading, width: 14, total: amount(all.cost), places: b.minor(), cell: func(o *job.Operation, row int) cell {
			return amount(totals(o).cost).from(b.sumIf(at, operationHeading, costHeading, row, b.minor()))
		}},
	}
	if learning := b.result.Job.Settings.LearningPercent; labour.Learned(b.result.Job.Settings) {
		columns = slices.Insert(columns, 6, column[*job.Operation]{heading: learningHeading, width: 10, cell: func(o *job.Operation, _ int) cell {
			if !o.Learned {
				return cell{}
			}
			return percent(learning).input()
		}})
	}
	return columns
}

func (b *book) apartmentColumns(at labourSheets) []column[*job.Apartment] {
	byApartment := map[*job.Apartment]crewTotals{}
	byTrade := tradeHours{}
	all := crewTotals{cost: b.result.Job.Settings.Currency.Zero()}
	for _, l := range b.result.Labour {
		if l.Apartment == nil {
			continue
		}
		t := byApartment[l.Apartment]
		t.hours, t.cost = t.hours.Add(l.Hours), t.cost.Add(l.Cost)
		byApartment[l.Apartment] = t
		byTrade.add(l)
		all.hours, all.cost = all.hours.Add(l.Hours), all.cost.Add(l.Cost)
	}
	numbers := b.apartmentNumbers()
	zero := b.result.Job.Settings.Currency.Zero()
	columns := []column[*job.Apartment]{
		{heading: numberHeading, width: 6, cell: func(a *job.Apartment, _ int) cell { return plainCount(numbers[a]) }},
		{heading: "Apartment", width: 20, cell: func(a *job.Apartment, _ int) cell { return text(crew.Apartment(a)) }},
		{heading: "Type", width: 16, cell: func(a *job.Apartment, _ int) cell { return text(a.Type) }},
		{heading: "Floor", width: 10, cell: func(a *job.Apartment, _ int) cell { return text(a.Floor) }},
		{heading: "Block", width: 10, cell: func(a *job.Apartment, _ int) cell { return text(a.Block) }},
		{heading: hoursHeading, width: 12, total: hours(all.hours), places: labour.HourPlaces, cell: func(a *job.Apartment, row int) cell {
			return hours(byApartment[a].hours).from(b.sumIf(at, apartmentHeading, hoursHeading, row, labour.HourPlaces))
		}},
		{heading: costHeading, width: 14, total: amount(all.cost), places: b.minor(), cell: func(a *job.Apartment, row int) cell {
			return amount(zero.Add(byApartment[a].cost)).from(b.sumIf(at, apartmentHeading, costHeading, row, b.minor()))
		}},
	}
	return slices.Insert(columns, len(columns)-2, b.apartmentTrades(at, byTrade)...)
}

// tradeHours are the hours of each trade in each apartment, and under no apartment
// those in all of them.
type tradeHours map[apartmentTrade]decimal.Decimal

type apartmentTrade struct {
	apartment *job.Apartment
	trade     *job.Trade
}

func (h tradeHours) add(l labour.Line) {
	for _, a := range []*job.Apartment{l.Apartment, nil} {
		key := apartmentTrade{a, l.Operation.Trade}
		h[key] = h[key].Add(l.Hours)
	}
}

// apartmentTrades are a column of hours for each trade that works in apartments.
func (b *book) apartmentTrades(at labourSheets, worked tradeHours) []column[*job.Apartment] {
	var columns []column[*job.Apartment]
	for i, trade := range b.crewBook().trades {
		total, works := worked[apartmentTrade{nil, trade}]
		if !works {
			continue
		}
		columns = append(columns, column[*job.Apartment]{heading: "Hours, " + trade.Name, width: 14, total: hours(total), places: labour.HourPlaces,
			cell: func(a *job.Apartment, row int) cell {
				formula := fmt.Sprintf("ROUND(SUMIFS(%s,%s,$A%d,%s,%d),%d)", at.lines.column(hoursHeading), at.lines.column(apartmentHeading), row,
					at.lines.column(tradeNoHeading), i+1, labour.HourPlaces)
				return hours(worked[apartmentTrade{a, trade}]).from(formula)
			}})
	}
	return columns
}

// apartmentNumbers numbers the apartments, from 1.
func (b *book) apartmentNumbers() map[*job.Apartment]int {
	numbers := map[*job.Apartment]int{}
	for i, a := range b.result.Job.Apartments {
		numbers[a] = i + 1
	}
	return numbers
}

func (b *book) labourColumns(at labourSheets) []column[labour.Line] {
	numbers := b.apartmentNumbers()
	operations, trades := map[*job.Operation]int{}, map[*job.Trade]int{}
	for i, o := range b.result.Job.Operations {
		operations[o] = i + 1
	}
	for i, t := range b.result.Job.Trades {
		trades[t] = i + 1
	}
	all := b.crewTotals(func(labour.Line) bool { return true })
	units := b.workUnits()
	columns := []column[labour.Line]{
		{heading: apartmentHeading, width: 9, cell: func(l labour.Line, _ int) cell { return blankZero(numbers[l.Apartment]) }},
		{heading: "Apartment", width: 16, cell: func(l labour.Line, _ int) cell { return text(crew.Apartment(l.Apartment)) }},
		{heading: roomHeading, width: 18, cell: func(l labour.Line, _ int) cell { return text(labourRoom(l)) }},
		{heading: operationHeading, width: 9, cell: func(l labour.Line, _ int) cell { return plainCount(operations[l.Operation]) }},
		{heading: "Operation", width: 34, cell: func(l labour.Line, _ int) cell { return text(l.Operation.Description) }},
		{heading: tradeNoHeading, width: 6, cell: func(l labour.Line, _ int) cell { return plainCount(trades[l.Operation.Trade]) }},
		{heading: "Trade", width: 16, cell: func(l labour.Line, _ int) cell { return text(l.Operation.Trade.Name) }},
		{heading: quantityHeading, width: 11, cell: labourQuantity},
		{heading: "Unit", width: 8, cell: func(l labour.Line, _ int) cell { return text(units[workPlace{l.Apartment, l.Room, l.Operation}]) }},
		{heading: measuredHeading, width: 10},
		{heading: hoursHeading, width: 10, total: hours(all.hours), places: labour.HourPlaces},
		{heading: costHeading, width: 13, total: amount(all.cost), places: b.minor()},
	}
	if labour.Learned(b.result.Job.Settings) {
		columns = slices.Insert(columns, 9, column[labour.Line]{heading: repeatHeading, width: 8, cell: func(l labour.Line, _ int) cell { return blankZero(l.Repeat) }},
			column[labour.Line]{heading: learnedHeading, width: 9})
	}
	if at.lines.sheet == "" {
		return columns
	}
	f := labourFormulas{b, at}
	if labour.Learned(b.result.Job.Settings) {
		columns[at.lines.number(learnedHeading)-1].cell = f.learned
	}
	columns[at.lines.number(measuredHeading)-1].cell = f.measured
	columns[at.lines.number(hoursHeading)-1].cell = f.hours
	columns[at.lines.number(costHeading)-1].cell = f.cost
	return columns
}

func blankZero(n int) cell {
	if n == 0 {
		return cell{}
	}
	return plainCount(n)
}

// isLeast tells the lines that least hours add from measured ones.
func isLeast(l labour.Line) bool { return l.Quantity.IsZero() && l.Room == nil && l.Apartment != nil }

func labourRoom(l labour.Line) string {
	switch {
	case l.Room != nil:
		return l.Room.Spec.Name
	case l.CallOut:
		return "least call-out"
	case isLeast(l):
		return "least hours"
	case l.Apartment != nil:
		return "whole apartment"
	}
	return "whole job"
}

func labourQuantity(l labour.Line, _ int) cell {
	if isLeast(l) || l.CallOut {
		return cell{}
	}
	return number(l.Quantity, quantityFormat).input()
}

// labourFormulas are the hours and cost of a line.
type labourFormulas struct {
	b  *book
	at labourSheets
}

func (f labourFormulas) own(heading string, row int) string {
	return fmt.Sprintf("$%s%d", f.at.lines.letter(heading), row)
}

func (f labourFormulas) operation(heading string, row int) string {
	return f.at.operations.look(f.own(operationHeading, row), numberHeading, heading)
}

func (f labourFormulas) trade(heading string, row int) string {
	return f.at.trades.look(f.own(tradeNoHeading, row), numberHeading, heading)
}

// learned is the factor of the learning curve at the apartment's number.
func (f labourFormulas) learned(l labour.Line, row int) cell {
	if l.Repeat == 0 {
		return cell{}
	}
	return number(l.Factor, "0.0000").from(fmt.Sprintf("ROUND(%s^LOG(%s,2),%d)", f.own(repeatHeading, row), f.operation(learningHeading, row), labour.FactorPlaces))
}

// measured hours are quantity times norm, and the factor where they are learned;
// what least hours add has none.
func (f labourFormulas) measured(l labour.Line, row int) cell {
	if isLeast(l) || l.CallOut {
		return cell{}
	}
	factor := ""
	if l.Repeat > 0 {
		factor = "*" + f.own(learnedHeading, row)
	}
	return hours(l.Hours).from(fmt.Sprintf("ROUND(%s*%s%s,%d)", f.own(quantityHeading, row), f.operation(normHeading, row), factor, labour.HourPlaces))
}

// hours are those measured, or what the operation's measured hours in the
// apartment fall short of its least hours. What the least call-out adds is a
// value: a formula would count its own cell.
func (f labourFormulas) hours(l labour.Line, row int) cell {
	if l.CallOut {
		return hours(l.Hours).input()
	}
	if !isLeast(l) {
		return hours(l.Hours).from(f.own(measuredHeading, row))
	}
	lines := f.at.lines
	measured := fmt.Sprintf("SUMIFS(%s,%s,%s,%s,%s)", lines.column(measuredHeading), lines.column(apartmentHeading), f.own(apartmentHeading, row),
		lines.column(operationHeading), f.own(operationHeading, row))
	return hours(l.Hours).from(fmt.Sprintf("MAX(0,ROUND(N(%s)-%s,%d))", f.operation(leastHeading, row), measured, labour.HourPlaces))
}

func (f labourFormulas) cost(l labour.Line, row int) cell {
	premium := ""
	if !f.b.overtime().Hours.IsZero() {
		premium = fmt.Sprintf("*(1+(%s-1)*%s)", f.trade(factorHeading, row), f.trade(overtimeHeading, row))
	}
	return amount(l.Cost).from(fmt.Sprintf("ROUND(%s*%s%s*(1+%s),%d)", f.own(hoursHeading, row), f.trade(wageHeading, row), premium, f.trade(burdenHeading, row), f.b.minor()))
}

// workPlace is where an operation is done.
type workPlace struct {
	apartment *job.Apartment
	room      *building.Room
	operation *job.Operation
}

// workUnits is the unit that each operation was measured in where it is done.
func (b *book) workUnits() map[workPlace]string {
	units := map[workPlace]string{}
	for _, line := range b.result.Takeoff.Lines {
		if line.Operation != nil {
			units[workPlace{line.Apartment, line.Room, line.Operation}] = line.Unit
		}
	}
	return units
}
