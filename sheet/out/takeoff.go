package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/money"
)

// Headings of the takeoff that formulas refer to.
const (
	timesHeading      = "Times"
	ourAreaHeading    = "Our area"
	givenAreaHeading  = "Takeoff area"
	differenceHeading = "Difference"
	offHeading        = "Off"
	roomsPriceHeading = "Price of the rooms"
	givenPriceHeading = "On takeoff areas"
	verdictHeading    = "Verdict"
)

// takeoff sets the job's rooms beside the takeoff of others. Areas of the
// takeoff and the tolerance may be changed, and the verdicts and prices follow.
func (b *book) takeoff(sheet string, ladder ladderRows) {
	rows := b.result.CompareTakeoff()
	t := &takeoffFormulas{b: b, ladder: ladder, unit: b.result.Job.Settings.AreaUnit.String()}
	l := list[estimate.Compared]{
		title: "Takeoff",
		note: "Rooms as laid beside the takeoff. Times counts the apartments of the type. Price on takeoff areas: the rooms' own price by area, or the job's price by area for a room that the job does not have. " +
			"Purchases, hours and layouts are those of the rooms as laid. The tolerance stands above the verdicts.",
		landscape: true,
	}
	runs := b.runUnit()
	l.columns = []column[estimate.Compared]{
		{heading: "Apartment type", width: 12, cell: func(c estimate.Compared, _ int) cell { return text(c.Type).strong() }},
		{heading: "Room", width: 14, cell: func(c estimate.Compared, _ int) cell { return text(c.Name) }},
		{heading: timesHeading, width: 7, cell: func(c estimate.Compared, _ int) cell { return count(c.Times) }},
		{heading: ourAreaHeading, width: 11, above: text(t.unit), cell: func(c estimate.Compared, _ int) cell { return t.area(c, true) }},
		{heading: givenAreaHeading, width: 11, above: text(t.unit), cell: func(c estimate.Compared, _ int) cell { return t.area(c, false).input() }},
		{heading: differenceHeading, width: 11, cell: t.difference},
		{heading: offHeading, width: 9, cell: t.off},
		{heading: "Difference in all", width: 11, total: number(t.inAll(rows), "+#,##0.00;-#,##0.00;0.00"), places: estimate.AreaPlaces, cell: t.differenceInAll},
		{heading: verdictHeading, width: 17, above: percent(b.result.Job.Settings.TakeoffTolerance).input(), cell: t.verdict},
		{heading: "Our perimeter", width: 10, above: text(runs.String()), cell: func(c estimate.Compared, _ int) cell {
			if c.Ours == nil {
				return number(decimal.Zero, "#,##0.00;;")
			}
			return number(c.Ours.Perimeter.Decimal(runs).Round(2), "#,##0.00")
		}},
		{heading: "Takeoff perimeter", width: 10, above: text(runs.String()), cell: func(c estimate.Compared, _ int) cell {
			if c.Given == nil || c.Given.Perimeter == 0 {
				return number(decimal.Zero, "#,##0.00;;")
			}
			return number(c.Given.Perimeter.Decimal(runs).Round(2), "#,##0.00")
		}},
		{heading: "Our openings", width: 9, cell: func(c estimate.Compared, _ int) cell {
			if c.Ours == nil {
				return cell{}
			}
			return count(len(c.Ours.Openings))
		}},
		{heading: "Takeoff openings", width: 9, cell: func(c estimate.Compared, _ int) cell {
			if c.Given == nil || c.Given.Openings == 0 {
				return cell{}
			}
			return count(c.Given.Openings)
		}},
		{heading: roomsPriceHeading, width: 13, total: amount(t.prices(rows, false)), places: b.minor(), cell: t.price},
		{heading: givenPriceHeading, width: 13, total: amount(t.prices(rows, true)), places: b.minor(), cell: t.givenPrice},
		{heading: "Effect", width: 12, total: amount(t.prices(rows, true).Sub(t.prices(rows, false))), places: b.minor(), cell: t.effect},
		{heading: "Source", width: 22, cell: func(c estimate.Compared, _ int) cell {
			if c.Given == nil {
				return cell{}
			}
			return text(c.Given.Source).in(plainStyle.wrapped())
		}},
	}
	t.at = l.listed(sheet, len(rows))
	l.write(b, sheet, rows)
}

// takeoffFormulas are the figures of one room; at is known before any is
// written.
type takeoffFormulas struct {
	b      *book
	ladder ladderRows
	at     listing
	unit   string
}

