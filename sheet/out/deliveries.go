package out

import (
	"github.com/shopspring/decimal"

	"laybill/sheet/crew"
)

// deliveries writes what every place where packs are opened needs, in whole
// sold units, with its weight.
func (b *book) deliveries(sheet string) {
	rows := b.crew.Deliveries()
	total := decimal.Zero
	for _, d := range rows {
		total = total.Add(d.Weight())
	}
	l := list[crew.Delivery]{
		title:     "Deliveries",
		note:      "What to bring to each place where packs are opened (" + b.result.Job.Settings.PackRounding.String() + "), spares included, rounded up to whole sold units; what is left closed of an earlier delivery is used first. Order steps and minimum quantities may add to it on Orders.",
		landscape: true,
		columns: []column[crew.Delivery]{
			{heading: "Place", width: 26, cell: func(d crew.Delivery, _ int) cell { return text(d.Where()) }},
			{heading: "Needed by", width: 12, cell: func(d crew.Delivery, _ int) cell { return day(d.NeededBy) }},
			{heading: "Product", width: 14, cell: func(d crew.Delivery, _ int) cell { return text(d.Product.Code) }},
			{heading: "Description", width: 40, cell: func(d crew.Delivery, _ int) cell { return text(d.Product.Description) }},
			{heading: "Supplier", width: 22, cell: func(d crew.Delivery, _ int) cell { return text(d.Product.Supplier.Name) }},
			{heading: "Needed", width: 12, cell: func(d crew.Delivery, _ int) cell {
				return number(d.Needed, "#,##0.00##")
			}},
			{heading: "To bring", width: 10, cell: func(d crew.Delivery, _ int) cell { return number(d.Bring, "#,##0.##").strong() }},
			{heading: "Sold by", width: 9, cell: func(d crew.Delivery, _ int) cell { return text(d.Product.SoldBy.String()) }},
			{heading: "Pallets", width: 8, cell: pallets},
			{heading: "Weight kg", width: 11, total: number(total, "#,##0.0"), places: 2, cell: func(d crew.Delivery, _ int) cell {
				return number(d.Weight(), "#,##0.0")
			}},
			{heading: "Lead days", width: 8, cell: func(d crew.Delivery, _ int) cell { return count(max(d.Product.LeadDays, d.Product.Supplier.LeadDays)) }},
		},
	}
	l.write(b, sheet, rows)
}

// pallets is how many pallets the packs take, blank when the product's row
// does not say.
func pallets(d crew.Delivery, _ int) cell {
	if n, said := d.Pallets(); said {
		return number(n, "0.00")
	}
	return cell{}
}
