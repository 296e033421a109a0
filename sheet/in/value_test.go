package in

import (
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/sheet/book"
)

func TestNumbersTypedAsText(t *testing.T) {
	tests := []struct{ text, want string }{
		{"1234.5", "1234.5"}, {"1,234.50", "1234.5"}, {"1.234,50", "1234.5"}, {"1 234,50", "1234.5"}, {"1'234.50", "1234.5"}, {"1’234", "1234"},
		{"1\u00a0234,5", "1234.5"}, {"1,234,567", "1234567"}, {"1.234.567", "1234567"}, {"0,125", "0.125"}, {"0.125", "0.125"}, {"12,5", "12.5"},
		{"1234,567", "1234.567"}, {"１２．５", "12.5"}, {"−3", "-3"}, {"+3", "3"}, {".5", "0.5"}, {"5.", "5"}, {" 7 ", "7"}, {"007", "7"},
	}
	for _, test := range tests {
		d, flaw := parseNumber(test.text)
		if flaw != nil || d.String() != test.want {
			t.Errorf("%q: got %s %v, want %s", test.text, d, flaw, test.want)
		}
	}
	for text, want := range map[string]problem.Code{
		"1,234": problem.CellAmbiguous, "1.234": problem.CellAmbiguous, "12,345": problem.CellAmbiguous,
		"": problem.CellUnreadable, "12,34,56": problem.CellUnreadable, "1,23.4": problem.CellUnreadable, "1..2": problem.CellUnreadable, "1e5": problem.CellUnreadable,
		"12x": problem.CellUnreadable, "1-2": problem.CellUnreadable, "--1": problem.CellUnreadable, "1234567890123456789012": problem.ValueOutOfRange, "½": problem.CellUnreadable,
	} {
		if d, flaw := parseNumber(text); flaw == nil || flaw.code != want {
			t.Errorf("%q: got %s %+v, want %s", text, d, flaw, want)
		}
	}
}

func TestWalks(t *testing.T) {
	in := func(text string) input { return input{kind: book.Text, text: text, length: measure.M} }
	for _, text := range []string{
		"E 5.2, N 2.4, W 5.2, S 2.4", "E 5.2, N 2.4, W 5.2", "e5.2,n2.4,w5.2,s2.4", "E 5,2; N 2,4; W 5,2; S 2,4", "East 520 cm, North 2.4 m, West 5.2 m, South 2400 mm",
		"E 5.2\nN 2.4,\nW 5.2", "E 5.2, N 2.4, W 5.2, S 2.4,",
	} {
		ring, flaw := parseLegs(in(text))
		if flaw != nil || len(ring) != 4 || ring[2].X != 52*measure.Metre/10 || ring[2].Y != 24*measure.Metre/10 {
			t.Errorf("%q: %v %+v", text, ring, flaw)
		}
	}
	slanted, flaw := parseLegs(in("E 5, N 2 W 1, N 1, W 4, S 3"))
	if flaw != nil || len(slanted) != 5 || slanted[2].X != 4*measure.Metre || slanted[2].Y != 2*measure.Metre {
		t.Errorf("slanted: %v %+v", slanted, flaw)
	}
	// A walk that misses its beginning names the gap and the legs along it.
	_, flaw = parseLegs(in("E 5.2, N 2.4, W 5.1, S 2.4"))
	if want := "W 100 mm is missing at the end: correct leg 1 (E 5.2) or leg 3 (W 5.1)"; flaw == nil || flaw.fix != want {
		t.Errorf("got %+v, want %s", flaw, want)
	}
	_, flaw = parseLegs(in("E 5.2, N 2.4, W 5.2, S 2.3"))
	if want := "S 100 mm is missing at the end: correct leg 2 (N 2.4) or leg 4 (S 2.3)"; flaw == nil || flaw.fix != want {
		t.Errorf("got %+v, want %s", flaw, want)
	}
	for _, text := range []string{"", "5.2", "X 5", "E", "E 5.2 m2", "E -5, N 1, W 5", "E 0, N 1, W 5", "NE 5, S 3, W 4", "E 5, N 3", "E 5, N 12-6, W 5"} {
		if ring, flaw := parseLegs(in(text)); flaw == nil {
			t.Errorf("%q was read as %v", text, ring)
		}
	}
}

// Distances worked by hand: one swap, one letter left out, two changes.
func TestDistance(t *testing.T) {
	tests := []struct {
		a, b string
		want int
	}{{"width", "width", 0}, {"widht", "width", 1}, {"wdth", "width", 1}, {"width", "witdhs", 2}, {"ca", "abc", 3}, {"", "ab", 2}, {"abcdef", "ab", 4}}
	for _, test := range tests {
		if got := distance(test.a, test.b, 4); got != test.want {
			t.Errorf("%s, %s: %d, want %d", test.a, test.b, got, test.want)
		}
	}
}

func TestDates(t *testing.T) {
	for text, want := range map[string]string{"2026-03-31": "2026-03-31", "31.3.2026": "2026-03-31", "31/03/2026": "2026-03-31", "3/31/2026": "2026-03-31", "31 March 2026": "2026-03-31",
		"Mar 31, 2026": "2026-03-31", "05/05/2026": "2026-05-05"} {
		got, flaw := parseDate(text)
		if flaw != nil || got.Format("2006-01-02") != want {
			t.Errorf("%q: %v %+v", text, got, flaw)
		}
	}
	for _, text := range []string{"", "31.3.26", "soon", "2026-13-01", "1/2/3", "29.2.2026", "1899-01-01"} {
		if got, flaw := parseDate(text); flaw == nil {
			t.Errorf("%q was read as %v", text, got)
		}
	}
}
