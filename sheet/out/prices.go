package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/price"
	"laybill/sheet/crew"
)

// priced is one room, or one apartment, with its share of cost and price.
type priced struct {
	apartment *job.Apartment
	rooms     []*building.Room
	price.Share
}

func (b *book) pricedRooms() []priced {
	rows := make([]priced, len(b.result.Price.Rooms))
	for i, room := range b.result.Building.Places() {
		rows[i] = priced{room.Apartment, []*building.Room{room}, b.result.Price.Rooms[i]}
	}
	return rows
}

func (b *book) pricedApartments() []priced {
	var rows []priced
	at := map[*job.Apartment]int{}
	for _, row := range b.pricedRooms() {
		i, known := at[row.apartment]
		if !known {
			at[row.apartment] = len(rows)
			rows = append(rows, row)
			continue
		}
		rows[i].rooms, rows[i].Share = append(rows[i].rooms, row.rooms...), rows[i].Share.Add(row.Share)
	}
	return rows
}

// Headings of the prices that formulas refer to.
const (
	areaHeading   = "Area"
	onTopHeading  = "On top"
	perArea1      = "Price per area"
	marginHeading = "Margin"
)

// prices writes what every room, or every apartment, costs and is charged. Each
// amount follows the summary as its groups do.
func (b *book) prices(sheet, title string, ladder ladderRows, rows []priced, byRoom bool) {
	net := b.result.Price.Ladder
	unit := b.result.Job.Settings.AreaUnit
	l := list[priced]{title: title, landscape: true, dense: byRoom,
		note: "Shares of cost and price, split by largest remainder; they add up to Summary. On top: contingency and overhead. After a change on other sheets the rows are scaled and may miss the whole by cents."}
	l.columns = []column[priced]{
		{heading: "Apartment", width: 14, cell: func(r priced, _ int) cell { return text(crew.Apartment(r.apartment)) }},
		{heading: "Type", width: 12, cell: func(r priced, _ int) cell { return text(r.apartment.Type) }},
		{heading: "Floor", width: 8, cell: func(r priced, _ int) cell { return text(r.apartment.Floor) }},
		{heading: "Block", width: 10, cell: func(r priced, _ int) cell { return text(r.apartment.Block) }},
	}
	if byRoom {
		l.columns = append(l.columns, column[priced]{heading: "Room", width: 16, cell: func(r priced, _ int) cell { return text(r.rooms[0].Spec.Name) }})
	}
	scaled := func(of func(price.Share) money.Amount, whole money.Amount, now string) func(priced, int) cell {
		return func(r priced, _ int) cell { return b.scaled(of(r.Share), whole, now) }
	}
	onTop := fmt.Sprintf("SUM(%s:%s)", ladder.at(ladder.materialContingency), fixed(ladderAmount, ladder.overhead))
	top := net.Contingency.Add(net.Overhead)
	l.columns = append(l.columns,
		column[priced]{heading: "Covering", width: 44, cell: func(r priced, _ int) cell { return text(coverings(r.rooms)) }},
		column[priced]{heading: areaHeading, width: 10, above: text(unit.String()), cell: func(r priced, _ int) cell {
			return number(areaOf(r.rooms).Decimal(unit, areaPlaces), "#,##0.00")
		}},
		column[priced]{heading: materialHeading, width: 12, total: amount(net.Material), places: b.minor(), cell: scaled(func(s price.Share) money.Amount { return s.Material }, net.Material, ladder.at(ladder.material))},
		column[priced]{heading: labourHeading, width: 12, total: amount(net.Labour), places: b.minor(), cell: scaled(func(s price.Share) money.Amount { return s.Labour }, net.Labour, ladder.at(ladder.labour))},
		column[priced]{heading: otherHeading, width: 11, total: amount(net.Other), places: b.minor(), cell: scaled(func(s price.Share) money.Amount { return s.Other }, net.Other, ladder.at(ladder.other))},
		column[priced]{heading: onTopHeading, width: 11, total: amount(top), places: b.minor(), cell: scaled(func(s price.Share) money.Amount { return s.Contingency.Add(s.Overhead) }, top, onTop)},
		column[priced]{heading: profitHeading, width: 12, total: amount(net.Profit), places: b.minor(), cell: scaled(func(s price.Share) money.Amount { return s.Profit }, net.Profit, ladder.at(ladder.profit))},
		column[priced]{heading: priceHeading, width: 13, total: amount(net.Net), places: b.minor()},
		column[priced]{heading: perArea1, width: 11, above: text(unit.String())},
		column[priced]{heading: marginHeading, width: 9},
	)
	at := l.listed(sheet, len(rows))
	cellOf := func(heading string, row int) string { return fmt.Sprintf("%s%d", at.letter(heading), row) }
	set := func(heading string, cell func(priced, int) cell) { l.columns[at.number(heading)-1].cell = cell }
	set(priceHeading, func(r priced, row int) cell {
		return amount(r.Price).from(b.rounded(fmt.Sprintf("SUM(%s:%s)", cellOf(materialHeading, row), cellOf(profitHeading, row)))).strong()
	})
	set(perArea1, func(r priced, row int) cell {
		return b.rate(r.Price, areaOf(r.rooms).Decimal(unit, areaPlaces), cellOf(priceHeading, row), cellOf(areaHeading, row))
	})
	set(marginHeading, func(r priced, row int) cell {
		c := cell{value: 0.0, style: style{format: percentFormat}}
		if !r.Price.IsZero() {
			c.value = float(r.Profit.Decimal().DivRound(r.Price.Decimal(), 4))
		}
		return c.from(fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,4))", cellOf(priceHeading, row), cellOf(profitHeading, row), cellOf(priceHeading, row)))
	})
	l.write(b, sheet, rows)
}

// rate is a price by the unit of area; its arguments after the two are the cells
// that hold them.
func (b *book) rate(price money.Amount, area decimal.Decimal, priceCell, areaCell string) cell {
	c := number(b.rateOf(price, area), decimalFormat(b.minor()))
	return c.from(fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,%d))", areaCell, priceCell, areaCell, b.minor()))
}

func (b *book) rateOf(price money.Amount, area decimal.Decimal) decimal.Decimal {
	if area.IsZero() {
		return decimal.Zero
	}
	return price.Decimal().DivRound(area, b.minor())
}
