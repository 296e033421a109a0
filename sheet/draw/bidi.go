package draw

import (
	"slices"

	"golang.org/x/text/unicode/bidi"
)

// visual is a line in the order in which its letters stand on the paper from
// left to right: words in scripts that run the other way are turned round, with
// what stands between them. Numbers keep their order.
func visual(s string) string {
	runes := []rune(s)
	for i := 0; i < len(runes); i++ {
		if !leftward(runes[i]) {
			continue
		}
		end := i + 1
		for j := end; j < len(runes) && !rightward(runes[j]); j++ {
			if leftward(runes[j]) {
				end = j + 1
			}
		}
		slices.Reverse(runes[i:end])
		i = end
	}
	return string(runes)
}

func class(r rune) bidi.Class {
	p, _ := bidi.LookupRune(r)
	return p.Class()
}

// leftward tells a letter of a script that runs to the left.
func leftward(r rune) bool { return class(r) == bidi.R || class(r) == bidi.AL }

// rightward tells a letter or digit that is written to the right.
func rightward(r rune) bool {
	return class(r) == bidi.L || class(r) == bidi.EN || class(r) == bidi.AN
}
