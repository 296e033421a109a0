package cutting

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/purchase"
)

// Stock is one length that a pool may be cut from: a product to be bought, or
// remnants on hand.
type Stock struct {
	Product *job.Product // nil for remnants
	Remnant *job.Remnant // nil for a product
	Length  measure.Length
	Price   int64 // of one bar, in a unit that is the same for all stocks of the pool
	Limit   int   // remnants still there; 0 for a product
}

// stocksOf are the lengths that a trim is sold in, the longest first. The price
// of a bar is that of the list with the supplier's discount; quantity prices
// are left to the orders.
func stocksOf(j *job.Job, product *job.Product) []Stock {
	products := []*job.Product{product}
	for _, other := range j.Products {
		if other.LengthOf == product {
			products = append(products, other)
		}
	}
	slices.SortStableFunc(products, func(a, b *job.Product) int {
		return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(a.Code, b.Code))
	})
	prices := barPrices(products)
	stocks := make([]Stock, len(products))
	for i, p := range products {
		stocks[i] = Stock{Product: p, Length: p.Length, Price: prices[i]}
	}
	return stocks
}

// barPrices are the prices of one bar of each product as whole numbers in the
// same proportion, as small as they come. One product, or prices that cannot
// be told apart so, count as one: the fewest bars are looked for.
func barPrices(products []*job.Product) []int64 {
	ones := slices.Repeat([]int64{1}, len(products))
	if len(products) == 1 {
		return ones
	}
	prices := make([]*big.Rat, len(products))
	scale := big.NewInt(1)
	for i, p := range products {
		prices[i] = purchase.PiecePrice(p)
		if prices[i] == nil || prices[i].Sign() <= 0 {
			return ones
		}
		scale.Mul(scale, new(big.Int).Quo(prices[i].Denom(), new(big.Int).GCD(nil, nil, scale, prices[i].Denom())))
	}
	whole := make([]*big.Int, len(prices))
	divisor := new(big.Int)
	for i, price := range prices {
		whole[i] = new(big.Int).Quo(new(big.Int).Mul(price.Num(), scale), price.Denom())
		divisor.GCD(nil, nil, divisor, whole[i])
	}
	for i := range whole {
		if whole[i].Quo(whole[i], divisor); !whole[i].IsInt64() || whole[i].Int64() > dearest {
			return ones
		}
		ones[i] = whole[i].Int64()
	}
	return ones
}

// dearest keeps a bar's price well within what the cutting plan adds up.
const dearest = 1_000_000_000

// longest is the longest length that can be bought.
func (p *Pool) longest() measure.Length { return p.Stocks[0].Length }

// batch is pools that are planned one after the other: pools alike, or all
// pools of a trim with remnants.
type batch struct {
	pools    []int
	alike    bool
	remnants []*job.Remnant
}

// batchesOf sorts the pools into batches in the order of their first pool.
func batchesOf(j *job.Job, pools []Pool) []batch {
	remnants := map[*job.Product][]*job.Remnant{}
	for _, remnant := range j.Remnants {
		remnants[remnant.Product] = append(remnants[remnant.Product], remnant)
	}
	var batches []batch
	at := map[string]int{}
	for i := range pools {
		of := remnants[pools[i].Product]
		key := fmt.Sprint(pools[i].Order())
		if len(of) > 0 {
			key = "remnants of " + pools[i].Product.Code
		}
		b, known := at[key]
		if !known {
			b = len(batches)
			at[key] = b
			batches = append(batches, batch{alike: len(of) == 0, remnants: of})
		}
		batches[b].pools = append(batches[b].pools, i)
	}
	return batches
}

func (b batch) solve(pools []Pool, plans *Plans) {
	if b.alike {
		for _, i := range b.pools {
			pools[i].keep(plans.of(&pools[i]))
		}
		return
	}
	left := make([]int, len(b.remnants))
	for i, remnant := range b.remnants {
		left[i] = remnant.Count
	}
	for _, i := range b.pools {
		pools[i].solveWith(b.remnants, left, plans)
	}
}

// solveWith plans the pool with the remnants that are left and takes off those
// that it cuts.
func (p *Pool) solveWith(remnants []*job.Remnant, left []int, plans *Plans) {
	bought := len(p.Stocks)
	var offered []int
	for i, remnant := range remnants {
		if left[i] > 0 && remnant.Length > 0 {
			p.Stocks = append(p.Stocks, Stock{Remnant: remnant, Length: remnant.Length, Limit: left[i]})
			offered = append(offered, i)
		}
	}
	p.keep(plans.of(p))
	for k, i := range offered {
		cut, _ := p.BarsOf(bought + k)
		left[i] -= cut
	}
}
