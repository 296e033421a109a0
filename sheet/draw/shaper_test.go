package draw

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"sync"
	"testing"
	"unicode"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/language"
	"golang.org/x/text/language/display"
)

// The types have every letter that Unicode 15 gives their scripts in the basic plane,
// but for those of minorities and of loan words below (the Unicode Character Database,
// Scripts.txt, as the standard library has it).
func TestScripts(t *testing.T) {
	lacked := map[*unicode.RangeTable]string{
		unicode.Oriya:   "\u0B55",
		unicode.Telugu:  "\u0C3C\u0C5D",
		unicode.Kannada: "\u0CDD\u0CF3",
		unicode.Lao:     "\u0E86\u0E89\u0E8C\u0E8E\u0E8F\u0E90\u0E91\u0E92\u0E93\u0E98\u0EA0\u0EA8\u0EA9\u0EAC\u0EBA\u0ECE", // of Pali, and Khmu's
	}
	scripts := map[*unicode.RangeTable]*face{unicode.Ethiopic: faces[3]}
	for _, f := range shapedFaces {
		scripts[f.script] = f
	}
	for script, f := range scripts {
		var lacks []rune
		for _, part := range script.R16 {
			for r := rune(part.Lo); r <= rune(part.Hi); r += rune(part.Stride) {
				if !f.has(r) {
					lacks = append(lacks, r)
				} else if faceOf(r) != f {
					t.Errorf("%c is not set in %s", r, f.family)
				}
			}
		}
		if string(lacks) != lacked[script] {
			t.Errorf("%s lacks %+q, want %+q", f.family, string(lacks), lacked[script])
		}
	}
}

// The types have all letters of the names of countries in these languages (Unicode
// Common Locale Data Repository, as golang.org/x/text has it).
func TestNamesOfCountries(t *testing.T) {
	for _, code := range []string{"hi", "mr", "ne", "bn", "pa", "gu", "or", "ta", "te", "kn", "ml", "si", "th", "lo", "my", "km", "am"} {
		namer, names := display.Regions(language.MustParse(code)), 0
		for a := 'A'; a <= 'Z'; a++ {
			for b := 'A'; b <= 'Z'; b++ {
				region, err := language.ParseRegion(string([]rune{a, b}))
				if err != nil {
					continue
				}
				if name := namer.Name(region); name != "" {
					names++
					if !Lettered(name) {
						t.Errorf("%s: letters of %s are missing", code, name)
					}
				}
			}
		}
		if names < 200 {
			t.Errorf("%s: %d names only", code, names)
		}
	}
}

// Every glyph of the types can be drawn.
func TestOutlines(t *testing.T) {
	var buf sfnt.Buffer
	for _, f := range append(shapedFaces[:], faces[3]) {
		font := f.plain.font()
		for i := range font.NumGlyphs() {
			if _, err := font.LoadGlyph(&buf, sfnt.GlyphIndex(i), fixed.I(unitsPerEm), nil); err != nil {
				t.Errorf("%s: glyph %d: %v", f.family, i, err)
			}
		}
	}
}

// shape is a text in one run, which is shaped.
func shape(t *testing.T, text string) (f *face, indices []sfnt.GlyphIndex, width float64) {
	t.Helper()
	all := runs(line(text))
	if len(all) != 1 || !all[0].face.shapes() {
		t.Fatalf("%q: runs %v", text, all)
	}
	glyphs, width := all[0].face.plain.shape(all[0].letters)
	for _, g := range glyphs {
		indices = append(indices, g.index)
	}
	return all[0].face, indices, width
}

