package out

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/price"
)

// variant is the job itself or one of its options.
type variant struct {
	name, note   string
	apartments   int
	base         bool
	ladder       price.Ladder
	hours, packs decimal.Decimal
}

// Headings of the options that formulas refer to.
const (
	materialHeading    = "Material"
	labourHeading      = "Labour"
	otherHeading       = "Other costs"
	contingencyHeading = "Contingency"
	overheadHeading    = "Overhead"
	variantCost        = "Cost"
	profitHeading      = "Profit"
)

// options compares the job with each of its options. An option's orders, wages
// and other costs are those of the whole job laid and bought with it; the
// rates on top are the summary's.
func (b *book) options(sheet string, ladder ladderRows) {
	rows := b.variants()
	l := list[variant]{
		title:     "Options",
		note:      "Each option is laid, ordered and priced as a whole job. Material, labour and other costs of an option are as priced and may be changed (boxed, slanted); the rates on top are those of Summary. The first row follows Summary.",
		landscape: true,
	}
	o := optionFormulas{b: b, ladder: ladder}
	l.columns = []column[variant]{
		{heading: "Option", width: 24, cell: func(v variant, _ int) cell { return text(v.name).in(plainStyle.wrapped()).strong() }},
		{heading: "Apartments", width: 13, cell: func(v variant, _ int) cell { return count(v.apartments) }},
		{heading: materialHeading, width: 12, cell: func(v variant, _ int) cell {
			return o.prime(v.base, amount(v.ladder.Material), ladder.material)
		}},
		{heading: labourHeading, width: 12, cell: func(v variant, _ int) cell { return o.prime(v.base, amount(v.ladder.Labour), ladder.labour) }},
		{heading: otherHeading, width: 12, cell: func(v variant, _ int) cell { return o.prime(v.base, amount(v.ladder.Other), ladder.other) }},
		{heading: contingencyHeading, width: 12, cell: func(v variant, row int) cell { return o.contingency(v, row) }},
		{heading: overheadHeading, width: 12, cell: func(v variant, row int) cell { return o.overhead(v, row) }},
		{heading: variantCost, width: 12, cell: func(v variant, row int) cell { return o.cost(v, row) }},
		{heading: profitHeading, width: 12, cell: func(v variant, row int) cell { return o.profit(v, row) }},
		{heading: priceHeading, width: 13, cell: func(v variant, row int) cell { return o.price(v, row) }},
		{heading: "Margin", width: 9, cell: func(v variant, row int) cell { return o.margin(v, row) }},
		{heading: "Difference", width: 12, cell: func(v variant, row int) cell { return o.difference(v, row) }},
		{heading: hoursHeading, width: 9, cell: func(v variant, _ int) cell { return hours(v.hours) }},
		{heading: packsHeading, width: 8, cell: func(v variant, _ int) cell { return number(v.packs, "#,##0.##") }},
		{heading: "Note", width: 30, cell: func(v variant, _ int) cell { return text(v.note).in(plainStyle.wrapped()) }},
	}
	o.at = l.listed(sheet, len(rows))
	l.write(b, sheet, rows)
}

func (b *book) variants() []variant {
	r := b.result
	rows := []variant{{name: "The job as it is", base: true, apartments: len(r.Job.Apartments), ladder: r.Price.Ladder, hours: r.Hours(), packs: r.Packs()}}
	for _, a := range r.Alternatives {
		rows = append(rows, variant{name: a.Option.Name, note: a.Option.Note, apartments: a.Apartments, ladder: a.Ladder, hours: a.Hours, packs: a.Packs})
	}
	return rows
}

// optionFormulas climb the ladder of one row.
type optionFormulas struct {
	b      *book
	ladder ladderRows
	at     listing
}

func (o optionFormulas) of(heading string, row int) string {
	return fmt.Sprintf("%s%d", o.at.letter(heading), row)
}

// rate is a per cent of the summary's ladder.
func (o optionFormulas) rate(row int) string {
	return reference(o.ladder.sheet) + "!" + fixed(ladderPercent, row)
}

// prime is a cost as ordered or paid: the summary's for the job itself.
func (o optionFormulas) prime(base bool, c cell, row int) cell {
	if base {
		return c.from(o.ladder.at(row))
	}
	return c.input()
}

func (o optionFormulas) contingency(v variant, row int) cell {
	sum := ""
	for _, part := range []struct {
		heading string
		rate    int
	}{{materialHeading, o.ladder.materialContingency}, {labourHeading, o.ladder.labourContingency}, {otherHeading, o.ladder.otherContingency}} {
		sum += "+" + o.b.rounded(o.of(part.heading, row)+"*"+o.rate(part.rate))
	}
	return amount(v.ladder.Contingency).from(sum[1:])
}

func (o optionFormulas) overhead(v variant, row int) cell {
	return amount(v.ladder.Overhead).from(o.b.rounded(fmt.Sprintf("SUM(%s:%s)*%s", o.of(materialHeading, row), o.of(contingencyHeading, row), o.rate(o.ladder.overhead))))
}

func (o optionFormulas) cost(v variant, row int) cell {
	return amount(v.ladder.Cost).from(o.b.rounded(fmt.Sprintf("SUM(%s:%s)", o.of(materialHeading, row), o.of(overheadHeading, row))))
}

func (o optionFormulas) price(v variant, row int) cell {
	step := ""
	if o.b.result.Job.Settings.PriceStep.Sign() > 0 {
		step = o.ladder.at(o.ladder.step)
	}
	return amount(v.ladder.Net).from(o.b.priceFormula(o.of(variantCost, row), o.rate(o.ladder.profit), step)).strong()
}

func (o optionFormulas) profit(v variant, row int) cell {
	return amount(v.ladder.Profit).from(o.b.rounded(o.of(priceHeading, row) + "-" + o.of(variantCost, row)))
}

func (o optionFormulas) margin(v variant, row int) cell {
	return percent(v.ladder.Margin).from(fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,4))", o.of(priceHeading, row), o.of(profitHeading, row), o.of(priceHeading, row)))
}

// difference is from the price of the job as it is.
func (o optionFormulas) difference(v variant, row int) cell {
	c := amount(v.ladder.Net.Sub(o.b.result.Price.Ladder.Net)).from(o.b.rounded(o.of(priceHeading, row) + "-" + o.ladder.at(o.ladder.net)))
	c.style.format = "+" + c.style.format + ";-" + c.style.format + ";0"
	return c
}
