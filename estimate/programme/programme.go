// Package programme gives a job its dates: when each apartment is tested,
// levelled, supplied, laid and handed over, by which crew, and by when goods
// must be on site and ordered.
//
// Work takes the hours of the labour lines, divided among the workers of a crew
// (the duration rule of NAVEDTRA 14045, chapter 2, see labour.Days); holding,
// drying and acclimatising take calendar time. Crews are given work by a list of
// the apartments, each at the earliest time at which a crew is free and its
// floor has room for the goods, and the list is changed as long as the job ends
// on an earlier day.
package programme

import (
	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// Programme is the dates of a job. A job that gives no date at which work may
// begin has deliveries without days and nothing else.
type Programme struct {
	Start, Finish Day // first day of all, hold points too, and last day of work; NoDay without dates
	Bound         Day // no programme of these crews ends on an earlier day
	Days          int // working days from Start to Finish
	BoundDays     int // working days from Start to Bound
	Entries       []Entry
	Deliveries    []Delivery

	tooHeavy []heavy
}

// heavy is an apartment whose goods for one visit are above what a floor can
// store.
type heavy struct {
	apartment *job.Apartment
	grams     int64
}

// Dated tells whether the job gives dates.
func (p *Programme) Dated() bool { return len(p.Entries) > 0 }

// Entry is a step of an apartment's programme.
type Entry struct {
	Apartment  *job.Apartment // nil: work of the whole job
	Step       job.Step
	Crew       int             // from 1; 0: nobody works
	Hours      decimal.Decimal // man-hours; of a step in which nobody works, hours of the clock
	Start, End Point
}

// Delivery is what one supplier brings to one floor on one day.
type Delivery struct {
	Supplier     *job.Supplier
	Consignment  int // whose order the goods are of
	Block, Floor string
	Phase        string
	Day          Day // on which the goods must be on site
	OrderBy      Day // last day to order: the longest lead time of its goods, in working days, earlier
	Supplies     []Supply
}

// Supply is what an apartment gets of a product.
type Supply struct {
	Apartment *job.Apartment // nil: for the whole job
	Product   *job.Product
	Needed    decimal.Decimal // sold units, spares included
	Bring     decimal.Decimal // whole sold units; an opened one may be on site already
	By        Day             // first needed: levelling, or carrying in before acclimatisation
	Until     Day             // day on which it is used up
}

// Weight is the weight in kg of what is brought.
func (s Supply) Weight() decimal.Decimal { return s.Bring.Mul(s.Product.Weight) }

// Pallets is how many pallets the packs take, and whether the product says.
func (s Supply) Pallets() (decimal.Decimal, bool) {
	if s.Product.PacksPerPallet == 0 {
		return decimal.Zero, false
	}
	return s.Bring.DivRound(decimal.NewFromInt(int64(s.Product.PacksPerPallet)), 2), true
}

// Weight is the weight in kg of all that is brought.
func (d Delivery) Weight() decimal.Decimal {
	total := decimal.Zero
	for _, supply := range d.Supplies {
		total = total.Add(supply.Weight())
	}
	return total
}
