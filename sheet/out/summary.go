package out

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

// sources are the lists that the summary adds up.
type sources struct {
	lines, totals listing
	labour        labourSheets
	extras        listing
}

// Columns of the summary.
var summaryWidths = []float64{44, 12, 13, 13, 13, 13, 13, 13, 13, 13, 11}

// summary is the owner's page.
type summary struct {
	*sheet
	from   sources
	ladder ladderRows
}

// Heights in points of a table's headings and rows.
const (
	summaryHead = 27
	summaryRow  = 13.5
	ladderRow   = 14
)

// together begins a page when a table so high would be torn on this one.
func (s *summary) together(height float64) { s.keepTogether(bands{{height: height}}, nil) }

// summary writes the owner's page and says where its prices stand.
func (b *book) summary(name string, from sources) ladderRows {
	s := &summary{sheet: b.open(name, page{widths: summaryWidths, landscape: true, frozen: 3, titles: 1}), from: from}
	set := b.result.Job.Settings
	s.title("Summary: " + set.Name)
	s.put(text(strings.Join(notEmpty(set.Number, set.Client, set.Site, dateWords(set)), "  ·  ")))
	s.put(text("Amounts in " + set.Currency.Code + ". Boxed, slanted cells may be changed and everything follows; prices, quantities, wages and hours are changed on Orders, Trades, Operations and Other costs.").in(noteStyle))
	s.skip(1)
	s.climb()
	s.skip(1)
	s.made()
	s.gap()
	s.breakPage()
	s.planks()
	s.racked()
	s.groups(groupings)
	s.byTypes(groupProfit, bars{title: "Margin by apartment type: profit in " + set.Currency.Code, labels: wholeLabels,
		col: 6, row: s.ladder.material + halfRows, width: chartWidth, height: restChart})
	s.close()
	return s.ladder
}

// breakdown writes what else the price and the cost divide into.
func (b *book) breakdown(name string, ladder ladderRows, from sources) {
	s := &summary{sheet: b.open(name, page{widths: summaryWidths, landscape: true, frozen: 2, titles: 1}), from: from, ladder: ladder}
	s.title("Cost breakdown")
	s.put(text("Amounts in " + b.result.Job.Settings.Currency.Code + ". They follow Summary and the sheets of orders, labour and other costs.").in(noteStyle))
	s.gap()
	s.groups([]grouping{byFloor})
	beside := s.row + 1
	s.suppliers()
	s.categories()
	s.byTypes(groupRate, bars{title: "Price per " + b.result.Job.Settings.AreaUnit.String() + " by apartment type", labels: fineLabels,
		col: 8, row: beside, width: narrowChart, height: lowChart})
	s.close()
}

// gap leaves a narrow row blank.
func (s *summary) gap() { s.putBands(bands{gapBand()}) }

func notEmpty(words ...string) []string {
	var kept []string
	for _, w := range words {
		if w != "" {
			kept = append(kept, w)
		}
	}
	return kept
}

func dateWords(s job.Settings) string {
	if s.Date.IsZero() {
		return ""
	}
	return s.Date.Format("2006-01-02")
}

// ladderRows says where the steps of the ladder stand, the same column and one row
// each, and the apartment types.
type ladderRows struct {
	sheet                                         string
	material, labour, other                       int
	materialContingency, labourContingency        int
	otherContingency, overhead, cost, profit, net int
	tax, gross, step                              int
	types                                         listing // the rows of the apartment types, if any
}

// Columns of the ladder.
const (
	ladderPercent = 2
	ladderAmount  = 3
	ladderShare   = 4
)

// at is a step's amount as a formula on any sheet writes it.
func (l ladderRows) at(row int) string { return reference(l.sheet) + "!" + fixed(ladderAmount, row) }

// amountCell is a step's amount as a formula on this sheet writes it.
func (s *summary) amountCell(row int) string {
	if s.name == s.ladder.sheet {
		return fixed(ladderAmount, row)
	}
	return s.ladder.at(row)
}

// step writes one step of the ladder and gives its row.
func (s *summary) step(words string, rate, sum cell, strong bool) int {
	row := s.row + 1
	cells := make([]cell, ladderShare)
	cells[0], cells[ladderPercent-1], cells[ladderAmount-1] = text(words), rate, sum
	if net := s.book.result.Price.Ladder.Net; !net.IsZero() {
		part := sum.value.(float64) / float(net.Decimal())
		cells[ladderShare-1] = cell{value: round4(part), style: style{format: "0.0%"}}
		cells[ladderShare-1].formula = fmt.Sprintf("IF(N(%s)=0,0,ROUND(%s/%s,4))", s.netCell(), address(ladderAmount, row), s.netCell())
	}
	if strong {
		for i := range cells {
			cells[i].style.bold, cells[i].style.edge = true, ruleAbove
		}
	}
	s.putHigh(ladderRow, cells...)
	return row
}

// netCell is where the price before tax will stand: the ladder has a fixed
// number of rows.
func (s *summary) netCell() string { return fixed(ladderAmount, s.ladder.net) }

