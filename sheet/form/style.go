package form

import (
	"github.com/xuri/excelize/v2"

	"laybill/sheet/table"
)

// Every font names its family and size: a style without them prints in a serif
// face.
const (
	fontFamily = "Calibri"
	fontSize   = 11
)

// Number formats. requiredMark shows the heading's text with a star after it,
// and textFormat keeps what is typed as it stands, so that a room called 1-2
// does not turn into a date.
const (
	requiredMark = `@" *"`
	textFormat   = "@"
	wholeFormat  = "0"
	moneyFormat  = "#,##0.00"
	priceFormat  = "#,##0.00##"
	dateFormat   = "yyyy-mm-dd"
	anyFormat    = "General"
)

// styles are the workbook's styles, each made once.
type styles struct {
	err                                        error
	title, subtitle, help, heading, required   int
	link, body, strong, plain, note, mustBeSet int
	number                                     map[string]int // of cells, by number format
	setting                                    map[string]int // of settings' values, all to the left
	sample                                     map[string]int // of example rows
}

func newStyles(f *excelize.File) *styles {
	s := &styles{number: map[string]int{}, setting: map[string]int{}, sample: map[string]int{}}
	add := func(format string, font excelize.Font, change func(*excelize.Style)) int {
		font.Family = fontFamily
		if font.Size == 0 {
			font.Size = fontSize
		}
		style := &excelize.Style{Font: &font, CustomNumFmt: &format, Alignment: &excelize.Alignment{Vertical: "top"}}
		if change != nil {
			change(style)
		}
		id, err := f.NewStyle(style)
		if s.err == nil {
			s.err = err
		}
		return id
	}
	bold := excelize.Font{Bold: true}
	s.title = add(anyFormat, excelize.Font{Bold: true, Size: 16}, nil)
	s.subtitle = add(anyFormat, excelize.Font{Bold: true, Size: 12}, nil)
	s.help = add(anyFormat, excelize.Font{}, nil)
	s.heading = add(textFormat, bold, headed)
	s.required = add(requiredMark, bold, headed)
	s.mustBeSet = add(requiredMark, excelize.Font{}, nil)
	s.link = add(anyFormat, excelize.Font{Underline: "single"}, nil)
	s.strong = add(anyFormat, bold, nil)
	s.plain = add(anyFormat, excelize.Font{}, nil)
	s.body = add(anyFormat, excelize.Font{}, wrapped)
	s.note = add(anyFormat, excelize.Font{Color: "595959"}, wrapped)
	for _, format := range []string{anyFormat, textFormat, wholeFormat, moneyFormat, priceFormat, dateFormat} {
		s.number[format] = add(format, excelize.Font{}, nil)
		s.setting[format] = add(format, excelize.Font{}, toTheLeft)
		s.sample[format] = add(format, excelize.Font{Italic: true, Color: "7F7F7F"}, nil)
	}
	return s
}

// headed is the look of a heading: grey ground and a heavy line below.
func headed(s *excelize.Style) {
	s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E7E6E6"}}
	s.Border = []excelize.Border{{Type: "bottom", Color: "000000", Style: 2}}
	s.Alignment.WrapText = true
}

func wrapped(s *excelize.Style) { s.Alignment.WrapText = true }

func toTheLeft(s *excelize.Style) { s.Alignment.Horizontal = "left" }

// formatOf is the number format of a kind's cells.
func formatOf(kind table.Kind) string {
	switch kind {
	case table.Text, table.Name, table.Reference, table.Choice, table.YesNo, table.Legs:
		return textFormat
	case table.Whole:
		return wholeFormat
	case table.Amount:
		return moneyFormat
	case table.Price:
		return priceFormat
	case table.Date:
		return dateFormat
	}
	return anyFormat
}
