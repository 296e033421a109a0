package risk

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/price"
	"laybill/estimate/purchase"
)

var eur = money.Currency{Code: "EUR", Minor: 2}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }
func euros(s string) money.Amount  { return eur.Round(dec(s)) }

func ladder(labour string) price.Ladder {
	return price.Ladder{Labour: euros(labour), Other: eur.Zero(), Overhead: eur.Zero()}
}

func near(t *testing.T, what string, got money.Amount, want, within float64) {
	t.Helper()
	if off := math.Abs(got.Decimal().InexactFloat64() - want); off > within {
		t.Errorf("%s is %s, want %.2f within %.2f", what, got, want, within)
	}
}

// Labour of 10,000 with hours from 10 % fewer to 30 % more: the quantiles of the
// triangle with peak 0, low -1000 and high 3000 (cumulative distribution of the
// triangular law, ordinary statistics): F(x) = 1 - (3000-x)^2 / (4000 x 3000)
// above the peak, so x = 3000 - sqrt((1-q) x 12,000,000); at 50 % 550.51, at
// 90 % 1904.55; below the peak x = -1000 + sqrt(q x 4,000,000): at 10 % -367.54.
func TestHoursFollowTheTriangle(t *testing.T) {
	s := job.Settings{Currency: eur, Seed: 1, Risk: job.Risk{FewerHours: dec("10"), MoreHours: dec("30")}}
	o := Simulate(s, nil, ladder("10000"))
	near(t, "10 %", o.Costs[9], 9632.46, 40)
	near(t, "50 %", o.Costs[49], 10550.51, 40)
	near(t, "90 %", o.Costs[89], 11904.55, 40)
}

// Prices of one supplier rise evenly by up to 20 %: quantiles are straight.
// Planks of 1000 break evenly up to 10 % where 4 % are bought for: the median of
// 5 % is 1 % beyond.
func TestPricesAndBreakage(t *testing.T) {
	order := []purchase.Order{{Net: euros("1000"), Lines: []purchase.Line{{Product: &job.Product{Kind: job.Plank}, Net: euros("1000")}}}}
	rise := Simulate(job.Settings{Currency: eur, Seed: 7, Risk: job.Risk{PriceRise: dec("20")}}, order, ladder("0"))
	near(t, "25 % of rises", rise.Costs[24], 1050, 4)
	near(t, "90 % of rises", rise.Costs[89], 1180, 4)
	broken := Simulate(job.Settings{Currency: eur, Seed: 7, BreakagePercent: dec("4"), Risk: job.Risk{Breakage: dec("10")}}, order, ladder("0"))
	near(t, "30 % of breakage", broken.Costs[29], 1000, 0)
	near(t, "50 % of breakage", broken.Costs[49], 1010, 2)
	near(t, "all of breakage", broken.Costs[99], 1060, 1)
}

// Without ranges every run costs the same; at a price of 1000 over a cost of 900
// no run has a margin below 10 %, and all are below 10.01 %. The same seed gives
// the same costs, another seed others.
func TestChanceAndSeed(t *testing.T) {
	still := Simulate(job.Settings{Currency: eur, Seed: 1}, nil, ladder("900"))
	if n := still.Chance(euros("1000"), dec("10")); n != 0 {
		t.Errorf("a margin of exactly the target counts as below: %d %%", n)
	}
	if n := still.Chance(euros("1000"), dec("10.01")); n != 100 {
		t.Errorf("chance %d %%, want 100", n)
	}
	if got := still.Price(80, dec("10")).String(); got != "1000.00" {
		t.Errorf("price for 80 %% is %s, want 1000.00", got)
	}
	s := job.Settings{Currency: eur, Seed: 1, Risk: job.Risk{MoreHours: dec("30")}}
	first, again := Simulate(s, nil, ladder("10000")), Simulate(s, nil, ladder("10000"))
	s.Seed = 2
	if other := Simulate(s, nil, ladder("10000")); !first.Costs[50].Equal(again.Costs[50]) || first.Costs[50].Equal(other.Costs[50]) {
		t.Error("outcomes do not follow the seed")
	}
}

func BenchmarkSimulate(b *testing.B) {
	order := []purchase.Order{{Net: euros("1000")}, {Net: euros("2000")}, {Net: euros("3000")}}
	s := job.Settings{Currency: eur, Seed: 1, Risk: job.Risk{FewerHours: dec("10"), MoreHours: dec("30"), PriceRise: dec("8"), Breakage: dec("5")}}
	for b.Loop() {
		Simulate(s, order, ladder("10000"))
	}
}
