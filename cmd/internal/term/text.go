package term

import "strings"

// lineWidth is how long a wrapped line may be.
const lineWidth = 80

// Wrap breaks a text into lines, the first after the label and the others as
// far in.
func Wrap(label, text string) string {
	var out strings.Builder
	out.WriteString(label)
	at := cells(label)
	indent := strings.Repeat(" ", at)
	for i, word := range strings.Fields(text) {
		switch {
		case i == 0:
		case at+1+cells(word) > lineWidth:
			out.WriteString("\n" + indent)
			at = cells(indent)
		default:
			out.WriteString(" ")
			at++
		}
		out.WriteString(word)
		at += cells(word)
	}
	return out.String() + "\n"
}

// Group puts a comma between every three digits before the decimal point.
func Group(number string) string {
	sign := ""
	if strings.HasPrefix(number, "-") {
		sign, number = "-", number[1:]
	}
	whole, decimals, point := strings.Cut(number, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if point {
		decimals = "." + decimals
	}
	return sign + whole + decimals
}
