package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/measure"
	"laybill/estimate/purchase"
)

// Headings of the account, in the order of its columns.
const (
	boughtHeading   = "Bought"
	laidHeading     = "Laid"
	breakageHeading = "Breakage"
	atticHeading    = "Attic stock"
	backHeading     = "To go back"
	leftHeading     = "Left over"
)

// materials accounts for all that is bought: what becomes of it.
func (b *book) materials(sheet string) {
	l := list[purchase.Material]{
		title: "Materials",
		note: "What becomes of everything bought. Breakage is for planks that break; attic stock stays with the client. To go back: unopened packs of returnable products, as on Returns. " +
			"Left over: whole pieces or units that nothing uses. Waste: what is cut off or spilt.",
		landscape: true,
	}
	amounts := func(of func(purchase.Material) int64) func(purchase.Material, int) cell {
		return func(m purchase.Material, _ int) cell { return number(b.inUnits(m, of(m)), quantityFormat) }
	}
	pieces := func(of func(purchase.Material) int64) func(purchase.Material, int) cell {
		return func(m purchase.Material, _ int) cell {
			if size := purchase.PieceSize(m.Product); size > 0 && of(m) > 0 {
				return count(int(of(m) / size))
			}
			return cell{}
		}
	}
	l.columns = []column[purchase.Material]{
		{heading: "Product", width: 14, cell: func(m purchase.Material, _ int) cell { return text(m.Product.Code) }},
		{heading: "Description", width: 36, cell: func(m purchase.Material, _ int) cell { return text(m.Product.Description) }},
		{heading: "Unit", width: 8, cell: func(m purchase.Material, _ int) cell { return text(b.materialUnit(m)) }},
		{heading: boughtHeading, width: 12, cell: amounts(func(m purchase.Material) int64 { return m.Bought })},
		{heading: laidHeading, width: 12, cell: amounts(func(m purchase.Material) int64 { return m.Laid })},
		{heading: breakageHeading, width: 11, cell: amounts(purchase.Material.Breakage)},
		{heading: atticHeading, width: 11, cell: amounts(func(m purchase.Material) int64 { return m.Attic })},
		{heading: backHeading, width: 11, cell: amounts(func(m purchase.Material) int64 { return m.Returned })},
		{heading: leftHeading, width: 11, cell: amounts(func(m purchase.Material) int64 { return m.LeftOver })},
		{heading: "Waste", width: 11},
		{heading: "Breakage, pieces", width: 12, cell: pieces(purchase.Material.Breakage)},
		{heading: "Attic, pieces", width: 10, cell: pieces(func(m purchase.Material) int64 { return m.Attic })},
		{heading: "Left over, pieces", width: 12, cell: pieces(func(m purchase.Material) int64 { return m.LeftOver })},
	}
	at := l.listed(sheet, len(b.result.Materials))
	l.columns[at.number("Waste")-1].cell = func(m purchase.Material, row int) cell {
		formula := fmt.Sprintf("%s%d", at.letter(boughtHeading), row)
		waste := b.inUnits(m, m.Bought)
		for _, part := range []struct {
			heading string
			amount  int64
		}{{laidHeading, m.Laid}, {breakageHeading, m.Breakage()}, {atticHeading, m.Attic}, {backHeading, m.Returned}, {leftHeading, m.LeftOver}} {
			formula += fmt.Sprintf("-%s%d", at.letter(part.heading), row)
			waste = waste.Sub(b.inUnits(m, part.amount))
		}
		return number(waste, quantityFormat).from(fmt.Sprintf("ROUND(%s,%d)", formula, areaPlaces))
	}
	l.write(b, sheet, b.result.Materials)
}

// inUnits is an amount of a material in the unit it is shown in.
func (b *book) inUnits(m purchase.Material, amount int64) decimal.Decimal {
	switch m.Unit {
	case purchase.ByArea:
		return measure.Area(amount).Decimal(b.result.Job.Settings.AreaUnit, areaPlaces)
	case purchase.ByLength:
		return measure.Length(amount).Decimal(b.runUnit()).Round(areaPlaces)
	}
	return decimal.NewFromInt(amount)
}

func (b *book) materialUnit(m purchase.Material) string {
	switch m.Unit {
	case purchase.ByArea:
		return b.result.Job.Settings.AreaUnit.String()
	case purchase.ByLength:
		return b.runUnit().String()
	}
	return m.Product.SoldBy.String()
}
