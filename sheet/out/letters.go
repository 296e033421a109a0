package out

import (
	"math"
	"strings"
	"unicode"

	"laybill/sheet/wrap"
)

// Sizes of type and columns, so that no text is cut off and every row is as
// high as its words need.
const (
	pointsPerWidth = 5.25 // a column's unit: seven dots of a screen
	cellPadding    = 3.75 // points of a column that its text leaves free
	indentWidth    = 7.5
	lineHeight     = 1.28 // of the size of the type
	emUnits        = 1000
	slack          = 0.97 // of a column is filled: printers set type a little wider than screens
)

// letterWidths are those of the letters from the space to the tilde in
// thousandths of their size, from the metrics of Helvetica, which Arial keeps to.
var letterWidths = [...]int{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

// Widths of other letters, and how much wider bold type is.
const (
	usualLetter = 600
	boldWidth   = 1.07
)

func letterWidth(r rune) int {
	if i := int(r - ' '); i >= 0 && i < len(letterWidths) {
		return letterWidths[i]
	}
	switch {
	case wrap.Joined(r) && !unicode.Is(unicode.Mc, r), unicode.Is(unicode.Cf, r):
		return 0
	case wrap.FullWidth(r):
		return emUnits
	case unicode.IsUpper(r):
		return letterWidths['N'-' ']
	}
	return usualLetter
}

// textWidth is the width of a text in points when it stands in one line.
func (s style) textWidth(words string) float64 {
	sum := 0
	for _, r := range words {
		sum += letterWidth(r)
	}
	points := float64(sum) * s.points() / emUnits
	if s.bold {
		points *= boldWidth
	}
	return points
}

// surelyWithin tells of most texts without measuring them that they take one line:
// no letter is wider than the @.
func (s style) surelyWithin(words string, room float64) bool {
	widest := float64(letterWidths['@'-' ']) * boldWidth / emUnits
	return float64(len(words))*widest*s.points() <= room && !strings.Contains(words, "\n")
}

// points is the size of the type.
func (s style) points() float64 {
	if s.size == 0 {
		return normalSize
	}
	return s.size
}

// lines is how many lines the cell's text takes in columns of so many units
// together; 1 for a number.
func (c cell) lines(columns float64) int {
	words, _ := c.value.(string)
	room := columns*pointsPerWidth*slack - cellPadding
	if c.style.indent {
		room -= indentWidth
	}
	if c.style.surelyWithin(words, room) {
		return 1
	}
	lines := 0
	for _, part := range strings.Split(words, "\n") {
		lines += c.style.brokenLines(wrap.Words(part), room)
	}
	return lines
}

// brokenLines is how many lines of so many points the words fill; a word longer
// than a line breaks within.
func (s style) brokenLines(words []wrap.Word, room float64) int {
	lines, used := 1, 0.0
	for _, word := range words {
		wide, space := s.textWidth(word.Letters), 0.0
		if word.Spaced {
			space = s.textWidth(" ")
		}
		if used > 0 && used+space+wide > room {
			lines, used = lines+1, 0
		}
		if used > 0 {
			used += space
		}
		used += wide
		for ; used > room && room > 0; used -= room {
			lines++
		}
	}
	return lines
}

// height is that of a row with so many lines of the style's type, in whole dots
// of a screen: programs round to them.
func (s style) height(lines int) float64 {
	const dot = 0.75
	return math.Ceil((2+lineHeight*s.points()*float64(lines))/dot) * dot
}
