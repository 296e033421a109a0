package money

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

var (
	euro  = mustLookup("EUR") // 2 decimals
	yen   = mustLookup("JPY") // 0 decimals
	dinar = mustLookup("KWD") // 3 decimals
	unit4 = mustLookup("CLF") // 4 decimals
)

func mustLookup(code string) Currency {
	c, err := Lookup(code)
	if err != nil {
		panic(err)
	}
	return c
}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// amount is an amount that is written without rounding.
func amount(t *testing.T, c Currency, s string) Amount {
	t.Helper()
	a, ok := c.Exact(dec(s))
	if !ok {
		t.Fatalf("%s is finer than the minor unit of %s", s, c.Code)
	}
	return a
}

// halfAway is the oracle: a rational to so many decimals by big integers, half
// away from zero.
func halfAway(r *big.Rat, places int32) *big.Rat {
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
	scaled := new(big.Rat).Mul(new(big.Rat).Abs(r), scale)
	doubled := scaled.Add(scaled, scaled)
	doubled.Add(doubled, big.NewRat(1, 1))
	floor := new(big.Int).Div(doubled.Num(), new(big.Int).Mul(doubled.Denom(), big.NewInt(2)))
	result := new(big.Rat).SetInt(floor)
	result.Quo(result, scale)
	if r.Sign() < 0 {
		result.Neg(result)
	}
	return result
}

func rat(a Amount) *big.Rat { return a.Decimal().Rat() }

var (
	currencies = rapid.SampledFrom([]Currency{euro, yen, dinar, unit4})
	// finely drawn decimals, many of them half-way cases
	decimals = rapid.Custom(func(t *rapid.T) decimal.Decimal {
		digits := rapid.Int64Range(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "digits")
		if rapid.Bool().Draw(t, "half-way") {
			digits = digits/10*10 + 5
		}
		return decimal.New(digits, int32(rapid.IntRange(-7, 2).Draw(t, "exponent")))
	})
	amounts = rapid.Custom(func(t *rapid.T) Amount {
		c := currencies.Draw(t, "currency")
		return c.Round(decimal.New(rapid.Int64Range(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "units"), -c.Minor))
	})
	percents = rapid.Custom(func(t *rapid.T) decimal.Decimal {
		return decimal.New(rapid.Int64Range(-2_000_000, 2_000_000).Draw(t, "percent"), int32(rapid.IntRange(-6, -1).Draw(t, "places")))
	})
)

func wantRat(t *rapid.T, what string, got Amount, want *big.Rat) {
	t.Helper()
	if rat(got).Cmp(want) != 0 {
		t.Fatalf("%s = %s, want %s", what, got, want.FloatString(int(got.Currency().Minor)))
	}
}

func TestRoundHalfAwayFromZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, d := currencies.Draw(t, "currency"), decimals.Draw(t, "decimal")
		wantRat(t, "Round", c.Round(d), halfAway(d.Rat(), c.Minor))
	})
}

func TestPercent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, p := amounts.Draw(t, "amount"), percents.Draw(t, "percent")
		share := new(big.Rat).Quo(p.Rat(), big.NewRat(100, 1))
		exact := new(big.Rat).Mul(rat(a), share)
		wantRat(t, "Percent", a.Percent(p), halfAway(exact, a.Currency().Minor))
		wantRat(t, "WithMarkup", a.WithMarkup(p), halfAway(exact.Add(exact, rat(a)), a.Currency().Minor))
	})
}

func TestWithMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := amounts.Draw(t, "amount")
		p := decimal.New(rapid.Int64Range(-9_999_999, 9_999_999).Draw(t, "percent"), -5) // -99.99999 .. 99.99999
		left := new(big.Rat).Sub(big.NewRat(1, 1), new(big.Rat).Quo(p.Rat(), big.NewRat(100, 1)))
		wantRat(t, "WithMargin", a.WithMargin(p), halfAway(new(big.Rat).Quo(rat(a), left), a.Currency().Minor))
	})
}

