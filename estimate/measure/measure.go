// Package measure holds lengths and areas as whole numbers of one small unit
// that is exact in both systems: 1/320 of a millimetre.
//
// One millimetre is 320 units, one inch 8128, one foot 97 536 and 1/64 inch
// 127 (the international inch is 25.4 mm by definition, NIST SP 811
// appendix B), so a tenth of a millimetre and a 64th of an inch are both
// exact and no length is ever held as a float.
package measure

// Length is a length in units of 1/320 mm.
type Length int64

// Lengths of one named unit each.
const (
	Millimetre Length = 320
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch       Length = 8128
	Foot              = 12 * Inch
	Yard              = 3 * Foot
)

// Area is an area in squares of 1/320 mm: 102 400 to the square millimetre.
// It overflows past about 90 km².
type Area int64

// Areas of one named unit each.
const (
	SquareMillimetre Area = Area(Millimetre) * Area(Millimetre)
	SquareMetre           = 1_000_000 * SquareMillimetre
	SquareFoot            = Area(Foot) * Area(Foot)
	SquareYard            = Area(Yard) * Area(Yard)
)

// Times is the area of a rectangle of these two sides.
func (l Length) Times(other Length) Area { return Area(l) * Area(other) }
