package shape

import (
	"math/bits"
	"slices"

	"laybill/estimate/measure"
)

// Turn rotates the ring by -a, into the frame whose x axis points in direction
// a: x' = x cos a + y sin a, y' = -x sin a + y cos a. Quarter turns are exact,
// others rounded to the unit. The corners keep their order.
func (r Ring) Turn(a Angle) Ring { return r.each(turning(a)) }

// TurnBack undoes Turn, to within one unit where it was rounded.
func (r Ring) TurnBack(a Angle) Ring { return r.Turn(-a) }

// Turn rotates the polygon as it does a ring and normalises it.
func (p Polygon) Turn(a Angle) Polygon { return Normalise(p.each(turning(a))) }

// TurnBack undoes Turn, to within one unit where it was rounded.
func (p Polygon) TurnBack(a Angle) Polygon { return p.Turn(-a) }

// Turn rotates the floor as it does a ring and normalises its parts.
func (r Region) Turn(a Angle) Region {
	turned := slices.Clone(r)
	for i, part := range r {
		turned[i] = part.Turn(a)
	}
	return turned
}

// TurnBack undoes Turn, to within one unit where it was rounded.
func (r Region) TurnBack(a Angle) Region { return r.Turn(-a) }

// turning is the movement of a point by Turn. Sums up to 2 km in parts of
// 2³¹ fit 64 bits.
func turning(a Angle) func(Point) Point {
	const parts = 31
	sine, cosine := sineCosine(a)
	sine, cosine = roundedShift(sine, fixed-parts), roundedShift(cosine, fixed-parts)
	return func(p Point) Point {
		x, y := int64(p.X), int64(p.Y)
		return Point{
			measure.Length(roundedShift(x*cosine+y*sine, parts)),
			measure.Length(roundedShift(y*cosine-x*sine, parts)),
		}
	}
}

// roundedShift is n / 2^places, rounded half up.
func roundedShift(n int64, places uint) int64 { return (n + 1<<(places-1)) >> places }

// fixed is the number of binary places of sines, cosines and radians here.
const fixed = 60

// sineCosine is the sine and cosine of an angle with 60 binary places. Whole
// numbers give the same result on every machine, and quarter turns exactly.
func sineCosine(a Angle) (sine, cosine int64) {
	a = a.Normal()
	quarters := a / QuarterTurn
	a %= QuarterTurn
	if a <= QuarterTurn/2 {
		sine, cosine = smallSineCosine(a)
	} else {
		cosine, sine = smallSineCosine(QuarterTurn - a)
	}
	for range quarters {
		sine, cosine = cosine, -sine
	}
	return sine, cosine
}

// smallSineCosine sums the power series of an angle up to an eighth of a turn.
func smallSineCosine(a Angle) (sine, cosine int64) {
	const halfTurnRadians = 3622009729038561421 // π × 2⁶⁰
	x := multiplyDivide(halfTurnRadians, int64(a), int64(2*QuarterTurn))
	square := multiplyShift(x, x)
	sineTerm, cosineTerm := x, int64(1)<<fixed
	for n := int64(1); cosineTerm != 0; n += 2 {
		sine += sineTerm
		cosine += cosineTerm
		cosineTerm = -multiplyShift(cosineTerm, square) / (n * (n + 1))
		sineTerm = -multiplyShift(sineTerm, square) / ((n + 1) * (n + 2))
	}
	return sine, cosine
}

// multiplyShift is a × b for numbers with 60 binary places; b is not negative.
func multiplyShift(a, b int64) int64 {
	hi, lo := bits.Mul64(magnitude(a), uint64(b))
	product := int64(hi<<(64-fixed) | lo>>fixed)
	if a < 0 {
		return -product
	}
	return product
}

// multiplyDivide is a × b / c of numbers that are not negative, b < c.
func multiplyDivide(a, b, c int64) int64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	quotient, _ := bits.Div64(hi, lo, uint64(c))
	return int64(quotient)
}
