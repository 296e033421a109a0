package draw

import (
	"fmt"
	"sync"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// unitsPerEm is the scale at which outlines are read: fine enough that a glyph
// may be placed and turned afterwards.
const unitsPerEm = 2048

// typeface gives the outlines of one cut of the type. A letter that it lacks
// comes out as the font's empty box.
type typeface struct {
	font   *sfnt.Font
	buf    sfnt.Buffer
	glyphs map[rune]glyph // read so far
}

// The two cuts, parsed once. An sfnt.Font may be read from several goroutines
// at once, each with its own buffer.
var (
	plainFont = parsedOnce(dejavusanscondensed.TTF)
	boldFont  = parsedOnce(dejavusanscondensedbold.TTF)
)

func parsedOnce(data []byte) func() *sfnt.Font {
	return sync.OnceValue(func() *sfnt.Font {
		parsed, err := sfnt.Parse(data)
		if err != nil {
			panic(fmt.Sprintf("draw: the built-in font cannot be read: %v", err))
		}
		return parsed
	})
}

func newTypeface(bold bool) *typeface {
	if bold {
		return &typeface{font: boldFont(), glyphs: map[rune]glyph{}}
	}
	return &typeface{font: plainFont(), glyphs: map[rune]glyph{}}
}

// glyph is a letter's outline, y down, and how far the next letter stands from
// it, both in ems.
type glyph struct {
	segments []sfnt.Segment
	advance  float64
}

func (t *typeface) glyph(r rune) glyph {
	g, known := t.glyphs[r]
	if !known {
		g = t.read(r)
		t.glyphs[r] = g
	}
	return g
}

func (t *typeface) read(r rune) glyph {
	ppem := fixed.I(unitsPerEm)
	index, err := t.font.GlyphIndex(&t.buf, r)
	if err != nil {
		index = 0
	}
	segments, err := t.font.LoadGlyph(&t.buf, index, ppem, nil)
	if err != nil {
		return glyph{}
	}
	advance, err := t.font.GlyphAdvance(&t.buf, index, ppem, font.HintingNone)
	if err != nil {
		return glyph{}
	}
	return glyph{append([]sfnt.Segment(nil), segments...), em(advance)}
}

// width is the width of a text in ems.
func (t *typeface) width(s string) float64 {
	total := 0.0
	for _, r := range s {
		total += t.glyph(r).advance
	}
	return total
}

func em(x fixed.Int26_6) float64 { return float64(x) / 64 / unitsPerEm }
