package out

import (
	"github.com/xuri/excelize/v2"
)

// Size of a chart in dots.
const (
	chartWidth  = 660
	chartHeight = 330
	lowChart    = 215
	lowRows     = 12 // that a low chart covers
)

// bars puts a chart of lying bars, first on top, beside the rows from a given
// one on.
func (s *summary) bars(title, names, values string, row int) {
	s.chart(excelize.Bar, title, names, values, 6, row, chartHeight)
}

// columnsChart puts a chart of standing bars below the rows.
func (s *summary) columnsChart(title, names, values string, row int) {
	s.chart(excelize.Col, title, names, values, 1, row, lowChart)
}

// chart draws dark bars from nought on a white ground, with their values.
func (s *summary) chart(kind excelize.ChartType, title, names, values string, col, row int, height uint) {
	if s.book.err != nil {
		return
	}
	zero, gap := 0.0, uint(45)
	here := reference(s.name) + "!"
	s.book.keep(s.book.file.AddChart(s.name, address(col, row), &excelize.Chart{
		Type: kind,
		Series: []excelize.ChartSeries{{
			Name: title, Categories: here + names, Values: here + values,
			Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"595959"}},
		}},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: title, Font: &excelize.Font{Bold: true, Size: 11, Family: typeface, Color: "000000"}}}},
		Legend:    excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{ReverseOrder: kind == excelize.Bar, Font: excelize.Font{Size: 8, Family: typeface, Color: "000000"}},
		YAxis:     excelize.ChartAxis{Minimum: &zero, MajorGridLines: true, Font: excelize.Font{Size: 8, Family: typeface, Color: "000000"}, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0"}},
		PlotArea:  excelize.ChartPlotArea{ShowVal: true},
		Dimension: excelize.ChartDimension{Width: chartWidth, Height: height},
		GapWidth:  &gap,
		Format:    excelize.GraphicOptions{AltText: title, Positioning: "oneCell", OffsetX: 4, OffsetY: 4},
	}))
}
