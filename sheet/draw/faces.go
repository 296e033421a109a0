package draw

import (
	"embed"
	"fmt"
	"sync"
	"unicode"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// types are those for letters that the usual one lacks; type/README.md says
// whose they are.
//
//go:embed type/*.ttf
var types embed.FS

// faces are the types for letters that need no shaping, in the order in which a
// letter is looked for. Only the usual one has a bold cut. The others are read
// when a text first needs them.
var faces = [...]*face{
	{family: "DejaVuSansCondensed", plain: newCut(given(dejavusanscondensed.TTF)), bold: newCut(given(dejavusanscondensedbold.TTF))},
	{family: "DroidSansFallback", plain: newCut(builtIn("DroidSansFallbackFull"))},
	{family: "NanumSquare", plain: newCut(builtIn("NanumSquareR"))},
	{family: "NotoSansEthiopic", plain: newCut(builtIn("NotoSansEthiopic-Regular"))},
}

// usual is the type of all texts as far as it goes.
var usual = faces[0]

// shapedFaces are the types of scripts whose letters change, move and join with
// their neighbours.
var shapedFaces = [...]*face{
	shapedFace("Devanagari", unicode.Devanagari),
	shapedFace("Bengali", unicode.Bengali),
	shapedFace("Gurmukhi", unicode.Gurmukhi),
	shapedFace("Gujarati", unicode.Gujarati),
	shapedFace("Oriya", unicode.Oriya),
	shapedFace("Tamil", unicode.Tamil),
	shapedFace("Telugu", unicode.Telugu),
	shapedFace("Kannada", unicode.Kannada),
	shapedFace("Malayalam", unicode.Malayalam),
	shapedFace("Sinhala", unicode.Sinhala),
	shapedFace("Thai", unicode.Thai),
	shapedFace("Lao", unicode.Lao),
	shapedFace("Myanmar", unicode.Myanmar),
	shapedFace("Khmer", unicode.Khmer),
}

// firstShaped is the first letter of Unicode's first block, Devanagari, of
// these scripts.
const firstShaped = '\u0900'

// face is a type in one or two cuts.
type face struct {
	family      string              // in PDF documents
	plain, bold *cut                // bold is nil where there is none
	script      *unicode.RangeTable // that it shapes; nil for a type that shapes none
}

func shapedFace(name string, script *unicode.RangeTable) *face {
	return &face{family: "NotoSans" + name, plain: newCut(builtIn("NotoSans" + name + "-Regular")), script: script}
}

// has tells whether all cuts of the type have the letter. A PDF document takes
// none beyond the basic plane.
func (f *face) has(r rune) bool {
	return r <= 0xFFFF && f.plain.has(r) && (f.bold == nil || f.bold.has(r))
}

// shapes tells a type of a script whose letters need shaping.
func (f *face) shapes() bool { return f.script != nil }

// carries tells whether a letter of no script of its own, such as a stop or an
// unseen joiner, is set with the shaped letters before it.
func (f *face) carries(r rune) bool {
	return f.shapes() && r > '~' && unicode.In(r, unicode.Common, unicode.Inherited) && f.has(r)
}

// faceOf is the type that a letter is set in, nil for a letter that all lack.
func faceOf(r rune) *face {
	if r < firstShaped {
		return first(faces[:], func(f *face) bool { return f.has(r) })
	}
	f := first(shapedFaces[:], func(f *face) bool { return unicode.Is(f.script, r) && f.has(r) })
	if f == nil {
		f = first(faces[:], func(f *face) bool { return f.has(r) })
	}
	if f == nil { // a stop that scripts share
		f = first(shapedFaces[:], func(f *face) bool { return unicode.Is(unicode.Common, r) && f.has(r) })
	}
	return f
}

// first is the first face that will do, nil where none does.
func first(faces []*face, does func(*face) bool) *face {
	for _, f := range faces {
		if does(f) {
			return f
		}
	}
	return nil
}

// cut is a type in one weight.
type cut struct {
	data   func() []byte
	font   func() *sfnt.Font // parsed once
	shaper func() *shaper    // made once
}

func newCut(data func() []byte) *cut {
	return &cut{
		data: data,
		font: sync.OnceValue(func() *sfnt.Font {
			parsed, err := sfnt.Parse(data())
			if err != nil {
				panic(fmt.Sprintf("draw: the built-in font cannot be read: %v", err))
			}
			return parsed
		}),
		shaper: sync.OnceValue(func() *shaper { return newShaper(data()) }),
	}
}

// builtIn reads a type's file once.
func builtIn(file string) func() []byte {
	return sync.OnceValue(func() []byte {
		data, err := types.ReadFile("type/" + file + ".ttf")
		if err != nil {
			panic(fmt.Sprintf("draw: a built-in font is missing: %v", err))
		}
		return data
	})
}

func given(data []byte) func() []byte { return func() []byte { return data } }

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

// outlineOf is a letter's outline at unitsPerEm; that of the font's empty box
// where it lacks the letter.
func (c *cut) outlineOf(r rune) []sfnt.Segment {
	buf := buffers.Get().(*sfnt.Buffer)
	defer buffers.Put(buf)
	return c.outline(buf, c.index(buf, r))
}

func (c *cut) outline(buf *sfnt.Buffer, index sfnt.GlyphIndex) []sfnt.Segment {
	segments, err := c.font().LoadGlyph(buf, index, fixed.I(unitsPerEm), nil)
	if err != nil {
		return nil
	}
	return append([]sfnt.Segment(nil), segments...)
}
