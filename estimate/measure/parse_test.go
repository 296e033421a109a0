package measure

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Hand working: one inch is 8128 units of 1/320 mm, half an inch 4064, a foot
// 97 536 and a millimetre 320 (international inch, 25.4 mm exactly).
func TestParseLength(t *testing.T) {
	const twelveFeetSixAndAHalf = 12*Foot + 6*Inch + Inch/2
	tests := []struct {
		name, text string
		unit       Unit
		want       Length
	}{
		{"plain millimetres", "3820", MM, 3820 * Millimetre},
		{"plain centimetres", "382", CM, 3820 * Millimetre},
		{"plain metres", "3.82", M, 3820 * Millimetre},
		{"plain feet are decimal", "12.5", Ft, 12*Foot + 6*Inch},
		{"plain inches", "6.5", In, 6*Inch + Inch/2},
		{"plain yards", "2", Yd, 6 * Foot},
		{"own unit wins", "382 cm", Ft, 3820 * Millimetre},
		{"no space before the unit", "3.82m", MM, 3820 * Millimetre},
		{"capital letters", "3.82 M", MM, 3820 * Millimetre},
		{"unit in full", "3.82 metres", MM, 3820 * Millimetre},
		{"decimal comma", "3,82 m", MM, 3820 * Millimetre},
		{"decimal comma of a number under one", "0,125", M, 125 * Millimetre},
		{"decimal comma, four digits before it", "1234,567", MM, 395_061}, // 1234.567 × 320 = 395 061.44
		{"thousands and decimals, point last", "1,234.5", MM, 1234*Millimetre + 160},
		{"thousands and decimals, comma last", "1.234,5", MM, 1234*Millimetre + 160},
		{"thousands twice", "1,234,567", MM, 1_234_567 * Millimetre},
		{"thousands space in millimetres", "12 345", MM, 12_345 * Millimetre},
		{"thousands space and decimals", "12 345.5 mm", M, 12_345*Millimetre + 160},
		{"no nought before the point", ".5", M, 500 * Millimetre},
		{"metres and centimetres", "3 m 82", MM, 3820 * Millimetre},
		{"metres and centimetres, no spaces", "3m82", MM, 3820 * Millimetre},
		{"metres and centimetres with unit", "3 m 82 cm", MM, 3820 * Millimetre},
		{"metres and millimetres", "3 m 825", MM, 3825 * Millimetre},
		{"metres, centimetres, millimetres", "3 m 82 cm 5 mm", MM, 3825 * Millimetre},
		{"feet, inches, fraction", `12' 6 1/2"`, M, twelveFeetSixAndAHalf},
		{"prime marks and a vulgar fraction", "12′ 6½″", M, twelveFeetSixAndAHalf},
		{"typographic quotes", "12’ 6 1/2”", M, twelveFeetSixAndAHalf},
		{"two apostrophes for inches", "12' 6 1/2''", M, twelveFeetSixAndAHalf},
		{"inches without a mark", "12'6", M, 12*Foot + 6*Inch},
		{"inches without a mark, fraction", "12'6 1/2", M, twelveFeetSixAndAHalf},
		{"dash after the foot mark", `12'-6 1/2"`, M, twelveFeetSixAndAHalf},
		{"dash before the fraction", `12'-6-1/2"`, M, twelveFeetSixAndAHalf},
		{"words", "12 ft 6 1/2 in", M, twelveFeetSixAndAHalf},
		{"words with full stops", "12 ft. 6 1/2 in.", M, twelveFeetSixAndAHalf},
		{"decimal inches after feet", `12' 6.5"`, M, twelveFeetSixAndAHalf},
		{"decimal feet with unit", "12.5 ft", MM, 12*Foot + 6*Inch},
		{"inches and fraction", `6 1/2"`, MM, 6*Inch + Inch/2},
		{"inches, dash, fraction", `6-1/2"`, MM, 6*Inch + Inch/2},
		{"fraction alone", `1/2"`, MM, Inch / 2},
		{"sixty-fourths are exact", `1/64"`, MM, 127},
		{"feet alone", "12'", MM, 12 * Foot},
		{"yards, feet and inches", "2 yd 1 ft 3 in", MM, 7*Foot + 3*Inch},
		{"full-width digits", "３．８２ｍ", MM, 3820 * Millimetre},
		{"no-break space", "3.82\u00a0m", MM, 3820 * Millimetre},
		{"narrow no-break space in thousands", "3\u202f820", MM, 3820 * Millimetre},
		{"negative", "-3.82", M, -3820 * Millimetre},
		{"negative with the minus sign", "−12' 6\"", M, -12*Foot - 6*Inch},
		{"a denominator with a nought before it is not octal", `1/010"`, MM, 813}, // 812.8
		{"a nought before it is not octal", "010", MM, 10 * Millimetre},
		{"half a unit is rounded away from nought", "0.0015625", MM, 1},
		{"under half a unit is rounded to nought", "0.0015624", MM, 0},
		{"negative half is rounded away from nought", "-0.0015625", MM, -1},
		{"the largest", "1000000 m", MM, Largest},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := ParseLength(test.text, test.unit)
			if err != nil || got != test.want {
				t.Errorf("ParseLength(%q, %s) = %d, %v; want %d", test.text, test.unit, got, err, test.want)
			}
		})
	}
}

