package draw

import (
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"laybill/estimate/drawing"
)

// AddType makes the usual type known to a document, which embeds the letters that
// it uses. The other types are added where a text first needs them.
func AddType(pdf *fpdf.Fpdf) {
	pdf.AddUTF8FontFromBytes(usual.family, "", usual.plain.data())
	pdf.AddUTF8FontFromBytes(usual.family, "B", usual.bold.data())
}

// SetType chooses the weight of the usual type and its height in the document's
// unit.
func SetType(pdf *fpdf.Fpdf, size float64, bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	pdf.SetFont(usual.family, style, 0)
	pdf.SetFontUnitSize(size)
}

// Text writes a line in the chosen weight and height from x on, its base line
// at y.
func Text(pdf *fpdf.Fpdf, x, y float64, s string) {
	for _, r := range runs(line(s)) {
		r.write(pdf, x, y)
		x += r.width(pdf)
	}
}

// TextWidth is the width of a line in the chosen weight and height.
func TextWidth(pdf *fpdf.Fpdf, s string) float64 {
	width := 0.0
	for _, r := range runs(joined(Letters(s))) {
		width += r.width(pdf)
	}
	return width
}

// write writes a run where the usual type is chosen, and leaves it chosen.
func (r run) write(pdf *fpdf.Fpdf, x, y float64) {
	if r.face == usual {
		pdf.Text(x, y, r.letters)
		return
	}
	style := pdf.GetFontStyle()
	size, _ := pdf.GetFontSize()
	pdf.AddUTF8FontFromBytes(r.face.family, "", r.face.plain.data()) // once a document
	pdf.SetFont(r.face.family, "", 0)
	switch {
	case r.face.shapes():
		r.writeShaped(pdf, x, y, style != "")
	case style != "":
		pdf.TransformBegin()
		pdf.RawWriteStr(fmt.Sprintf("%.2f w 1 j 2 Tr", boldPen*size)) // fills and draws round, with round corners
		pdf.Text(x, y, r.letters)
		pdf.TransformEnd()
	default:
		pdf.Text(x, y, r.letters)
	}
	pdf.SetFont(usual.family, style, 0)
}

// width is the width of a run where the usual type is chosen.
func (r run) width(pdf *fpdf.Fpdf) float64 {
	if r.face == usual {
		return pdf.GetStringWidth(r.letters)
	}
	_, size := pdf.GetFontSize()
	return r.ems() * size
}

// ems is the width of a run in a type other than the usual.
func (r run) ems() float64 {
	if r.face.shapes() {
		_, width := r.face.plain.shape(r.letters)
		return width
	}
	return r.unshaped()
}

// unshaped is the width of the run's letters side by side.
func (r run) unshaped() float64 {
	width := 0.0
	for _, letter := range r.letters {
		width += r.face.plain.advance(letter)
	}
	return width
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
