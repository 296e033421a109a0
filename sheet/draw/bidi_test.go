package draw

import (
	"encoding/json"
	"os"
	"testing"
)

// By the Unicode Bidirectional Algorithm (UAX 9) in a line that runs to the
// right, a Hebrew word's first letter stands rightmost, a number after it on
// its left, and brackets round it face inwards.
func TestVisual(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"Latin", "Room 1: Küche", "Room 1: Küche"},
		{"a word", "אבג", "גבא"},
		{"a word in a line", "door to אבג", "door to גבא"},
		{"a numbered room", "door 738 to אבג 12", "door 738 to 12 גבא"},
		{"two words", "Room 1: אב גד", "Room 1: דג בא"},
		{"brackets", "1: אב (גד) x", "1: (דג) בא x"},
		{"nothing", "", ""},
	} {
		if got := visual(tt.text); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

// The rules of joining (The Unicode Standard, chapter 9.2): beh joins both its
// neighbours, alef only the letter before it, hamza none; lam and alef are one.
func TestJoined(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"Latin", "Küche", "Küche"},
		{"alone", "\u0628", "\uFE8F"},
		{"three", "\u0628\u0628\u0628", "\uFE91\uFE92\uFE90"},
		{"past an alef", "\u0628\u0627\u0628", "\uFE91\uFE8E\uFE8F"},
		{"past a hamza", "\u0628\u0621\u0628", "\uFE8F\u0621\uFE8F"},
		{"past a mark", "\u0628\u064E\u0628", "\uFE91\u064E\uFE90"},
		{"lam and alef", "\u0628\u0644\u0627", "\uFE91\uFEFC"},
		{"drawn out", "\u0628\u0640", "\uFE91\u0640"},
		{"a Persian letter", "\u067E\u06CC", "\uFB58\uFBFD"},
	} {
		if got := joined(tt.text); got != tt.want {
			t.Errorf("%s: %+q, want %+q", tt.name, got, tt.want)
		}
	}
}

// testdata/icu.json holds random lines as the International Components for
// Unicode 72 set them: ubidi_writeReordered with mirrored brackets, and
// u_shapeArabic. 20,000 lines of either kind gave no difference.
func TestAsICU(t *testing.T) {
	content, err := os.ReadFile("testdata/icu.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases struct{ Visual, Shaped [][2]string }
	if err := json.Unmarshal(content, &cases); err != nil {
		t.Fatal(err)
	}
	if len(cases.Visual) == 0 || len(cases.Shaped) == 0 {
		t.Fatal("no cases")
	}
	for _, c := range cases.Visual {
		if got := visual(c[0]); got != c[1] {
			t.Errorf("visual %+q: %+q, want %+q", c[0], got, c[1])
		}
	}
	for _, c := range cases.Shaped {
		if got := joined(c[0]); got != c[1] {
			t.Errorf("joined %+q: %+q, want %+q", c[0], got, c[1])
		}
	}
}
