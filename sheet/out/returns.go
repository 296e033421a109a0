package out

import (
	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

// returned is what goes back of a product, at the price of its last order.
type returned struct {
	purchase.Material
	line  purchase.Line
	order purchase.Order
}

// returns are the packs that may go back to their suppliers.
func (b *book) returns() []returned {
	var rows []returned
	for _, m := range b.result.Materials {
		if m.ReturnedUnits.Sign() <= 0 {
			continue
		}
		row := returned{Material: m}
		for _, order := range b.result.Orders {
			for _, line := range order.Lines {
				if line.Product == m.Product {
					row.line, row.order = line, order
				}
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// worth is what was charged for the packs, less the discount on their order and
// before tax; a charge on the line is not for them.
func (r returned) worth() money.Amount {
	return r.order.Goods.Currency().Round(r.order.Kept(r.line.Worth(r.ReturnedUnits)))
}

// returnsSheet lists the packs that no place opens and that may go back. Their
// price stays in the cost until a supplier credits it.
func (b *book) returnsSheet(sheet string) {
	rows := b.returns()
	total := b.result.Job.Settings.Currency.Zero()
	for _, r := range rows {
		total = total.Add(r.worth())
	}
	l := list[returned]{
		title: "Returns",
		note:  "Packs of returnable products that nobody opens: order steps and minimum quantities brought them. Their price is in the cost of this estimate; agree the credit with the supplier before it is counted on.",
		columns: []column[returned]{
			{heading: "Product", width: 14, cell: func(r returned, _ int) cell { return text(r.Product.Code) }},
			{heading: "Description", width: 40, cell: func(r returned, _ int) cell { return text(r.Product.Description) }},
			{heading: "Supplier", width: 24, cell: func(r returned, _ int) cell { return text(r.Product.Supplier.Name) }},
			{heading: "To return", width: 10, cell: func(r returned, _ int) cell { return number(r.ReturnedUnits, "#,##0.##").strong() }},
			{heading: "Sold by", width: 9, cell: func(r returned, _ int) cell { return text(r.Product.SoldBy.String()) }},
			{heading: "Charged", width: 12, total: amount(total), places: b.minor(), cell: func(r returned, _ int) cell { return amount(r.worth()) }},
		},
		landscape: true,
	}
	l.write(b, sheet, rows)
}
