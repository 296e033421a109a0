package out

import (
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"pgregory.net/rapid"
)

// Limits of sheet names: 31 letters counted in UTF-16, none of : \ / ? * [ ],
// no apostrophe at an end, unique without regard to capitals (ECMA-376 part 1,
// 18.2.19 sheet, and what spreadsheet programs refuse to open: from memory).
func TestSheetNames(t *testing.T) {
	names := sheetNames{taken: map[string]bool{}}
	for _, tt := range []struct{ name, wanted, want string }{
		{"plain", "Cuts A", "Cuts A"},
		{"taken, in other capitals", "CUTS a", "CUTS a (2)"},
		{"taken again", "Cuts A", "Cuts A (3)"},
		{"not allowed", `Cuts 1/2: [west] "x"`, "Cuts 1-2- -west- -x-"},
		{"apostrophes", "'Cuts'", "Cuts"},
		{"reserved", "History", "HistorySheet"},
		{"empty", "", "Sheet"},
		{"too long", strings.Repeat("a", 40), strings.Repeat("a", 31)},
		{"too long, taken", strings.Repeat("a", 40), strings.Repeat("a", 27) + " (2)"},
		{"two units a letter", strings.Repeat("\U0001F3E0", 20), strings.Repeat("\U0001F3E0", 15)},
		{"other scripts", "Cuts 床 Ω", "Cuts 床 Ω"},
	} {
		if got := names.unique(tt.wanted); got != tt.want {
			t.Errorf("%s: %q becomes %q, want %q", tt.name, tt.wanted, got, tt.want)
		}
	}
}

func TestAnySheetNameIsAllowed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := sheetNames{taken: map[string]bool{}}
		seen := map[string]bool{}
		for range 20 {
			name := names.unique(rapid.String().Draw(t, "name"))
			if units := len(utf16.Encode([]rune(name))); units == 0 || units > 31 {
				t.Fatalf("%q has %d units", name, units)
			}
			if strings.ContainsAny(name, `:\/?*[]`) || strings.HasPrefix(name, "'") || strings.HasSuffix(name, "'") {
				t.Fatalf("%q is not allowed", name)
			}
			if seen[strings.ToLower(name)] {
				t.Fatalf("%q is there twice", name)
			}
			seen[strings.ToLower(name)] = true
		}
	})
}

// Serial numbers of dates: 61 is 1 March 1900 and 25569 is 1 January 1970, the
// difference of the two epochs (ECMA-376 part 1, 18.17.4.1).
func TestSerial(t *testing.T) {
	for date, want := range map[string]int{"1900-03-01": 61, "1970-01-01": 25569, "2000-02-29": 36585} {
		day, err := time.Parse(time.DateOnly, date)
		if err != nil {
			t.Fatal(err)
		}
		if got := serial(day); got != want {
			t.Errorf("%s is %d, want %d", date, got, want)
		}
	}
}

func TestHeaderPart(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"a command", "Smith & Co", "Smith && Co"},
		{"line break", "a\nb", "a b"},
		{"cut between the two signs", "1234567890&&", "1234567890"},
	} {
		if got := headerPart(tt.text, 11); got != tt.want {
			t.Errorf("%s: %q becomes %q, want %q", tt.name, tt.text, got, tt.want)
		}
	}
}
