// Package money holds amounts of one currency, always a whole number of its
// minor unit, and splits them without losing a cent.
//
// Every amount is made by Currency.Round or Currency.Exact, so there is one
// place where money is rounded and one rule: to the minor unit of ISO 4217,
// half away from zero. Unit prices and percentages are not amounts: they are
// plain decimals and may have more places.
package money

import (
	"fmt"
	"math"
	"math/big"
	"sort"

	"github.com/shopspring/decimal"
)

// RoundingRule says in one sentence how amounts are rounded, for the Basis.
const RoundingRule = "Amounts are rounded once, where they are written, to the currency's minor unit, half away from zero."

// Currency is an ISO 4217 currency that has a minor unit.
type Currency struct {
	Code  string // alphabetic code, upper case
	Minor int32  // decimals of the minor unit: 0, 2, 3 or 4
}

// Amount is a whole number of minor units of a currency. The zero value is no
// money in no currency; it may be added to any amount.
type Amount struct {
	value    decimal.Decimal
	currency Currency
}

// Zero is no money in this currency.
func (c Currency) Zero() Amount { return Amount{currency: c} }

// Round makes an amount of a decimal, rounded to the minor unit, half away
// from zero.
func (c Currency) Round(d decimal.Decimal) Amount {
	return Amount{value: d.Round(c.Minor), currency: c}
}

// Exact makes an amount of a decimal that has no more places than the
// currency; ok is false when it has more.
func (c Currency) Exact(d decimal.Decimal) (amount Amount, ok bool) {
	rounded := c.Round(d)
	return rounded, rounded.value.Equal(d)
}

// Sum adds amounts of this currency.
func (c Currency) Sum(amounts ...Amount) Amount {
	total := c.Zero()
	for _, a := range amounts {
		total = total.Add(a)
	}
	return total
}

// Currency is the currency of the amount.
func (a Amount) Currency() Currency { return a.currency }

// Decimal is the amount as an exact decimal of the main unit.
func (a Amount) Decimal() decimal.Decimal { return a.value }

// String prints the amount with all places of its minor unit and no mark of
// the currency: 12.50.
func (a Amount) String() string { return a.value.StringFixed(a.currency.Minor) }

// Add is the sum of two amounts. It panics when the currencies differ: a job
// has one currency, so a difference can only be a fault of the program.
func (a Amount) Add(b Amount) Amount {
	return Amount{value: a.value.Add(b.value), currency: a.common(b)}
}

// Sub is a less b; see Add.
func (a Amount) Sub(b Amount) Amount { return a.Add(b.Neg()) }

// Neg is the amount with the other sign.
func (a Amount) Neg() Amount { return Amount{value: a.value.Neg(), currency: a.currency} }

// Sign is -1, 0 or 1.
func (a Amount) Sign() int { return a.value.Sign() }

// IsZero tells whether the amount is nothing.
func (a Amount) IsZero() bool { return a.value.IsZero() }

// Cmp compares two amounts: -1 when a is less, 0 when equal, 1 when more.
func (a Amount) Cmp(b Amount) int {
	a.common(b)
	return a.value.Cmp(b.value)
}

// Equal tells whether both are the same amount of the same currency.
func (a Amount) Equal(b Amount) bool { return a.currency == b.currency && a.value.Equal(b.value) }

// Percent is the given percentage of the amount, rounded once: 7.25 is 7.25 %.
func (a Amount) Percent(percent decimal.Decimal) Amount {
	return a.currency.Round(a.value.Mul(percent).Shift(-2))
}

// WithMarkup is the amount raised by a percentage of itself, rounded once.
func (a Amount) WithMarkup(percent decimal.Decimal) Amount {
	return a.currency.Round(a.value.Mul(decimal.NewFromInt(100).Add(percent)).Shift(-2))
}

// WithMargin is the price of which the given percentage is left when the
// amount is paid: amount / (1 - percent/100), rounded once, half away from
// zero. The percentage must be below 100.
func (a Amount) WithMargin(percent decimal.Decimal) Amount {
	share := decimal.NewFromInt(100).Sub(percent)
	if share.Sign() <= 0 {
		panic(fmt.Sprintf("money: a margin of %s %% leaves nothing for the cost", percent))
	}
	numerator := a.value.Shift(2)
	return a.currency.RoundQuotient(numerator, share)
}

