package measure

import (
	"strings"
	"unicode"
)

// tokenKind says what a token of a written length is; its value is the letter
// that stands for it in a shape such as nf (number, fraction).
type tokenKind byte

const (
	numberToken   tokenKind = 'n'
	fractionToken tokenKind = 'f'
	unitToken     tokenKind = 'u'
	dashToken     tokenKind = '-'
)

type token struct {
	kind tokenKind
	text string
	at   int // place in the cleaned text
	unit Unit
}

// kinds spells the shape of some tokens.
func kinds(tokens []token) string {
	shape := make([]byte, len(tokens))
	for i := range tokens {
		shape[i] = byte(tokens[i].kind)
	}
	return string(shape)
}

// sameSign folds the signs that keyboards, word processors and east Asian
// input write into the plain one.
var sameSign = strings.NewReplacer(
	"''", `"`, "′′", `"`, "’’", `"`, "″", `"`, "”", `"`, "“", `"`, "„", `"`, "ʺ", `"`,
	"′", "'", "’", "'", "‘", "'", "´", "'", "`", "'", "ʹ", "'",
	"−", "-", "–", "-", "—", "-", "‐", "-", "‑", "-",
	"⁄", "/", "∕", "/", "㎜", "mm", "㎝", "cm", "㎡", "m2",
	"½", " 1/2 ", "⅓", " 1/3 ", "⅔", " 2/3 ", "¼", " 1/4 ", "¾", " 3/4 ",
	"⅛", " 1/8 ", "⅜", " 3/8 ", "⅝", " 5/8 ", "⅞", " 7/8 ",
	"\u200b", "", "\ufeff", "", "\u2060", "",
)

// cleaned is the text in plain characters, single spaces and lower case.
func cleaned(text string) string {
	const fullWidthFirst, fullWidthLast, toPlain = '！', '～', '！' - '!'
	plain := strings.Map(func(r rune) rune {
		switch {
		case r >= fullWidthFirst && r <= fullWidthLast:
			return r - toPlain
		case unicode.IsSpace(r):
			return ' '
		}
		return r
	}, text)
	return strings.Join(strings.Fields(strings.ToLower(sameSign.Replace(plain))), " ")
}

// tokenise cuts a cleaned text into tokens; odd is the first stretch that is
// none.
func tokenise(text string) (tokens []token, odd string) {
	for at := 0; at < len(text); {
		next := token{at: at}
		switch c := text[at]; {
		case c == ' ':
			at++
			continue
		case c == '-':
			next.kind, next.text = dashToken, text[at:at+1]
		case isDigit(c) || c == '.':
			next.text = text[at : at+spanOf(text[at:], isNumberByte)]
			next.kind = numberToken
			if strings.Contains(next.text, "/") {
				next.kind = fractionToken
				if !isFraction(next.text) {
					return nil, next.text
				}
			}
		default:
			next.kind, next.text = unitToken, unitText(text[at:])
			unit, known := ParseUnit(next.text)
			if !known {
				return nil, next.text
			}
			next.unit = unit
		}
		tokens = append(tokens, next)
		at += len(next.text)
	}
	return tokens, ""
}

// unitText is the mark or word at the start of a text.
func unitText(text string) string {
	if text[0] == '\'' || text[0] == '"' {
		return text[:1]
	}
	end := spanOf(text, func(c byte) bool { return !isDigit(c) && !strings.ContainsRune(` .-'"`, rune(c)) })
	if end < len(text) && text[end] == '.' && (end+1 == len(text) || !isDigit(text[end+1])) {
		end++ // the full stop of an abbreviation
	}
	return text[:max(end, 1)]
}

func spanOf(text string, belongs func(byte) bool) int {
	end := 0
	for end < len(text) && belongs(text[end]) {
		end++
	}
	return end
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isNumberByte(c byte) bool { return isDigit(c) || c == '.' || c == ',' || c == '/' }

func isDigits(text string) bool { return text != "" && spanOf(text, isDigit) == len(text) }

// isFraction reports whether the text is a whole number over a whole number
// other than nought.
func isFraction(text string) bool {
	above, below, found := strings.Cut(text, "/")
	return found && isDigits(above) && isDigits(below) && strings.Trim(below, "0") != ""
}

// plainNumber is a written number with a decimal point and no grouping. Where
// a single comma may group thousands as well as begin the decimals, the second
// result is that other reading. Points and commas group digits only in threes
// and only when both are used or one is used twice.
func plainNumber(text string) (number, thousands string, ok bool) {
	points, commas := strings.Count(text, "."), strings.Count(text, ",")
	switch {
	case points == 0 && commas == 0:
		return text, "", isDigits(text)
	case points == 1 && commas == 0:
		return pointNumber(text)
	case points == 0 && commas == 1:
		number, _, ok = pointNumber(strings.Replace(text, ",", ".", 1))
		if whole, grouped := ungrouped(text, ","); grouped {
			thousands = whole
		}
		return number, thousands, ok
	case points == 0 || commas == 0:
		mark := ","
		if commas == 0 {
			mark = "."
		}
		number, ok = ungrouped(text, mark)
		return number, "", ok
	}
	group, decimal := ",", "."
	if strings.LastIndex(text, ",") > strings.LastIndex(text, ".") {
		group, decimal = ".", ","
	}
	whole, decimals, _ := strings.Cut(text, decimal)
	whole, ok = ungrouped(whole, group)
	return whole + "." + decimals, "", ok && isDigits(decimals)
}

// pointNumber checks a number with one point, whose whole part may be missing.
func pointNumber(text string) (number, thousands string, ok bool) {
	whole, decimals, _ := strings.Cut(text, ".")
	if whole == "" {
		whole = "0"
	}
	return whole + "." + decimals, "", isDigits(whole) && isDigits(decimals)
}

// ungrouped takes the marks out of a number grouped in threes; ok is false
// where it is not so grouped.
func ungrouped(text, mark string) (whole string, ok bool) {
	groups := strings.Split(text, mark)
	if len(groups[0]) > 3 || !isDigits(groups[0]) || groups[0][0] == '0' {
		return "", false
	}
	for _, group := range groups[1:] {
		if len(group) != 3 || !isDigits(group) {
			return "", false
		}
	}
	return strings.Join(groups, ""), true
}
