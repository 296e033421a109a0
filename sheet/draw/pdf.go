package draw

import (
	"strings"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"

	"laybill/estimate/drawing"
)

const pdfFamily = "DejaVuSansCondensed"

// AddType makes the type of the drawings known to a document, which embeds the
// letters that it uses.
func AddType(pdf *fpdf.Fpdf) {
	pdf.AddUTF8FontFromBytes(pdfFamily, "", dejavusanscondensed.TTF)
	pdf.AddUTF8FontFromBytes(pdfFamily, "B", dejavusanscondensedbold.TTF)
}

// SetType chooses the cut of the type and its height in the document's unit.
func SetType(pdf *fpdf.Fpdf, size float64, bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	pdf.SetFont(pdfFamily, style, 0)
	pdf.SetFontUnitSize(size)
}

// Text writes a line in the chosen type from x on, its base line at y.
func Text(pdf *fpdf.Fpdf, x, y float64, s string) { pdf.Text(x, y, visual(shaped(Letters(s)))) }

// TextWidth is the width of a line in the chosen type.
func TextWidth(pdf *fpdf.Fpdf, s string) float64 { return pdf.GetStringWidth(shaped(Letters(s))) }

// missing stands for a letter that the type lacks.
const missing = '\u25A1'

// Letters is the text with an empty square for every letter that the type of
// a PDF document lacks.
func Letters(s string) string {
	var buf sfnt.Buffer
	return strings.Map(func(r rune) rune {
		switch {
		case r < ' ':
			return ' '
		case r <= '~', lettered(&buf, r):
			return r
		}
		return missing
	}, s)
}

// Lettered tells whether the type of a PDF document has all letters of a text,
// those that join in their joined forms.
func Lettered(s string) bool {
	var buf sfnt.Buffer
	return !strings.ContainsFunc(s, func(r rune) bool { return r > '~' && (!lettered(&buf, r) || leftUnjoined(r)) })
}

// lettered tells whether both cuts of the type have the letter. The document's
// format takes none beyond the basic plane.
func lettered(buf *sfnt.Buffer, r rune) bool {
	if r > 0xFFFF {
		return false
	}
	plain, err1 := plainFont().GlyphIndex(buf, r)
	bold, err2 := boldFont().GlyphIndex(buf, r)
	return err1 == nil && err2 == nil && plain != 0 && bold != 0
}

// PDF renders the scene on the page of a document in millimetres, its upper
// left corner at x and y. AddType must have been called.
func PDF(pdf *fpdf.Fpdf, scene *drawing.Scene, x, y float64) {
	p := page{pdf, x, y}
	pdf.SetDrawColor(0, 0, 0)
	pdf.SetTextColor(0, 0, 0)
	pdf.SetLineCapStyle("square")
	for _, area := range scene.Areas {
		p.area(area)
	}
	for _, line := range scene.Lines {
		pdf.SetLineWidth(line.Width)
		pdf.Line(x+line.From.X, y+line.From.Y, x+line.To.X, y+line.To.Y)
	}
	for _, text := range scene.Texts {
		p.text(text)
	}
}

// page is a document with the place of the scene on its page.
type page struct {
	pdf  *fpdf.Fpdf
	x, y float64
}

func (p page) area(a drawing.Area) {
	style := "B*" // filled where an odd number of rings goes round, and outlined
	switch {
	case a.Fill == drawing.Clear && a.Stroke == 0:
		return
	case a.Fill == drawing.Clear:
		style = "D"
	case a.Stroke == 0:
		style = "f*"
	}
	grey := int(shades[a.Fill])
	p.pdf.SetFillColor(grey, grey, grey)
	p.pdf.SetLineWidth(a.Stroke)
	for _, ring := range a.Rings {
		p.ring(ring)
	}
	p.pdf.DrawPath(style)
}

func (p page) ring(ring []drawing.Point) {
	for i, point := range ring {
		if i == 0 {
			p.pdf.MoveTo(p.x+point.X, p.y+point.Y)
			continue
		}
		p.pdf.LineTo(p.x+point.X, p.y+point.Y)
	}
	p.pdf.ClosePath()
}

func (p page) text(t drawing.Text) {
	SetType(p.pdf, t.Size, t.Bold)
	place := newPlacement(t, TextWidth(p.pdf, t.Value))
	if t.Halo {
		p.area(drawing.Area{Rings: [][]drawing.Point{place.ground}, Fill: drawing.White})
	}
	x, y := p.x+t.At.X, p.y+t.At.Y
	p.pdf.TransformBegin()
	if t.Turn != 0 {
		p.pdf.TransformRotate(t.Turn, x, y)
	}
	Text(p.pdf, x-place.back, y, t.Value)
	p.pdf.TransformEnd()
}
