package book

import "strings"

// FormatKind sorts number formats by what they make of a number.
type FormatKind uint8

// The kinds of number formats.
const (
	Plain    FormatKind = iota // a number as it is
	Percent                    // a hundred times the number, with a per cent sign
	DateForm                   // a day, with or without the time of day
	TimeForm                   // a time of day or a span of time
)

// Format is what a number format says about its cell.
type Format struct {
	Kind FormatKind
	// Unit is the text that the format writes behind the number: m for the
	// code 0.00" m". It is part of what the person sees.
	Unit string
	// Currency is the sign or code the format writes: € for [$€-407]#,##0.00.
	Currency string
}

// builtIn is the kind of the format codes that a file need not hold, by their
// number (ECMA-376 part 1, 18.8.30 numFmt).
func builtIn(id int) Format {
	switch {
	case id == 9 || id == 10:
		return Format{Kind: Percent}
	case id >= 14 && id <= 17, id == 22, id >= 27 && id <= 31, id == 36, id >= 50 && id <= 54, id == 57, id == 58:
		return Format{Kind: DateForm}
	case id >= 18 && id <= 21, id >= 32 && id <= 35, id >= 45 && id <= 47, id == 55, id == 56:
		return Format{Kind: TimeForm}
	}
	return Format{}
}

// parseFormat reads a format code (ECMA-376 part 1, 18.8.31). Only the first
// section counts: it is the one for positive numbers.
func parseFormat(code string) Format {
	var scan formatScan
	rest := []rune(code)
	for i := 0; i < len(rest); i++ {
		i = scan.take(rest, i)
		if scan.ended {
			break
		}
	}
	return scan.format()
}

// formatScan collects what one section of a format code holds.
type formatScan struct {
	year, month, day, hour, second, percent bool
	digits                                  bool
	literal                                 strings.Builder // behind the digits
	currency                                string
	ended                                   bool
}

// take reads the element of the code at i and returns its last index.
func (s *formatScan) take(code []rune, i int) int {
	switch code[i] {
	case ';':
		s.ended = true
	case '"':
		end := find(code, i+1, '"')
		s.write(string(code[i+1 : end]))
		return end
	case '\\':
		if i+1 < len(code) {
			s.write(string(code[i+1]))
		}
		return i + 1
	case '_', '*':
		return i + 1
	case '[':
		end := find(code, i+1, ']')
		s.bracket(string(code[i+1 : end]))
		return end
	case '0', '#', '?':
		s.digits = true
		s.literal.Reset()
	case '%':
		s.percent = true
	case 'y', 'Y':
		s.year = true
	case 'm', 'M':
		s.month = true
	case 'd', 'D':
		s.day = true
	case 'h', 'H':
		s.hour = true
	case 's', 'S':
		s.second = true
	case 'G', 'g':
		if strings.HasPrefix(strings.ToLower(string(code[i:])), "general") {
			s.digits = true
			s.literal.Reset()
			return i + len("general") - 1
		}
	case '€', '£', '$', '¥':
		s.currency = string(code[i])
	case ' ':
		s.write(" ")
	}
	return i
}

func (s *formatScan) write(text string) {
	if s.digits {
		s.literal.WriteString(text)
	}
}

// bracket reads [h], [$€-407] and the like; colours and conditions say
// nothing here.
func (s *formatScan) bracket(text string) {
	if money, ok := strings.CutPrefix(text, "$"); ok {
		money, _, _ = strings.Cut(money, "-")
		s.currency = strings.TrimSpace(money)
		return
	}
	if text != "" && strings.Trim(strings.ToLower(text), "hms") == "" {
		s.hour = true
	}
}

func (s *formatScan) format() Format {
	switch {
	case s.year || s.day || s.month && !s.hour && !s.second && !s.digits:
		return Format{Kind: DateForm}
	case s.hour || s.second:
		return Format{Kind: TimeForm}
	case s.percent:
		return Format{Kind: Percent}
	}
	return Format{Unit: strings.TrimSpace(s.literal.String()), Currency: s.currency}
}

// find is the index of a rune from i on, or the code's length when it is not
// there.
func find(code []rune, i int, want rune) int {
	for ; i < len(code); i++ {
		if code[i] == want {
			return i
		}
	}
	return len(code)
}
