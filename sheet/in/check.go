package in

import (
	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// checkJob runs the checks of the job's sense. A finding that hangs on a cell
// which could not be read is dropped: what is not known is not wrong.
func (r *reader) checkJob() {
	for _, finding := range job.Check(r.job) {
		p := finding.Problem
		known := true
		for i, cell := range finding.Cells {
			at := r.cellOf(cell)
			if r.problems.unknown[at] {
				known = false
			}
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

// cellOf is the cell of a record's column; the record's own place where the
// sheet has no such column.
func (r *reader) cellOf(cell job.Cell) problem.Ref {
	if cell.Setting != "" {
		if row, there := r.settings.byKey[cell.Setting]; there {
			return row.at("value")
		}
		return r.settings.place()
	}
	p := r.rows[problem.Ref{Sheet: cell.Row.Sheet, Row: cell.Row.Row}]
	if p == nil || p.columns[cell.Column] == 0 {
		return cell.Row
	}
	return problem.Ref{Sheet: cell.Row.Sheet, Row: cell.Row.Row, Col: p.columns[cell.Column]}
}
