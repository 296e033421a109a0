package building

import (
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// voidRule is what a measuring rule says of voids: the largest that is not
// deducted, and whether those at the walls are deducted whatever their size.
type voidRule struct {
	largest       measure.Area
	wallsDeducted bool
}

// voidRules are by ATV DIN 18365 (openings, pillars and projections up to
// 0.10 m2 are measured through) and SMM7 (voids up to 0.50 m2; those at the
// boundary of the measured area are always deducted: from memory, as is the
// 1.00 m2 rule of NRM2).
var voidRules = map[job.MeasuringRule]voidRule{
	job.UpTo010: {largest: measure.SquareMetre / 10},
	job.UpTo050: {largest: measure.SquareMetre / 2, wallsDeducted: true},
	job.UpTo100: {largest: measure.SquareMetre, wallsDeducted: true},
}

// Billed is the floor that a measuring rule bills: the net floor with the small
// voids left in. What is bought and laid does not depend on it.
func (r *Room) Billed(by job.MeasuringRule) measure.Area {
	rule, has := voidRules[by]
	if !has || r.Repaired {
		return r.Area
	}
	outline := shape.Region{{Outer: r.Walls.Outer}}
	billed := r.Area
	for _, hole := range r.Holes {
		void, atWall := within(outline, hole)
		if void <= rule.largest && !(atWall && rule.wallsDeducted) {
			billed += void
		}
	}
	return min(billed, outline.Area())
}

// within is the part of a void that lies in the outline, and whether it touches
// a wall. A void that is no rectangle is a hole of the outline itself.
func within(outline shape.Region, hole shape.Ring) (void measure.Area, atWall bool) {
	area := (shape.Polygon{Outer: hole}).Area()
	area = max(area, -area)
	box := hole.Bounds()
	if (box.X1 - box.X0).Times(box.Y1-box.Y0) != area {
		return area, false
	}
	grown := shape.Box{X0: box.X0 - 1, Y0: box.Y0 - 1, X1: box.X1 + 1, Y1: box.Y1 + 1}
	whole := outline.Area()
	inside := func(b shape.Box) measure.Area { return whole - shape.Subtract(outline, b).Area() }
	return inside(box), inside(grown) < (grown.X1 - grown.X0).Times(grown.Y1-grown.Y0)
}

// BilledSkirting is the skirting that a measuring rule bills: what is cut, and the
// openings that the rule measures through. A room without skirting has none.
func (r *Room) BilledSkirting(by job.MeasuringRule) measure.Length {
	var total measure.Length
	for _, run := range r.Skirting {
		total += run.Length
	}
	if total == 0 {
		return 0
	}
	for _, opening := range r.Openings {
		if opening.Width <= by.MeasuredThrough() {
			total += opening.Width
		}
	}
	return total
}
