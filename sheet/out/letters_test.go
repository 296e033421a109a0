package out

import (
	"math"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
)

// The widths of letters are those that a library of PDF documents carries for
// Helvetica, one of the fourteen types that ISO 32000 lets every reader have.
func TestLetterWidths(t *testing.T) {
	pdf := fpdf.New("P", "pt", "A4", "")
	pdf.SetFont("Helvetica", "", emUnits)
	for r := ' '; r <= '~'; r++ {
		if got, want := letterWidth(r), int(math.Round(pdf.GetStringWidth(string(r)))); got != want {
			t.Errorf("%q is %d thousandths wide, want %d", r, got, want)
		}
	}
}

// Hand working: nine points of type in a column of ten units. Its text has 10 x
// 5.25 x 0.97 - 3.75 = 47.2 points. "Living" is 556+222+500+222+556+556 = 2612
// thousandths, 23.5 points; a space 2.5; so one "Living" fits and two do not.
// A Chinese letter is as wide as high: five take 45 points, six take 54, and lines
// end between any two of them: 36 take eight lines. Behind "Living" two more
// letters have room. A stop begins no line, so it takes the letter before it along.
func TestLines(t *testing.T) {
	for words, want := range map[string]int{
		"": 1, "Living": 1, "Living Living": 2, "Living\nHall": 2,
		"起居室起居": 1, "起居室起居室": 2, "Livingroomlivingroom": 2,
		strings.Repeat("起居室", 12): 8, "Living起居室起居室": 2, "Living起居室起居室起": 2, "Living起居室起居室起居": 3,
		"起居室起居。起居室": 2, "起居室起居。起居室起": 3,
		"\u1100\u1165\u1109\u1175\u11AF\u1100\u1165\u1109\u1175\u11AF": 1, // Hangul in parts, four syllables
	} {
		if got := text(words).lines(10); got != want {
			t.Errorf("%q takes %d lines, want %d", words, got, want)
		}
	}
}
