package draw

import (
	"maps"
	"slices"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// joined is a text with its Arabic letters in the forms in which they join
// their neighbours, lam and alef as one. Unicode has the forms as letters of
// their own, and each says by its compatibility decomposition whose form it
// is (chapter 9.2, Arabic Presentation Forms-A and -B).
func joined(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return unicode.Is(unicode.Arabic, r) }) {
		return s
	}
	var out []rune
	joins := false // the letter before joins this one
	runes := []rune(s)
	for i := 0; i < len(runes); i++ {
		letter := string(runes[i])
		if i+1 < len(runes) && forms()[letter+string(runes[i+1])] != nil {
			letter += string(runes[i+1])
			i++
		}
		own, next := forms()[letter], following(runes[i+1:])
		switch {
		case unicode.Is(unicode.Mn, runes[i]): // stands on the letter before
			out = append(out, runes[i])
		case own == nil:
			out = append(out, runes[i])
			joins = runes[i] == tatweel
		default:
			on := own.joinsNext() && joinable(next)
			out = append(out, own.form(joins, on))
			joins = on
		}
	}
	return string(out)
}

// tatweel is the line that words are drawn out with; it joins on both sides.
const tatweel = '\u0640'

// following is the next letter, past the marks on this one; 0 at the end.
func following(runes []rune) rune {
	i := slices.IndexFunc(runes, func(r rune) bool { return !unicode.Is(unicode.Mn, r) })
	if i < 0 {
		return 0
	}
	return runes[i]
}

// joinable tells a letter that joins the one before it.
func joinable(r rune) bool { return r == tatweel || forms()[string(r)] != nil }

// leftUnjoined tells an Arabic letter that is printed as it stands alone though
// it joins its neighbours: all but hamza, high hamza and tatweel do.
func leftUnjoined(r rune) bool {
	return unicode.Is(unicode.Arabic, r) && unicode.IsLetter(r) && forms()[string(r)] == nil && r != tatweel && !strings.ContainsRune("\u0621\u0674", r)
}

// letterForms are the forms of a letter: isolated, final, initial, medial; of one
// that joins only the letter before it, the first two.
type letterForms []rune

func (f letterForms) joinsNext() bool { return len(f) > 2 }

func (f letterForms) form(joinsBefore, joinsNext bool) rune {
	i := 0
	if joinsBefore {
		i++
	}
	if joinsNext {
		i += 2
	}
	return f[i]
}

// forms are the letters' forms that the usual type has. The blocks list
// those of a letter side by side; for a letter in both, the second counts.
var forms = sync.OnceValue(func() map[string]letterForms {
	all := map[string]letterForms{}
	for _, block := range [][2]rune{{'\uFB50', '\uFBFF'}, {'\uFE80', '\uFEFC'}} {
		for r := block[0]; r <= block[1]; r++ {
			letter := norm.NFKC.String(string(r))
			known := all[letter]
			if len(known) > 0 && known[len(known)-1] != r-1 {
				known = nil
			}
			if usual.has(r) && letter != string(r) && len([]rune(letter)) <= 2 {
				all[letter] = append(known, r)
			}
		}
	}
	maps.DeleteFunc(all, func(_ string, f letterForms) bool { return len(f) < 2 })
	return all
})
