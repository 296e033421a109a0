package out

import (
	"laybill/estimate"
	"laybill/estimate/problem"
)

// checks writes every invariant with both its sides.
func (b *book) checks(sheet string) {
	l := list[estimate.Check]{
		title: "Checks",
		note:  "Recounted when the workbook was written, each side by its own way. Both sides must be alike.",
		columns: []column[estimate.Check]{
			{heading: "Check", width: 62, cell: func(c estimate.Check, _ int) cell { return text(c.Name) }},
			{heading: "Holds", width: 10, cell: func(c estimate.Check, _ int) cell { return text(yesNo(c.OK)).strong() }},
			{heading: "One side", width: 22, cell: func(c estimate.Check, _ int) cell { return rightText(c.Left) }},
			{heading: "Other side", width: 22, cell: func(c estimate.Check, _ int) cell { return rightText(c.Right) }},
		},
	}
	l.write(b, sheet, b.result.Checks)
}

func rightText(s string) cell { return text(s).in(style{align: right}) }

func yesNo(ok bool) string {
	if ok {
		return "yes"
	}
	return "NO"
}

// problems writes what is doubtful about the job's data.
func (b *book) problems(sheet string) {
	l := problemList("Problems", "What the job workbook should be looked at for. Cautions are on their own sheet.", true)
	l.write(b, sheet, b.bySeverity(func(s problem.Severity) bool { return s != problem.Caution }))
}

// cautions writes what a person must judge or act on before laying.
func (b *book) cautions(sheet string) {
	l := problemList("Cautions", "Each has a cause in this job. A caution never says that something is safe: licensed practice and the local code decide.", false)
	l.write(b, sheet, b.bySeverity(func(s problem.Severity) bool { return s == problem.Caution }))
}

func (b *book) bySeverity(of func(problem.Severity) bool) problem.List {
	var list problem.List
	for _, p := range b.result.Problems.Sorted(b.result.Job.Sheets) {
		if of(p.Severity) {
			list = append(list, p)
		}
	}
	return list
}

func problemList(title, note string, withSeverity bool) list[problem.Problem] {
	wrapped := func(s string) cell { return text(s).in(plainStyle.wrapped()) }
	var columns []column[problem.Problem]
	if withSeverity {
		columns = append(columns, column[problem.Problem]{heading: "Severity", width: 10, cell: func(p problem.Problem, _ int) cell { return wrapped(p.Severity.String()).strong() }})
	}
	columns = append(columns, []column[problem.Problem]{
		{heading: "Apartment", width: 14, cell: func(p problem.Problem, _ int) cell { return wrapped(p.Apartment) }},
		{heading: "Room", width: 16, cell: func(p problem.Problem, _ int) cell { return wrapped(p.Room) }},
		{heading: "What", width: 28, cell: func(p problem.Problem, _ int) cell { return wrapped(p.Code.Entry().Title).strong() }},
		{heading: "Found", width: 40, cell: func(p problem.Problem, _ int) cell { return wrapped(p.Found) }},
		{heading: "Expected", width: 30, cell: func(p problem.Problem, _ int) cell { return wrapped(p.Want) }},
		{heading: "What to do", width: 42, cell: func(p problem.Problem, _ int) cell { return wrapped(p.Remedy()) }},
		{heading: "Cell", width: 14, cell: func(p problem.Problem, _ int) cell { return wrapped(p.At.String()) }},
		{heading: "Code", width: 18, cell: func(p problem.Problem, _ int) cell { return wrapped(string(p.Code)) }},
	}...)
	return list[problem.Problem]{title: title, note: note, landscape: true, columns: columns}
}
