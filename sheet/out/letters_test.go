package out

import (
	"math"
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
// A Chinese letter is as wide as high: five take 45 points, six take 54.
func TestLines(t *testing.T) {
	for words, want := range map[string]int{
		"": 1, "Living": 1, "Living Living": 2, "Living\nHall": 2,
		"起居室起居": 1, "起居室起居室": 2, "Livingroomlivingroom": 2,
	} {
		if got := text(words).lines(10); got != want {
			t.Errorf("%q takes %d lines, want %d", words, got, want)
		}
	}
}
