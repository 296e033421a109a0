package measure

import (
	"fmt"
	"strconv"
)

// inchParts is the fineness of a tape measure in inches: sixteenths, common
// practice.
const inchParts = 16

// Format writes the length for a person, without the unit's name where a
// heading carries it: millimetres to 0.1, centimetres to 0.01, metres to
// 0.001 and yards to 0.001, all without closing zeros; inches as 6 1/2" and
// feet as 12' 6 1/2", to the nearest sixteenth of an inch.
func (l Length) Format(unit Unit) string {
	switch unit {
	case In:
		return l.Inches(inchParts)
	case Ft:
		return l.FeetInches(inchParts)
	case MM:
		return l.Decimal(unit).Round(1).String()
	case CM:
		return l.Decimal(unit).Round(2).String()
	default:
		return l.Decimal(unit).Round(3).String()
	}
}

// String is the length in millimetres with its unit, for messages and tests.
func (l Length) String() string { return l.Decimal(MM).String() + " mm" }

// FeetInches writes the length as feet, inches and a reduced fraction of an
// inch to the nearest 1/parts, such as 12' 6 1/2"; parts is at least 1. Halves
// are rounded away from zero.
func (l Length) FeetInches(parts int64) string {
	sign, whole := l.inParts(parts)
	perFoot := 12 * parts
	return fmt.Sprintf("%s%d' %s", sign, whole/perFoot, inches(whole%perFoot, parts))
}

// Inches writes the length as inches and a reduced fraction of an inch to the
// nearest 1/parts, such as 150 1/2"; parts is at least 1.
func (l Length) Inches(parts int64) string {
	sign, whole := l.inParts(parts)
	return sign + inches(whole, parts)
}

// inParts is the length's sign and its size in whole 1/parts of an inch.
func (l Length) inParts(parts int64) (sign string, whole int64) {
	size := int64(l)
	if size < 0 {
		sign, size = "-", -size
	}
	whole = (size*parts*2 + int64(Inch)) / (2 * int64(Inch))
	if whole == 0 {
		sign = ""
	}
	return sign, whole
}

func inches(whole, parts int64) string {
	number, rest := whole/parts, whole%parts
	if rest == 0 {
		return strconv.FormatInt(number, 10) + `"`
	}
	divisor := greatestCommonDivisor(rest, parts)
	fraction := fmt.Sprintf(`%d/%d"`, rest/divisor, parts/divisor)
	if number == 0 {
		return fraction
	}
	return strconv.FormatInt(number, 10) + " " + fraction
}

func greatestCommonDivisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
