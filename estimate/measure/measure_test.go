package measure

import (
	"testing"

	"laybill/estimate/published"

	"github.com/shopspring/decimal"
)

// Factors as printed by GNU Units 2.22 and defined in NIST SP 811 appendix B,
// in reference/unit_factors.csv.
func TestUnitFactors(t *testing.T) {
	lengths, areas := 0, 0
	for _, record := range published.Table(t, "unit_factors.csv") {
		factor := decimal.RequireFromString(record[2])
		places := -factor.Exponent()
		from, fromLength := ParseUnit(record[0])
		to, toLength := ParseUnit(record[1])
		if fromLength && toLength {
			lengths++
			if got := from.Length().Decimal(to); !got.Equal(factor) {
				t.Errorf("1 %s = %s %s, want %s", from, got, to, factor)
			}
		}
		fromArea, isArea := ParseAreaUnit(record[0])
		toArea, areArea := ParseAreaUnit(record[1])
		if isArea && areArea {
			areas++
			if got := fromArea.Area().Decimal(toArea, places); !got.Equal(factor) {
				t.Errorf("1 %s = %s %s, want %s", fromArea, got, toArea, factor)
			}
		}
	}
	if lengths < 3 || areas < 5 {
		t.Errorf("only %d factors of length and %d of area were checked", lengths, areas)
	}
}

func TestFormat(t *testing.T) {
	tests := []struct {
		name   string
		length Length
		unit   Unit
		want   string
	}{
		{"whole millimetres", 3820 * Millimetre, MM, "3820"},
		{"tenths of a millimetre", 3820*Millimetre + 32, MM, "3820.1"},
		{"half a tenth goes up", 16, MM, "0.1"},
		{"half a tenth below nought goes down", -16, MM, "-0.1"},
		{"under half a tenth", 15, MM, "0"},
		{"centimetres", 3825 * Millimetre, CM, "382.5"},
		{"metres", 3820 * Millimetre, M, "3.82"},
		{"metres to the millimetre", 3821*Millimetre + 100, M, "3.821"},
		{"whole metres", 4 * Metre, M, "4"},
		{"yards", 4 * Foot, Yd, "1.333"},
		{"feet and inches", 12*Foot + 6*Inch + Inch/2, Ft, `12' 6 1/2"`},
		{"feet, no inches", 12 * Foot, Ft, `12' 0"`},
		{"sixteenths", 3 * Inch / 16, Ft, `0' 3/16"`},
		{"rounding carries to the foot", 12*Foot - 1, Ft, `12' 0"`},
		{"half a sixteenth goes up", Inch / 32, In, `1/16"`},
		{"under half a sixteenth", Inch/32 - 1, In, `0"`},
		{"under half a sixteenth below nought", -Inch/32 + 1, In, `0"`},
		{"inches over a foot", 150*Inch + Inch/4, In, `150 1/4"`},
		{"below nought", -Foot - Inch/2, Ft, `-1' 1/2"`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := test.length.Format(test.unit); got != test.want {
				t.Errorf("Format(%s) of %d = %q, want %q", test.unit, test.length, got, test.want)
			}
		})
	}
	if got, want := (Inch / 64 * 3).Inches(64), `3/64"`; got != want {
		t.Errorf("Inches(64) = %q, want %q", got, want)
	}
	if got, want := (12*Foot + 7*Inch/8).FeetInches(8), `12' 7/8"`; got != want {
		t.Errorf("FeetInches(8) = %q, want %q", got, want)
	}
}

// Hand working: 12 ft 6 1/2 in is 150.5 in × 25.4 = 3822.7 mm.
func TestDecimal(t *testing.T) {
	length := 12*Foot + 6*Inch + Inch/2
	for unit, want := range map[Unit]string{MM: "3822.7", CM: "382.27", M: "3.8227", In: "150.5"} {
		if got := length.Decimal(unit); !got.Equal(decimal.RequireFromString(want)) {
			t.Errorf("Decimal(%s) = %s, want %s", unit, got, want)
		}
	}
	if got, want := Length(1).Decimal(MM).String(), "0.003125"; got != want {
		t.Errorf("one unit is %s mm, want %s", got, want)
	}
}

// Hand working: 3.82 m × 2.4 m = 9.168 m²; / 0.09290304 = 98.683530… ft².
func TestAreaDecimal(t *testing.T) {
	area := (3820 * Millimetre).Times(2400 * Millimetre)
	if got, want := area.Decimal(M2, 3).String(), "9.168"; got != want {
		t.Errorf("area = %s m2, want %s", got, want)
	}
	if got, want := area.Decimal(Ft2, 2).String(), "98.68"; got != want {
		t.Errorf("area = %s ft2, want %s", got, want)
	}
	if got := AreaFromDecimal(decimal.RequireFromString("9.168"), M2); got != area {
		t.Errorf("AreaFromDecimal = %d, want %d", got, area)
	}
}

func TestDecimalsBeyondTheLargestStayThere(t *testing.T) {
	tests := []struct {
		name     string
		digits   int64
		exponent int32
		want     Length
	}{
		{"huge exponent", 1, 999_999_999, Largest},
		{"huge exponent below nought", -1, 999_999_999, -Largest},
		{"one tenth too long", 10_000_000_001, -1, Largest},
		{"just the largest", 1_000_000_000, 0, Largest},
		{"tiny exponent", 1, -999_999_999, 0},
		{"nought", 0, 999_999_999, 0},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := FromDecimal(decimal.New(test.digits, test.exponent), MM); got != test.want {
				t.Errorf("FromDecimal = %d, want %d", got, test.want)
			}
		})
	}
}
