package draw

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// line is a text as it is set: letters that no type has replaced, those that
// join in their joined forms, all in their order on the paper from left to right.
func line(s string) string { return visual(joined(Letters(s))) }

// run is a part of a line that is set in one type.
type run struct {
	face    *face
	letters string
}

// runs are the parts of a line.
func runs(line string) []run {
	var all []run
	start := 0
	for i, r := range line {
		n := len(all)
		if n > 0 && all[n-1].face.carries(r) {
			continue
		}
		f := usual
		if r > '~' {
			f = faceOf(r)
		}
		if n == 0 || all[n-1].face != f {
			if n > 0 {
				all[n-1].letters = line[start:i]
			}
			all, start = append(all, run{f, line[i:]}), i
		}
	}
	return all
}

// missing stands for a letter that all types lack.
const missing = '\u25A1'

// Letters is the text with an empty square for every letter that all types
// lack, and what is written as a letter and its marks, or as the parts of a
// Hangul syllable, as one letter.
func Letters(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) {
		return s
	}
	var out strings.Builder
	for _, r := range composed(s) {
		switch {
		case r < ' ':
			out.WriteByte(' ')
		case unicode.Is(unicode.Variation_Selector, r): // asks for a form of the letter before it, which a type may ignore
		case r <= '~', faceOf(r) != nil:
			out.WriteRune(r)
		default:
			out.WriteString(otherwise(r))
		}
	}
	return out.String()
}

// otherwise is what stands for a letter that all types lack: the letters that
// Unicode says it is made of (its compatibility decomposition), else a square.
func otherwise(r rune) string {
	parts := norm.NFKC.String(string(r))
	for _, part := range parts {
		if faceOf(part) == nil {
			return string(missing)
		}
	}
	return parts
}

// Lettered tells whether the types have all letters of a text, those that join
// in their joined forms.
func Lettered(s string) bool {
	return !strings.ContainsFunc(s, leftUnjoined) && strings.Count(Letters(s), string(missing)) == strings.Count(s, string(missing))
}

// composed is the text in Unicode's normalization form C where it holds marks or
// parts of syllables. Elsewhere that form would only change ideographs whose
// variants people tell apart in names.
func composed(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return unicode.Is(unicode.M, r) || r >= '\u1160' && r <= '\u11FF' }) {
		return s
	}
	return norm.NFC.String(s)
}
