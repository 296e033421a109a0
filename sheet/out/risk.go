package out

import (
	"fmt"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"laybill/estimate/risk"
)

// riskCost is the column of the risk sheet's figures and costs.
const riskCost = 2

// confidences are the per cent of runs that prices are stated for.
var confidences = []int{10, 20, 30, 40, 50, 60, 70, 80, 90}

// risk writes what the job may cost, on a page of its own and run by run. The
// costs are those of the runs; the target and the price may change, and chances,
// prices and margins follow.
func (b *book) risk(sheet, runs string, ladder ladderRows) {
	set, l := b.result.Job.Settings, b.result.Price.Ladder
	outcome := b.result.Risk
	table := b.riskRuns()
	listed := table.listed(runs, wholePerCents)
	costs := listed.block(tenthHeading(1), runCostHeading)
	s := b.open(sheet, page{widths: []float64{46, 14, 3, 14, 14, 14, 14, 14, 14}, landscape: true, frozen: 1, titles: 1})
	part := func(words string) {
		s.skip(1)
		s.putBands(bands{partBand(words, s.page.widths[:riskCost])})
	}
	s.title("Risk")
	s.note(fmt.Sprintf("The job is played through %d times with the seed %d; the costs are on %s. Hours of all work are off together, with the hours as estimated the likeliest; each supplier's prices rise, and planks and tiles break, anywhere within their range. "+
		"Costs hold overhead as priced and no contingency: it is there to be used up. They are chances, no promises; the price of the job does not rest on them. "+
		"So many runs tell a chance near 50 %% to within 1 %%, one near 2 %% to within 0.3 %%.", risk.Runs, set.Seed, runs))
	part("Ranges of the Job sheet")
	for _, line := range []struct {
		words string
		value decimal.Decimal
	}{{"Fewer hours, at most", set.Risk.FewerHours}, {"More hours, at most", set.Risk.MoreHours}, {"Breakage, at most", set.Risk.Breakage}, {"Breakage bought for", set.BreakagePercent}, {"Rise of purchase prices, at most", set.Risk.PriceRise}} {
		s.put(text(line.words), percent(line.value))
	}
	part("What it means")
	r := riskCells{target: reference(sheet) + "!" + fixed(riskCost, s.row+1), net: reference(sheet) + "!" + fixed(riskCost, s.row+2)}
	s.put(text("Target margin"), percent(set.Risk.TargetMargin).input())
	s.put(text("Price before "+set.TaxName), amount(l.Net).from(ladder.at(ladder.net)))
	chance := func(words, least string, target decimal.Decimal) {
		c := percent(outcome.Chance(l.Net, target))
		c.style.format = "0.0%"
		s.put(text(words), c.from(fmt.Sprintf(`COUNTIF(%s,">"&%s)/%d`, costs, b.rounded(r.net+"*(1-"+least+")"), risk.Steps)).strong())
	}
	chance("Chance that the margin falls below the target", r.target, set.Risk.TargetMargin)
	chance("Chance of a loss", "0", decimal.Zero)
	part("Price that reaches the target in so many of 100 runs")
	s.curve("Price that reaches the target in so many of 100 runs", s.row+1, s.row+len(confidences))
	for _, confidence := range confidences {
		look := plainCount(confidence)
		look.style.align = left
		s.put(look, amount(outcome.Price(confidence, set.Risk.TargetMargin)).from(b.rounded(fmt.Sprintf("%s/(1-%s)", listed.look(fmt.Sprint(confidence), runHeading, runCostHeading), r.target))).strong())
	}
	s.close()
	b.fillRuns(table, runs, r)
}

// riskCells are the target margin and the price, as a formula on any sheet
// writes them.
type riskCells struct{ target, net string }

// Headings of the runs that formulas refer to.
const (
	runHeading     = "In so many of 100 runs"
	runCostHeading = "Cost at most"
)

