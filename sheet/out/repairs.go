package out

import (
	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/sheet/crew"
)

// repairs writes what is replaced where, what it takes and what it is charged.
// Hours and prices are those of a place; they stand in its first row.
func (b *book) repairs(sheet string, ladder ladderRows) {
	rows := b.crew.Repairs()
	first := map[*building.Room]building.Repair{}
	pieces, stock, bought := 0, 0, 0
	for _, r := range rows {
		pieces, stock, bought = pieces+r.Pieces, stock+r.FromStock, bought+r.NewPlanks()
		if _, known := first[r.At]; !known {
			first[r.At] = r
		}
	}
	l := list[building.Repair]{
		title: "Repairs",
		note: "Planks replaced in floors that stay. Planks from stock cost nothing; new ones come in whole packs, of which other floors may take a part. Hours and price are of all repairs in a room and stand in its first row. " +
			crew.RepairCautions,
		landscape: true,
		columns: []column[building.Repair]{
			{heading: "Apartment", width: 12, cell: func(r building.Repair, _ int) cell {
				return text(crew.Apartment(r.At.Apartment)).in(plainStyle.wrapped())
			}},
			{heading: "Room", width: 14, cell: func(r building.Repair, _ int) cell { return text(r.At.Spec.Name).in(plainStyle.wrapped()) }},
			{heading: "Product", width: 11, cell: func(r building.Repair, _ int) cell { return text(r.Product.Code).strong() }},
			{heading: "Description", width: 18, cell: func(r building.Repair, _ int) cell { return text(r.Product.Description).in(plainStyle.wrapped()) }},
			{heading: "Pieces", width: 8, total: count(pieces), cell: func(r building.Repair, _ int) cell { return count(r.Pieces).strong() }},
			{heading: "Length of each", width: 12, cell: func(r building.Repair, _ int) cell { return text(b.crew.Each(r)).in(plainStyle.wrapped()) }},
			{heading: "Planks from stock", width: 9, total: count(stock), cell: func(r building.Repair, _ int) cell { return count(r.FromStock) }},
			{heading: "New planks", width: 8, total: count(bought), cell: func(r building.Repair, _ int) cell { return count(r.NewPlanks()) }},
			{heading: "Packs ordered in all", width: 9, cell: func(r building.Repair, _ int) cell { return number(b.packsOf(r.Product), "#,##0") }},
			{heading: "Besides", width: 15, cell: func(r building.Repair, _ int) cell { return text(b.crew.Goods(r)).in(plainStyle.wrapped()) }},
			{heading: "Method, steps and tools", width: 44, cell: func(r building.Repair, _ int) cell { return text(b.crew.How(r)).in(plainStyle.wrapped()) }},
			{heading: hoursHeading, width: 8, total: hours(b.hoursIn(nil)), places: labour.HourPlaces, cell: func(r building.Repair, _ int) cell {
				if first[r.At] != r {
					return cell{}
				}
				return hours(b.hoursIn(r.At))
			}},
			{heading: priceHeading, width: 11, total: amount(b.repairPrice()), places: b.minor(), cell: func(r building.Repair, _ int) cell {
				if first[r.At] != r {
					return cell{}
				}
				return b.scaled(b.result.Price.Rooms[r.At.Index].Price, b.result.Price.Ladder.Net, ladder.at(ladder.net)).strong()
			}},
			{heading: "Note", width: 15, cell: func(r building.Repair, _ int) cell { return text(r.Note).in(plainStyle.wrapped()) }},
		},
	}
	l.write(b, sheet, rows)
}

// packsOf is how many packs of a product all orders bring.
func (b *book) packsOf(p *job.Product) decimal.Decimal {
	packs := decimal.Zero
	for _, order := range b.result.Orders {
		for _, line := range order.Lines {
			if line.Product == p {
				packs = packs.Add(line.Packs)
			}
		}
	}
	return packs
}

// hoursIn is the hours worked in a place of repairs, nil for all of them.
func (b *book) hoursIn(at *building.Room) decimal.Decimal {
	total := decimal.Zero
	for _, line := range b.result.Labour {
		if line.Room != nil && line.Room.Repaired && (at == nil || line.Room == at) {
			total = total.Add(line.Hours)
		}
	}
	return total
}

// repairRules are how repairs and a least call-out are counted, where the job has
// them.
func (b *book) repairRules() []rule {
	var rules []rule
	if len(b.result.Building.Repairs) > 0 {
		rules = append(rules, rule{"Repairs", "A plank gives as many pieces as fit with the saw cut between them. Planks on hand are cut first and cost nothing; the others share packs, breakage and attic stock with the floors of the job. " +
			"A repaired room is charged its part like a room; costs shared by floor area go by the area replaced.", "", ourDefinition},
			rule{"Repairs", "Planks amid a floor are cut out and glued in, or the rows from the nearest wall are taken up and laid again; glue and hours are those of the method.", "", tradePractice})
	}
	if least := b.result.Job.Settings.LeastCallOut; least.Sign() > 0 {
		rules = append(rules, rule{"Least call-out", "What all hours of the job fall short of it is paid at the wage of the operation with the most hours.", least.String() + " h", jobSheet})
	}
	return rules
}
