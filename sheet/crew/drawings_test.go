package crew

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// Names that Windows, macOS and Linux all take: what is reserved is listed in
// the Windows documentation "Naming Files, Paths, and Namespaces"; 255 bytes
// are the most on Linux.
func TestFileNames(t *testing.T) {
	names := fileNames{}
	for _, tt := range []struct{ name, wanted, want string }{
		{"as it is", "A - Küche", "A - Küche"},
		{"taken", "A - Küche", "A - Küche (2)"},
		{"taken but for capitals", "a - KÜCHE", "a - KÜCHE (3)"},
		{"reserved characters", `A/B\C:*?"<>| - Bath`, "A-B-C------- - Bath"},
		{"another script", "תוכנית - חדר", "תוכנית - חדר"},
		{"not shown", "A\x00\n - \tB", "A - B"},
		{"a way upwards", "../.. - x", "-.. - x"},
		{"dots at the end", "C - B. .", "C - B"},
	} {
		if got := names.unique(tt.wanted); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestLongFileNamesAreCutBetweenLetters(t *testing.T) {
	names := fileNames{}
	for _, letter := range []string{"a", "ü", "床", "😀"} {
		first, second := names.unique(strings.Repeat(letter, 300)), names.unique(strings.Repeat(letter, 300))
		for _, name := range []string{first, second} {
			if len(name) > longestFileName || len(name) < longestFileName-3 || !utf8.ValidString(name) {
				t.Errorf("%s: %d bytes, valid %v", letter, len(name), utf8.ValidString(name))
			}
		}
		if first == second {
			t.Errorf("%s: twice the same name", letter)
		}
	}
}
