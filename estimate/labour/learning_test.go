package labour

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/quantity"
)

// The unit form of the learning curve (J. R. Crawford): every doubling takes the
// rate's share, so that 2, 4 and 8 are powers of the rate by definition. The
// other factors of the 90 % and 80 % columns are those of published tables of
// unit values, from memory.
func TestUnitForm(t *testing.T) {
	for _, column := range []struct {
		rate    string
		factors map[int]string
	}{
		{"90", map[int]string{1: "1", 2: "0.9", 3: "0.8462", 4: "0.81", 5: "0.783", 6: "0.7616", 8: "0.729", 10: "0.7047", 16: "0.6561", 20: "0.6342"}},
		{"80", map[int]string{1: "1", 2: "0.8", 3: "0.7021", 4: "0.64", 5: "0.5956", 6: "0.5617", 8: "0.512", 10: "0.4765", 16: "0.4096", 20: "0.3812"}},
		{"50", map[int]string{1: "1", 3: "0.3333", 7: "0.1429", 160: "0.0063"}}, // an n-th; 1/160 = 0.00625 goes up
	} {
		c := curveOf(dec(column.rate), 160)
		for n, want := range column.factors {
			if got := c.factor(n); !got.Equal(dec(want)) {
				t.Errorf("%s %%, apartment %d: %s, want %s", column.rate, n, got, want)
			}
		}
	}
}

// The factor is n to the power log2 of the rate to half of its last place, worked
// in floating point, and falls from apartment to apartment.
func TestFactorsAreOnTheCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := decimal.New(rapid.Int64Range(5000, 9999).Draw(t, "rate"), -2)
		n := rapid.IntRange(1, 150).Draw(t, "n")
		c := curveOf(rate, n)
		want := math.Pow(float64(n), math.Log2(rate.InexactFloat64()/100))
		if got := c.factor(n).InexactFloat64(); math.Abs(got-want) > 0.000_05+1e-12 {
			t.Fatalf("%s %%, apartment %d: %g, want %g", rate, n, got, want)
		}
		for i := 2; i <= n; i++ {
			if !c[i].LessThan(c[i-1]) {
				t.Fatalf("%s %%: apartment %d does not take less than the one before", rate, i)
			}
		}
	})
}

// Work of 10 h in four apartments of type A and one of B, in the order of the
// Apartments sheet, at 90 %: A takes 10, 9, 8.46 and 8.10 h, B its first 10. What
// is not learned, work of the whole job and repairs take all their hours; least
// hours of 9 fill the third and fourth up.
func TestHoursFallFromApartmentToApartment(t *testing.T) {
	var apartments []*job.Apartment
	for _, name := range []string{"A9", "B1", "A1", "A5", "A3"} {
		apartments = append(apartments, &job.Apartment{Name: name, Type: name[:1]})
	}
	learned, site := operation("1", "9", "20", "0"), operation("1", "0", "20", "0")
	learned.Learned, site.Learned = true, true
	steady := operation("1", "0", "20", "0")
	var takeoff []quantity.Line
	for i, a := range apartments {
		room := &building.Room{Index: i, Apartment: a}
		takeoff = append(takeoff, done(room, learned, "10"), done(room, steady, "10"))
	}
	repaired := &building.Room{Index: 5, Apartment: apartments[4], Repaired: true}
	takeoff = append(takeoff, done(repaired, site, "10"), quantity.Line{Operation: site, Quantity: dec("10")})
	settings := dollars(t)
	settings.LearningPercent = dec("90")
	hours, added := map[string]string{}, map[string]string{}
	for _, line := range Work(&job.Job{Settings: settings, Apartments: apartments}, takeoff) {
		switch {
		case line.Operation != learned:
			if line.Hours.String() != "10" || line.Repeat != 0 {
				t.Errorf("%+v: %s h, repeat %d", line.Room, line.Hours, line.Repeat)
			}
		case line.Room == nil:
			added[line.Apartment.Name] = line.Hours.String()
		default:
			hours[line.Apartment.Name] = line.Hours.String()
		}
	}
	for name, want := range map[string]string{"A9": "10", "A1": "9", "A5": "8.46", "A3": "8.1", "B1": "10"} {
		if hours[name] != want {
			t.Errorf("%s takes %s h, want %s", name, hours[name], want)
		}
	}
	if len(added) != 2 || added["A5"] != "0.54" || added["A3"] != "0.9" {
		t.Errorf("least hours add %v, want 0.54 and 0.9", added)
	}
}
