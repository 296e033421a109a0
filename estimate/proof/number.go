package proof

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// unit is how many units of 1/320 mm a millimetre has.
const unit = 320

// reach is the longest length that is read, 1 km either way: with it no area
// overflows.
const reach = 1_000_000 * unit

// length is a length in units of 1/320 mm.
type length int64

// point is a place in units of 1/320 mm.
type point struct{ x, y length }

// ring is a closed outline whose first point is not repeated.
type ring []point

// box is an axis-parallel rectangle.
type box struct{ x0, y0, x1, y1 length }

// number is an exact decimal of bounded size.
type number struct{ decimal.Decimal }

// whole is a whole number of bounded size.
type whole struct{ decimal.Decimal }

// Limits on the numbers of a hostile file: decimals grow with their exponent.
const (
	maxDigits   = 40
	maxExponent = 20
)

// UnmarshalJSON reads a length of mm.
func (l *length) UnmarshalJSON(text []byte) error {
	if isNull(text) {
		return nil
	}
	read, err := parseLength(unquote(text))
	*l = read
	return err
}

// UnmarshalJSON reads a list of points [x,y] in mm.
func (r *ring) UnmarshalJSON(text []byte) error {
	values, err := parseLengths(text)
	if err != nil {
		return err
	}
	if len(values)%2 != 0 {
		return errors.New("a list of points has an odd number of coordinates")
	}
	*r = make(ring, len(values)/2)
	for i := range *r {
		(*r)[i] = point{values[2*i], values[2*i+1]}
	}
	return nil
}

// UnmarshalJSON reads [x0,y0,x1,y1] in mm.
func (b *box) UnmarshalJSON(text []byte) error {
	values, err := parseLengths(text)
	if err != nil {
		return err
	}
	if len(values) != 4 {
		return fmt.Errorf("a rectangle of a plank has %d numbers, not 4", len(values))
	}
	*b = box{values[0], values[1], values[2], values[3]}
	return nil
}

// UnmarshalJSON reads a decimal, as a number or a string.
func (n *number) UnmarshalJSON(text []byte) error {
	if isNull(text) {
		return nil
	}
	read, err := parseDecimal(unquote(text))
	n.Decimal = read
	return err
}

// UnmarshalJSON reads a whole number, as a number or a string.
func (w *whole) UnmarshalJSON(text []byte) error {
	if isNull(text) {
		return nil
	}
	read, err := parseDecimal(unquote(text))
	if err == nil && !read.IsInteger() {
		err = fmt.Errorf("%s is not a whole number", clip(text))
	}
	w.Decimal = read
	return err
}

// parseLengths reads the numbers of a nested list in order. The text is valid
// JSON, so brackets and commas need no care.
func parseLengths(text []byte) ([]length, error) {
	if isNull(text) {
		return nil, nil
	}
	values := make([]length, 0, bytes.Count(text, []byte{','})+1)
	for i := 0; i < len(text); {
		switch text[i] {
		case '[', ']', ',', ' ', '\t', '\n', '\r':
			i++
			continue
		}
		end := i
		for end < len(text) && !strings.ContainsRune("],\t\n\r ", rune(text[end])) {
			end++
		}
		value, err := parseLength(unquote(text[i:end]))
		if err != nil {
			return nil, err
		}
		values = append(values, value)
		i = end
	}
	return values, nil
}

// parseLength reads mm exactly. The usual short form is read by hand; a file
// has millions of them.
func parseLength(text []byte) (length, error) {
	if l, ok := shortLength(text); ok {
		return l, nil
	}
	mm, err := parseDecimal(text)
	if err != nil {
		return 0, err
	}
	units := mm.Mul(decimal.NewFromInt(unit))
	if !units.IsInteger() {
		return 0, fmt.Errorf("length %s mm is no multiple of 1/320 mm", clip(text))
	}
	if units.Abs().GreaterThan(decimal.NewFromInt(reach)) {
		return 0, fmt.Errorf("length %s mm is beyond 1 km", clip(text))
	}
	return length(units.IntPart()), nil
}

// shortLength reads digits with up to six decimals: 1285, -12.5, 0.396875.
func shortLength(text []byte) (length, bool) {
	digits := text
	if len(digits) > 0 && digits[0] == '-' {
		digits = digits[1:]
	}
	if len(digits) == 0 || len(digits) > 13 {
		return 0, false
	}
	millionths, places, dotted := int64(0), 0, false
	for _, c := range digits {
		switch {
		case c == '.' && !dotted:
			dotted = true
		case c >= '0' && c <= '9' && places < 6:
			millionths = millionths*10 + int64(c-'0')
			if dotted {
				places++
			}
		default:
			return 0, false
		}
	}
	for ; places < 6; places++ {
		millionths *= 10
	}
	const parts = 1_000_000 / unit // 3125 millionths of a mm to the unit
	if millionths%parts != 0 || millionths/parts > reach {
		return 0, false
	}
	if text[0] == '-' {
		return length(-millionths / parts), true
	}
	return length(millionths / parts), true
}

// parseDecimal reads a decimal within the limits.
func parseDecimal(text []byte) (decimal.Decimal, error) {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(string(text)), "e")
	if len(mantissa) == 0 || len(mantissa) > maxDigits || len(exponent) > 4 {
		return decimal.Zero, fmt.Errorf("%s is not a number of ordinary size", clip(text))
	}
	read, err := decimal.NewFromString(string(text))
	if err != nil {
		return decimal.Zero, fmt.Errorf("%s is not a number", clip(text))
	}
	if read.Exponent() > maxExponent || read.Exponent() < -maxDigits-maxExponent {
		return decimal.Zero, fmt.Errorf("%s is not a number of ordinary size", clip(text))
	}
	return read, nil
}

func isNull(text []byte) bool { return string(text) == "null" }

// unquote takes a string's quotes off; a number within never holds an escape.
func unquote(text []byte) []byte {
	if len(text) >= 2 && text[0] == '"' && text[len(text)-1] == '"' {
		return text[1 : len(text)-1]
	}
	return text
}

// clip shortens a text for a message.
func clip(text []byte) string {
	const most = 40
	if len(text) > most {
		return fmt.Sprintf("%.40q...", text)
	}
	return fmt.Sprintf("%q", text)
}
