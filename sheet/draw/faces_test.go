package draw

import (
	"slices"
	"testing"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/japanese"
	"golang.org/x/text/encoding/korean"
	"golang.org/x/text/encoding/simplifiedchinese"
)

// The types have every letter of the national standards GB 2312-80, JIS X
// 0208:1990 and KS X 1001:1992, which hold the letters of daily use in China, Japan and
// Korea, but for twenty numbers with a stop, which are set as number and stop.
// The encodings list the sets in their rows and cells, both from A1 on; they add
// some signs of makers' own, and leave rows for private use.
func TestNationalSets(t *testing.T) {
	for _, tt := range []struct {
		name    string
		set     encoding.Encoding
		lastRow int
		least   int // letters in the set
		lacked  string
	}{
		{"GB 2312", simplifiedchinese.GBK, 0xF7, 7445, "⒈⒉⒊⒋⒌⒍⒎⒏⒐⒑⒒⒓⒔⒕⒖⒗⒘⒙⒚⒛"},
		{"JIS X 0208", japanese.EUCJP, 0xF4, 6879, ""},
		{"KS X 1001", korean.EUCKR, 0xFE, 8226, ""},
	} {
		letters, lacked := 0, []rune(nil)
		for row := 0xA1; row <= tt.lastRow; row++ {
			for cell := 0xA1; cell <= 0xFE; cell++ {
				decoded, err := tt.set.NewDecoder().Bytes([]byte{byte(row), byte(cell)})
				r := []rune(string(decoded))
				if err != nil || len(r) != 1 || r[0] == '\uFFFD' || r[0] >= '\uE000' && r[0] <= '\uF8FF' {
					continue
				}
				letters++
				if faceOf(r[0]) == nil {
					lacked = append(lacked, r[0])
				}
			}
		}
		slices.Sort(lacked)
		if !Lettered(string(lacked)) {
			t.Errorf("%s: nothing stands for some of %q", tt.name, string(lacked))
		}
		if letters < tt.least {
			t.Errorf("%s: %d letters found, want %d at least", tt.name, letters, tt.least)
		}
		if string(lacked) != tt.lacked {
			t.Errorf("%s lacks %q, want %q", tt.name, string(lacked), tt.lacked)
		}
	}
}

// A text is set in the usual type as far as that goes; ideographs are as wide as
// high, half-width kana half as wide.
func TestRuns(t *testing.T) {
	usual, han, hangul := faces[0], faces[1], faces[2]
	for _, tt := range []struct {
		text string
		want []run
	}{
		{"", nil},
		{"Küche 1", []run{{usual, "Küche 1"}}},
		{"Room 2: 客厅", []run{{usual, "Room 2: "}, {han, "客厅"}}},
		{"客厅거실a", []run{{han, "客厅"}, {hangul, "거실"}, {usual, "a"}}},
	} {
		if got := runs(line(tt.text)); !slices.Equal(got, tt.want) {
			t.Errorf("%q: %v, want %v", tt.text, got, tt.want)
		}
	}
	for text, want := range map[string]float64{"客厅，「": 4, "ｶﾞｰ": 1.5} {
		if got := newTypeface(true).width(text); got != want {
			t.Errorf("%q is %v ems wide, want %v", text, got, want)
		}
	}
}

// A bold ideograph has more ink than a plain one, within the same em.
func TestThickened(t *testing.T) {
	plain, bold := newTypeface(false).glyph('口'), newTypeface(true).glyph('口')
	if plain.advance != bold.advance {
		t.Errorf("advances %v and %v", plain.advance, bold.advance)
	}
	p, b := plain.bounds(), bold.bounds()
	for i, side := range []float64{-1, -1, 1, 1} {
		if out := (b[i] - p[i]) * side; out < 0.4*boldPen || out > 0.6*boldPen {
			t.Errorf("side %d lies %.4f ems further out, want half of %v", i, out, boldPen)
		}
	}
}
