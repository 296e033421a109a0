package crew

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/programme"
)

// Supply is a line of a delivery: what it brings to an apartment.
type Supply struct {
	Number   int // of the delivery, from 1
	Delivery *programme.Delivery
	programme.Supply
}

// FloorOf is the part of the building that a delivery goes to.
func FloorOf(d *programme.Delivery) string {
	floor := d.Floor
	if floor != "" {
		floor = "floor " + floor
	}
	return Place(strings.Join(slices.DeleteFunc([]string{d.Block, floor}, func(s string) bool { return s == "" }), ", "))
}

// OnSite, OrderBy and NeededBy are the supply's days, zero where the job gives
// none: of the delivery, of its order at the latest, and of the apartment.
func (s Supply) OnSite() time.Time   { return s.Delivery.Day.Date() }
func (s Supply) OrderBy() time.Time  { return s.Delivery.OrderBy.Date() }
func (s Supply) NeededBy() time.Time { return s.By.Date() }

// Supplies lists the deliveries line by line.
func (l *Lists) Supplies() []Supply {
	var lines []Supply
	for i := range l.result.Programme.Deliveries {
		lines = append(lines, supplies(i+1, &l.result.Programme.Deliveries[i])...)
	}
	return lines
}

func supplies(number int, d *programme.Delivery) []Supply {
	lines := make([]Supply, len(d.Supplies))
	for i, supply := range d.Supplies {
		lines[i] = Supply{Number: number, Delivery: d, Supply: supply}
	}
	return lines
}

// Load is what a delivery brings of a product, to all its apartments.
type Load struct {
	Supply
	For string // "E-101: 12, E-102: 14"
}

// Loads lists the deliveries product by product.
func (l *Lists) Loads() []Load {
	var loads []Load
	for i := range l.result.Programme.Deliveries {
		loads = append(loads, LoadsOf(i+1, &l.result.Programme.Deliveries[i])...)
	}
	return loads
}

// LoadsOf adds a delivery up by product, in the order of their codes.
func LoadsOf(number int, d *programme.Delivery) []Load {
	at := map[*job.Product]int{}
	var loads []Load
	for _, line := range supplies(number, d) {
		i, known := at[line.Product]
		if !known {
			i = len(loads)
			at[line.Product] = i
			load := Load{Supply: line}
			load.Bring = decimal.Zero
			loads = append(loads, load)
		}
		load := &loads[i]
		load.Bring = load.Bring.Add(line.Bring)
		if name := Apartment(line.Apartment); name != "" {
			load.For += ", " + name + ": " + line.Bring.String()
		}
	}
	for i := range loads {
		loads[i].For = strings.TrimPrefix(loads[i].For, ", ")
	}
	slices.SortStableFunc(loads, func(a, b Load) int { return cmp.Compare(a.Product.Code, b.Product.Code) })
	return loads
}
