package cmd

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/cmd/internal/term"
	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/measure"
	"laybill/estimate/money"
)

// writeSummary prints what an estimator asks first: how much floor, what to
// buy, how many hours, what it costs and what to charge.
func writeSummary(w io.Writer, r *estimate.Result) {
	settings := r.Job.Settings
	line := func(format string, args ...any) { _, _ = fmt.Fprintf(w, format+"\n", args...) }
	line("%s", printable(jobTitle(settings)))
	if len(r.Building.Rooms) > 0 {
		line("%s, %s, %s", plural(len(r.Job.Apartments), "apartment"), plural(len(r.Building.Rooms), "room"), floorArea(r))
	}
	if len(r.Building.Repairs) > 0 {
		line("%s", repairs(r))
	}
	line("")
	for _, table := range []*term.Table{goods(r), hours(r), ladder(settings, r)} {
		if !table.Empty() {
			table.Write(w)
			line("")
		}
	}
	if p := &r.Programme; p.Dated() {
		line("Programme: %s to %s, %s; at least %d", p.Start, p.Finish, plural(p.Days, "working day"), p.BoundDays)
	}
	line("Problems: %s%s", tally(r.Problems), seeProblems(r))
	if failed := failedChecks(r); failed != "" {
		line("Checks that do not hold: %s", failed)
	}
}

// repairs says how much is replaced and where its planks come from.
func repairs(r *estimate.Result) string {
	pieces, stock, bought := 0, 0, 0
	for _, repair := range r.Building.Repairs {
		pieces, stock, bought = pieces+repair.Pieces, stock+repair.FromStock, bought+repair.NewPlanks()
	}
	return fmt.Sprintf("Repairs: %s in %s; %s from stock, %d new", plural(pieces, "piece"), plural(len(r.Building.Repaired), "room"), plural(stock, "plank"), bought)
}

func seeProblems(r *estimate.Result) string {
	if len(r.Problems) == 0 {
		return ""
	}
	return "; see the sheet Problems of the result"
}

func failedChecks(r *estimate.Result) string {
	var names []string
	for _, check := range r.Checks {
		if !check.OK {
			names = append(names, check.Name)
		}
	}
	return strings.Join(names, "; ")
}

func floorArea(r *estimate.Result) string {
	var total measure.Area
	for _, room := range r.Building.Rooms {
		total += room.Area
	}
	return area(total, r.Job.Settings.AreaUnit) + " of floor"
}

func area(a measure.Area, unit measure.AreaUnit) string {
	return term.Group(a.Decimal(unit, 1).StringFixed(1)) + " " + unit.String()
}

// goods is a row for each covering that is laid by pieces: area, planks, the
// least that could do, waste and packs.
func goods(r *estimate.Result) *term.Table {
	table := term.NewTable("Product", "Laid", "Planks", "At least", "By eye", "Waste", "Packs")
	for _, product := range planks(r) {
		count := countPlanks(r, product)
		table.Row(product.Code, area(count.laid, r.Job.Settings.AreaUnit), group(count.planks), group(count.least), group(count.byEye),
			count.waste(product), packsOrdered(r, product))
	}
	for _, g := range r.RackedGoods() {
		table.Row(g.Product.Code, area(g.Least, r.Job.Settings.AreaUnit), "by length", "", "", "up to "+g.MostWaste().StringFixed(1)+" %", packsOrdered(r, g.Product))
	}
	return table
}

// planks are the products that floors are laid with, by code.
func planks(r *estimate.Result) []*job.Product {
	var products []*job.Product
	for i := range r.Floors {
		if product := r.Floors[i].Product; !slices.Contains(products, product) {
			products = append(products, product)
		}
	}
	slices.SortFunc(products, func(a, b *job.Product) int { return strings.Compare(a.Code, b.Code) })
	return products
}

// plankCount is what all floors of a product take together.
type plankCount struct {
	planks, least, byEye int
	laid                 measure.Area
}

