package labour

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// callOut is the hours that are paid beyond those worked, so that the job comes
// to its least call-out: at the wage of the operation with the most hours, of
// several the one whose code comes first. A job without work has none.
func callOut(least decimal.Decimal, lines []Line) []Line {
	if len(lines) == 0 {
		return nil
	}
	missing := least.Round(HourPlaces)
	by := map[*job.Operation]decimal.Decimal{}
	for _, line := range lines {
		missing = missing.Sub(line.Hours)
		by[line.Operation] = by[line.Operation].Add(line.Hours)
	}
	if missing.Sign() <= 0 {
		return nil
	}
	most := slices.MaxFunc(lines, func(a, b Line) int {
		return cmp.Or(by[a.Operation].Cmp(by[b.Operation]), cmp.Compare(b.Operation.Code, a.Operation.Code))
	})
	return []Line{{Operation: most.Operation, Hours: missing, CallOut: true}}
}
