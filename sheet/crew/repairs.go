package crew

import (
	"fmt"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/measure"
)

// Repairs are the repairs by place.
func (l *Lists) Repairs() []building.Repair { return l.result.Building.Repairs }

// Each is the length of the pieces that a repair replaces.
func (l *Lists) Each(r building.Repair) string {
	if r.Length == r.Product.Length {
		return "whole"
	}
	return fmt.Sprintf("%s, %d from a plank", l.Cut(r.Length), r.PerPlank())
}

// Goods are what the method of a repair takes besides the planks.
func (l *Lists) Goods(r building.Repair) string {
	var words []string
	for _, line := range l.result.Takeoff.Lines {
		if line.Repair != nil && *line.Repair == r && line.Product != nil && line.Product != r.Product {
			words = append(words, fmt.Sprintf("%s: %s %s", line.Product.Code, line.Quantity, line.Unit))
		}
	}
	return strings.Join(words, ", ")
}

// How says the steps of a repair and its tools in short (common practice; the
// maker's instructions rule).
func (l *Lists) How(r building.Repair) string {
	if r.Rows == 0 {
		return r.Method.Name + ": mark the planks; set the blade to their thickness and cut inside the joints, then lift the middle and the edges; cut tongue and lower lip off the new piece, " +
			"try it dry, glue it in and weigh it down until set. Tools: plunge or oscillating saw, vacuum, chisel, glue, weights."
	}
	return fmt.Sprintf("%s: take the skirting off the nearest wall, number the pieces and take up %s; put the new planks in and lay the rows back in their order, the gap of %s kept at the wall. "+
		"Tools: pull bar, tapping block, spacers, pencil.", r.Method.Name, rowsWords(r.Rows), l.gap(r.Product.Gap))
}

func rowsWords(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}

func (l *Lists) gap(gap measure.Length) string {
	if l.unit.Imperial() {
		return l.Cut(gap) + " in"
	}
	return l.Cut(gap) + " mm"
}

// RepairCautions is what every repair asks of those who do it.
const RepairCautions = "Look for the cause of the damage, above all water, before the floor is closed. Pipes and cables may lie under it: cut no deeper than the plank. Guard the blade, take the dust off at the saw and wear eye, ear and dust protection. " +
	"Old floors, glues and paints may hold asbestos (in place by about 1980) or lead (before 1978): test before cutting or sanding. Local codes and licensed practice decide."
