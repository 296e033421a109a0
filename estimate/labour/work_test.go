package labour

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/quantity"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func dollars(t testing.TB) job.Settings {
	t.Helper()
	dollar, err := money.Lookup("USD")
	if err != nil {
		t.Fatal(err)
	}
	return job.Settings{Currency: dollar}
}

func operation(hours, least, wage, burden string) *job.Operation {
	return &job.Operation{Code: "O", HoursPerUnit: dec(hours), LeastHours: dec(least), Trade: &job.Trade{Name: "layer", Wage: dec(wage), BurdenPercent: dec(burden)}}
}

var (
	flat    = &job.Apartment{Name: "1"}
	other   = &job.Apartment{Name: "2"}
	hall    = &building.Room{Index: 0, Apartment: flat}
	living  = &building.Room{Index: 1, Apartment: flat}
	bedroom = &building.Room{Index: 2, Apartment: other}
)

func done(room *building.Room, o *job.Operation, q string) quantity.Line {
	return quantity.Line{Apartment: room.Apartment, Room: room, Operation: o, Quantity: dec(q)}
}

// Hours of the trade press and wages of a schedule of rates.
func TestHoursAndCost(t *testing.T) {
	for _, row := range []struct {
		name, quantity, hours, wage, burden string
		wantHours, wantCost                 string
	}{
		{"240 ft of base at 0.025 h: 6 man-hours (JLC, Determining labor productivity rates)", "240", "0.025", "1", "0", "6.00", "6.00"},
		{"9 doors at 8/9 h to 4 places: 8 man-hours (JLC)", "9", "0.8889", "1", "0", "8.00", "8.00"},
		{"9 doors at the printed 0.89 h are 8.01 (JLC)", "9", "0.89", "1", "0", "8.01", "8.01"},
		{"6.8 days at 350 (Himachal Pradesh schedule of rates 2020)", "6.8", "1", "350", "0", "6.80", "2380.00"},
		{"half a hundredth of an hour goes up", "1", "0.125", "100", "0", "0.13", "13.00"},
		{"46 h at 12 are 588 less 6 h at half pay (29 CFR 778.110)", "46", "1", "12", "0", "46.00", "552.00"},
		// 2.35 h x 31.90 x 1.285 = 96.331.. -> 96.33
		{"burden", "4.7", "0.5", "31.90", "28.5", "2.35", "96.33"},
	} {
		lines := Work(&job.Job{Settings: dollars(t)}, []quantity.Line{done(hall, operation(row.hours, "0", row.wage, row.burden), row.quantity)})
		if len(lines) != 1 || lines[0].Hours.StringFixed(HourPlaces) != row.wantHours || lines[0].Cost.String() != row.wantCost {
			t.Errorf("%s: %+v", row.name, lines)
		}
	}
}

// The published examples of 29 CFR 778.110 (labour_examples.csv of the references):
// 46 hours of a week, 40 of them at the plain rate, the others at one and a half
// times it; five days of 9.2 hours, 8 of them plain. A bonus makes the rate: 12
// and a bonus of 46 are 13 an hour. The last row is one by hand: 10 h of 8 and 2
// at a factor of 2 are 12 h of pay, 240.00, and 25 % burden on it.
func TestPublishedOvertime(t *testing.T) {
	for _, row := range []struct{ name, hours, wage, day, factor, burden, cost string }{
		{"778.110(a), 2011", "46", "12", "9.2", "1.5", "0", "588.00"},
		{"778.110(b), 2011", "46", "13", "9.2", "1.5", "0", "637.00"},
		{"778.110(a), 1981", "46", "6", "9.2", "1.5", "0", "294.00"},
		{"778.110(b), 1981", "46", "6.2", "9.2", "1.5", "0", "303.80"},
		{"a day up to the limit has none", "40", "12", "8", "1.5", "0", "480.00"},
		{"burden on overtime", "10", "20", "10", "2", "25", "300.00"},
	} {
		settings := dollars(t)
		settings.HoursADay, settings.OvertimeAfter = dec(row.day), dec("8")
		o := operation("1", "0", row.wage, row.burden)
		o.Trade.Overtime = dec(row.factor)
		if lines := Work(&job.Job{Settings: settings}, []quantity.Line{done(hall, o, row.hours)}); lines[0].Cost.String() != row.cost {
			t.Errorf("%s: %s, want %s", row.name, lines[0].Cost, row.cost)
		}
	}
}

