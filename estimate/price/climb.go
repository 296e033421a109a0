package price

import (
	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// Climb prices a job: the ladder from cost to price, and every room's share of
// each of its steps. rooms are all places of the building, by index. A profit
// on price must be below 100 %: job.Settings.NoPrice is empty then.
func Climb(settings job.Settings, rooms []*building.Room, orders []purchase.Order, uses []quantity.Use, work []labour.Line, extras []*job.Extra) Price {
	counted := count(settings.Currency, rooms, extras)
	p := Price{Ladder: climb(settings, orders, work, counted), Extras: counted}
	if len(rooms) == 0 {
		return p
	}
	s := newSharer(settings, rooms)
	s.material(orders, uses)
	s.labour(work)
	s.other(counted)
	p.Rooms = s.onTop(p.Ladder)
	return p
}

// climb adds up the ladder, each step rounded once.
func climb(settings job.Settings, orders []purchase.Order, work []labour.Line, extras []ExtraLine) Ladder {
	zero := settings.Currency.Zero()
	l := Ladder{Material: zero, Labour: zero, Other: zero}
	for _, order := range orders {
		l.Material = l.Material.Add(order.Net)
		if settings.PurchaseTaxIsCost {
			l.Material = l.Material.Add(order.Tax)
		}
	}
	for _, line := range work {
		l.Labour = l.Labour.Add(line.Cost)
	}
	for _, line := range extras {
		l.Other = l.Other.Add(line.Amount)
	}
	l.MaterialContingency = l.Material.Percent(settings.MaterialContingency)
	l.LabourContingency = l.Labour.Percent(settings.LabourContingency)
	l.OtherContingency = l.Other.Percent(settings.OtherContingency)
	l.Contingency = l.MaterialContingency.Add(l.LabourContingency).Add(l.OtherContingency)
	prime := l.Material.Add(l.Labour).Add(l.Other).Add(l.Contingency)
	l.Overhead = prime.Percent(settings.OverheadPercent)
	l.Cost = prime.Add(l.Overhead)
	l.Net = charge(settings, l.Cost)
	l.Profit = l.Net.Sub(l.Cost)
	l.Tax = l.Net.Percent(settings.TaxPercent)
	l.Gross = l.Net.Add(l.Tax)
	l.Retention = l.Gross.Percent(settings.RetentionPercent)
	l.Margin = percentOf(l.Profit, l.Net)
	l.Markup = percentOf(l.Profit, l.Cost)
	return l
}

// charge is the price of a cost: with the profit on it or in it, at the
// nearest price step, or the first step that covers the cost when the nearest
// does not.
func charge(settings job.Settings, cost money.Amount) money.Amount {
	var raised money.Amount
	switch settings.ProfitBasis {
	case job.OnCost:
		raised = cost.WithMarkup(settings.ProfitPercent)
	default:
		raised = cost.WithMargin(settings.ProfitPercent)
	}
	if settings.PriceStep.Sign() <= 0 {
		return raised
	}
	if stepped := raised.ToStep(settings.PriceStep); stepped.Cmp(cost) >= 0 {
		return stepped
	}
	return cost.UpToStep(settings.PriceStep)
}

// percentOf is what a share is of a whole, in per cent with two places; 0 of
// nothing.
func percentOf(share, whole money.Amount) decimal.Decimal {
	if whole.IsZero() {
		return decimal.Zero
	}
	return share.Decimal().Shift(2).DivRound(whole.Decimal(), 2)
}

// count counts the extras for the job: a cost per floor as often as there are
// floors.
func count(currency money.Currency, rooms []*building.Room, extras []*job.Extra) []ExtraLine {
	var lines []ExtraLine
	for _, extra := range extras {
		times := len(placesOf(rooms, extra.Per))
		if extra.Per == job.LevelJob {
			times = 1
		}
		exact := decimal.NewFromInt(int64(times)).Mul(extra.Quantity).Mul(extra.UnitCost)
		lines = append(lines, ExtraLine{Extra: extra, Times: times, Amount: currency.Round(exact)})
	}
	return lines
}

// placesOf groups the rooms by the place of a level, in the order of the rooms.
func placesOf(rooms []*building.Room, level job.Level) [][]*building.Room {
	at := map[string]int{}
	var places [][]*building.Room
	for _, room := range rooms {
		name := room.Place(level)
		i, known := at[name]
		if !known {
			i = len(places)
			at[name] = i
			places = append(places, nil)
		}
		places[i] = append(places[i], room)
	}
	return places
}
