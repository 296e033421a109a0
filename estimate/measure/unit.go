package measure

import (
	"strings"

	"github.com/shopspring/decimal"
)

// Unit is a unit of length that a person writes or reads. The zero value is
// the millimetre.
type Unit uint8

// The units of length. Yards only measure goods and prices, never a room.
const (
	MM Unit = iota
	CM
	M
	In
	Ft
	Yd
)

// units gives each unit its symbol, its size and the words it is known by.
var units = [...]struct {
	symbol string
	size   Length
	words  []string
}{
	MM: {"mm", Millimetre, []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
	CM: {"cm", Centimetre, []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
	M:  {"m", Metre, []string{"m", "metre", "metres", "meter", "meters"}},
	In: {"in", Inch, []string{"in", "inch", "inches", `"`}},
	Ft: {"ft", Foot, []string{"ft", "foot", "feet", "'"}},
	Yd: {"yd", Yard, []string{"yd", "yard", "yards"}},
}

// ParseUnit is the unit that a word or mark such as mm, metres, ft or " names;
// upper and lower case and a closing full stop do not matter.
func ParseUnit(word string) (Unit, bool) {
	word = strings.TrimSuffix(strings.ToLower(strings.TrimSpace(word)), ".")
	for unit := range units {
		for _, known := range units[unit].words {
			if word == known {
				return Unit(unit), true
			}
		}
	}
	return MM, false
}

// String is the unit's symbol.
func (u Unit) String() string { return units[u].symbol }

// Length is the length of one such unit.
func (u Unit) Length() Length { return units[u].size }

// Imperial reports whether the unit belongs to the foot and inch.
func (u Unit) Imperial() bool { return u >= In }

// AreaUnit is a unit of area that a person writes or reads. The zero value is
// the square metre.
type AreaUnit uint8

// The units of area.
const (
	M2 AreaUnit = iota
	Ft2
	Yd2
)

var areaUnits = [...]struct {
	symbol string
	size   Area
	words  []string
}{
	M2:  {"m2", SquareMetre, []string{"m2", "m²", "sqm", "sq m"}},
	Ft2: {"ft2", SquareFoot, []string{"ft2", "ft²", "sqft", "sq ft"}},
	Yd2: {"yd2", SquareYard, []string{"yd2", "yd²", "sqyd", "sq yd"}},
}

// ParseAreaUnit is the unit of area that a word such as m2, ft² or sq yd names.
func ParseAreaUnit(word string) (AreaUnit, bool) {
	word = strings.TrimSuffix(strings.ToLower(strings.TrimSpace(word)), ".")
	for unit := range areaUnits {
		for _, known := range areaUnits[unit].words {
			if word == known {
				return AreaUnit(unit), true
			}
		}
	}
	return M2, false
}

// String is the unit's symbol, written with a plain 2.
func (u AreaUnit) String() string { return areaUnits[u].symbol }

// Area is the area of one such unit.
func (u AreaUnit) Area() Area { return areaUnits[u].size }

// Largest length that is read or made from a decimal: 1000 km, far beyond any
// building and far below what int64 holds.
const Largest = 1_000_000 * Metre

// LargestArea that is made from a decimal: 80 km².
const LargestArea = 80_000_000 * SquareMetre

// FromDecimal is the length of so many units, rounded half away from zero to
// 1/320 mm. Beyond the largest length it stays at the largest, so a caller
// that has not checked the number compares the result with Largest.
func FromDecimal(number decimal.Decimal, unit Unit) Length {
	return Length(scale(number, int64(unit.Length()), int64(Largest)))
}

// AreaFromDecimal is the area of so many units, rounded half away from zero to
// the square of 1/320 mm. Beyond the largest area it stays at the largest.
func AreaFromDecimal(number decimal.Decimal, unit AreaUnit) Area {
	return Area(scale(number, int64(unit.Area()), int64(LargestArea)))
}

// scale is number × size as a whole number within ±limit. The magnitude is
// compared by digit count first: writing out 1e999999999 would take for ever.
func scale(number decimal.Decimal, size, limit int64) int64 {
	const tooManyDigits, tooSmall = 20, -40
	digits := number.NumDigits() + int(number.Exponent())
	switch {
	case number.IsZero() || digits < tooSmall:
		return 0
	case digits > tooManyDigits:
		return int64(number.Sign()) * limit
	}
	product := number.Mul(decimal.NewFromInt(size)).Round(0)
	if product.Abs().GreaterThan(decimal.NewFromInt(limit)) {
		return int64(number.Sign()) * limit
	}
	return product.IntPart()
}

// unitPlaces is enough decimals to tell neighbouring lengths apart in yards,
// the largest unit whose size is not a finite number of decimals.
const unitPlaces = 12

// Decimal is the length in a unit: exact in mm, cm and m, exact in inches for
// whole 64ths, else rounded to 12 decimals. FromDecimal gives the length back.
func (l Length) Decimal(unit Unit) decimal.Decimal {
	if !unit.Imperial() {
		// 1/320 mm is 0.003125 mm.
		const millionthsOfMillimetre, places = 3125, -6
		exponent := int32(places)
		switch unit {
		case CM:
			exponent--
		case M:
			exponent -= 3
		}
		return decimal.NewFromInt(int64(l)).Mul(decimal.New(millionthsOfMillimetre, exponent))
	}
	return decimal.NewFromInt(int64(l)).DivRound(decimal.NewFromInt(int64(unit.Length())), unitPlaces)
}

// Decimal is the area in a unit, rounded half away from zero to so many
// decimals.
func (a Area) Decimal(unit AreaUnit, places int32) decimal.Decimal {
	return decimal.NewFromInt(int64(a)).DivRound(decimal.NewFromInt(int64(unit.Area())), places)
}
