package exchange

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/shape"
)

// mm is a length written as a JSON number of millimetres, exactly: a unit of
// 1/320 mm is 0.003125 mm.
type mm measure.Length

// MarshalJSON writes the length.
func (l mm) MarshalJSON() ([]byte, error) { return l.append(nil), nil }

func (l mm) append(text []byte) []byte {
	const unit = mm(measure.Millimetre)
	if l < 0 {
		text, l = append(text, '-'), -l
	}
	text = strconv.AppendInt(text, int64(l/unit), 10)
	rest := l % unit
	if rest == 0 {
		return text
	}
	decimals := strconv.Itoa(1_000_000 + int(rest)*3125)[1:]
	return append(append(text, '.'), strings.TrimRight(decimals, "0")...)
}

// spot is a place written as [x,y].
type spot shape.Point

// MarshalJSON writes the place.
func (s spot) MarshalJSON() ([]byte, error) { return s.append(nil), nil }

func (s spot) append(text []byte) []byte {
	text = mm(s.X).append(append(text, '['))
	text = mm(s.Y).append(append(text, ','))
	return append(text, ']')
}

// ring is an outline written as a list of points.
type ring shape.Ring

// MarshalJSON writes the points.
func (r ring) MarshalJSON() ([]byte, error) {
	text := []byte{'['}
	for i, point := range r {
		if i > 0 {
			text = append(text, ',')
		}
		text = spot(point).append(text)
	}
	return append(text, ']'), nil
}

func rings(all []shape.Ring) []ring {
	written := make([]ring, len(all))
	for i, r := range all {
		written[i] = ring(r)
	}
	return written
}

// box is a rectangle written as [x0,y0,x1,y1].
type box shape.Box

// MarshalJSON writes the rectangle.
func (b box) MarshalJSON() ([]byte, error) {
	text := mm(b.X0).append([]byte{'['})
	for _, l := range []measure.Length{b.Y0, b.X1, b.Y1} {
		text = mm(l).append(append(text, ','))
	}
	return append(text, ']'), nil
}

// degrees is an angle written as a number of degrees.
type degrees shape.Angle

// MarshalJSON writes the angle.
func (d degrees) MarshalJSON() ([]byte, error) {
	return []byte(decimal.New(int64(d), -3).String()), nil
}

// dec is a decimal written as a string.
type dec decimal.Decimal

// MarshalJSON writes the decimal.
func (d dec) MarshalJSON() ([]byte, error) {
	return []byte(strconv.Quote(decimal.Decimal(d).String())), nil
}

// amount is money written as a string with all decimals of its currency.
func amount(a money.Amount) string { return a.String() }