// Margin = markup / (1 + markup), the ordinary definitions of accounting: a
// cost of 80 with 25 % on it and with 20 % in it is the same price of 100.
func TestMarginAndMarkupMeet(t *testing.T) {
	cost := amount(t, euro, "80")
	if got, want := cost.WithMarkup(dec("25")).String(), "100.00"; got != want {
		t.Errorf("80 with a markup of 25 %% = %s, want %s", got, want)
	}
	if got, want := cost.WithMargin(dec("20")).String(), "100.00"; got != want {
		t.Errorf("80 with a margin of 20 %% = %s, want %s", got, want)
	}
}

func TestMarginOfEverythingPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a margin of 100 % must be refused")
		}
	}()
	amount(t, euro, "80").WithMargin(dec("100"))
}

func TestSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := amounts.Draw(t, "amount")
		c := a.Currency()
		step := c.Round(decimal.New(rapid.Int64Range(1, 1_000_000).Draw(t, "step"), -c.Minor))
		steps := halfAway(new(big.Rat).Quo(rat(a), rat(step)), 0)
		wantRat(t, "ToStep", a.ToStep(step), steps.Mul(steps, rat(step)))
		up := a.UpToStep(step)
		if up.Cmp(a) < 0 || up.Sub(step).Cmp(a) >= 0 {
			t.Fatalf("UpToStep(%s, %s) = %s", a, step, up)
		}
		if !new(big.Rat).Quo(rat(up), rat(step)).IsInt() {
			t.Fatalf("%s is no multiple of %s", up, step)
		}
	})
}

func TestStepTable(t *testing.T) {
	for _, row := range []struct{ name, value, step, nearest, up string }{
		{"58.07 is said as 58.10, up to 0.05 (Himachal Pradesh schedule of rates 2020)", "58.07", "0.05", "58.05", "58.10"},
		{"half-way goes away from zero", "12.50", "5", "15.00", "15.00"},
		{"half-way below zero", "-12.50", "5", "-15.00", "-10.00"},
		{"a multiple stays", "15.00", "5", "15.00", "15.00"},
		{"no step", "12.34", "0", "12.34", "12.34"},
	} {
		a, step := amount(t, euro, row.value), amount(t, euro, row.step)
		if got := a.ToStep(step).String(); got != row.nearest {
			t.Errorf("%s: nearest %s, want %s", row.name, got, row.nearest)
		}
		if got := a.UpToStep(step).String(); got != row.up {
			t.Errorf("%s: up %s, want %s", row.name, got, row.up)
		}
	}
}

// The parts add up, each is less than one minor unit from its exact share, and
// of two equal weights the earlier never gets less.
func TestAllocate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := amounts.Draw(t, "amount")
		weights := rapid.SliceOfN(rapid.Int64Range(0, 1<<60), 1, 12).Draw(t, "weights")
		if rapid.Bool().Draw(t, "small") {
			for i := range weights {
				weights[i] %= 4
			}
		}
		parts := a.Allocate(weights)
		if sum := a.Currency().Sum(parts...); !sum.Equal(a) {
			t.Fatalf("parts of %s add up to %s", a, sum)
		}
		unit := decimal.New(1, -a.Currency().Minor).Rat()
		for i, part := range parts {
			off := new(big.Rat).Sub(rat(part), exactShare(a, weights, i))
			if off.Abs(off).Cmp(unit) >= 0 {
				t.Fatalf("part %d of %s by %v is %s", i, a, weights, part)
			}
			for j := range i {
				if weights[i] == weights[j] && abs(part).Cmp(abs(parts[j])) > 0 {
					t.Fatalf("of equal weights %d and %d the later got more: %v", j, i, parts)
				}
			}
		}
	})
}

func abs(a Amount) Amount {
	if a.Sign() < 0 {
		return a.Neg()
	}
	return a
}

func exactShare(a Amount, weights []int64, i int) *big.Rat {
	total := new(big.Int)
	for _, w := range weights {
		total.Add(total, big.NewInt(w))
	}
	if total.Sign() == 0 {
		return new(big.Rat).Quo(rat(a), big.NewRat(int64(len(weights)), 1))
	}
	share := new(big.Rat).SetFrac(big.NewInt(weights[i]), total)
	return share.Mul(share, rat(a))
}

