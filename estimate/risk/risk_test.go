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
	near(t, "10 %", o.Cost(10), 9632.46, 40)
	near(t, "50 %", o.Cost(50), 10550.51, 40)
	near(t, "90 %", o.Cost(90), 11904.55, 40)
}

// Prices of one supplier rise evenly by up to 20 %: quantiles are straight.
// Planks of 1000 break evenly up to 10 % where 4 % are bought for: the median of
// 5 % is 1 % beyond.
func TestPricesAndBreakage(t *testing.T) {
	order := []purchase.Order{{Supplier: &job.Supplier{}, Net: euros("1000"), Lines: []purchase.Line{{Product: &job.Product{Kind: job.Plank}, Net: euros("1000")}}}}
	rise := Simulate(job.Settings{Currency: eur, Seed: 7, Risk: job.Risk{PriceRise: dec("20")}}, order, ladder("0"))
	near(t, "25 % of rises", rise.Cost(25), 1050, 4)
	near(t, "90 % of rises", rise.Cost(90), 1180, 4)
	broken := Simulate(job.Settings{Currency: eur, Seed: 7, BreakagePercent: dec("4"), Risk: job.Risk{Breakage: dec("10")}}, order, ladder("0"))
	near(t, "30 % of breakage", broken.Cost(30), 1000, 0)
	near(t, "50 % of breakage", broken.Cost(50), 1010, 2)
	near(t, "all of breakage", broken.Cost(100), 1060, 1)
}

// A supplier's prices rise alike in all its orders: two orders of 1000 cost what
// one of 2000 does, run by run.
func TestASuppliersOrdersRiseTogether(t *testing.T) {
	s := job.Settings{Currency: eur, Seed: 3, Risk: job.Risk{PriceRise: dec("20")}}
	one, other := &job.Supplier{Code: "A"}, &job.Supplier{Code: "B"}
	two := Simulate(s, []purchase.Order{{Supplier: one, Net: euros("1000")}, {Supplier: other, Net: euros("50")}, {Supplier: one, Net: euros("1000")}}, ladder("0"))
	whole := Simulate(s, []purchase.Order{{Supplier: one, Net: euros("2000")}, {Supplier: other, Net: euros("50")}}, ladder("0"))
	for i := range two.Costs {
		if !two.Costs[i].Equal(whole.Costs[i]) {
			t.Fatalf("orders of one supplier do not rise together: %s and %s of step %d", two.Costs[i], whole.Costs[i], i+1)
		}
	}
}

// Where purchase tax is a cost, planks that are bought again bear it: 1000 of
// planks with 200 tax, all broken beyond 0 %, cost 2400 at most.
func TestPlanksBoughtAgainBearTheirTax(t *testing.T) {
	s := job.Settings{Currency: eur, Seed: 3, PurchaseTaxIsCost: true, Risk: job.Risk{Breakage: dec("100")}}
	line := purchase.Line{Product: &job.Product{Kind: job.Tile}, Net: euros("1000"), TaxPercent: dec("20")}
	o := Simulate(s, []purchase.Order{{Supplier: &job.Supplier{}, Net: euros("1000"), Tax: euros("200"), Lines: []purchase.Line{line}}}, ladder("0"))
	near(t, "all broken", o.Cost(100), 2400, 1)
}

// Planks bought again cost their net less the order's discount, and no second
// charge on the line: of goods of 1200, 200 of them the charge, less 10 %, all the
// planks beyond 0 % cost 900 again, 1980 together.
func TestPlanksBoughtAgainBearNoSecondCharge(t *testing.T) {
	s := job.Settings{Currency: eur, Seed: 3, Risk: job.Risk{Breakage: dec("100")}}
	supplier := &job.Supplier{OrderDiscountPercent: dec("10"), OrderDiscountFrom: euros("1200")}
	line := purchase.Line{Product: &job.Product{Kind: job.Plank}, Net: euros("1200"), Charge: euros("200")}
	o := Simulate(s, []purchase.Order{{Supplier: supplier, Goods: euros("1200"), Net: euros("1080"), Lines: []purchase.Line{line}}}, ladder("0"))
	near(t, "all broken", o.Cost(100), 1980, 1)
}

// The chance that labour of 10,000 passes 12,655 is (3000 - 2655)^2 / (4000 x
// 3000) = 0.99 % by the law above; of 10,000 runs it is known to within 0.2 %
// (twice the binomial deviation, sqrt(0.0099 x 0.9901 / 10,000)).
func TestChanceHasADecimal(t *testing.T) {
	s := job.Settings{Currency: eur, Seed: 1, Risk: job.Risk{FewerHours: dec("10"), MoreHours: dec("30")}}
	chance := Simulate(s, nil, ladder("10000")).Chance(euros("12655"), decimal.Zero)
	if off := chance.Sub(dec("0.99")).Abs(); off.GreaterThan(dec("0.25")) || chance.Exponent() != -1 {
		t.Errorf("chance %s %%, want 0.99 within 0.25, with one decimal", chance)
	}
}

// Without ranges every run costs the same; at a price of 1000 over a cost of 900
// no run has a margin below 10 %, and all are below 10.01 %. The same seed gives
// the same costs, another seed others.
func TestChanceAndSeed(t *testing.T) {
	still := Simulate(job.Settings{Currency: eur, Seed: 1}, nil, ladder("900"))
	if n := still.Chance(euros("1000"), dec("10")); !n.IsZero() {
		t.Errorf("a margin of exactly the target counts as below: %s %%", n)
	}
	if n := still.Chance(euros("1000"), dec("10.01")); !n.Equal(dec("100")) {
		t.Errorf("chance %s %%, want 100", n)
	}
	if got := still.Price(80, dec("10")).String(); got != "1000.00" {
		t.Errorf("price for 80 %% is %s, want 1000.00", got)
	}
	s := job.Settings{Currency: eur, Seed: 1, Risk: job.Risk{MoreHours: dec("30")}}
	first, again := Simulate(s, nil, ladder("10000")), Simulate(s, nil, ladder("10000"))
	s.Seed = 2
	if other := Simulate(s, nil, ladder("10000")); !first.Cost(50).Equal(again.Cost(50)) || first.Cost(50).Equal(other.Cost(50)) {
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