// The excess form of 29 CFR 778.110(a): all hours at the wage and half of it on
// top for those beyond 40 are the same as 40 at the wage and the rest at one and
// a half times it.
func TestOvertimeIsTheExcessForm(t *testing.T) {
	settings := dollars(t)
	rapid.Check(t, func(t *rapid.T) {
		wage, over := decimal.New(rapid.Int64Range(1, 9000).Draw(t, "wage"), -2), decimal.New(rapid.Int64Range(1, 400).Draw(t, "over"), -2)
		settings.HoursADay, settings.OvertimeAfter = dec("8").Add(over), dec("8")
		o := operation("1", "0", wage.String(), "0")
		o.Trade.Overtime = dec("1.5")
		week := settings.HoursADay.Mul(dec("5"))
		got := Work(&job.Job{Settings: settings}, []quantity.Line{done(hall, o, week.String())})[0].Cost
		want := settings.Currency.Round(dec("40").Mul(wage).Add(over.Mul(dec("5")).Mul(wage).Mul(dec("1.5"))))
		if !got.Equal(want) {
			t.Fatalf("%s, want %s", got, want)
		}
	})
}

// An operation of 0.3 h a unit with at least 2 hours an apartment: 1.20 + 0.45 h
// in apartment 1 need 0.35 h more, apartment 2 has 3.00 h already.
func TestLeastHours(t *testing.T) {
	o := operation("0.3", "2", "20", "0")
	lines := Work(&job.Job{Settings: dollars(t)}, []quantity.Line{done(hall, o, "4"), done(living, o, "1.5"), done(bedroom, o, "10")})
	wanted := []struct {
		apartment   *job.Apartment
		room        *building.Room
		hours, cost string
	}{{flat, hall, "1.20", "24.00"}, {flat, living, "0.45", "9.00"}, {flat, nil, "0.35", "7.00"}, {other, bedroom, "3.00", "60.00"}}
	if len(lines) != len(wanted) {
		t.Fatalf("%d lines, want %d: %+v", len(lines), len(wanted), lines)
	}
	for i, w := range wanted {
		line := lines[i]
		if line.Apartment != w.apartment || line.Room != w.room || line.Hours.StringFixed(HourPlaces) != w.hours || line.Cost.String() != w.cost {
			t.Errorf("line %d: %+v, want %+v", i, line, w)
		}
	}
}

// Two rows of a build-up with the same operation are one line of their sum;
// products are no work; work of the job comes last and has no least hours.
func TestLines(t *testing.T) {
	o := operation("0.125", "0", "20", "0")
	site := operation("1.5", "8", "20", "0")
	lines := Work(&job.Job{Settings: dollars(t)}, []quantity.Line{
		{Operation: site, Quantity: dec("1")},
		done(bedroom, o, "1"),
		done(hall, o, "1"),
		{Apartment: flat, Room: hall, Product: &job.Product{}, Quantity: dec("5")},
		done(hall, o, "1"),
	})
	if len(lines) != 3 || lines[0].Room != hall || lines[1].Room != bedroom || lines[2].Operation != site {
		t.Fatalf("lines %+v", lines)
	}
	if got := lines[0].Hours.String(); got != "0.25" {
		t.Errorf("2 x 0.125 h rounded once are %s, want 0.25", got)
	}
	if got := lines[2].Hours.String(); got != "1.5" {
		t.Errorf("work of the job has %s h, want 1.5 without least hours", got)
	}
}

// In every apartment an operation has its own hours or its least hours,
// whichever is more, to the hundredth, and every cost is within half a cent.
func TestLeastHoursHold(t *testing.T) {
	rooms := []*building.Room{hall, living, bedroom}
	settings := dollars(t)
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, most int64, places int32) decimal.Decimal {
			return decimal.New(rapid.Int64Range(0, most).Draw(t, name), -places)
		}
		o := operation("0", "0", "0", "0")
		o.HoursPerUnit, o.LeastHours = draw("hours", 3000, 3), draw("least", 900, 2)
		o.Trade.Wage, o.Trade.BurdenPercent = draw("wage", 9000, 2), draw("burden", 600, 1)
		var takeoff []quantity.Line
		own := map[*job.Apartment]decimal.Decimal{}
		for _, room := range rooms {
			if rapid.Bool().Draw(t, "done here") {
				q := draw("quantity", 100_000, 4)
				takeoff = append(takeoff, quantity.Line{Apartment: room.Apartment, Room: room, Operation: o, Quantity: q})
				own[room.Apartment] = own[room.Apartment].Add(q.Mul(o.HoursPerUnit).Round(2))
			}
		}
		total := map[*job.Apartment]decimal.Decimal{}
		for _, line := range Work(&job.Job{Settings: settings}, takeoff) {
			total[line.Apartment] = total[line.Apartment].Add(line.Hours)
			exact := new(big.Rat).Mul(line.Hours.Rat(), o.Trade.Wage.Rat())
			exact.Mul(exact, new(big.Rat).Add(big.NewRat(1, 1), o.Trade.BurdenPercent.Shift(-2).Rat()))
			off := exact.Sub(exact, line.Cost.Decimal().Rat())
			if off.Abs(off).Cmp(big.NewRat(1, 200)) > 0 {
				t.Fatalf("cost of %+v", line)
			}
		}
		for apartment, hours := range own {
			if want := decimal.Max(hours, o.LeastHours); !total[apartment].Equal(want) {
				t.Fatalf("apartment %s has %s h, want %s", apartment.Name, total[apartment], want)
			}
		}
	})
}
