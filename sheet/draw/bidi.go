package draw

import (
	"slices"
	"strings"

	"golang.org/x/text/unicode/bidi"
)

// visual is a line in the order in which its letters stand on the paper from
// left to right: the Unicode Bidirectional Algorithm (UAX 9) for a line that
// runs to the right and holds no embedding marks. The rules' names are the
// standard's.
func visual(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return r >= firstLeftward }) {
		return s
	}
	l := newBidiLine(s)
	l.resolveWeak()
	l.resolveBrackets()
	l.resolveNeutrals()
	return l.reordered()
}

// firstLeftward is the first letter of Unicode's first block, Hebrew, of those
// that run to the left.
const firstLeftward = '\u0590'

// bidiLine is a line with the classes of its letters, which the rules change.
type bidiLine struct {
	runes    []rune
	original []bidi.Class
	classes  []bidi.Class
}

func newBidiLine(s string) *bidiLine {
	l := &bidiLine{runes: []rune(s)}
	for _, r := range l.runes {
		properties, _ := bidi.LookupRune(r)
		l.original = append(l.original, properties.Class())
	}
	l.classes = slices.Clone(l.original)
	return l
}

// resolveWeak settles marks, numbers and what stands in them.
func (l *bidiLine) resolveWeak() {
	c := l.classes
	before, strong := bidi.L, bidi.L
	for i := range c {
		switch {
		case c[i] == bidi.NSM: // W1
			c[i] = before
		case c[i] == bidi.EN && strong == bidi.AL: // W2
			c[i] = bidi.AN
		}
		if isStrong(c[i]) {
			strong = c[i]
		}
		before = c[i]
	}
	for i := 1; i+1 < len(c); i++ { // W4
		between := c[i-1] == c[i+1] && (c[i] == bidi.CS && isNumber(c[i-1]) || c[i] == bidi.ES && c[i-1] == bidi.EN)
		if between {
			c[i] = c[i-1]
		}
	}
	for i := range c { // W5
		if c[i] == bidi.EN {
			for j := i - 1; j >= 0 && c[j] == bidi.ET; j-- {
				c[j] = bidi.EN
			}
			for j := i + 1; j < len(c) && c[j] == bidi.ET; j++ {
				c[j] = bidi.EN
			}
		}
	}
	strong = bidi.L
	for i := range c {
		switch {
		case c[i] == bidi.AL: // W3
			c[i] = bidi.R
		case c[i] == bidi.EN && strong == bidi.L: // W7
			c[i] = bidi.L
		case !isStrong(c[i]) && !isNumber(c[i]): // W6
			c[i] = bidi.ON
		}
		if isStrong(c[i]) {
			strong = c[i]
		}
	}
}

func isStrong(c bidi.Class) bool { return c == bidi.L || c == bidi.R || c == bidi.AL }

func isNumber(c bidi.Class) bool { return c == bidi.EN || c == bidi.AN }

// side is the direction in which a letter pulls its neighbours: R or L, and ON
// for none.
func side(c bidi.Class) bidi.Class {
	if isNumber(c) {
		return bidi.R
	}
	return c
}

// resolveBrackets gives both brackets of a pair one direction (N0): to the right
// where a word between them runs so, else to the left where one between and
// the text before them do.
func (l *bidiLine) resolveBrackets() {
	for _, pair := range l.brackets() {
		within := l.classes[pair[0]+1 : pair[1]]
		holds := func(want bidi.Class) bool {
			return slices.ContainsFunc(within, func(c bidi.Class) bool { return side(c) == want })
		}
		direction := bidi.L
		switch {
		case holds(bidi.L):
		case !holds(bidi.R):
			continue
		default:
			direction = l.before(pair[0])
		}
		l.classes[pair[0]], l.classes[pair[1]] = direction, direction
	}
}

// brackets are the places of the pairs, in the order of the opening ones (BD16).
func (l *bidiLine) brackets() [][2]int {
	var pairs [][2]int
	var open []int
	for i, r := range l.runes {
		properties, _ := bidi.LookupRune(r)
		switch {
		case l.classes[i] != bidi.ON || !properties.IsBracket():
		case properties.IsOpeningBracket():
			open = append(open, i)
		default:
			for j := len(open) - 1; j >= 0; j-- {
				if mirrored(l.runes[open[j]]) == r {
					pairs = append(pairs, [2]int{open[j], i})
					open = open[:j]
					break
				}
			}
		}
	}
	slices.SortFunc(pairs, func(a, b [2]int) int { return a[0] - b[0] })
	return pairs
}

// before is the direction of the text before a place.
func (l *bidiLine) before(i int) bidi.Class {
	for i--; i >= 0; i-- {
		if s := side(l.classes[i]); s != bidi.ON {
			return s
		}
	}
	return bidi.L
}

// resolveNeutrals gives spaces and signs the direction of both their
// neighbours (N1), or the line's (N2).
func (l *bidiLine) resolveNeutrals() {
	for i := 0; i < len(l.classes); {
		if l.classes[i] != bidi.ON {
			i++
			continue
		}
		end := i
		for end < len(l.classes) && l.classes[end] == bidi.ON {
			end++
		}
		direction := bidi.L
		if end < len(l.classes) && side(l.classes[end]) == bidi.R {
			direction = l.before(i)
		}
		for ; i < end; i++ {
			l.classes[i] = direction
		}
	}
}

// reordered is the line with its parts turned round, those within parts first
// (L2). Spaces at its end stay there (L1); brackets are mirrored (L4).
func (l *bidiLine) reordered() string {
	runes := slices.Clone(l.runes)
	end := len(runes)
	for end > 0 && l.original[end-1] == bidi.WS {
		end--
	}
	turned := func(in func(bidi.Class) bool) {
		for i := 0; i < end; i++ {
			from := i
			for i < end && in(l.classes[i]) {
				i++
			}
			slices.Reverse(runes[from:i])
		}
	}
	for i, c := range l.classes {
		if c == bidi.R {
			runes[i] = mirrored(runes[i])
		}
	}
	turned(isNumber)
	turned(func(c bidi.Class) bool { return c == bidi.R || isNumber(c) })
	return string(runes)
}

// mirrored is the bracket that faces the other way; any other letter is its own.
func mirrored(r rune) rune { return []rune(bidi.ReverseString(string(r)))[0] }
