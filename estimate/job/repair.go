package job

import (
	"fmt"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
)

// Repair is damaged planks of one product replaced in a room. Nothing else is
// laid there, so the room needs no drawing.
type Repair struct {
	Ref       problem.Ref
	Apartment *Apartment
	Room      string
	Product   *Product // planks in rows, all of one length
	Pieces    int
	Length    measure.Length // of each piece; the plank's where it is replaced whole
	FromStock int            // planks on hand that are used up
	Rows      int            // taken up from the nearest wall to reach the pieces; 0: they are cut out in place
	Method    *BuildUp       // the glue and the work, without a covering
	Note      string
}

// PerPlank is how many of the pieces one plank gives, with a saw cut between
// two of them.
func (r *Repair) PerPlank() int {
	kerf := r.Product.Kerf
	return int((r.Product.Length + kerf) / (r.Length + kerf))
}

// Planks is how many planks the pieces are cut from, those from stock among
// them.
func (r *Repair) Planks() int { return (r.Pieces + r.PerPlank() - 1) / r.PerPlank() }

// NewPlanks is how many planks are bought.
func (r *Repair) NewPlanks() int { return r.Planks() - r.FromStock }

// NewPieces is how many pieces are cut from bought planks: planks from stock are
// cut first.
func (r *Repair) NewPieces() int { return max(0, r.Pieces-r.FromStock*r.PerPlank()) }

// AreaOf is the area of so many of its pieces.
func (r *Repair) AreaOf(pieces int) measure.Area {
	return measure.Area(pieces) * r.Length.Times(r.Product.Width)
}

// PlankArea is the area of so many of its planks.
func (r *Repair) PlankArea(planks int) measure.Area {
	return measure.Area(planks) * r.Product.Length.Times(r.Product.Width)
}

// OfRepair tells the measures that the method of a repair can be counted by.
func (m Measure) OfRepair() bool {
	switch m {
	case Pieces, Rows, LaidArea, RoomCount, WasteVolume, WasteWeight, ApartmentCount, Fixed:
		return true
	}
	return false
}

// checkRepairs finds repairs whose planks or methods cannot be counted.
func checkRepairs(j *Job) []Finding {
	var found []Finding
	checked := map[*BuildUp]bool{}
	for _, r := range j.Repairs {
		if r.Method != nil && !checked[r.Method] {
			checked[r.Method] = true
			found = append(found, checkMethod(r)...)
		}
		found = append(found, checkReplaced(r)...)
	}
	return found
}

// checkReplaced finds planks that are none, pieces longer than they are, more
// planks from stock than are used and rows that are asked for and not given.
func checkReplaced(r *Repair) []Finding {
	p := r.Product
	switch {
	case p.Kind != Plank || p.Mixed() || p.Pattern.Blocks():
		return []Finding{{Cells: append(cells(r.Ref, "product"), cells(p.Ref, "kind", "shortest", "joints")...), Problem: problem.Problem{Code: problem.RepairUnfit, Room: r.Room,
			Found: p.Code, Want: "a plank laid in rows, all planks of one length", Fix: "name a plank, if need be by a row of its own in Products"}}}
	case p.Length == 0 || r.Length == 0 || r.Pieces == 0:
		return nil // said elsewhere
	case r.Length > p.Length:
		return []Finding{{Cells: append(cells(r.Ref, "length"), cells(p.Ref, "length")...), Problem: problem.Problem{Code: problem.ValueOutOfRange, Room: r.Room,
			Found: r.Length.String(), Want: fmt.Sprintf("at most %s, the length of %s", p.Length, p.Code), Fix: "correct the length, or count the pieces of each plank"}}}
	case r.FromStock > r.Planks():
		return []Finding{{Cells: append(cells(r.Ref, "stock"), cells(r.Ref, "count", "length")...), Problem: problem.Problem{Code: problem.RepairStock, Room: r.Room,
			Found: fmt.Sprintf("%d planks from stock", r.FromStock), Want: fmt.Sprintf("at most the %d that the repair takes", r.Planks()), Fix: "correct the number; what is on hand besides stays there"}}}
	case r.Rows == 0 && r.Method != nil && r.Method.countsRows():
		return []Finding{{Cells: append(cells(r.Ref, "rows"), cells(r.Method.Ref, "buildup")...), Problem: problem.Problem{Code: problem.RepairRows, Room: r.Room,
			Found: fmt.Sprintf("method %s without a number of rows", r.Method.Name), Want: "how many rows are taken up from the nearest wall", Fix: "count the rows from the nearest wall to the damage, or name a method that cuts out in place"}}}
	}
	return nil
}

func (b *BuildUp) countsRows() bool {
	for _, line := range b.Lines {
		if line.Measure == Rows {
			return true
		}
	}
	return false
}

// checkMethod finds lines of a method that a repair cannot be counted by.
func checkMethod(r *Repair) []Finding {
	var found []Finding
	for _, line := range r.Method.Lines {
		cut := line.Product != nil && (line.Product.Kind.Covering() || line.Product.Kind.InStrips() || line.Product.Kind == Trim)
		if !cut && line.Measure.OfRepair() {
			continue
		}
		found = append(found, Finding{Cells: append(cells(line.Ref, "item", "measure"), cells(r.Ref, "method")...), Problem: problem.Problem{Code: problem.RepairUnfit,
			Found: fmt.Sprintf("%s measured by %s in %s, the method of a repair", line.Code(), line.Measure, r.Method.Name),
			Want:  "work and goods that are not cut to size, by pieces, rows, laid area, rooms, waste, apartments or fixed", Fix: "choose another measure, or make a build-up of its own for repairs"}})
	}
	return found
}

// floors are the build-ups that rooms have, or get with an option; others, such as
// the methods of repairs, need no covering.
func (j *Job) floors() map[*BuildUp]bool {
	laid := map[*BuildUp]bool{}
	for _, room := range j.Rooms {
		laid[room.BuildUp] = true
	}
	for _, option := range j.Options {
		for _, swap := range option.Swaps {
			laid[swap.WithBuildUp] = true
		}
	}
	return laid
}
