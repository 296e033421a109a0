package subfloor

import (
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
)

// Rates are what filling and grinding cost in a build-up, for a square metre
// and a millimetre, exact and before bags are rounded; nil where the build-up
// has no line for it.
type Rates struct{ Fill, Grind *big.Rat }

// SoldPrice is the price of one sold unit of a product, nil when its row does
// not say.
type SoldPrice func(*job.Product) *big.Rat

// ratesOf adds up the build-up's lines by area x depth and by grinding: goods at
// their price, hours by the job's area unit at wage and burden, with factor and
// waste.
func ratesOf(b *job.BuildUp, unit measure.AreaUnit, priceOf SoldPrice) Rates {
	var r Rates
	for _, line := range b.Lines {
		rate := lineRate(line, unit, priceOf)
		switch {
		case rate == nil:
		case line.Measure == job.AreaDepth:
			r.Fill = plus(r.Fill, rate)
		case line.Measure == job.Grinding:
			r.Grind = plus(r.Grind, rate)
		}
	}
	return r
}

func plus(sum, more *big.Rat) *big.Rat {
	if sum == nil {
		return more
	}
	return new(big.Rat).Add(sum, more)
}

// lineRate is what a line costs for a square metre and a millimetre; nil when
// its product's row does not say.
func lineRate(line *job.Line, unit measure.AreaUnit, priceOf SoldPrice) *big.Rat {
	rate := new(big.Rat)
	if line.Operation != nil {
		if line.Operation.Trade == nil {
			return nil
		}
		rate.Mul(line.Operation.HoursPerUnit.Rat(), line.Operation.Trade.Wage.Rat())
		rate.Mul(rate, raised(line.Operation.Trade.BurdenPercent.Rat()))
		rate.Mul(rate, big.NewRat(int64(measure.SquareMetre), int64(unit.Area())))
	} else {
		price := priceOf(line.Product)
		if price == nil || line.Product.Weight.Sign() <= 0 {
			return nil
		}
		rate.Mul(price, line.Product.Spread.Rat())
		rate.Quo(rate, line.Product.Weight.Rat())
	}
	rate.Mul(rate, line.Factor.Rat())
	return rate.Mul(rate, raised(line.Waste.Rat()))
}

// raised is 1 plus a per cent.
func raised(percent *big.Rat) *big.Rat {
	return new(big.Rat).Add(big.NewRat(1, 1), new(big.Rat).Quo(percent, big.NewRat(100, 1)))
}

// compare tells whether there is a choice: both can be done, and filling costs
// something.
func (r Rates) compare() bool { return r.Fill != nil && r.Grind != nil && r.Fill.Sign() > 0 }

// asFloats are the rates with that of filling as the unit.
func (r Rates) asFloats() rates {
	ratio, _ := new(big.Rat).Quo(r.Grind, r.Fill).Float64()
	return rates{fill: 1, grind: ratio, grinding: true}
}

// Cost is what a levelling costs at the rates, in the currency's minor unit,
// before bags are rounded.
func (r Rates) Cost(l Levelling, currency money.Currency) money.Amount {
	sum := currency.Zero()
	for _, part := range []struct {
		rate  *big.Rat
		layer Layer
	}{{r.Fill, l.Fill}, {r.Grind, l.Ground}} {
		if part.rate == nil {
			continue
		}
		exact := new(big.Rat).Mul(part.rate, big.NewRat(part.layer.Volume, int64(measure.SquareMetre/measure.SquareMillimetre)))
		sum = sum.Add(currency.Round(decimal.NewFromBigRat(exact, currency.Minor)))
	}
	return sum
}
