// Package wrap tells where a line of text may end: at spaces, seen and unseen, and
// in East Asian text, which has none, between letters. There it follows the Unicode
// Line Breaking Algorithm (UAX 14). Words of other scripts stay whole, even at
// hyphens and slashes, where the algorithm would part sizes and codes.
package wrap

import (
	"strings"
	"unicode"

	"github.com/go-text/typesetting/segmenter"
	"golang.org/x/text/width"
)

// Word is letters within which no line ends.
type Word struct {
	Letters string
	Spaced  bool // a space stands before it, unless it begins a line
}

// Words are the parts of a text that lines are made of. Spaces, tabs and line
// feeds are alike; spaces that hold words together are letters.
func Words(s string) []Word {
	var words []Word
	for _, part := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		start, base := 0, rune(0)
		for i, r := range part {
			if i > 0 && parted(base, r) {
				words = append(words, Word{part[start:i], start == 0})
				start = i
			}
			if !Joined(r) {
				base = r
			}
		}
		words = append(words, Word{part[start:], start == 0})
	}
	return words
}

// Characters are the parts of a text that readers take for one letter (the extended
// grapheme clusters of UAX 29): a letter with its marks, a syllable of Hangul.
func Characters(s string) []string {
	var all []string
	var text segmenter.Segmenter
	text.Init([]rune(s))
	for next := text.GraphemeIterator(); next.Next(); {
		all = append(all, string(next.Grapheme().Text))
	}
	return all
}

// parted tells whether a line may end between two letters.
func parted(before, after rune) bool {
	switch {
	case before == zeroWidthSpace: // LB8
		return true
	case !Wide(before) && !Wide(after), Joined(after), glue(before), glue(after), quote(before), quote(after):
		return false
	case unit(after): // LB23a
		return smallKana(before)
	case amount(after): // LB24
		return Wide(before)
	case unit(before) && !Wide(after): // LB24
		return false
	}
	return !opens(before) && !follows(after)
}

// zeroWidthSpace parts words in scripts that write no spaces between them.
const zeroWidthSpace = '\u200B'

// Wide tells the letters of East Asian text, between which lines may end.
func Wide(r rune) bool {
	return FullWidth(r) || width.LookupRune(r).Kind() == width.EastAsianHalfwidth && r >= '\uFF61'
}

// FullWidth tells the letters that are as wide as high: Unicode's wide and
// full-width ones (UAX 11).
func FullWidth(r rune) bool {
	kind := width.LookupRune(r).Kind()
	return kind == width.EastAsianWide || kind == width.EastAsianFullwidth
}

// Joined tells a letter that is printed on the one before it or as a part of
// it (LB9, LB26): marks, and the vowels and last consonants of Hangul.
func Joined(r rune) bool { return unicode.Is(unicode.M, r) || r >= '\u1160' && r <= '\u11FF' }

// glue holds its neighbours (LB11, LB12).
func glue(r rune) bool { return strings.ContainsRune("\u00A0\u2007\u200D\u2011\u202F\u2060\uFEFF", r) }

// quote may open or close (LB19).
func quote(r rune) bool { return r == '"' || r == '\'' || unicode.In(r, unicode.Pi, unicode.Pf) }

// unit stands behind an amount, amount before one.
func unit(r rune) bool { return strings.ContainsRune(units, r) }
func amount(r rune) bool {
	return unicode.Is(unicode.Sc, r) && !unit(r) || strings.ContainsRune(`+\±−∓№`, r)
}

// opens tells what ends no line: opening brackets (LB14) and what stands before
// an amount (LB23a).
func opens(r rune) bool { return unicode.Is(unicode.Ps, r) || amount(r) }

// follows tells what begins no line: closing brackets and stops (LB13), hyphens
// and small kana (LB21), dots (LB22).
func follows(r rune) bool {
	return unicode.Is(unicode.Pe, r) || strings.ContainsRune(stops+dashes+"\u2024\u2025\u2026\u22EF", r) || smallKana(r)
}

// smallKana stands with the letter before it, as do marks of length and repetition.
func smallKana(r rune) bool { return strings.ContainsRune(small, r) || r >= '\u31F0' && r <= '\u31FF' }

const (
	stops  = "!?,.:;/\uFF01\uFF1F\uFF0C\uFF0E\uFF1A\uFF1B\u3001\u3002\uFF61\uFF64\uFE50\uFE52\uFE54\uFE55\uFE56\uFE57"
	dashes = "-|\u2010\u2012\u2013\u301C\u30A0\u3000"
	small  = "\u203C\u2047\u2048\u2049\u3005\u3035\u303B\u303C\u3041\u3043\u3045\u3047\u3049\u3063\u3083\u3085\u3087\u308E\u3095\u3096\u309B\u309C\u309D\u309E" +
		"\u30A1\u30A3\u30A5\u30A7\u30A9\u30C3\u30E3\u30E5\u30E7\u30EE\u30F5\u30F6\u30FB\u30FC\u30FD\u30FE" +
		"\uFF65\uFF67\uFF68\uFF69\uFF6A\uFF6B\uFF6C\uFF6D\uFF6E\uFF6F\uFF70\uFF9E\uFF9F"
	units = "%\u00A2\u00B0\u2030\u2031\u2032\u2033\u2103\u2109\uFF05\uFFE0"
)
