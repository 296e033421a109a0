package exchange

import (
	"github.com/shopspring/decimal"

	"laybill/estimate"
)

// takeoffTable is the rooms beside those that others measured.
func takeoffTable(r *estimate.Result) []takeoffEntry {
	s := r.Job.Settings
	compared := r.CompareTakeoff()
	entries := make([]takeoffEntry, len(compared))
	for i, c := range compared {
		ours, given := c.Areas(s.AreaUnit)
		e := takeoffEntry{Type: c.Type, Room: c.Name, Times: c.Times, Unit: s.AreaUnit.String(), Area: dec(ours), Given: dec(given),
			Verdict: c.Verdict(s), Price: amount(c.Price), OnTakeoff: amount(c.PriceOfTakeoff(r))}
		if c.Given != nil {
			e.Perimeter, e.Openings, e.Source = mm(c.Given.Perimeter), c.Given.Openings, c.Given.Source
		}
		entries[i] = e
	}
	return entries
}

// confidences are the per cent of runs that prices are stated for.
var confidences = []int{50, 80, 90}

// riskOf is what the job may cost; nil when the job gives no ranges.
func riskOf(r *estimate.Result) *riskEntry {
	s := r.Job.Settings
	if r.Risk == nil {
		return nil
	}
	e := &riskEntry{Seed: s.Seed, Fewer: dec(s.Risk.FewerHours), More: dec(s.Risk.MoreHours), Breakage: dec(s.Risk.Breakage), PriceRise: dec(s.Risk.PriceRise),
		Spare: dec(s.BreakagePercent), Target: dec(s.Risk.TargetMargin),
		BelowTarget: dec(r.Risk.Chance(r.Price.Ladder.Net, s.Risk.TargetMargin)), Loss: dec(r.Risk.Chance(r.Price.Ladder.Net, decimal.Zero))}
	for _, cost := range r.Risk.Costs {
		e.Costs = append(e.Costs, amount(cost))
	}
	for _, confidence := range confidences {
		e.Prices = append(e.Prices, riskPrice{confidence, amount(r.Risk.Price(confidence, s.Risk.TargetMargin))})
	}
	return e
}
