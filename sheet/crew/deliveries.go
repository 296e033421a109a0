package crew

import (
	"cmp"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/purchase"
)

// Delivery is what a place where packs are opened needs of a product.
type Delivery struct {
	Product  *job.Product
	Place    string
	NeededBy time.Time       // zero when the job gives no date
	Needed   decimal.Decimal // sold units, spares included
	Bring    decimal.Decimal // Needed rounded up to whole sold units
}

// Weight is the weight in kg of what is brought.
func (d Delivery) Weight() decimal.Decimal { return d.Bring.Mul(d.Product.Weight) }

// Pallets is how many pallets the packs take, and whether the product says.
func (d Delivery) Pallets() (decimal.Decimal, bool) {
	if d.Product.PacksPerPallet == 0 {
		return decimal.Zero, false
	}
	return d.Bring.DivRound(decimal.NewFromInt(int64(d.Product.PacksPerPallet)), 2), true
}

// Deliveries lists the deliveries by place.
func (l *Lists) Deliveries() []Delivery {
	starts := l.starts()
	var rows []Delivery
	for _, need := range l.result.Needs {
		rows = append(rows, delivery(need, starts[need.Place]))
	}
	slices.SortStableFunc(rows, func(a, b Delivery) int { return cmp.Compare(a.Place, b.Place) })
	return rows
}

func delivery(n purchase.Need, by time.Time) Delivery {
	return Delivery{Product: n.Product, Place: n.Place, NeededBy: by,
		Needed: decimal.NewFromBigRat(n.Sold, 4), Bring: decimal.NewFromBigRat(n.Sold, 8).Ceil()}
}

// starts is when work begins in each place where packs are opened: its first
// apartment's start, or the job's.
func (l *Lists) starts() map[string]time.Time {
	set := l.result.Job.Settings
	starts := map[string]time.Time{}
	for _, room := range l.result.Building.Rooms {
		start := room.Apartment.Start
		if start.IsZero() {
			start = set.StartDate
		}
		for _, place := range []string{room.Place(set.PackRounding), ""} {
			if known := starts[place]; known.IsZero() || !start.IsZero() && start.Before(known) {
				starts[place] = start
			}
		}
	}
	return starts
}
