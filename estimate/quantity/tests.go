package quantity

import (
	"laybill/estimate/job"
	"laybill/estimate/subfloor"
)

// moistureTests states the moisture tests of every place that has a line for
// them: the item's first line counts, however many build-ups of the place name
// it.
func (t *taker) moistureTests() {
	for i := range t.subfloors.Tests {
		test := &t.subfloors.Tests[i]
		seen := map[string]bool{}
		for _, room := range test.Rooms {
			for _, line := range room.Spec.BuildUp.Lines {
				if line.Measure == job.MoistureTests && !seen[line.Code()] {
					seen[line.Code()] = true
					t.test(test, line)
				}
			}
		}
	}
}

func (t *taker) test(test *subfloor.Test, line *job.Line) {
	m := count(test.Count)
	raised := m.scaled(line.Factor, line.Waste)
	t.out.Lines = append(t.out.Lines, Line{Apartment: test.Apartment, Room: test.Room, Product: line.Product, Operation: line.Operation, Spec: line,
		Measure: line.Measure, Quantity: raised.stated(), Unit: raised.unit})
	if line.Product == nil {
		return
	}
	where := test.Room
	if test.Apartment != nil {
		where = test.Rooms[0]
	}
	t.demand(where, line, m)
}
