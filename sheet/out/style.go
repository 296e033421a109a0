package out

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// style is how a cell looks. Meaning is carried by weight, slant and rules, so
// that it survives a black-and-white printer.
type style struct {
	format string // number format; "" for text
	size   float64
	bold   bool
	italic bool
	wrap   bool
	top    bool // stands at the top of a high row, not in its middle
	indent bool // a letter away from its edge
	align  align
	edge   edge
	shaded bool
	dark   bool // white on dark grey: a bar
}

type align int

const (
	natural align = iota
	left
	middle
	right
)

// edge is the rule round a cell.
type edge int

const (
	noEdge     edge = iota
	hairBelow       // between the rows of a list
	ruleBelow       // under a heading
	ruleAbove       // over a total
	boxed           // all round: a cell that may be changed
	tableGrid       // fine lines all round
	headingBox      // heading of a list
)

// Type sizes in points.
const (
	typeface   = "Arial"
	normalSize = 9
	crewSize   = 11.0
	titleSize  = 15
	partSize   = 11
)

// input marks a cell that the office may change: boxed and slanted.
func (s style) input() style {
	s.edge, s.italic = boxed, true
	return s
}

// total marks a sum.
func (s style) total() style {
	s.edge, s.bold = ruleAbove, true
	return s
}

func (s style) strong() style {
	s.bold = true
	return s
}

func (s style) wrapped() style {
	s.wrap = true
	return s
}

// Styles of texts.
var (
	plainStyle   = style{}
	titleStyle   = style{size: titleSize, bold: true}
	partStyle    = style{size: partSize, bold: true, edge: ruleBelow}
	noteStyle    = style{italic: true}
	headingStyle = style{bold: true, wrap: true, edge: headingBox, shaded: true}
)

// styleIDs makes every style once. The library compares a new style with all
// it has, so asking it for each cell would be slow.
type styleIDs struct {
	file *excelize.File
	ids  map[style]int
}

func (s *styleIDs) id(of style) (int, error) {
	if id, known := s.ids[of]; known {
		return id, nil
	}
	id, err := s.file.NewStyle(of.definition())
	s.ids[of] = id
	return id, err
}

func (s style) definition() *excelize.Style {
	size := s.size
	if size == 0 {
		size = normalSize
	}
	d := &excelize.Style{
		Font:      &excelize.Font{Family: typeface, Size: size, Bold: s.bold, Italic: s.italic, Color: s.ink()},
		Border:    s.edge.borders(),
		Alignment: &excelize.Alignment{Vertical: "center", WrapText: s.wrap},
	}
	switch {
	case s.top:
		d.Alignment.Vertical = "top"
	case s.edge == headingBox:
		d.Alignment.Vertical = "bottom"
	}
	switch s.align {
	case left:
		d.Alignment.Horizontal = "left"
		if s.indent {
			d.Alignment.Indent = 1
		}
	case middle:
		d.Alignment.Horizontal = "center"
	case right:
		d.Alignment.Horizontal = "right"
	}
	if s.format != "" {
		format := s.format
		d.CustomNumFmt = &format
	}
	switch {
	case s.dark:
		d.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"404040"}}
	case s.shaded:
		d.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E4E4E4"}}
	}
	return d
}

// ink is the colour of the type.
func (s style) ink() string {
	if s.dark {
		return "FFFFFF"
	}
	return "000000"
}

// Border styles of the library.
const (
	thin   = 1
	medium = 2
	hair   = 7
)

func (e edge) borders() []excelize.Border {
	all := func(kind int) []excelize.Border {
		return borders(kind, "left", "top", "right", "bottom")
	}
	switch e {
	case hairBelow:
		return borders(hair, "bottom")
	case ruleBelow:
		return borders(thin, "bottom")
	case ruleAbove:
		return borders(thin, "top")
	case boxed:
		return all(thin)
	case tableGrid:
		return all(hair)
	case headingBox:
		return append(borders(medium, "bottom"), borders(thin, "top")...)
	}
	return nil
}

func borders(kind int, sides ...string) []excelize.Border {
	list := make([]excelize.Border, len(sides))
	for i, side := range sides {
		list[i] = excelize.Border{Type: side, Color: "000000", Style: kind}
	}
	return list
}

// decimalFormat is a number format with grouped thousands and so many places.
func decimalFormat(places int32) string {
	if places == 0 {
		return "#,##0"
	}
	return "#,##0." + strings.Repeat("0", int(places))
}

// Formats of numbers.
const (
	wholeFormat    = "#,##0"
	percentFormat  = "0.00%"
	dateFormat     = "yyyy-mm-dd"
	quantityFormat = "#,##0.00##"
)