// Vowel signs that are written before their consonant though spoken after it, and
// consonants that join (The Unicode Standard, chapters 12 and 16). A sign may come in a form
// of its own; what is wanted here are the letters that keep theirs.
func TestReordering(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		glyphs     int
		at         int // place of a letter among the glyphs
		letter     rune
	}{
		{"Devanagari i stands left of ka (12.1)", "\u0915\u093F", 2, 1, '\u0915'},
		{"Devanagari ka and ssa are one (12.1)", "\u0915\u094D\u0937", 1, -1, 0},
		{"Bengali i stands left of ka (12.2)", "\u0995\u09BF", 2, 1, '\u0995'},
		{"Gurmukhi i stands left of ka (12.3)", "\u0A15\u0A3F", 2, 1, '\u0A15'},
		{"Gujarati i stands left of ka (12.4)", "\u0A95\u0ABF", 2, 1, '\u0A95'},
		{"Oriya e stands left of ka (12.5)", "\u0B15\u0B47", 2, 1, '\u0B15'},
		{"Tamil o stands on both sides of ka (12.6)", "\u0B95\u0BCA", 3, 1, '\u0B95'},
		{"Malayalam e stands left of ka (12.9)", "\u0D15\u0D46", 2, 1, '\u0D15'},
		{"Sinhala e stands left of ka (13.2)", "\u0D9A\u0DD9", 2, 1, '\u0D9A'},
		{"Thai vowels are written as they stand (16.1)", "\u0E40\u0E01", 2, 1, '\u0E01'},
		{"Myanmar e stands left of ka (16.3)", "\u1000\u1031", 2, 0, '\u1031'},
		{"Khmer e stands left of ka (16.4)", "\u1780\u17C1", 2, 0, '\u17C1'},
	} {
		f, indices, _ := shape(t, tt.text)
		if len(indices) != tt.glyphs {
			t.Errorf("%s: glyphs %v", tt.name, indices)
			continue
		}
		if tt.at >= 0 && indices[tt.at] != f.plain.index(new(sfnt.Buffer), tt.letter) {
			t.Errorf("%s: %v does not have it there", tt.name, indices)
		}
	}
	if _, _, with := shape(t, "ที่"); math.Abs(with-faceOf('ท').plain.advance('ท')) > 0.001 {
		t.Errorf("a Thai vowel and a tone above their letter make it %v wide", with)
	}
}

// testdata/harfbuzz.json holds names of rooms and other words in all scripts as hb-shape
// of HarfBuzz sets them in these types: glyphs, their places and the width, in units of
// the font. Of 9,831 names of countries and languages 26 came out otherwise: two
// Bengali ones with a vowel in its other form, the rest, Telugu and Myanmar,
// with the same glyphs elsewhere by 0.15 em at most.
func TestAsHarfBuzz(t *testing.T) {
	content, err := os.ReadFile("testdata/harfbuzz.json")
	if err != nil {
		t.Fatal(err)
	}
	var recorded struct {
		Words []struct {
			Type, Letters string
			Glyphs        [][3]int // index, x, y
			Width         int
		}
	}
	if err := json.Unmarshal(content, &recorded); err != nil {
		t.Fatal(err)
	}
	if len(recorded.Words) < 40 {
		t.Fatalf("%d words", len(recorded.Words))
	}
	for _, word := range recorded.Words {
		all := runs(line(word.Letters))
		if len(all) != 1 || all[0].face.family != word.Type {
			t.Errorf("%s: runs %v", word.Letters, all)
			continue
		}
		units := func(ems float64) int { return int(math.Round(ems * float64(all[0].face.plain.shaper().font.XScale))) }
		glyphs, width := all[0].face.plain.shape(all[0].letters)
		var got [][3]int
		for _, g := range glyphs {
			got = append(got, [3]int{int(g.index), units(g.x), units(-g.y)})
		}
		if !slices.Equal(got, word.Glyphs) || units(width) != word.Width {
			t.Errorf("%s: %v, %d wide, want %v, %d wide", word.Letters, got, units(width), word.Glyphs, word.Width)
		}
	}
}

// What is shaped with the letters before it, and what is not.
func TestShapedRuns(t *testing.T) {
	thai, devanagari, sinhala, lao := faceOf('ก'), faceOf('क'), faceOf('\u0D9A'), faceOf('ກ')
	for text, want := range map[string][]run{
		"ห้อง 1":            {{thai, "ห้อง"}, {usual, " 1"}},
		"A क।":              {{usual, "A "}, {devanagari, "क।"}},
		"।":                 {{devanagari, "।"}},
		"ශ්\u200Dරී":        {{sinhala, "ශ්\u200Dරී"}},
		"ก\u200Bก":          {{thai, "ก\u200Bก"}},
		"ກກ":                {{lao, "ກກ"}},
		"קข 客":              {{usual, "ק"}, {thai, "ข"}, {usual, " "}, {faces[1], "客"}},
		"Ku\u0308che\u200B": {{usual, "Küche\u200B"}},
	} {
		if got := runs(line(text)); !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}

// Marathi has forms of its own for some letters; the computer's language must
// not choose among them.
func TestComputersLanguage(t *testing.T) {
	const text = "झलशक्ष"
	_, before, _ := shape(t, text)
	t.Setenv("LC_ALL", "mr_IN.UTF-8")
	if _, after, _ := shape(t, text); !slices.Equal(before, after) {
		t.Errorf("glyphs %v, on a computer in Marathi %v", before, after)
	}
}

// Drawings are made side by side.
func TestShapedSideBySide(t *testing.T) {
	_, _, want := shape(t, "ห้องนั่งเล่น")
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			for range 100 {
				if got := newTypeface(false).width("ห้องนั่งเล่น"); got != want {
					t.Errorf("%v wide, want %v", got, want)
				}
			}
		})
	}
	group.Wait()
}
