package draw

import (
	_ "embed"
	"fmt"
	"sync"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Types for letters that the usual one lacks; type/README.md says whose they are.
var (
	//go:embed type/DroidSansFallbackFull.ttf
	hanAndKana []byte
	//go:embed type/NanumSquareR.ttf
	hangul []byte
)

// faces are the types in the order in which a letter is looked for. Only the
// usual one has a bold cut. The others are read when a text first needs them.
var faces = [...]*face{
	newFace("DejaVuSansCondensed", dejavusanscondensed.TTF, dejavusanscondensedbold.TTF),
	newFace("DroidSansFallback", hanAndKana, nil),
	newFace("NanumSquare", hangul, nil),
}

// usual is the type of all texts as far as it goes.
var usual = faces[0]

// face is a type in one or two cuts.
type face struct {
	family      string // in PDF documents
	plain, bold *cut   // bold is nil where there is none
}

func newFace(family string, plain, bold []byte) *face {
	f := &face{family: family, plain: newCut(plain)}
	if bold != nil {
		f.bold = newCut(bold)
	}
	return f
}

// has tells whether all cuts of the type have the letter. A PDF document takes
// none beyond the basic plane.
func (f *face) has(r rune) bool {
	return r <= 0xFFFF && f.plain.has(r) && (f.bold == nil || f.bold.has(r))
}

// faceOf is the type that a letter is set in, nil for a letter that all lack.
func faceOf(r rune) *face {
	for _, f := range faces {
		if f.has(r) {
			return f
		}
	}
	return nil
}

// cut is a type in one weight.
type cut struct {
	data []byte
	font func() *sfnt.Font // parsed once
}

func newCut(data []byte) *cut {
	return &cut{data, sync.OnceValue(func() *sfnt.Font {
		parsed, err := sfnt.Parse(data)
		if err != nil {
			panic(fmt.Sprintf("draw: the built-in font cannot be read: %v", err))
		}
		return parsed
	})}
}

// buffers let fonts be read from several goroutines at once.
var buffers = sync.Pool{New: func() any { return new(sfnt.Buffer) }}

// index is the place of a letter in the font, 0 for one that it lacks.
func (c *cut) index(buf *sfnt.Buffer, r rune) sfnt.GlyphIndex {
	index, err := c.font().GlyphIndex(buf, r)
	if err != nil {
		return 0
	}
	return index
}

func (c *cut) has(r rune) bool {
	buf := buffers.Get().(*sfnt.Buffer)
	defer buffers.Put(buf)
	return c.index(buf, r) != 0
}

// unitsPerEm is the scale at which outlines are read: fine enough that a glyph
// may be placed and turned afterwards.
const unitsPerEm = 2048

func em(x fixed.Int26_6) float64 { return float64(x) / 64 / unitsPerEm }

// advance is how far the next letter stands from this one, in ems.
func (c *cut) advance(r rune) float64 {
	buf := buffers.Get().(*sfnt.Buffer)
	defer buffers.Put(buf)
	advance, err := c.font().GlyphAdvance(buf, c.index(buf, r), fixed.I(unitsPerEm), font.HintingNone)
	if err != nil {
		return 0
	}
	return em(advance)
}

// outline is a letter's outline at unitsPerEm; that of the font's empty box
// where it lacks the letter.
func (c *cut) outline(r rune) []sfnt.Segment {
	buf := buffers.Get().(*sfnt.Buffer)
	defer buffers.Put(buf)
	segments, err := c.font().LoadGlyph(buf, c.index(buf, r), fixed.I(unitsPerEm), nil)
	if err != nil {
		return nil
	}
	return append([]sfnt.Segment(nil), segments...)
}
