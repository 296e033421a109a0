package draw

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// writeShaped writes a run of shaped letters where its type is chosen. Documents
// know glyphs by letters, and these have none: so their outlines are painted, and
// the letters laid unseen over them, where readers and searches find them.
func (r run) writeShaped(pdf *fpdf.Fpdf, x, y float64, bold bool) {
	glyphs, width := r.face.plain.shape(r.letters)
	points, _ := pdf.GetFontSize()
	_, high := pdf.GetPageSize()
	dots := pdf.GetConversionRatio()
	scale := points / unitsPerEm
	paint := "f"
	pdf.TransformBegin()
	pdf.RawWriteStr(fmt.Sprintf("0 g 0 G %.6f 0 0 %.6f %.2f %.2f cm", scale, scale, x*dots, (high-y)*dots))
	if bold {
		paint = "B"
		pdf.RawWriteStr(fmt.Sprintf("%d w 1 j", units(boldPen)))
	}
	var path strings.Builder
	from := shapedGlyph{}
	for _, g := range glyphs {
		segments := r.face.plain.shapedOutline(g.index)
		if len(segments) == 0 {
			continue
		}
		fmt.Fprintf(&path, "1 0 0 1 %d %d cm\n", units(g.x)-units(from.x), units(-g.y)-units(-from.y))
		writePath(&path, segments)
		path.WriteString(paint + "\n")
		from = g
	}
	pdf.RawWriteStr(strings.TrimSuffix(path.String(), "\n"))
	pdf.TransformEnd()
	if plain := r.unshaped(); plain > 0 {
		pdf.TransformBegin()
		pdf.RawWriteStr(fmt.Sprintf("3 Tr %.2f Tz", 100*width/plain)) // unseen, and as wide
		pdf.Text(x, y, r.letters)
		pdf.TransformEnd()
	}
}

// units are ems in the scale of outlines.
func units(ems float64) int { return int(math.Round(ems * unitsPerEm)) }

// writePath writes an outline in the operators of ISO 32000-1, table 59, y up.
// They know curves of the third degree only; one of the second is that of the third
// whose handles stand two thirds of the way to its own.
func writePath(path *strings.Builder, segments []sfnt.Segment) {
	var at fixed.Point26_6
	write := func(operator string, points ...fixed.Point26_6) {
		for _, p := range points {
			fmt.Fprintf(path, "%d %d ", p.X.Round(), (-p.Y).Round())
		}
		path.WriteString(operator + "\n")
	}
	for i, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				write("h")
			}
			write("m", s.Args[0])
		case sfnt.SegmentOpLineTo:
			write("l", s.Args[0])
		case sfnt.SegmentOpQuadTo:
			write("c", towards(at, s.Args[0]), towards(s.Args[1], s.Args[0]), s.Args[1])
		case sfnt.SegmentOpCubeTo:
			write("c", s.Args[0], s.Args[1], s.Args[2])
		}
		at = s.Args[argumentsOf(s.Op)-1]
	}
	write("h")
}

// towards is the point two thirds of the way to another.
func towards(from, to fixed.Point26_6) fixed.Point26_6 {
	return from.Add(to.Sub(from).Mul(fixed.I(2)).Div(fixed.I(3)))
}
