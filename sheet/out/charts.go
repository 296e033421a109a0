package out

import (
	"github.com/xuri/excelize/v2"
)

// Size of a chart in dots.
const (
	chartWidth  = 660
	chartHeight = 295
	chartRows   = 15 // that such a chart covers, below a heading
	lowChart    = 215
	narrowChart = 350
)

// bars puts a chart of lying bars, first on top, beside the rows from a given
// one on.
func (s *summary) bars(title, names, values string, row int) {
	here := reference(s.name) + "!"
	s.chart(excelize.Bar, title, here+names, here+values, 6, row, chartHeight, chartWidth)
}

// chart draws dark bars from nought on a white ground, with their values.
func (s *summary) chart(kind excelize.ChartType, title, names, values string, col, row int, height, width uint) {
	if s.book.err != nil {
		return
	}
	zero, gap := 0.0, uint(45)
	s.book.keep(s.book.file.AddChart(s.name, address(col, row), &excelize.Chart{
		Type: kind,
		Series: []excelize.ChartSeries{{
			Name: title, Categories: names, Values: values,
			Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"595959"}},
		}},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: title, Font: &excelize.Font{Bold: true, Size: 11, Family: typeface, Color: "000000"}}}},
		Legend:    excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{ReverseOrder: kind == excelize.Bar, Font: excelize.Font{Size: 8, Family: typeface, Color: "000000"}},
		YAxis:     excelize.ChartAxis{Minimum: &zero, MajorGridLines: true, Font: excelize.Font{Size: 8, Family: typeface, Color: "000000"}, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0"}},
		PlotArea:  excelize.ChartPlotArea{ShowVal: true},
		Dimension: excelize.ChartDimension{Width: width, Height: height},
		GapWidth:  &gap,
		Format:    excelize.GraphicOptions{AltText: title, Positioning: "oneCell", OffsetX: 4, OffsetY: 4},
	}))
}