func countPlanks(r *estimate.Result, product *job.Product) plankCount {
	var count plankCount
	for i := range r.Floors {
		floor := &r.Floors[i]
		if floor.Product != product {
			continue
		}
		count.planks += floor.Plan.Planks
		count.least += floor.Plan.LowerBound
		count.byEye += floor.Plan.ByEye
		for slot := range floor.Plan.Layouts {
			count.laid += floor.Plan.Layouts[slot].Area()
		}
	}
	return count
}

// waste is the area of the planks cut over the area laid, less 1, in per cent;
// spares are not in it.
func (c plankCount) waste(product *job.Product) string {
	if c.laid == 0 {
		return ""
	}
	cut := decimal.NewFromInt(int64(product.Length.Times(product.Width))).Mul(decimal.NewFromInt(int64(c.planks)))
	over := cut.Sub(decimal.NewFromInt(int64(c.laid)))
	return over.Shift(2).DivRound(decimal.NewFromInt(int64(c.laid)), 1).StringFixed(1) + " %"
}

func packsOrdered(r *estimate.Result, product *job.Product) string {
	packs := decimal.Zero
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			if line.Product == product {
				packs = packs.Add(line.Packs)
			}
		}
	}
	return term.Group(packs.String())
}

// group is a count, or nothing where there is none.
func group(n int) string {
	if n == 0 {
		return ""
	}
	return term.Group(fmt.Sprint(n))
}

// hours is a row for each trade.
func hours(r *estimate.Result) *term.Table {
	table := term.NewTable("Trade", "Hours", "Cost")
	currency := r.Job.Settings.Currency
	for _, trade := range r.Job.Trades {
		worked, cost := decimal.Zero, currency.Zero()
		for _, line := range r.Labour {
			if line.Operation.Trade == trade {
				worked, cost = worked.Add(line.Hours), cost.Add(line.Cost)
			}
		}
		table.Row(trade.Name, term.Group(worked.StringFixed(2)), amount(cost))
	}
	return table
}

// workingDays is how long the job's crews take for all hours, when they never
// wait.
func workingDays(settings job.Settings, r *estimate.Result) string {
	hours := decimal.Zero
	for _, line := range r.Labour {
		hours = hours.Add(line.Hours)
	}
	days := labour.Days(hours, settings.Crews, settings.CrewSize, settings.HoursADay)
	if days == 0 {
		return ""
	}
	return fmt.Sprintf("%s of %s of %d", plural(int(days), "day"), plural(settings.Crews, "crew"), settings.CrewSize)
}

func amount(a money.Amount) string { return term.Group(a.String()) }

// ladder is the way from the orders to the price.
func ladder(settings job.Settings, r *estimate.Result) *term.Table {
	l := r.Price.Ladder
	table := term.NewTable("", settings.Currency.Code, "")
	row := func(name string, a money.Amount, remark string) { table.Row(name, amount(a), remark) }
	row("Material, "+plural(len(r.Orders), "order"), l.Material, "")
	row("Labour", l.Labour, workingDays(settings, r))
	row("Other", l.Other, "")
	row("Contingency", l.Contingency, "")
	row("Overhead", l.Overhead, settings.OverheadPercent.String()+" %")
	row("Cost", l.Cost, "")
	row("Profit", l.Profit, fmt.Sprintf("margin %s %%, markup %s %%", l.Margin.StringFixed(2), l.Markup.StringFixed(2)))
	row("Price", l.Net, perArea(r))
	row(settings.TaxName, l.Tax, settings.TaxPercent.String()+" %")
	row("Price with "+settings.TaxName, l.Gross, "")
	return table
}

// perArea is the price of one unit of floor.
func perArea(r *estimate.Result) string {
	var total measure.Area
	for _, room := range r.Building.Rooms {
		total += room.Area
	}
	unit := r.Job.Settings.AreaUnit
	if total == 0 {
		return ""
	}
	price := r.Price.Ladder.Net.Decimal().Mul(decimal.NewFromInt(int64(unit.Area()))).DivRound(decimal.NewFromInt(int64(total)), 2)
	return fmt.Sprintf("%s a %s", price.StringFixed(2), unit)
}
