package draw

import "testing"

// By the Unicode Bidirectional Algorithm (UAX 9) in a line that runs to the
// right, a Hebrew word's first letter stands rightmost.
func TestVisual(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"Latin", "Room 1: Küche", "Room 1: Küche"},
		{"a word", "אבג", "גבא"},
		{"a word in a line", "door to אבג 738", "door to גבא 738"},
		{"two words", "Room 1: אב גד", "Room 1: דג בא"},
		{"nothing", "", ""},
	} {
		if got := visual(tt.text); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}