// RoundQuotient is a/b as an amount, rounded once, half away from zero, without
// an inexact division.
func (c Currency) RoundQuotient(a, b decimal.Decimal) Amount {
	quotient, remainder := a.QuoRem(b, c.Minor)
	if remainder.Abs().Mul(decimal.NewFromInt(2)).Shift(c.Minor).Cmp(b.Abs()) >= 0 {
		step := decimal.New(int64(a.Sign()*b.Sign()), -c.Minor)
		quotient = quotient.Add(step)
	}
	return c.Round(quotient)
}

// ToStep is the amount at the nearest multiple of step, half away from zero;
// an amount that is a multiple already, or a step of nothing, stays.
func (a Amount) ToStep(step Amount) Amount {
	if step.Sign() <= 0 {
		return a
	}
	steps := Currency{}.RoundQuotient(a.value, step.value)
	return a.currency.Round(steps.value.Mul(step.value))
}

// UpToStep is the least multiple of step that is not below the amount.
func (a Amount) UpToStep(step Amount) Amount {
	if step.Sign() <= 0 {
		return a
	}
	nearest := a.ToStep(step)
	if nearest.Cmp(a) < 0 {
		return nearest.Add(step)
	}
	return nearest
}

// Allocate splits the amount in proportion to the weights so that the parts
// add up to it exactly: each part is cut down to whole minor units and the
// units left over go one each to the largest remainders, ties to the earlier
// weight. Weights must not be negative; when all are zero they count as equal.
// It panics when there is money to split and no weight at all.
func (a Amount) Allocate(weights []int64) []Amount {
	if len(weights) == 0 {
		if !a.IsZero() {
			panic("money: nothing to allocate the amount to")
		}
		return nil
	}
	total := new(big.Int)
	for _, w := range weights {
		if w < 0 {
			panic("money: negative weight")
		}
		total.Add(total, big.NewInt(w))
	}
	if total.Sign() == 0 {
		equal := make([]int64, len(weights))
		for i := range equal {
			equal[i] = 1
		}
		return a.Allocate(equal)
	}
	return a.largestRemainder(weights, total)
}

func (a Amount) largestRemainder(weights []int64, total *big.Int) []Amount {
	whole := new(big.Int).Abs(a.units())
	parts := make([]*big.Int, len(weights))
	remainders := make([]*big.Int, len(weights))
	left := new(big.Int).Set(whole)
	for i, w := range weights {
		product := new(big.Int).Mul(whole, big.NewInt(w))
		parts[i], remainders[i] = product.QuoRem(product, total, new(big.Int))
		left.Sub(left, parts[i])
	}
	order := make([]int, len(weights))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return remainders[order[i]].Cmp(remainders[order[j]]) > 0 })
	for i := range left.Int64() {
		parts[order[i]].Add(parts[order[i]], big.NewInt(1))
	}
	amounts := make([]Amount, len(weights))
	for i, part := range parts {
		if a.Sign() < 0 {
			part.Neg(part)
		}
		amounts[i] = Amount{value: decimal.NewFromBigInt(part, -a.currency.Minor), currency: a.currency}
	}
	return amounts
}

// units is the amount as a number of minor units.
func (a Amount) units() *big.Int { return a.value.Shift(a.currency.Minor).BigInt() }

// Weight is the amount's number of minor units as a weight for Allocate;
// amounts below zero weigh nothing, and amounts beyond int64 all weigh the
// same.
func (a Amount) Weight() int64 {
	if a.Sign() <= 0 {
		return 0
	}
	if units := a.units(); units.IsInt64() {
		return units.Int64()
	}
	return math.MaxInt64
}

func (a Amount) common(b Amount) Currency {
	switch {
	case a.currency == b.currency || b.currency == Currency{}:
		return a.currency
	case a.currency == Currency{}:
		return b.currency
	}
	panic(fmt.Sprintf("money: %s and %s cannot be added", a.currency.Code, b.currency.Code))
}
