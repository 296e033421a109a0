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

// risk writes what the job may cost. The costs are those of the runs; the target
// and the price may change, and chances, prices and margins follow.
func (b *book) risk(sheet string, ladder ladderRows) {
	set, l := b.result.Job.Settings, b.result.Price.Ladder
	outcome := b.result.Risk
	s := b.open(sheet, page{widths: []float64{46, 14, 19, 19, 3, 12, 12, 12, 12, 12}, landscape: true, frozen: 1, titles: 1})
	s.title("Risk")
	s.note(fmt.Sprintf("The job is played through %d times with the seed %d. Hours of all work are off together, with the hours as estimated the likeliest; each supplier's prices rise, and planks break, anywhere within their range. "+
		"Costs hold overhead as priced and no contingency: it is there to be used up. They are chances, no promises; the price of the job does not rest on them.", risk.Runs, set.Seed))
	s.skip(1)
	s.part("Ranges of the Job sheet")
	for _, line := range []struct {
		words string
		value decimal.Decimal
	}{{"Fewer hours, at most", set.Risk.FewerHours}, {"More hours, at most", set.Risk.MoreHours}, {"Breakage, at most", set.Risk.Breakage}, {"Breakage bought for", set.BreakagePercent}, {"Rise of purchase prices, at most", set.Risk.PriceRise}} {
		s.put(text(line.words), percent(line.value))
	}
	s.skip(1)
	s.part("What it means")
	target, net := fixed(riskCost, s.row+1), fixed(riskCost, s.row+2)
	first := s.row + 2 + 3 + len(confidences) + 3 + 1 // below the lines here, a gap, the heading of the part and that of the table
	costs := fixedRange(riskCost, first, first+risk.Steps-1)
	s.put(text("Target margin"), percent(set.Risk.TargetMargin).input())
	s.put(text("Price before "+set.TaxName), amount(l.Net).from(ladder.at(ladder.net)))
	chance := func(words, least string, target decimal.Decimal) {
		c := percent(decimal.NewFromInt(int64(outcome.Chance(l.Net, target))))
		c.style.format = "0%"
		s.put(text(words), c.from(fmt.Sprintf(`COUNTIF(%s,">"&%s)/%d`, costs, b.rounded(net+"*(1-"+least+")"), risk.Steps)).strong())
	}
	chance("Chance that the margin falls below the target", target, set.Risk.TargetMargin)
	chance("Chance of a loss", "0", decimal.Zero)
	s.curve("Price that reaches the target in so many of 100 runs", s.row+2, s.row+1+len(confidences))
	s.put(text("Price that reaches the target in so many of 100 runs").strong())
	for _, confidence := range confidences {
		look := plainCount(confidence)
		look.style.align = left
		s.put(look, amount(outcome.Price(confidence, set.Risk.TargetMargin)).from(b.rounded(fmt.Sprintf("INDEX(%s,%d)/(1-%s)", costs, confidence, target))).strong())
	}
	s.skip(1)
	s.part("Cost of the runs")
	s.headings(0, "In so many of 100 runs", "Cost at most", "Price for the target", "Margin at our price")
	for i, cost := range outcome.Costs {
		row := s.row + 1
		margin := l.Net.Sub(cost).Decimal()
		if !l.Net.IsZero() {
			margin = margin.Shift(2).DivRound(l.Net.Decimal(), 2)
		}
		s.put(plainCount(i+1), amount(cost), amount(cost.WithMargin(set.Risk.TargetMargin)).from(b.rounded(fmt.Sprintf("%s/(1-%s)", address(riskCost, row), target))),
			percent(margin).from(fmt.Sprintf("IF(%s=0,0,ROUND((%s-%s)/%s,4))", net, net, address(riskCost, row), net)))
	}
	s.close()
}

// curve draws prices over their confidence, given by rows, beside the first
// rows of the sheet.
func (s *sheet) curve(title string, first, last int) {
	if s.book.err != nil {
		return
	}
	here := reference(s.name) + "!"
	font := excelize.Font{Size: 8, Family: typeface, Color: "000000"}
	s.book.keep(s.book.file.AddChart(s.name, address(6, 4), &excelize.Chart{
		Type: excelize.Line,
		Series: []excelize.ChartSeries{{Name: title, Categories: here + fixedRange(1, first, last), Values: here + fixedRange(riskCost, first, last),
			Line: excelize.LineOptions{Width: 2}, Marker: excelize.ChartMarker{Symbol: "none"}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"262626"}}}},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: title, Font: &excelize.Font{Bold: true, Size: 11, Family: typeface, Color: "000000"}}}},
		Legend:    excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{Font: font},
		YAxis:     excelize.ChartAxis{MajorGridLines: true, Font: font, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0"}},
		Dimension: excelize.ChartDimension{Width: 520, Height: chartHeight},
		Format:    excelize.GraphicOptions{AltText: title, Positioning: "oneCell"},
	}))
}
