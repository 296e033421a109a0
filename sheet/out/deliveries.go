package out

import (
	"github.com/shopspring/decimal"

	"laybill/sheet/crew"
)

// deliveries writes what every supplier brings to every floor, apartment by
// apartment, with its weight and days.
func (b *book) deliveries(sheet string) {
	rows := b.crew.Supplies()
	total := decimal.Zero
	for _, s := range rows {
		total = total.Add(s.Weight())
	}
	l := list[crew.Supply]{
		title: "Deliveries",
		note: "One number is one supplier's delivery to one floor. Packs are whole and spares are in them; what is left of an opened one goes to the next apartment. " +
			"Order steps and minimum quantities may add to it on Orders.",
		landscape: true,
		columns: []column[crew.Supply]{
			{heading: "No", width: 6, cell: func(s crew.Supply, _ int) cell { return plainCount(s.Number).in(style{align: middle}) }},
			{heading: "On site by", width: 13, cell: func(s crew.Supply, _ int) cell { return day(s.OnSite()).strong() }},
			{heading: "Order by", width: 13, cell: func(s crew.Supply, _ int) cell { return day(s.OrderBy()) }},
			{heading: "Supplier", width: 26, cell: func(s crew.Supply, _ int) cell { return text(s.Delivery.Supplier.Name) }},
			{heading: "Floor", width: 13, cell: func(s crew.Supply, _ int) cell { return text(crew.FloorOf(s.Delivery)) }},
			{heading: "Apartment", width: 12, cell: func(s crew.Supply, _ int) cell { return text(crew.Apartment(s.Apartment)).strong() }},
			{heading: "Needed on", width: 13, cell: func(s crew.Supply, _ int) cell { return day(s.NeededBy()) }},
			{heading: "Product", width: 12, cell: func(s crew.Supply, _ int) cell { return text(s.Product.Code) }},
			{heading: "Description", width: 42, cell: func(s crew.Supply, _ int) cell { return text(s.Product.Description) }},
			{heading: "Needed", width: 10, cell: func(s crew.Supply, _ int) cell { return number(s.Needed, "#,##0.00") }},
			{heading: "To bring", width: 9, cell: func(s crew.Supply, _ int) cell { return number(s.Bring, "#,##0.##").strong() }},
			{heading: "Sold by", width: 8, cell: func(s crew.Supply, _ int) cell { return text(s.Product.SoldBy.String()) }},
			{heading: "Pallets", width: 8, cell: pallets},
			{heading: "Weight kg", width: 11, total: number(total, "#,##0.0"), places: 2, cell: func(s crew.Supply, _ int) cell {
				return number(s.Weight(), "#,##0.0")
			}},
		},
	}
	l.write(b, sheet, rows)
}

// pallets is how many pallets the packs take, blank when the product's row
// does not say.
func pallets(s crew.Supply, _ int) cell {
	if n, said := s.Pallets(); said {
		return number(n, "0.00")
	}
	return cell{}
}