func (t *takeoffFormulas) of(heading string, row int) string {
	return fmt.Sprintf("%s%d", t.at.letter(heading), row)
}

func (t *takeoffFormulas) areas(c estimate.Compared) (ours, given decimal.Decimal) {
	return c.Areas(t.b.result.Job.Settings.AreaUnit)
}

// area shows nothing for a room that is not there.
func (t *takeoffFormulas) area(c estimate.Compared, ours bool) cell {
	own, given := t.areas(c)
	if ours {
		return number(own, "#,##0.00;;")
	}
	return number(given, "#,##0.00;;")
}

func (t *takeoffFormulas) difference(c estimate.Compared, row int) cell {
	own, given := t.areas(c)
	return number(given.Sub(own), "+#,##0.00;-#,##0.00;0.00").from(fmt.Sprintf("ROUND(%s-%s,%d)", t.of(givenAreaHeading, row), t.of(ourAreaHeading, row), estimate.AreaPlaces))
}

// differenceInAll is the room's difference in all apartments of its type.
func (t *takeoffFormulas) differenceInAll(c estimate.Compared, row int) cell {
	return number(t.inAll([]estimate.Compared{c}), "+#,##0.00;-#,##0.00;0.00").from(fmt.Sprintf("ROUND(%s*%s,%d)", t.of(timesHeading, row), t.of(differenceHeading, row), estimate.AreaPlaces))
}

// inAll adds the differences up over all apartments.
func (t *takeoffFormulas) inAll(rows []estimate.Compared) decimal.Decimal {
	total := decimal.Zero
	for _, c := range rows {
		own, given := t.areas(c)
		total = total.Add(given.Sub(own).Mul(decimal.NewFromInt(int64(c.Times))))
	}
	return total
}

// off is how far the takeoff is off our area, as a share of it.
func (t *takeoffFormulas) off(c estimate.Compared, row int) cell {
	out := cell{value: float(c.Off(t.b.result.Job.Settings.AreaUnit)), style: style{format: "+0.0%;-0.0%;0.0%"}}
	return out.from(fmt.Sprintf("IF(%s=0,0,ROUND((%s-%s)/%s,4))", t.of(ourAreaHeading, row), t.of(givenAreaHeading, row), t.of(ourAreaHeading, row), t.of(ourAreaHeading, row)))
}

func (t *takeoffFormulas) verdict(c estimate.Compared, row int) cell {
	limit := fixed(t.at.number(verdictHeading), listTotals)
	return text(c.Verdict(t.b.result.Job.Settings)).from(fmt.Sprintf(`IF(%s=0,"only in takeoff",IF(%s=0,"not in takeoff",IF(ABS(%s)>%s,"differs","within")))`,
		t.of(ourAreaHeading, row), t.of(givenAreaHeading, row), t.of(offHeading, row), limit))
}

func (t *takeoffFormulas) price(c estimate.Compared, _ int) cell {
	return t.b.scaled(c.Price, t.b.result.Price.Ladder.Net, t.ladder.at(t.ladder.net))
}

func (t *takeoffFormulas) givenPrice(c estimate.Compared, row int) cell {
	worth := amount(c.PriceOfTakeoff(t.b.result))
	if c.Ours == nil {
		return worth.from(t.b.rounded(fmt.Sprintf("%s*%s*%s/%s", t.ladder.at(t.ladder.net), t.of(givenAreaHeading, row), t.of(timesHeading, row), t.b.result.FloorArea())))
	}
	return worth.from(fmt.Sprintf("IF(%s=0,0,%s)", t.of(ourAreaHeading, row),
		t.b.rounded(fmt.Sprintf("%s*%s/%s", t.of(roomsPriceHeading, row), t.of(givenAreaHeading, row), t.of(ourAreaHeading, row)))))
}

func (t *takeoffFormulas) effect(c estimate.Compared, row int) cell {
	return amount(c.PriceOfTakeoff(t.b.result).Sub(c.Price)).from(t.b.rounded(t.of(givenPriceHeading, row) + "-" + t.of(roomsPriceHeading, row)))
}

// prices adds up the rooms' prices, or those on takeoff areas.
func (t *takeoffFormulas) prices(rows []estimate.Compared, given bool) money.Amount {
	total := t.b.result.Job.Settings.Currency.Zero()
	for _, c := range rows {
		if given {
			total = total.Add(c.PriceOfTakeoff(t.b.result))
		} else {
			total = total.Add(c.Price)
		}
	}
	return total
}