// The runs are listed in rows of a per cent and columns of a tenth of it.
const (
	wholePerCents = 100
	tenths        = risk.Steps / wholePerCents
)

// tenthHeading is the heading of the costs that some tenths of a per cent less of
// the runs stay within.
func tenthHeading(column int) string {
	return fmt.Sprintf("%s less", decimal.New(int64(tenths-column), -1))
}

// riskRuns is the list of the costs of the runs, by whole per cents.
func (b *book) riskRuns() *list[int] {
	outcome := b.result.Risk
	l := &list[int]{
		title:     "Cost of the runs",
		note:      "What the job costs at most in so many of 100 runs, and in so many tenths less; the price that would reach the target margin, and the margin that the price of the job leaves.",
		dense:     true,
		landscape: true,
		columns:   []column[int]{{heading: runHeading, width: 11, cell: func(i, _ int) cell { return plainCount(i) }}},
	}
	for column := 1; column < tenths; column++ {
		l.columns = append(l.columns, costOfRuns(outcome, tenthHeading(column), column-tenths))
	}
	l.columns = append(l.columns, costOfRuns(outcome, runCostHeading, 0),
		column[int]{heading: "Price for the target", width: 12},
		column[int]{heading: "Margin at our price", width: 10})
	return l
}

// costOfRuns is a column of costs, so many steps off the whole per cents.
func costOfRuns(outcome *risk.Outcome, heading string, off int) column[int] {
	return column[int]{heading: heading, width: 11, cell: func(i, _ int) cell { return amount(outcome.Costs[i*tenths+off-1]) }}
}

// fillRuns writes the list, whose prices and margins follow the target and the
// price.
func (b *book) fillRuns(l *list[int], sheet string, r riskCells) {
	set, net, outcome := b.result.Job.Settings, b.result.Price.Ladder.Net, b.result.Risk
	const cost, price, margin = tenths + 1, tenths + 2, tenths + 3
	l.columns[price-1].cell = func(i, row int) cell {
		return amount(outcome.Price(i, set.Risk.TargetMargin)).from(b.rounded(fmt.Sprintf("%s/(1-%s)", address(cost, row), r.target)))
	}
	l.columns[margin-1].cell = func(i, row int) cell {
		margin := net.Sub(outcome.Cost(i)).Decimal()
		if !net.IsZero() {
			margin = margin.Shift(2).DivRound(net.Decimal(), 2)
		}
		return percent(margin).from(fmt.Sprintf("IF(%s=0,0,ROUND((%s-%s)/%s,4))", r.net, r.net, address(cost, row), r.net))
	}
	rows := make([]int, wholePerCents)
	for i := range rows {
		rows[i] = i + 1
	}
	l.write(b, sheet, rows)
}

// curve draws prices over their confidence, given by rows, beside the first
// rows of the sheet.
func (s *sheet) curve(title string, first, last int) {
	if s.book.err != nil {
		return
	}
	here := reference(s.name) + "!"
	font := excelize.Font{Size: 8, Family: typeface, Color: "000000"}
	s.book.keep(s.book.file.AddChart(s.name, address(4, 3), &excelize.Chart{
		Type: excelize.Line,
		Series: []excelize.ChartSeries{{Name: here + fixed(1, first-1), Categories: here + fixedRange(1, first, last), Values: here + fixedRange(riskCost, first, last),
			Line: excelize.LineOptions{Width: 2}, Marker: excelize.ChartMarker{Symbol: "none"}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"262626"}}}},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: title, Font: &excelize.Font{Bold: true, Size: 11, Family: typeface, Color: "000000"}}}},
		Legend:    excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{Font: font},
		YAxis:     excelize.ChartAxis{MajorGridLines: true, Font: font, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0"}},
		Dimension: excelize.ChartDimension{Width: 520, Height: chartHeight},
		Format:    excelize.GraphicOptions{AltText: title, Positioning: "oneCell"},
	}))
}
