// Package risk plays a priced job through many times, with hours, breakage and
// purchase prices drawn from the ranges that the job gives, and says what the
// job may cost. It is the one place where money is a float: its figures are
// estimates of chances, and nothing of the price itself rests on them.
package risk

import (
	"math"
	"math/rand/v2"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/price"
	"laybill/estimate/purchase"
)

// Runs is how often the job is played through.
const Runs = 10_000

// Steps is how many costs an outcome keeps: one for each per cent of the runs.
const Steps = 100

// Outcome is what the runs cost. Costs[i] is the cost that i+1 per cent of the
// runs stayed within; overhead is in it as priced, contingencies are not: they
// are there to be used up.
type Outcome struct{ Costs [Steps]money.Amount }

// Simulate plays the job through. Hours of the whole job are off by one draw of
// a triangle from fewer to more with its peak at the hours as estimated; each
// supplier's prices rise by a draw between nothing and the most; planks break
// by a draw between nothing and the most, and those beyond the breakage bought
// for are bought again. (Distributions: common practice where only a range is
// known.) The same seed gives the same outcome.
func Simulate(s job.Settings, orders []purchase.Order, l price.Ladder) Outcome {
	draw := rand.New(rand.NewPCG(uint64(s.Seed), 0x1a7b_111))
	float := func(d decimal.Decimal) float64 { return d.InexactFloat64() }
	share := func(d decimal.Decimal) float64 { return float(d) / 100 }
	nets, planks := make([]float64, len(orders)), make([]float64, len(orders))
	for i, order := range orders {
		nets[i] = float(order.Net.Decimal())
		if s.PurchaseTaxIsCost {
			nets[i] += float(order.Tax.Decimal())
		}
		for _, line := range order.Lines {
			if line.Product.Kind == job.Plank || line.Product.Kind == job.Tile {
				planks[i] += float(line.Net.Decimal())
			}
		}
	}
	labour, fixed := float(l.Labour.Decimal()), float(l.Other.Add(l.Overhead).Decimal())
	costs := make([]float64, Runs)
	for run := range costs {
		cost := fixed + float64(labour*triangle(draw.Float64(), -share(s.Risk.FewerHours), share(s.Risk.MoreHours)))
		broken := max(0, float64(draw.Float64()*share(s.Risk.Breakage))-share(s.BreakagePercent))
		for i := range nets {
			dearer := 1 + float64(draw.Float64()*share(s.Risk.PriceRise))
			cost += float64((nets[i] + float64(planks[i]*broken)) * dearer)
		}
		costs[run] = cost
	}
	slices.Sort(costs)
	var o Outcome
	for i := range o.Costs {
		o.Costs[i] = s.Currency.Round(decimal.NewFromFloat(costs[(i+1)*Runs/Steps-1]))
	}
	return o
}

// triangle is 1 + a draw of the triangular distribution from low (at most 0) to
// high (at least 0) with its peak at 0, by inversion of u, uniform in 0 to 1.
func triangle(u, low, high float64) float64 {
	width := high - low
	if width <= 0 {
		return 1
	}
	if peak := -low / width; u < peak {
		return 1 + low + math.Sqrt(float64(u*width)*-low)
	}
	return 1 + high - math.Sqrt(float64((1-u)*width)*high)
}

// Chance is the share of the runs whose margin at a price is below a target, in
// whole per cent.
func (o Outcome) Chance(net money.Amount, target decimal.Decimal) int {
	most := net.Currency().Round(net.Decimal().Mul(decimal.NewFromInt(100).Sub(target)).Shift(-2))
	n := 0
	for _, cost := range o.Costs {
		if cost.Cmp(most) > 0 {
			n++
		}
	}
	return n
}

// Price is the price whose margin reaches the target in so many per cent of the
// runs.
func (o Outcome) Price(percent int, target decimal.Decimal) money.Amount {
	return o.Costs[percent-1].WithMargin(target)
}
