package job

import (
	"fmt"
	"slices"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// checkBuildUps checks that each build-up that is laid has one covering, and that
// the items of all can be measured as they say.
func checkBuildUps(j *Job) []Finding {
	var found []Finding
	floors := j.floors()
	for _, b := range j.BuildUps {
		var coverings []*Line
		for _, line := range b.Lines {
			if line.Product != nil && line.Product.Kind.Covering() {
				coverings = append(coverings, line)
			}
			found = append(found, checkLine(line)...)
		}
		switch {
		case len(coverings) == 0 && floors[b]:
			found = append(found, Finding{Cells: cells(b.Ref, "buildup"), Problem: problem.Problem{Code: problem.BuildUpNoCovering,
				Found: fmt.Sprintf("build-up %s without a covering", b.Name), Want: "one item that is a plank, tile or roll", Fix: "add a row with the covering"}})
		case len(coverings) > 1:
			found = append(found, Finding{Cells: append(cells(coverings[1].Ref, "item"), cells(coverings[0].Ref, "item")...), Problem: problem.Problem{Code: problem.BuildUpCoverings,
				Found: fmt.Sprintf("%s besides %s in build-up %s", coverings[1].Code(), coverings[0].Code(), b.Name), Want: "one covering in a build-up", Fix: "delete one of the rows, or make another build-up of it"}})
		}
	}
	return found
}

func checkLine(line *Line) []Finding {
	if line.Product == nil {
		return nil
	}
	var found []Finding
	product := line.Product
	if product.Kind == Plank || product.Kind == Underlay {
		for _, extra := range []struct {
			column string
			given  bool
			text   string
		}{{"factor", !line.Factor.Equal(one), "a factor of " + line.Factor.String()}, {"waste", !line.Waste.IsZero(), "a waste of " + line.Waste.String() + " %"}} {
			if extra.given {
				found = append(found, Finding{Cells: cells(line.Ref, extra.column), Problem: problem.Problem{Code: problem.CoveringFactor,
					Found: fmt.Sprintf("%s for %s", extra.text, product.Code), Want: "no factor and no waste: what is laid is counted piece by piece", Fix: "leave the cell empty"}})
			}
		}
	}
	if line.Measure.ByLitre() && product.Kind != Compound {
		found = append(found, Finding{Cells: append(cells(line.Ref, "measure"), cells(product.Ref, "kind")...), Problem: problem.Problem{Code: problem.MeasureUnfit,
			Found: fmt.Sprintf("%s, a %s, measured by %s", product.Code, product.Kind, line.Measure), Want: "a compound, whose Spread is kilograms per litre", Fix: "make its kind compound, or choose another measure"}})
	}
	if want := fitting(product.Kind); want != nil && !slices.Contains(want, line.Measure) {
		found = append(found, Finding{Cells: append(cells(line.Ref, "measure"), cells(product.Ref, "kind")...), Problem: problem.Problem{Code: problem.MeasureUnfit,
			Found: fmt.Sprintf("%s, a %s, measured by %s", product.Code, product.Kind, line.Measure), Want: "measured by " + words(want), Fix: "choose a measure that fits"}})
	}
	return found
}

// fitting is the measures that a kind of product can be counted by; nil when
// any will do.
func fitting(kind Kind) []Measure {
	switch {
	case kind.Covering():
		return []Measure{FloorArea, LaidArea}
	case kind == Sheet, kind == Film, kind == Underlay:
		return []Measure{FloorArea, LaidArea, OldFloorArea}
	case kind == Trim:
		return []Measure{SkirtingLength, Runs, Perimeter, Openings, ExpansionProfiles, Steps, Undercuts, RoomCount, ApartmentCount, Fixed}
	}
	return nil
}

func words(list []Measure) string {
	text := ""
	for i, m := range list {
		if i > 0 {
			text += " or "
		}
		text += m.String()
	}
	return text
}

// checkRooms doubts rooms of unusual size, usually a slip of a unit or a
// decimal point, and doors that are counted and listed.
func checkRooms(j *Job) []Finding {
	found := checkAgainstApartments(j)
	for _, room := range j.Rooms {
		if len(room.Outline.Outer) == 0 {
			continue
		}
		if piece := pieceArea(room); piece > 0 && int64(room.Outline.Area()/piece) > mostPieces {
			found = append(found, Finding{Cells: cells(room.Ref, sizeColumn(room)), Needs: cells(room.BuildUp.Covering().Product.Ref, "length", "width"), Problem: problem.Problem{Code: problem.RoomTooLarge, Room: room.Name,
				Found: fmt.Sprintf("%s takes more than %d pieces of %s", room.Name, mostPieces, room.BuildUp.Covering().Code()), Want: "a room and a covering of usual size", Fix: "correct the sizes or their units"}})
			continue
		}
		bounds := room.Outline.Bounds()
		if longerSide(room) > largestUsual || room.Outline.Area() < measure.SquareMetre/10 {
			found = append(found, Finding{Cells: append(cells(room.Ref, sizeColumn(room)), cells(room.Ref, "width")...), Problem: problem.Problem{Code: problem.RoomSizeDoubtful, Room: room.Name,
				Found: fmt.Sprintf("%s: %s by %s", room.Name, bounds.X1-bounds.X0, bounds.Y1-bounds.Y0), Want: "a room up to 50 m long and over 0.1 m2", Fix: "check the sizes and their units"}})
		}
		if room.Doors > 0 && len(room.Openings) > 0 {
			found = append(found, Finding{Cells: cells(room.Ref, "doors"), Cause: "doors", Problem: problem.Problem{Code: problem.DoorsTwice, Room: room.Name,
				Found: fmt.Sprintf("%d doors and %d openings in %s", room.Doors, len(room.Openings), room.Name), Want: "doors either counted or listed", Fix: "leave Doors empty where Openings lists them"}})
		}
	}
	return found
}

// checkAgainstApartments doubts a room wider than its apartment can be: longer
// than twice all the apartment's other rooms end to end, where there are two or
// more of them. A room of over 50 m is doubted by itself.
func checkAgainstApartments(j *Job) []Finding {
	endToEnd, count := map[string]measure.Length{}, map[string]int{}
	for _, room := range j.Rooms {
		if long := longerSide(room); long > 0 {
			endToEnd[room.Type] += long
			count[room.Type]++
		}
	}
	var found []Finding
	for _, room := range j.Rooms {
		long := longerSide(room)
		others := endToEnd[room.Type] - long
		if count[room.Type] < 3 || long <= 2*others || long > largestUsual {
			continue
		}
		found = append(found, Finding{Cells: append(cells(room.Ref, sizeColumn(room)), cells(room.Ref, "width")...), Problem: problem.Problem{Code: problem.RoomSizeDoubtful, Room: room.Name,
			Found: fmt.Sprintf("%s is %s long, its apartment's other rooms end to end are %s", room.Name, long, others), Want: "a room no wider than its apartment", Fix: "check the room's sizes and their units"}})
	}
	return found
}

// largestUsual is the longest room that is not doubted by itself.
const largestUsual = 50 * measure.Metre

// longerSide is the longer side of the rectangle about the room; 0 without a
// shape.
func longerSide(room *Room) measure.Length {
	if len(room.Outline.Outer) == 0 {
		return 0
	}
	bounds := room.Outline.Bounds()
	return max(bounds.X1-bounds.X0, bounds.Y1-bounds.Y0)
}

// mostPieces of a covering in one room: a floor of 60,000 m2 in the usual
// planks, so more is a slip.
const mostPieces = 200_000

// pieceArea is the area of a piece of the room's covering; 0 when it is not
// laid in pieces.
func pieceArea(room *Room) measure.Area {
	if room.BuildUp == nil || room.BuildUp.Covering() == nil {
		return 0
	}
	product := room.BuildUp.Covering().Product
	if product.Kind != Plank && product.Kind != Tile || max(product.Length, product.Width) > shape.Limit {
		return 0
	}
	return product.Length.Times(product.Width)
}

func sizeColumn(room *Room) string {
	switch room.Source {
	case FromOutline:
		return "outline"
	case FromSides:
		return "length"
	case FromArea, FromAreaAndPerimeter:
		return "area"
	}
	return "room"
}

// checkOpenings finds openings of one wall that share a part of it, and doorways
// with a profile from either side.
func checkOpenings(j *Job) []Finding {
	var found []Finding
	for _, d := range Doorways(j.Rooms) {
		if d.Opening.Profile != nil && d.Back.Profile != nil {
			found = append(found, Finding{Cells: append(cells(d.Back.Ref, "profile", "width", "leads"), cells(d.Opening.Ref, "profile", "width", "leads")...), Problem: problem.Problem{Code: problem.ProfileTwice, Room: d.Other.Name,
				Found: fmt.Sprintf("%s from %s to %s and %s back", d.Opening.Profile.Code, d.Room.Name, d.Other.Name, d.Back.Profile.Code), Want: "one profile for a doorway", Fix: "leave Profile empty in one of the two rows"}})
		}
	}
	for _, room := range j.Rooms {
		for i := range room.Openings {
			a := &room.Openings[i]
			for k := range room.Openings[:i] {
				b := &room.Openings[k]
				if a.Wall == b.Wall && a.From < b.From+b.Width && b.From < a.From+a.Width {
					found = append(found, Finding{Cells: append(cells(a.Ref, "wall", "from", "width"), cells(b.Ref, "wall")...), Problem: problem.Problem{Code: problem.OpeningsOverlap, Room: room.Name,
						Found: fmt.Sprintf("two openings of %s in one place", room.Name), Want: "openings apart from one another", Fix: "correct the distance from the corner, the width or the wall of one of them"}})
					break
				}
			}
		}
	}
	return found
}

// checkFixtures finds fixtures that stand outside their room or in one
// another.
func checkFixtures(j *Job) []Finding {
	var found []Finding
	for _, room := range j.Rooms {
		if len(room.Outline.Outer) == 0 {
			continue
		}
		floor := shape.Region{room.Outline}
		for i := range room.Fixtures {
			f := &room.Fixtures[i]
			if shape.Subtract(floor, f.Box).DoubleArea() == floor.DoubleArea() {
				found = append(found, Finding{Cells: cells(f.Ref, "x", "y", "length", "width"), Problem: problem.Problem{Code: problem.FixtureOutside, Room: room.Name,
					Found: fmt.Sprintf("a fixture at %s, %s", f.Box.X0, f.Box.Y0), Want: fmt.Sprintf("a place on the floor of %s", room.Name), Fix: "correct its place or size"}})
			}
			for k := range room.Fixtures[:i] {
				if overlap(f.Box, room.Fixtures[k].Box) {
					found = append(found, Finding{Cells: append(cells(f.Ref, "x"), cells(room.Fixtures[k].Ref, "x")...), Problem: problem.Problem{Code: problem.FixtureTwice, Room: room.Name,
						Found: fmt.Sprintf("two fixtures of %s in one place", room.Name), Want: "fixtures apart from one another", Fix: "correct or delete one of them"}})
					break
				}
			}
		}
	}
	return found
}

func overlap(a, b shape.Box) bool { return a.X0 < b.X1 && b.X0 < a.X1 && a.Y0 < b.Y1 && b.Y0 < a.Y1 }