func TestAmbiguousLengths(t *testing.T) {
	tests := []struct {
		name, text string
		unit       Unit
		want       [2]string
	}{
		{"feet and inches or a difference", "12-6 1/2", In, [2]string{`12' 6 1/2"`, "5.5 in"}},
		{"two dashes", "12-6-1/2", In, [2]string{`12' 6 1/2"`, "5.5 in"}},
		{"two dashes with an inch mark", `12-6-1/2"`, MM, [2]string{`12' 6 1/2"`, "5.5 in"}},
		{"no fraction", "12-6", Ft, [2]string{`12' 6"`, "6 ft"}},
		{"feet and a fraction or a fraction", "12-1/2", In, [2]string{`12' 0 1/2"`, "12 1/2 in"}},
		{"spaces for marks", "12 6 1/2", In, [2]string{`12' 6 1/2"`, "126 1/2 in"}},
		{"space between two numbers in feet", "12 6", Ft, [2]string{`12' 6"`, "126 ft"}},
		{"comma alone", "1,234", M, [2]string{"1.234 m", "1234 m"}},
		{"comma alone with a unit", "1,234 mm", M, [2]string{"1.234 mm", "1234 mm"}},
		{"negative comma alone", "-1,234", M, [2]string{"-1.234 m", "-1234 m"}},
		{"space in metres", "3 820", M, [2]string{"3.820 m", "3820 m"}},
		{"one digit after metres", "3 m 5", MM, [2]string{"3.05 m", "3.5 m"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := ParseLength(test.text, test.unit)
			var doubt Ambiguous
			if !errors.As(err, &doubt) || doubt.Readings != test.want {
				t.Fatalf("ParseLength(%q) = %#v, want readings %q", test.text, err, test.want)
			}
			first, err1 := ParseLength(doubt.Readings[0], test.unit)
			second, err2 := ParseLength(doubt.Readings[1], test.unit)
			if err1 != nil || err2 != nil || first == second {
				t.Errorf("readings %q are %d (%v) and %d (%v); want two lengths",
					doubt.Readings, first, err1, second, err2)
			}
			for _, reading := range doubt.Readings {
				if !strings.Contains(doubt.Error(), reading) {
					t.Errorf("message %q does not show %q", doubt.Error(), reading)
				}
			}
		})
	}
}

