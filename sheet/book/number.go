package book

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// exactDigits is how many significant decimal digits a double always keeps.
const exactDigits = 15

// plainExponent is how far the point is moved to write a number without an
// exponent; numbers beyond it keep one.
const plainExponent = 30

// appendDecimal appends the exact decimal of a stored number to dst, by the
// rule of Cell; ok is false when raw is not a number.
func appendDecimal(dst, raw []byte) (out []byte, ok bool) {
	if isShortPlain(raw) {
		return append(dst, raw...), true
	}
	negative, digits, exponent, ok := splitNumber(string(raw))
	if !ok {
		return dst, false
	}
	if len(digits) > exactDigits {
		x, err := strconv.ParseFloat(string(raw), 64)
		if err != nil || math.IsInf(x, 0) {
			return dst, false
		}
		_, digits, exponent, ok = splitNumber(strconv.FormatFloat(x, 'e', exactDigits-1, 64))
		if !ok {
			return dst, false
		}
	}
	if exponent < -400 || exponent > 400 {
		return dst, false
	}
	if negative && digits != "" {
		dst = append(dst, '-')
	}
	return appendPlain(dst, digits, exponent), true
}

// isShortPlain recognises the common case that needs no rewriting: up to 15
// digits, at most one point with digits on both sides, no needless zeros.
func isShortPlain(raw []byte) bool {
	b := raw
	if len(b) > 0 && b[0] == '-' {
		b = b[1:]
	}
	if len(b) == 0 || len(b) > exactDigits || b[0] < '0' || b[0] > '9' {
		return false
	}
	if b[0] == '0' && len(b) > 1 && b[1] != '.' || len(raw) > len(b) && b[0] == '0' {
		return false
	}
	point := -1
	for i, c := range b {
		switch {
		case c == '.' && point < 0:
			point = i
		case c < '0' || c > '9':
			return false
		}
	}
	return point < 0 || point < len(b)-1 && b[len(b)-1] != '0'
}

// splitNumber takes a number apart: value = 0.digits x 10^exponent, digits
// without zeros at either end ("" for zero).
func splitNumber(s string) (negative bool, digits string, exponent int, ok bool) {
	negative = strings.HasPrefix(s, "-")
	if negative || strings.HasPrefix(s, "+") {
		s = s[1:]
	}
	if i := strings.IndexAny(s, "eE"); i >= 0 {
		e, err := strconv.Atoi(s[i+1:])
		if err != nil || e < -9999 || e > 9999 {
			return false, "", 0, false
		}
		exponent, s = e, s[:i]
	}
	whole, fraction, _ := strings.Cut(s, ".")
	if whole+fraction == "" || strings.Trim(whole+fraction, "0123456789") != "" {
		return false, "", 0, false
	}
	exponent += len(whole)
	digits = whole + fraction
	trimmed := strings.TrimLeft(digits, "0")
	exponent -= len(digits) - len(trimmed)
	digits = strings.TrimRight(trimmed, "0")
	if digits == "" {
		exponent = 0
	}
	return negative, digits, exponent, true
}

// appendPlain writes 0.digits x 10^exponent.
func appendPlain(dst []byte, digits string, exponent int) []byte {
	switch {
	case digits == "":
		return append(dst, '0')
	case exponent > plainExponent || exponent < -plainExponent:
		dst = append(dst, digits...)
		dst = append(dst, 'E')
		return strconv.AppendInt(dst, int64(exponent-len(digits)), 10)
	case exponent <= 0:
		dst = append(dst, "0."...)
		dst = append(dst, strings.Repeat("0", -exponent)...)
		return append(dst, digits...)
	case exponent >= len(digits):
		dst = append(dst, digits...)
		return append(dst, strings.Repeat("0", exponent-len(digits))...)
	}
	dst = append(dst, digits[:exponent]...)
	dst = append(dst, '.')
	return append(dst, digits[exponent:]...)
}

// movePoint multiplies a decimal text by a power of ten, exactly.
func movePoint(text string, places int) string {
	negative, digits, exponent, ok := splitNumber(text)
	if !ok {
		return text
	}
	sign := ""
	if negative && digits != "" {
		sign = "-"
	}
	return sign + string(appendPlain(nil, digits, exponent+places))
}

// Largest day number that spreadsheets show as a date: 9999-12-31.
const lastSerial = 2_958_465

// dateText turns a day number into ISO 8601. In the 1900 system day 60 is
// 1900-02-29, a day that never was, kept by spreadsheets since it was once
// mistaken for a leap year; it is written as it is shown, for the reader to
// refuse. A number that no date is shown for stays a number.
func dateText(number string, from1904 bool) string {
	serial, err := strconv.ParseFloat(number, 64)
	if err != nil || serial < 0 || serial >= lastSerial+1 {
		return number
	}
	seconds := int64(math.Round(serial * 86_400))
	day, rest := int(seconds/86_400), seconds%86_400
	clock := ""
	if rest != 0 {
		clock = fmt.Sprintf("T%02d:%02d:%02d", rest/3600, rest/60%60, rest%60)
	}
	switch {
	case from1904:
		return isoDate(time.Date(1904, 1, 1+day, 0, 0, 0, 0, time.UTC)) + clock
	case day == 0:
		return "1900-01-00" + clock
	case day == 60:
		return "1900-02-29" + clock
	case day < 60:
		return isoDate(time.Date(1899, 12, 31+day, 0, 0, 0, 0, time.UTC)) + clock
	}
	return isoDate(time.Date(1899, 12, 30+day, 0, 0, 0, 0, time.UTC)) + clock
}

func isoDate(t time.Time) string { return t.Format(time.DateOnly) }

// timeText turns a part of a day into hours, minutes and seconds; spans may
// be longer than a day. A number that no time is shown for stays a number.
func timeText(number string) string {
	serial, err := strconv.ParseFloat(number, 64)
	if err != nil || serial < 0 || serial >= lastSerial+1 {
		return number
	}
	seconds := int64(math.Round(serial * 86_400))
	return fmt.Sprintf("%d:%02d:%02d", seconds/3600, seconds/60%60, seconds%60)
}

// isISODate tells whether a stored text is a date or time of ISO 8601, as
// strict files hold them.
func isISODate(text string) bool {
	for _, layout := range []string{time.DateOnly, "2006-01-02T15:04:05", "2006-01-02T15:04:05.999", time.RFC3339, "15:04:05", "15:04:05.999"} {
		if _, err := time.Parse(layout, text); err == nil {
			return true
		}
	}
	return false
}
