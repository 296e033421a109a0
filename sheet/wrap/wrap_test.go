package wrap

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// Rules of UAX 14, by hand: no line begins with a stop or a small kana (LB13,
// LB21) or ends with an opening bracket (LB14); Latin words stay whole.
func TestWords(t *testing.T) {
	for text, want := range map[string]string{
		"":                   "",
		" \t":                "",
		"Living room":        "Living| room",
		"120 x 60-1/2 mm":    "120| x| 60-1/2| mm",
		"no\u00A0end here":   "no\u00A0end| here",
		"客厅甲型":               "客|厅|甲|型",
		"客厅，甲型。":             "客|厅，|甲|型。",
		"「居間」です":             "「居|間」|で|す",
		"フローリング":             "フ|ロー|リ|ン|グ",
		"キッチン":               "キッ|チ|ン",
		"거실 바닥":              "거|실| 바|닥",
		"Room1客厅(大)":         "Room1|客|厅|(大)",
		"约30㎡":               "约|30|㎡",
		"か\u3099き":           "か\u3099|き",
		"ห้อง\u200Bนอน 1":    "ห้อง\u200B|นอน| 1",
		"\u1100\u1165\u1109": "\u1100\u1165|\u1109",
	} {
		var got strings.Builder
		for i, word := range Words(text) {
			if i > 0 {
				got.WriteByte('|')
			}
			if word.Spaced && i > 0 {
				got.WriteByte(' ')
			}
			got.WriteString(word.Letters)
		}
		if got.String() != want {
			t.Errorf("%q: %q, want %q", text, got.String(), want)
		}
	}
}

// Marks stay with their letters (UAX 29, GB9, GB9a), and so do the consonants of a
// Devanagari conjunct (GB9c).
func TestCharacters(t *testing.T) {
	for text, want := range map[string][]string{
		"":         nil,
		"Ku\u0308": {"K", "u\u0308"},
		"ที่น้ำ":   {"ที่", "น้ำ"},
		"किक्षा":   {"कि", "क्षा"},
		"거실":       {"거", "실"},
	} {
		if got := Characters(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// testdata/icu.json holds random lines without spaces, signs between letters, and
// where the International Components for Unicode 72 let lines end in them, in
// UTF-16 units. Between letters that are not East Asian we let none end.
// 20,000 lines gave no difference.
func TestAsICU(t *testing.T) {
	content, err := os.ReadFile("testdata/icu.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases [][2]any
	if err := json.Unmarshal(content, &cases); err != nil {
		t.Fatal(err)
	}
	ends := 0
	for _, c := range cases {
		text := c[0].(string)
		runes := []rune(text) // all of the basic plane, so a letter is a unit
		var want, got []int
		for _, at := range c[1].([]any) {
			if i := int(at.(float64)); Wide(baseBefore(runes, i)) || Wide(runes[i]) {
				want = append(want, i)
			}
		}
		at := 0
		for _, word := range Words(text) {
			at += utf8.RuneCountInString(word.Letters)
			got = append(got, at)
		}
		got = got[:len(got)-1]
		if !slices.Equal(got, want) {
			t.Errorf("%q: lines end behind %v, want %v", text, got, want)
		}
		ends += len(want)
	}
	if ends < 1000 {
		t.Errorf("only %d ends of lines in %d cases", ends, len(cases))
	}
}

// baseBefore is the letter before a place, past the marks on it.
func baseBefore(runes []rune, at int) rune {
	for at--; at > 0 && Joined(runes[at]); at-- {
	}
	return runes[at]
}
