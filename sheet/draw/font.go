package draw

import (
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// typeface gives the outlines of all types in one weight.
type typeface struct {
	bold   bool
	glyphs map[rune]glyph // read so far
	shaped map[shapedKey]glyph
}

// shapedKey is a glyph of a type that shapes its script.
type shapedKey struct {
	face  *face
	index sfnt.GlyphIndex
}

func newTypeface(bold bool) *typeface {
	return &typeface{bold: bold, glyphs: map[rune]glyph{}, shaped: map[shapedKey]glyph{}}
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
	f := faceOf(r)
	if f == nil {
		f = usual
	}
	cut := f.plain
	if t.bold && f.bold != nil {
		cut = f.bold
	}
	return glyph{t.weighted(f, cut.outlineOf(r)), cut.advance(r)}
}

// weighted is an outline in the typeface's weight.
func (t *typeface) weighted(f *face, segments []sfnt.Segment) []sfnt.Segment {
	if t.bold && f.bold == nil {
		return thickened(segments)
	}
	return segments
}

func (t *typeface) shapedGlyph(f *face, index sfnt.GlyphIndex) glyph {
	key := shapedKey{f, index}
	g, known := t.shaped[key]
	if !known {
		g = glyph{segments: t.weighted(f, f.plain.shapedOutline(index))}
		t.shaped[key] = g
	}
	return g
}

// set puts the glyphs of a line to their places on the base line, in ems, y
// down, and tells how wide the line is.
func (t *typeface) set(line string, put func(g glyph, x, y float64)) float64 {
	at := 0.0
	for _, r := range runs(line) {
		if r.face.shapes() {
			glyphs, width := r.face.plain.shape(r.letters)
			for _, s := range glyphs {
				put(t.shapedGlyph(r.face, s.index), at+s.x, s.y)
			}
			at += width
			continue
		}
		for _, letter := range r.letters {
			g := t.glyph(letter)
			put(g, at, 0)
			at += g.advance
		}
	}
	return at
}

// width is the width of a line in ems.
func (t *typeface) width(line string) float64 {
	return t.set(line, func(glyph, float64, float64) {})
}

// boldPen is the pen in ems that goes round a letter of a type without a bold
// cut: thick enough to be told from the plain letter, thin enough to leave the
// white between the strokes of an ideograph open.
const boldPen = 0.03

// thickened is an outline drawn round with the bold pen: the letter and copies
// of it moved by half the pen all round, which are filled as one. The pen is
// thinner than any stroke, so that nothing is left open between them.
func thickened(segments []sfnt.Segment) []sfnt.Segment {
	const copies = 8
	all := segments
	for i := range copies {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / copies)
		const reach = boldPen / 2 * unitsPerEm * 64
		by := fixed.Point26_6{X: fixed.Int26_6(math.Round(reach * cos)), Y: fixed.Int26_6(math.Round(reach * sin))}
		for _, s := range segments {
			for j := range argumentsOf(s.Op) {
				s.Args[j] = s.Args[j].Add(by)
			}
			all = append(all, s)
		}
	}
	return all
}