func TestUnreadableLengths(t *testing.T) {
	tests := []struct{ name, text string }{
		{"empty", "  "},
		{"word", "about 4 m"},
		{"unit alone", "m"},
		{"unknown unit", "3 furlongs"},
		{"two units", "3 m m"},
		{"mixed systems", "3 m 2 in"},
		{"small before large", "3 in 2 ft"},
		{"inches over a foot", `12' 14"`},
		{"centimetres over a metre", "3 m 120 cm"},
		{"fraction in the first part", `12 1/2' 6"`},
		{"decimals in the first part", `12.5' 6"`},
		{"division by nought", `1/0"`},
		{"improper mixed fraction", `6 3/2"`},
		{"two fractions", `1/2 1/2"`},
		{"three parts of a fraction", `1/2/3"`},
		{"decimal in a fraction", `1.5/2"`},
		{"exponent", "1e3"},
		{"point without decimals", "12."},
		{"two points", "1.2.3"},
		{"wrong grouping", "12,34,567"},
		{"digits missing after metres", "4 m 5 6"},
		{"sum", "3+4"},
		{"two numbers in millimetres", "12 6"},
		{"negative difference", "-12-6"},
		{"dash at the end", "12-"},
		{"two doubts in one text", "1,000-6"},
		{"a doubtful number among others", `1,000' 6"`},
		{"too long a text", strings.Repeat("1", 100)},
		{"too long a length", "1000001 m"},
		{"area", "3 m2"},
		{"area in feet is not feet and inches", "12 ft2"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := ParseLength(test.text, MM)
			var unreadable Unreadable
			if !errors.As(err, &unreadable) {
				t.Fatalf("ParseLength(%q) = %d, %v; want it unreadable", test.text, got, err)
			}
			if unreadable.Text != test.text || unreadable.Reason == "" {
				t.Errorf("error %#v does not name the text and a reason", unreadable)
			}
		})
	}
}

// What Format writes of a length that its precision holds is read back as the
// same length.
func TestParseReadsWhatFormatWrites(t *testing.T) {
	steps := map[Unit]Length{MM: Millimetre / 10, CM: Millimetre / 10, M: Millimetre, In: Inch / 16, Ft: Inch / 16}
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]Unit{MM, CM, M, In, Ft}).Draw(t, "unit")
		length := steps[unit] * Length(rapid.Int64Range(-5_000_000, 5_000_000).Draw(t, "steps"))
		text := length.Format(unit)
		got, err := ParseLength(text, unit)
		if err != nil || got != length {
			t.Fatalf("%d is written %q and read %d, %v", length, text, got, err)
		}
	})
}

// Every length is read back exactly from its full decimals in every unit.
func TestParseReadsFullDecimals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]Unit{MM, CM, M, In, Ft, Yd}).Draw(t, "unit")
		length := Length(rapid.Int64Range(-int64(Largest), int64(Largest)).Draw(t, "length"))
		number := length.Decimal(unit)
		if got := FromDecimal(number, unit); got != length {
			t.Fatalf("FromDecimal(%s %s) = %d, want %d", number, unit, got, length)
		}
		if got, err := ParseLength(number.String(), unit); err != nil || got != length {
			t.Fatalf("ParseLength(%s %s) = %d, %v; want %d", number, unit, got, err, length)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, text := range []string{"3.82 m", "3 m 82", `12' 6 1/2"`, "12′ 6½″", "12-6-1/2", "1,234", "12 345.5", "1/0", "-", "m2", "３．８"} {
		f.Add(text, uint8(M))
	}
	f.Fuzz(func(t *testing.T, text string, unit uint8) {
		given := Unit(unit % uint8(len(units)))
		length, err := ParseLength(text, given)
		if err == nil {
			if length > Largest || length < -Largest {
				t.Errorf("ParseLength(%q) = %d, beyond the largest", text, length)
			}
			return
		}
		var doubt Ambiguous
		if errors.As(err, &doubt) {
			for _, reading := range doubt.Readings {
				var again Ambiguous
				if _, err := ParseLength(reading, given); errors.As(err, &again) {
					t.Errorf("%q: reading %q is ambiguous itself", text, reading)
				}
			}
		}
	})
}