// climb writes the ladder from cost to price.
func (s *summary) climb() {
	b, set, l := s.book, s.book.result.Job.Settings, s.book.result.Price.Ladder
	s.ladder.sheet = s.name
	s.ladderHeading()
	first := s.row + 1
	stepped := set.PriceStep.Sign() > 0
	s.ladder.net = first + 9
	s.ladder.step = first + 12
	s.ladder.material = s.step("Material", cell{}, amount(l.Material).from(s.materialSum()), false)
	s.ladder.labour = s.step("Labour", cell{}, amount(l.Labour).from(b.rounded("SUM("+s.from.labour.lines.column(costHeading)+")")), false)
	s.ladder.other = s.step("Other costs", cell{}, amount(l.Other).from(b.rounded("SUM("+s.from.extras.column("Amount")+")")), false)
	s.ladder.materialContingency = s.share("Contingency on material", set.MaterialContingency, l.MaterialContingency, s.ladder.material)
	s.ladder.labourContingency = s.share("Contingency on labour", set.LabourContingency, l.LabourContingency, s.ladder.labour)
	s.ladder.otherContingency = s.share("Contingency on other costs", set.OtherContingency, l.OtherContingency, s.ladder.other)
	above := fmt.Sprintf("SUM(%s:%s)", address(ladderAmount, s.ladder.material), address(ladderAmount, s.ladder.otherContingency))
	row := s.row + 1
	s.ladder.overhead = s.step("Overhead", percent(set.OverheadPercent).input(), amount(l.Overhead).from(b.rounded(fmt.Sprintf("%s*%s", above, address(ladderPercent, row)))), false)
	s.ladder.cost = s.step("Cost", cell{}, amount(l.Cost).from(b.rounded(fmt.Sprintf("%s+%s", above, address(ladderAmount, s.ladder.overhead)))), true)
	s.ladder.profit = s.step("Profit, "+set.ProfitBasis.String(), percent(set.ProfitPercent).input(), amount(l.Profit).from(b.rounded(fmt.Sprintf("%s-%s", s.netCell(), address(ladderAmount, s.ladder.cost)))), false)
	s.step("Price before "+set.TaxName, cell{}, amount(l.Net).from(b.priceFormula(address(ladderAmount, s.ladder.cost), address(ladderPercent, s.ladder.profit), s.stepCell(stepped))), true)
	s.ladder.tax = s.share(set.TaxName, set.TaxPercent, l.Tax, s.ladder.net)
	s.ladder.gross = s.step("Price with "+set.TaxName, cell{}, amount(l.Gross).from(b.rounded(fmt.Sprintf("%s+%s", s.netCell(), address(ladderAmount, s.ladder.tax)))), true)
	if stepped {
		s.putHigh(ladderRow, text("Price is a multiple of"), cell{}, amount(set.PriceStep).input())
	}
	if set.RetentionPercent.Sign() > 0 {
		s.share("Retention, not deducted", set.RetentionPercent, l.Retention, s.ladder.gross)
	}
	s.ratio("Margin: profit of price", l.Margin, s.ladder.net)
	s.ratio("Markup: profit of cost", l.Markup, s.ladder.cost)
	s.moneyBars("From cost to price", first, s.ladder.net, halfChart)
	s.row = max(s.row, first+bothRows)
}

func (s *summary) ladderHeading() {
	cells := []cell{text("From cost to price"), rightText("Per cent"), rightText(s.book.result.Job.Settings.Currency.Code), rightText("Of price")}
	for i := range cells {
		cells[i].style.bold, cells[i].style.edge, cells[i].style.shaded = true, ruleBelow, true
	}
	s.putHigh(17, cells...)
}

// share writes a step that is a per cent of another.
func (s *summary) share(words string, rate decimal.Decimal, sum money.Amount, of int) int {
	formula := s.book.rounded(fmt.Sprintf("%s*%s", address(ladderAmount, of), address(ladderPercent, s.row+1)))
	return s.step(words, percent(rate).input(), amount(sum).from(formula), false)
}

func (s *summary) ratio(words string, value decimal.Decimal, of int) {
	formula := fmt.Sprintf("IF(%s=0,0,ROUND(%s/%s,4))", address(ladderAmount, of), address(ladderAmount, s.ladder.profit), address(ladderAmount, of))
	s.putHigh(ladderRow, text(words), percent(value).from(formula).strong())
}

func (s *summary) materialSum() string {
	sum := "SUM(" + s.from.totals.column(netHeading) + ")"
	if s.book.result.Job.Settings.PurchaseTaxIsCost {
		sum += "+SUM(" + s.from.totals.column(taxHeading) + ")"
	}
	return s.book.rounded(sum)
}

// priceFormula raises the cost by the profit and takes it to the price step;
// below cost, to the first step that covers it. Its arguments are cells; step is
// "" when the price is not rounded to one.
func (b *book) priceFormula(cost, rate, step string) string {
	raised := b.rounded(fmt.Sprintf("%s/(1-%s)", cost, rate))
	if b.result.Job.Settings.ProfitBasis == job.OnCost {
		raised = b.rounded(fmt.Sprintf("%s*(1+%s)", cost, rate))
	}
	if step == "" {
		return raised
	}
	nearest := b.rounded(fmt.Sprintf("ROUND(%s/%s,0)*%s", raised, step, step))
	covering := b.rounded(fmt.Sprintf("ROUNDUP(ROUND(%s/%s,8),0)*%s", cost, step, step))
	return fmt.Sprintf("IF(N(%s)<=0,%s,IF(ROUND(%s-%s,%d)>=0,%s,%s))", step, raised, nearest, cost, b.minor(), nearest, covering)
}

// stepCell is where the price step will stand; "" when there is none.
func (s *summary) stepCell(stepped bool) string {
	if !stepped {
		return ""
	}
	return address(ladderAmount, s.ladder.step)
}

// rounded is a formula rounded to the minor unit.
func (b *book) rounded(formula string) string { return fmt.Sprintf("ROUND(%s,%d)", formula, b.minor()) }

func round4(f float64) float64 {
	d := decimal.NewFromFloat(f).Round(4)
	return float(d)
}

// fixedRange is a column's cells from one row to another, on this sheet.
func fixedRange(col, first, last int) string { return fixed(col, first) + ":" + fixed(col, last) }
