package out

import (
	"github.com/xuri/excelize/v2"
)

// Size of a chart in dots.
const (
	chartWidth  = 550
	chartHeight = 295
	halfChart   = 195 // beside the upper rows of the ladder
	restChart   = 140 // beside its lower rows
	halfRows    = 9   // that half a chart covers, below a heading
	bothRows    = 16  // that both do
	chartRows   = 15  // that a whole one covers
	lowChart    = 215
	narrowChart = 350
)

// bars is a chart of dark bars from nought on a white ground, with their values.
type bars struct {
	title         string
	lying         bool   // first on top
	name          string // the cell of the heading: programs take no plain text for it
	names, values string // ranges
	labels        string // format of the values
	col, row      int    // upper left corner
	width, height uint
}

// Formats of the values: whole units of money, since the table beside has the rest,
// or with decimals.
const (
	wholeLabels = "#,##0"
	fineLabels  = "#,##0.00"
)

// moneyBars puts a chart of the ladder's column beside the rows from a given one on.
func (s *summary) moneyBars(title string, first, last int, height uint) {
	here := reference(s.name) + "!"
	s.chart(bars{title: title, lying: true, name: here + fixed(1, first-1), names: here + fixedRange(1, first, last), values: here + fixedRange(ladderAmount, first, last), labels: wholeLabels,
		col: 6, row: first - 1, width: chartWidth, height: height})
}

// byTypes completes a chart of a column of the division by apartment types and puts
// it; none where there is one type.
func (s *summary) byTypes(values int, c bars) {
	types := s.ladder.types
	if types.last <= types.first {
		return
	}
	there := reference(types.sheet) + "!"
	c.name = there + fixed(values, types.first-1)
	c.names, c.values = there+fixedRange(1, types.first, types.last), there+fixedRange(values, types.first, types.last)
	s.chart(c)
}

func (s *summary) chart(c bars) {
	if s.book.err != nil {
		return
	}
	kind, zero, gap := excelize.Col, 0.0, uint(45)
	if c.lying {
		kind = excelize.Bar
	}
	letters := func(size float64) excelize.Font { return excelize.Font{Size: size, Family: typeface, Color: "000000"} }
	headline := letters(11)
	headline.Bold = true
	s.book.keep(s.book.file.AddChart(s.name, address(c.col, c.row), &excelize.Chart{
		Type: kind,
		Series: []excelize.ChartSeries{{
			Name: c.name, Categories: c.names, Values: c.values,
			Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"595959"}},
		}},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: c.title, Font: &headline}}},
		Legend:    excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{ReverseOrder: c.lying, Font: letters(8)},
		YAxis:     excelize.ChartAxis{Minimum: &zero, MajorGridLines: true, Font: letters(8), NumFmt: excelize.ChartNumFmt{CustomNumFmt: wholeLabels}},
		PlotArea:  excelize.ChartPlotArea{ShowVal: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: c.labels}},
		Dimension: excelize.ChartDimension{Width: c.width, Height: c.height},
		GapWidth:  &gap,
		Format:    excelize.GraphicOptions{AltText: c.title, Positioning: "oneCell", OffsetX: 4, OffsetY: 4},
	}))
}
