package out

import (
	"cmp"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/purchase"
)

// deliveries writes what every place where packs are opened needs, in whole
// sold units, with its weight.
func (b *book) deliveries(sheet string) {
	var rows []purchase.Need
	total := decimal.Zero
	for _, need := range b.result.Needs {
		rows = append(rows, need)
		total = total.Add(delivered(need).Mul(need.Product.Weight))
	}
	slices.SortStableFunc(rows, func(a, b purchase.Need) int { return cmp.Compare(a.Place, b.Place) })
	starts := b.starts()
	l := list[purchase.Need]{
		title:     "Deliveries",
		note:      "What to bring to each place where packs are opened (" + b.result.Job.Settings.PackRounding.String() + "), spares included, rounded up to whole sold units. Order steps and minimum quantities may add to it on Orders.",
		landscape: true,
		columns: []column[purchase.Need]{
			{heading: "Place", width: 24, cell: func(n purchase.Need, _ int) cell { return text(placeName(n.Place)) }},
			{heading: "Needed by", width: 12, cell: func(n purchase.Need, _ int) cell { return day(starts[n.Place]) }},
			{heading: "Product", width: 14, cell: func(n purchase.Need, _ int) cell { return text(n.Product.Code) }},
			{heading: "Description", width: 40, cell: func(n purchase.Need, _ int) cell { return text(n.Product.Description) }},
			{heading: "Supplier", width: 22, cell: func(n purchase.Need, _ int) cell { return text(n.Product.Supplier.Name) }},
			{heading: "Needed", width: 12, cell: func(n purchase.Need, _ int) cell {
				return number(decimal.NewFromBigRat(n.Sold, 4), "#,##0.00##")
			}},
			{heading: "To bring", width: 10, cell: func(n purchase.Need, _ int) cell { return number(delivered(n), "#,##0").strong() }},
			{heading: "Sold by", width: 9, cell: func(n purchase.Need, _ int) cell { return text(n.Product.SoldBy.String()) }},
			{heading: "Pallets", width: 8, cell: pallets},
			{heading: "Weight kg", width: 11, total: number(total, "#,##0.0"), places: 2, cell: func(n purchase.Need, _ int) cell {
				return number(delivered(n).Mul(n.Product.Weight), "#,##0.0")
			}},
			{heading: "Lead days", width: 8, cell: func(n purchase.Need, _ int) cell { return count(max(n.Product.LeadDays, n.Product.Supplier.LeadDays)) }},
		},
	}
	l.write(b, sheet, rows)
}

// starts is when work begins in each place where packs are opened: its first
// apartment's start, or the job's.
func (b *book) starts() map[string]time.Time {
	set := b.result.Job.Settings
	starts := map[string]time.Time{}
	for _, room := range b.result.Building.Rooms {
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

func placeName(place string) string {
	if place == "" {
		return "whole job"
	}
	return place
}

// delivered is the need rounded up to whole sold units.
func delivered(n purchase.Need) decimal.Decimal {
	return decimal.NewFromBigRat(n.Sold, 8).Ceil()
}

// pallets is how many pallets the packs take, blank when the product's row
// does not say.
func pallets(n purchase.Need, _ int) cell {
	if n.Product.PacksPerPallet == 0 {
		return cell{}
	}
	return number(delivered(n).DivRound(decimal.NewFromInt(int64(n.Product.PacksPerPallet)), 2), "0.00")
}
