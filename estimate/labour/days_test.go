package labour

import (
	"testing"

	"github.com/shopspring/decimal"
)

func TestDays(t *testing.T) {
	for _, c := range []struct {
		name        string
		hours       string
		crews, size int
		hoursADay   string
		want        int64
	}{
		// NAVEDTRA 14045 Builder Advanced, chapter 2: 70 man-days of 8 hours, a
		// crew of 12, availability 0.75, man-day equivalent 0.9375 (7.5 of 8
		// hours): 8.296, so 9 workdays. 8 x 0.75 x 0.9375 = 5.625 hours a day.
		{"crew duration of the handbook", "560", 1, 12, "5.625", 9},
		{"exactly two days", "32", 1, 2, "8", 2},
		{"a hundredth of an hour more", "32.01", 1, 2, "8", 3},
		{"two crews take half", "32", 2, 2, "8", 1},
		{"no work", "0", 1, 2, "8", 0},
		{"nobody", "10", 0, 2, "8", 0},
	} {
		if got := Days(decimal.RequireFromString(c.hours), c.crews, c.size, decimal.RequireFromString(c.hoursADay)); got != c.want {
			t.Errorf("%s: %d days, want %d", c.name, got, c.want)
		}
	}
}
