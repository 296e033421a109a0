package in

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// fold makes headings, setting names, choices and sheet names comparable:
// capitals, accents, spaces, hyphens and other marks do not count, nor does
// the s of a plural: "Pieces per pack" and "piece-per-packs" fold alike.
func fold(text string) string {
	var folded strings.Builder
	for _, word := range foldedWords(text) {
		folded.WriteString(word)
	}
	return folded.String()
}

// foldedWords is the words of a text, folded each.
func foldedWords(text string) []string {
	plain := strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’':
			return -1
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return ' '
	}, norm.NFKD.String(text))
	words := strings.Fields(plain)
	for i, word := range words {
		if len(word) > 3 && strings.HasSuffix(word, "s") && !strings.HasSuffix(word, "ss") {
			words[i] = word[:len(word)-1]
		}
	}
	return words
}

// nameKey makes names and codes comparable: capitals and the width of spaces
// do not count, everything else does.
func nameKey(name string) string {
	return strings.ToLower(norm.NFC.String(strings.Join(strings.Fields(name), " ")))
}

// distance is the number of letters to change, leave out, put in or swap with
// their neighbour to turn a into b, no letter touched twice (optimal string
// alignment). It stops counting beyond most.
func distance(a, b string, most int) int {
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) > most || len(y)-len(x) > most {
		return most + 1
	}
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(x); i++ {
		before, last, row = last, row, before
		row[0] = i
		least := i
		for j := 1; j <= len(y); j++ {
			changed := 1
			if x[i-1] == y[j-1] {
				changed = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+changed)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
			least = min(least, row[j])
		}
		if least > most {
			return most + 1
		}
	}
	return row[len(y)]
}

// mostNear is how many names are suggested.
const mostNear = 3

// near is the names that a mistyped one may have meant, nearest first. Names
// of fewer than three letters are never suggested for another.
func near(name string, names []string) []string {
	folded := fold(name)
	allowed := max(1, len([]rune(folded))/4)
	byDistance := make([][]string, allowed+1)
	for _, other := range names {
		against := fold(other)
		if len([]rune(against)) < 3 || len([]rune(folded)) < 3 {
			continue
		}
		if d := distance(folded, against, allowed); d <= allowed {
			byDistance[d] = append(byDistance[d], other)
		}
	}
	var found []string
	for _, names := range byDistance {
		found = append(found, names...)
	}
	return found[:min(len(found), mostNear)]
}

// orList writes names as a choice: "a", "b" or "c".
func orList(names []string) string { return quotedList(names, " or ") }

// andList writes names as a list: "a", "b" and "c".
func andList(names []string) string { return quotedList(names, " and ") }

func quotedList(names []string, last string) string {
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = quote(name)
	}
	switch n := len(quoted); n {
	case 0:
		return ""
	case 1:
		return quoted[0]
	default:
		return strings.Join(quoted[:n-1], ", ") + last + quoted[n-1]
	}
}

// quote puts a text in marks, cut when it is long, line breaks shown as
// spaces.
func quote(text string) string {
	const longest = 60
	runes := []rune(strings.Join(strings.Fields(text), " "))
	if len(runes) > longest {
		runes = append(runes[:longest], '…')
	}
	return `"` + string(runes) + `"`
}
