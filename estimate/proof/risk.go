package proof

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"github.com/shopspring/decimal"
)

// runs is how often a job is played through.
const runs = 10_000

// checkRisk plays the job through again, and draws the chances and the prices
// from the costs.
func (c *checker) checkRisk() {
	t := c.claim(claimRisk)
	r := c.f.Risk
	if r == nil {
		return
	}
	const where = "risk"
	if n := len(r.Costs); !t.want(n > 0 && runs%n == 0, where, fmt.Sprint(n), fmt.Sprintf("a part of %d", runs), "costs that stand for no whole number of runs") {
		return
	}
	drawn := c.playedThrough(r)
	for i, cost := range r.Costs {
		t.equal(where, cost, drawn[i], fmt.Sprintf("not what %d of %d runs stay within", i+1, len(r.Costs)))
	}
	t.equal(where, r.BelowTarget, c.chance(r, r.Target.Decimal), "not the share of the costs that miss the target margin")
	t.equal(where, r.Loss, c.chance(r, decimal.Zero), "not the share of the costs above the price")
	for _, p := range r.Prices {
		at := int(p.Confidence.IntPart())*len(r.Costs)/100 - 1
		if !t.want(at >= 0 && at < len(r.Costs) && r.Target.LessThan(hundred), where, p.Confidence.String(), "1 to 100", "no such share of the costs") {
			continue
		}
		t.equal(where, p.Price, quotient(r.Costs[at].Mul(hundred), hundred.Sub(r.Target.Decimal), c.minor), "price is not cost / (1 - target margin)")
	}
}

// chance is in how many of a hundred runs the price leaves less than a margin.
func (c *checker) chance(r *riskEntry, margin decimal.Decimal) decimal.Decimal {
	most := c.share(c.f.Price.Net.Decimal, hundred.Sub(margin))
	n := int64(0)
	for _, cost := range r.Costs {
		if cost.GreaterThan(most) {
			n++
		}
	}
	const places = 1
	return quotient(decimal.NewFromInt(n*100), decimal.NewFromInt(int64(len(r.Costs))), places)
}

// playedThrough is the costs of the runs as riskEntry has them drawn.
func (c *checker) playedThrough(r *riskEntry) []decimal.Decimal {
	source := rand.NewPCG(uint64(r.Seed), 0x1a7b_111)
	draw := func() float64 {
		const bits = 53
		return math.Ldexp(float64(source.Uint64()&(1<<bits-1)), -bits)
	}
	part := func(percent number) float64 { return percent.InexactFloat64() / 100 }
	fewer, more, breakage, spare, rise := part(r.Fewer), part(r.More), part(r.Breakage), part(r.Spare), part(r.PriceRise)
	suppliers := c.atRisk()
	labour, still := c.f.Price.Labour.InexactFloat64(), c.f.Price.Other.Add(c.f.Price.Overhead.Decimal).InexactFloat64()
	all := make([]float64, runs)
	for i := range all {
		worked := float64(labour * hoursFactor(draw(), fewer, more))
		all[i] = still + worked
		broken := math.Max(float64(draw()*breakage)-spare, 0)
		for _, s := range suppliers {
			raised := float64(draw() * rise)
			again := float64(s.planks * broken)
			all[i] += float64((s.goods + again) * (1 + raised))
		}
	}
	slices.Sort(all)
	step := runs / len(r.Costs)
	costs := make([]decimal.Decimal, len(r.Costs))
	for i := range costs {
		costs[i] = decimal.NewFromFloat(all[step*(i+1)-1]).Round(c.minor)
	}
	return costs
}

// hoursFactor is the hours worked over those estimated, for a draw.
func hoursFactor(u, fewer, more float64) float64 {
	all := fewer + more
	switch {
	case all <= 0:
		return 1
	case u < fewer/all:
		return 1 - fewer + math.Sqrt(float64(u*all)*fewer)
	}
	return 1 + more - math.Sqrt(float64((1-u)*all)*more)
}

// atRisk is what a supplier's goods cost in all, and its planks and tiles.
type atRisk struct{ goods, planks float64 }

// atRisk adds up the goods of each supplier, in the order of the orders.
func (c *checker) atRisk() []atRisk {
	var codes []string
	goods, planks := map[string]decimal.Decimal{}, map[string]decimal.Decimal{}
	for i := range c.f.Orders {
		o := &c.f.Orders[i]
		if !slices.Contains(codes, o.Supplier) {
			codes = append(codes, o.Supplier)
		}
		goods[o.Supplier] = goods[o.Supplier].Add(c.costOf(o.Net.Decimal, o.Tax.Decimal))
		for j := range o.Lines {
			if l := &o.Lines[j]; l.Kind == "plank" || l.Kind == "tile" {
				net := l.Net.Sub(l.Charge.Decimal).Mul(hundred.Sub(o.discountOn(orZero(o.Goods)))).Shift(-2)
				planks[o.Supplier] = planks[o.Supplier].Add(c.costOf(net, net.Mul(l.Tax.Decimal).Shift(-2)))
			}
		}
	}
	all := make([]atRisk, len(codes))
	for i, code := range codes {
		all[i] = atRisk{goods[code].InexactFloat64(), planks[code].InexactFloat64()}
	}
	return all
}

// costOf is a net with its tax where that is a cost.
func (c *checker) costOf(net, tax decimal.Decimal) decimal.Decimal {
	if c.f.Price.PurchaseTaxIsCost {
		return net.Add(tax)
	}
	return net
}
