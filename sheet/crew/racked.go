package crew

import (
	"fmt"
	"strings"

	"laybill/estimate"
	"laybill/estimate/cutlist"
	"laybill/estimate/layout"
)

// rackedFacts is what a person wants to know before starting a room with boards
// of random lengths: its rows, what they take, and the rule to lay by.
func (l *Lists) rackedFacts(r *estimate.Racked, area string) string {
	p, rows, unit := r.Product, &r.Rows.Layout, l.result.Job.Settings.AreaUnit
	facts := []string{
		p.Description,
		fmt.Sprintf("boards %s to %s long, %s wide", l.Cut(p.Shortest), l.Cut(p.Length), l.Cut(p.Width)),
		area,
		fmt.Sprintf("gap %s all round", l.Cut(p.Gap)),
		fmt.Sprintf("first row %s, last row %s wide", l.Cut(rows.Rows[0].Y1-rows.Rows[0].Y0), l.Cut(rows.Rows[len(rows.Rows)-1].Y1-rows.Rows[len(rows.Rows)-1].Y0)),
		fmt.Sprintf("planks lie %s", directionWords(rows.Direction)),
		fmt.Sprintf("between %s and %s %s of boards", r.Least().Decimal(unit, 2).StringFixed(2), r.Most().Decimal(unit, 2).StringFixed(2), unit),
		"row lengths: " + l.rowLengths(rows),
	}
	if r.Room.Spec.Heated {
		facts = append(facts, "HEATED FLOOR")
	}
	return strings.Join(facts, " · ") + ". " + fmt.Sprintf("Rack the boards out of several open packs. Begin a row with an off-cut of a row before, shortened where it must be, if its joint keeps %s to those of the row before, "+
		"else with a board. Take long boards first; end the row with the shortest that reaches the wall. No first or last piece under %s. Keep what is cut off the last piece for a later row if it is %s or longer.", l.Cut(p.LeastStagger), l.Cut(p.LeastEnd), l.Cut(p.LeastEnd))
}

// rowLengths writes the lengths of rows, alike ones that follow one another
// together: "1-6: 4976, 7: 3210 + 900".
func (l *Lists) rowLengths(rows *layout.Layout) string {
	byRow := make([]string, len(rows.Rows))
	for i := range rows.Pieces {
		piece := &rows.Pieces[i]
		box := piece.At.Bounds()
		if byRow[piece.Row-1] != "" {
			byRow[piece.Row-1] += " + "
		}
		byRow[piece.Row-1] += l.Cut(Saw(box.X1-box.X0, l.unit))
	}
	var parts []string
	for i := 0; i < len(byRow); {
		last := i
		for last+1 < len(byRow) && byRow[last+1] == byRow[i] {
			last++
		}
		number := fmt.Sprint(i + 1)
		if last > i {
			number += "-" + fmt.Sprint(last+1)
		}
		parts = append(parts, number+": "+byRow[i])
		i = last + 1
	}
	return strings.Join(parts, ", ")
}

// rowSteps draws every row as one piece.
func rowSteps(rows *layout.Layout) []cutlist.Step {
	steps := make([]cutlist.Step, len(rows.Pieces))
	for i := range rows.Pieces {
		steps[i] = cutlist.Step{Piece: &rows.Pieces[i], Source: cutlist.Whole}
	}
	return steps
}
