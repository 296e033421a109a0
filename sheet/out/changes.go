package out

import (
	"fmt"
	"io"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/quantity"
	"laybill/estimate/revision"
)

// WriteChanges writes what changed between two revisions as a workbook: the way
// from cost to price, rooms, products, work and other costs.
func WriteChanges(w io.Writer, c revision.Changes) error {
	return writeChanges(w, c, true)
}

// WriteChangesForClient writes what a client may see of the changes: prices and
// rooms, no cost and no margin.
func WriteChangesForClient(w io.Writer, c revision.Changes) error {
	return writeChanges(w, c, false)
}

func writeChanges(w io.Writer, c revision.Changes, costs bool) error {
	currency, err := money.Lookup(c.New.Job.Currency)
	if err != nil {
		return err
	}
	settings := job.Settings{Name: c.New.Job.Name, Number: c.New.Job.Number, Currency: currency}
	b := newBook(&estimate.Result{Job: &job.Job{Settings: settings}, Building: &building.Building{}, Takeoff: &quantity.Takeoff{}})
	defer func() { _ = b.file.Close() }()
	steps := c.Steps
	if !costs {
		steps = steps[len(steps)-3:]
	}
	b.changedSteps(b.add("Changes"), steps)
	b.changedLines(b.add("Rooms"), "Rooms", "Area m2", c.Rooms, false)
	if costs {
		b.changedLines(b.add("Products"), "Products ordered", "Quantity", c.Products, true)
		b.changedLines(b.add("Labour"), fmt.Sprintf("Work by operation: %s hours, before %s", c.Hours.New.StringFixed(revision.HourPlaces), c.Hours.Old.StringFixed(revision.HourPlaces)), "Hours", c.Labour, true)
		b.changedLines(b.add("Other costs"), "Other costs", "Quantity", c.Other, true)
	}
	return b.write(w)
}

// Headings of changes that formulas refer to.
const (
	oldHeading = "Old"
	newHeading = "New"
)

func (b *book) changedSteps(sheet string, steps []revision.Step) {
	l := list[revision.Step]{
		title: "Changes",
		note:  "The job before and after, in " + b.result.Job.Settings.Currency.Code + ". The other sheets list what was added, removed or changed; all their lines together make these differences.",
	}
	l.columns = []column[revision.Step]{
		{heading: "Step", width: 30, cell: func(s revision.Step, _ int) cell { return text(s.Name) }},
		{heading: oldHeading, width: 16, cell: func(s revision.Step, _ int) cell { return b.money2(s.Old) }},
		{heading: newHeading, width: 16, cell: func(s revision.Step, _ int) cell { return b.money2(s.New) }},
		{heading: "Difference", width: 16, cell: func(s revision.Step, row int) cell {
			return b.signed(s.Difference()).from(b.rounded(fmt.Sprintf("C%d-B%d", row, row))).strong()
		}},
	}
	l.write(b, sheet, steps)
}

func (b *book) money2(d decimal.Decimal) cell { return number(d, decimalFormat(b.minor())) }

// signed is an amount that shows which way it went.
func (b *book) signed(d decimal.Decimal) cell {
	format := decimalFormat(b.minor())
	return number(d, "+"+format+";-"+format+";"+format)
}

// changedLines lists the changed lines of one sort. The differences of the
// lines add up to that of the whole.
func (b *book) changedLines(sheet, title, quantity string, t revision.Table, priced bool) {
	rows := t.Changed()
	l := list[revision.Line]{title: title, landscape: true,
		note: fmt.Sprintf("%d changed, added or removed; %d as they were.", len(rows), len(t.Lines)-len(rows))}
	sum := decimal.Zero
	for _, line := range rows {
		sum = sum.Add(line.Amount.Difference())
	}
	pair := func(what string, width float64, of func(revision.Line) revision.Pair, show func(decimal.Decimal) cell) {
		l.columns = append(l.columns,
			column[revision.Line]{heading: oldHeading + " " + what, width: width, cell: func(line revision.Line, _ int) cell { return show(of(line).Old) }},
			column[revision.Line]{heading: newHeading + " " + what, width: width, cell: func(line revision.Line, _ int) cell { return show(of(line).New) }})
	}
	l.columns = []column[revision.Line]{
		{heading: "Change", width: 10, cell: func(line revision.Line, _ int) cell { return text(line.Kind.String()).strong() }},
		{heading: "Name", width: 30, cell: func(line revision.Line, _ int) cell { return text(line.Name).in(plainStyle.wrapped()) }},
		{heading: "Description", width: 34, cell: func(line revision.Line, _ int) cell { return text(line.Detail).in(plainStyle.wrapped()) }},
	}
	pair(quantity, 11, func(line revision.Line) revision.Pair { return line.Quantity }, func(d decimal.Decimal) cell { return number(d, "#,##0.00;-#,##0.00;") })
	if priced {
		pair("unit price", 11, func(line revision.Line) revision.Pair { return line.Price }, func(d decimal.Decimal) cell {
			if d.IsZero() {
				return number(d, "0;-0;")
			}
			return unitPrice(d, b.minor())
		})
	}
	pair("amount", 13, func(line revision.Line) revision.Pair { return line.Amount }, b.money2)
	n := len(l.columns)
	l.columns = append(l.columns, column[revision.Line]{heading: "Difference", width: 13, total: b.signed(sum), places: b.minor(), cell: func(line revision.Line, row int) cell {
		return b.signed(line.Amount.Difference()).from(b.rounded(address(n, row) + "-" + address(n-1, row)))
	}})
	l.write(b, sheet, rows)
}
