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

// Steps is how many costs an outcome keeps: one for each tenth of a per cent of
// the runs.
const Steps = 1000

// Outcome is what the runs cost. Costs[i] is the cost that i+1 of a thousand runs
// stayed within; overhead is in it as priced, contingencies are not: they
// are there to be used up.
type Outcome struct{ Costs [Steps]money.Amount }

// Simulate plays the job through. Hours of the whole job are off by one draw of
// a triangle from fewer to more with its peak at the hours as estimated; planks
// break by a draw between nothing and the most, and those beyond the breakage
// bought for are bought again; each supplier's prices rise by a draw between
// nothing and the most, alike in all the orders it gets. (Distributions: common
// practice where only a range is known.) The same seed gives the same outcome;
// estimate/proof/doc.go says draw by draw how.
func Simulate(s job.Settings, orders []purchase.Order, l price.Ladder) Outcome {
	draw := rand.New(rand.NewPCG(uint64(s.Seed), 0x1a7b_111))
	goods := bySupplier(s, orders)
	labour, fixed := float(l.Labour), float(l.Other.Add(l.Overhead))
	costs := make([]float64, Runs)
	for run := range costs {
		cost := fixed + float64(labour*triangle(draw.Float64(), -share(s.Risk.FewerHours), share(s.Risk.MoreHours)))
		broken := max(0, float64(draw.Float64()*share(s.Risk.Breakage))-share(s.BreakagePercent))
		for _, g := range goods {
			dearer := 1 + float64(draw.Float64()*share(s.Risk.PriceRise))
			cost += float64((g.all + float64(g.planks*broken)) * dearer)
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

// goods are what a supplier's orders cost: all of them, and their planks and
// tiles.
type goods struct{ all, planks float64 }

// bySupplier adds up each supplier's orders, in the order of the orders, with
// their tax where that is a cost.
func bySupplier(s job.Settings, orders []purchase.Order) []goods {
	type sums struct{ all, planks decimal.Decimal }
	var list []*sums
	of := map[*job.Supplier]*sums{}
	for _, order := range orders {
		sum := of[order.Supplier]
		if sum == nil {
			sum = &sums{}
			of[order.Supplier], list = sum, append(list, sum)
		}
		sum.all = sum.all.Add(order.Net.Decimal())
		if s.PurchaseTaxIsCost {
			sum.all = sum.all.Add(order.Tax.Decimal())
		}
		for _, line := range order.Lines {
			if line.Product.Kind != job.Plank && line.Product.Kind != job.Tile {
				continue
			}
			net := order.Kept(line.Goods())
			if s.PurchaseTaxIsCost {
				net = net.Add(net.Mul(line.TaxPercent).Shift(-2))
			}
			sum.planks = sum.planks.Add(net)
		}
	}
	all := make([]goods, len(list))
	for i, sum := range list {
		all[i] = goods{sum.all.InexactFloat64(), sum.planks.InexactFloat64()}
	}
	return all
}

func float(a money.Amount) float64 { return a.Decimal().InexactFloat64() }

// share is a per cent as a share of one.
func share(percent decimal.Decimal) float64 { return percent.InexactFloat64() / 100 }

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
// per cent with one decimal.
func (o Outcome) Chance(net money.Amount, target decimal.Decimal) decimal.Decimal {
	most := net.Currency().Round(net.Decimal().Mul(decimal.NewFromInt(100).Sub(target)).Shift(-2))
	n := int64(0)
	for _, cost := range o.Costs {
		if cost.Cmp(most) > 0 {
			n++
		}
	}
	return decimal.New(n*1000/Steps, -1)
}

// Cost is the cost that so many per cent of the runs stayed within.
func (o Outcome) Cost(percent int) money.Amount { return o.Costs[percent*Steps/100-1] }

// Price is the price whose margin reaches the target in so many per cent of the
// runs.
func (o Outcome) Price(percent int, target decimal.Decimal) money.Amount {
	return o.Cost(percent).WithMargin(target)
}