// 10.00 by 1, 1, 1 is 3.33 each and one cent left, which the first takes; by
// 1, 3, 5 the exact shares are 1.111.., 3.333.., 5.555.., and the cent left goes
// to the last, whose remainder is the largest.
func TestAllocateTable(t *testing.T) {
	for _, row := range []struct {
		name    string
		value   string
		weights []int64
		want    []string
	}{
		{"equal weights", "10.00", []int64{1, 1, 1}, []string{"3.34", "3.33", "3.33"}},
		{"largest remainder first", "10.00", []int64{1, 3, 5}, []string{"1.11", "3.33", "5.56"}},
		{"below zero", "-10.00", []int64{1, 1, 1}, []string{"-3.34", "-3.33", "-3.33"}},
		{"no weight counts as equal", "0.02", []int64{0, 0, 0}, []string{"0.01", "0.01", "0.00"}},
		{"nothing to one without weight", "5.00", []int64{0, 2}, []string{"0.00", "5.00"}},
	} {
		for i, part := range amount(t, euro, row.value).Allocate(row.weights) {
			if part.String() != row.want[i] {
				t.Errorf("%s: part %d is %s, want %s", row.name, i, part, row.want[i])
			}
		}
	}
}

func TestWeight(t *testing.T) {
	for _, row := range []struct {
		value string
		want  int64
	}{{"12.34", 1234}, {"0", 0}, {"-5", 0}, {"92233720368547758.07", 1<<63 - 1}, {"1e30", 1<<63 - 1}} {
		if got := amount(t, euro, row.value).Weight(); got != row.want {
			t.Errorf("%s weighs %d, want %d", row.value, got, row.want)
		}
	}
}

// Lines of an invoice that add up to nothing, from the test file of rule
// BR-CO-10 of EN 16931; summed as floats they give -9.1e-15.
func TestFloatTrap(t *testing.T) {
	sum := euro.Sum(amount(t, euro, "720.81"), amount(t, euro, "0.01"), amount(t, euro, "-720.81"), amount(t, euro, "-0.01"))
	if !sum.IsZero() || sum.String() != "0.00" {
		t.Errorf("sum is %s, want 0.00", sum)
	}
}

// Rounding the whole price up to a full amount, from the totals of the Peppol
// order guide: 999.81 to the nearest 1 is 1000, 0.19 of it rounding.
func TestWholeAmountRounding(t *testing.T) {
	exact := amount(t, euro, "999.81")
	rounded := exact.ToStep(amount(t, euro, "1"))
	if rounded.String() != "1000.00" || rounded.Sub(exact).String() != "0.19" {
		t.Errorf("999.81 is rounded to %s", rounded)
	}
}

// The UK lets an invoice trader round the total VAT down to a whole penny
// (Notice 700, par. 17.5, in HMRC manual VATREC12010); EN 16931 rule BR-CO-17
// rounds the tax of a rate half up. Laybill has the second rule: the tax of
// 3 lines of 0.33 at 5 % is 0.0495 -> 0.05 on the sum, where rounding line by
// line would give 3 x 0.02 = 0.06, and down would give 0.04.
func TestTaxIsRoundedOnTheSum(t *testing.T) {
	line := amount(t, euro, "0.33")
	sum := euro.Sum(line, line, line)
	if got := sum.Percent(dec("5")).String(); got != "0.05" {
		t.Errorf("tax is %s, want 0.05", got)
	}
}

func TestAmountOfNoCurrency(t *testing.T) {
	a := amount(t, euro, "3.10")
	if got := (Amount{}).Add(a); !got.Equal(a) {
		t.Errorf("nothing and %s is %s", a, got)
	}
	if (Amount{}).Cmp(a) >= 0 {
		t.Error("nothing is not less than 3.10")
	}
	defer func() {
		if recover() == nil {
			t.Error("euros and yen must not be added")
		}
	}()
	a.Add(yen.Round(dec("1")))
}

func TestExact(t *testing.T) {
	for _, row := range []struct {
		currency Currency
		value    string
		ok       bool
	}{
		{euro, "12.50", true}, {euro, "12.500", true}, {euro, "12.505", false},
		{yen, "12", true}, {yen, "12.5", false}, {dinar, "0.125", true}, {unit4, "0.00005", false},
	} {
		if _, ok := row.currency.Exact(dec(row.value)); ok != row.ok {
			t.Errorf("%s %s is exact: %v", row.currency.Code, row.value, ok)
		}
	}
}
