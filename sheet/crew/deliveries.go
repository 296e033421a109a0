package crew

import (
	"cmp"
	"math/big"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/purchase"
)

// Delivery is what a place where packs are opened gets of a product with one
// consignment.
type Delivery struct {
	Product     *job.Product
	Consignment int
	For         string // the consignment's part of the building; "" for the whole job
	Place       string
	NeededBy    time.Time       // zero when the job gives no date
	Needed      decimal.Decimal // sold units, spares included
	Bring       decimal.Decimal // in whole sold units or packs: what is still closed of earlier deliveries comes first
}

// Where is the place in words.
func (d Delivery) Where() string {
	switch {
	case d.For == "":
		return Place(d.Place)
	case d.Place == "":
		return d.For
	}
	return d.For + ": " + d.Place
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

// Deliveries lists the deliveries by consignment and place.
func (l *Lists) Deliveries() []Delivery {
	starts := l.starts()
	var rows []Delivery
	for _, need := range l.result.Needs {
		rows = append(rows, l.deliveries(need, starts)...)
	}
	slices.SortStableFunc(rows, func(a, b Delivery) int {
		return cmp.Or(cmp.Compare(a.Consignment, b.Consignment), cmp.Compare(a.Place, b.Place))
	})
	return rows
}

// arrival is a place that a consignment brings something to.
type arrival struct {
	consignment int
	place       string
}

// deliveries is what a need is brought with.
func (l *Lists) deliveries(n purchase.Need, starts map[arrival]time.Time) []Delivery {
	var rows []Delivery
	for i, bring := range n.Opened() {
		needed := n.Sold
		if n.By != nil {
			needed = n.By[i]
		}
		if bring.Sign() <= 0 && needed.Cmp(new(big.Rat)) <= 0 {
			continue
		}
		rows = append(rows, Delivery{Product: n.Product, Consignment: i, For: l.result.Consignments[i].Name, Place: n.Place,
			NeededBy: estimate.NeededBy(n.Product, starts[arrival{i, n.Place}]), Needed: decimal.NewFromBigRat(needed, 4), Bring: bring})
	}
	return rows
}

// starts is when work begins where a consignment brings something: the first
// start of its apartments in the place, or the job's.
func (l *Lists) starts() map[arrival]time.Time {
	set := l.result.Job.Settings
	starts := map[arrival]time.Time{}
	note := func(at arrival, room *building.Room) {
		start := room.Apartment.Start
		if start.IsZero() {
			start = set.StartDate
		}
		if known := starts[at]; known.IsZero() || !start.IsZero() && start.Before(known) {
			starts[at] = start
		}
	}
	for _, room := range l.result.Building.Rooms {
		consignment := l.result.ConsignmentOf(room)
		note(arrival{consignment, room.Place(set.PackRounding)}, room)
		note(arrival{consignment, ""}, room)
	}
	return starts
}
