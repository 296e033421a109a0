package in

import (
	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/table"
)

// checkJob runs the checks of the job's sense. A finding that hangs on a cell
// which could not be read is dropped: what is not known is not wrong.
func (r *reader) checkJob() {
	r.checkEmpty()
	for _, finding := range job.Check(r.job) {
		p := finding.Problem
		known := true
		for _, cell := range finding.Needs {
			_, there := r.cellOf(cell)
			known = known && there
		}
		for i, cell := range finding.Cells {
			at, there := r.cellOf(cell)
			known = known && there && r.kindKnown(cell)
			if i == 0 {
				p.At = at
			} else if at != p.At {
				p.Also = append(p.Also, at)
			}
		}
		if known {
			r.problems.add(finding.Cause, p)
		}
	}
}

// checkEmpty says which tables the job needs have headings and no rows. A job
// of loose lengths and repairs alone needs no rooms, nor build-ups but the
// methods of its repairs.
func (r *reader) checkEmpty() {
	roomless := len(r.job.LooseLengths)+len(r.job.Repairs) > 0
	for i := range table.Tables {
		t := &table.Tables[i]
		needed := t.Required && (!roomless || t.Key == "products" || r.lacking[t.Sheet])
		if needed && r.found(t.Key) && !r.filled(t.Key) {
			r.problems.add("", problem.Problem{Code: problem.TableEmpty, At: r.parts[t.Key][0].headingAt(0), Found: "headings without a row below them",
				Want: "at least one row: " + t.Row, Fix: "fill in the table"})
		}
	}
}

// kindKnown tells whether a product's kind could be read: what makes no sense
// for one kind may for another. Cells of other tables have no kind.
func (r *reader) kindKnown(cell job.Cell) bool {
	p := r.rows[problem.Ref{Sheet: cell.Row.Sheet, Row: cell.Row.Row}]
	if p == nil || p.table.Key != "products" {
		return true
	}
	_, known := r.cellOf(job.Cell{Row: cell.Row, Column: "kind"})
	return known
}

// cellOf is the cell of a record's column; the record's own place where the
// sheet has no such column. known is false when its value could not be read.
func (r *reader) cellOf(cell job.Cell) (at problem.Ref, known bool) {
	if cell.Setting != "" {
		at = r.settings.place()
		if row, there := r.settings.byKey[cell.Setting]; there {
			at = row.at("value")
		}
		return at, !r.problems.unknown[at]
	}
	p := r.rows[problem.Ref{Sheet: cell.Row.Sheet, Row: cell.Row.Row}]
	if p == nil {
		return cell.Row, !r.problems.unknown[cell.Row]
	}
	_, doubted := p.doubted[cell.Column]
	col := p.columns[cell.Column]
	if col == 0 {
		return cell.Row, !doubted && !p.table.Column(cell.Column).Required
	}
	at = problem.Ref{Sheet: cell.Row.Sheet, Row: cell.Row.Row, Col: col}
	return at, !r.problems.unknown[at]
}
