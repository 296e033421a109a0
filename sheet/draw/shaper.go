package draw

import (
	"bytes"
	"fmt"
	"sync"

	textfont "github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/harfbuzz"
	"golang.org/x/image/font/sfnt"
)

// shaper turns letters into glyphs by the rules of a type and its script: vowels
// move before their consonants, consonants join, marks find their places.
type shaper struct {
	font   *harfbuzz.Font
	buffer *harfbuzz.Buffer // keeps the rules of the script from run to run
	lock   sync.Mutex
}

func newShaper(data []byte) *shaper {
	parsed, err := textfont.ParseTTF(bytes.NewReader(data))
	if err != nil {
		panic(fmt.Sprintf("draw: the built-in font cannot be shaped: %v", err))
	}
	return &shaper{font: harfbuzz.NewFont(parsed), buffer: harfbuzz.NewBuffer()}
}

// shapedGlyph is a glyph and its place from the beginning of its run on the base
// line, in ems, y down.
type shapedGlyph struct {
	index sfnt.GlyphIndex
	x, y  float64
}

// shape is a run's glyphs and its width in ems.
func (c *cut) shape(letters string) ([]shapedGlyph, float64) {
	s := c.shaper()
	s.lock.Lock()
	defer s.lock.Unlock()
	s.buffer.Clear()
	// Without a language of ours the library takes that of the computer.
	s.buffer.Props = harfbuzz.SegmentProperties{Direction: harfbuzz.LeftToRight, Language: "und"}
	s.buffer.AddRunes([]rune(letters), 0, -1)
	s.buffer.GuessSegmentProperties()
	s.buffer.Shape(s.font, nil)
	em := float64(s.font.XScale)
	glyphs := make([]shapedGlyph, len(s.buffer.Info))
	at := 0.0
	for i, p := range s.buffer.Pos {
		glyphs[i] = shapedGlyph{sfnt.GlyphIndex(s.buffer.Info[i].Glyph), at + float64(p.XOffset)/em, -float64(p.YOffset) / em}
		at += float64(p.XAdvance) / em
	}
	return glyphs, at
}

// shapedOutline is a glyph's outline at unitsPerEm.
func (c *cut) shapedOutline(index sfnt.GlyphIndex) []sfnt.Segment {
	buf := buffers.Get().(*sfnt.Buffer)
	defer buffers.Put(buf)
	return c.outline(buf, index)
}
