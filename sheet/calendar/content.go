package calendar

import (
	"strings"
	"unicode/utf8"
)

// line is a content line: a property with its value, folded and ended as RFC
// 5545 section 3.1 says.
func line(property, value string) string { return folded(property+":"+value) + "\r\n" }

// longestLine is in octets, without the line's end.
const longestLine = 75

// folded breaks a line into lines of at most 75 octets, each further one begun
// with a space. No letter is torn apart.
func folded(text string) string {
	var b strings.Builder
	room := longestLine
	for _, r := range text {
		if size := utf8.RuneLen(r); size > room {
			b.WriteString("\r\n ")
			room = longestLine - 1 // the space counts
		}
		b.WriteRune(r)
		room -= utf8.RuneLen(r)
	}
	return b.String()
}

// escaped is a text as a value of the type TEXT, section 3.3.11: control
// characters have no place in it.
func escaped(text string) string {
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(strings.ReplaceAll(text, "\r\n", "\n"), "\uFFFD") {
		switch {
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\\', r == ';', r == ',':
			b.WriteRune('\\')
			b.WriteRune(r)
		case r == '\t', r >= ' ' && r != '\x7f':
			b.WriteRune(r)
		}
	}
	return b.String()
}

// texts are several values of the type TEXT.
func texts(values ...string) string {
	escapedValues := make([]string, len(values))
	for i, value := range values {
		escapedValues[i] = escaped(value)
	}
	return strings.Join(escapedValues, ",")
}
