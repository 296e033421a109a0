package proof

import (
	"fmt"
	"math"
	"strconv"

	"github.com/shopspring/decimal"
)

// factor is the line's learning factor, 1 where practice does not count.
func (l *labourEntry) factor() decimal.Decimal {
	if l.Factor == nil {
		return decimal.NewFromInt(1)
	}
	return l.Factor.Decimal
}

// flat names an apartment, by its type alone where it has no name.
func (p place) flat() place {
	if p.Apartment != "" {
		return place{Apartment: p.Apartment}
	}
	return place{Type: p.Type}
}

// checkLearning numbers the apartments of every type and works each line's factor
// out from its number, in floating point. An operation is learned in all
// apartments or in none.
func (c *checker) checkLearning() {
	t := c.claim(claimLearning)
	numbers, ofType := map[place]int{}, map[string]int{}
	for _, p := range c.f.Job.Apartments {
		ofType[p.Type]++
		numbers[p.flat()] = ofType[p.Type]
	}
	learned := map[string]bool{}
	for i := range c.f.Labour {
		l := &c.f.Labour[i]
		where := l.sign() + ": " + l.Operation
		if !c.repeated(l) {
			t.want(l.Repeat == 0 && l.Factor == nil, where, fmt.Sprint(l.Repeat), "0", "learned though no apartment repeats it")
			continue
		}
		if before, known := learned[l.Operation]; known {
			t.want(before == (l.Repeat > 0), where, fmt.Sprint(l.Repeat > 0), fmt.Sprint(before), "learned in one apartment and not in another")
		}
		if learned[l.Operation] = l.Repeat > 0; l.Repeat == 0 {
			t.want(l.Factor == nil, where, l.factor().String(), "1", "a factor though nothing is learned")
			continue
		}
		want := numbers[l.flat()]
		t.want(l.Repeat == want, where, fmt.Sprint(l.Repeat), fmt.Sprint(want), "not the apartment's number in its type")
		exact := c.onCurve(l.Repeat)
		t.want(math.Abs(l.factor().InexactFloat64()-exact) <= halfFactor, where, l.factor().String(), strconv.FormatFloat(exact, 'f', 6, 64), "not the factor of the learning curve")
	}
}

// repeated tells work that like apartments have in common: not that of the whole
// job, nor what least hours add, nor repairs.
func (c *checker) repeated(l *labourEntry) bool {
	topping := l.Room == nil && orZero(l.Quantity).IsZero()
	return (l.Apartment != "" || l.Type != "") && !topping && c.repairs[c.roomAt(l.place)] == nil
}

// halfFactor is half of the last decimal of a factor, and what floats may be off.
const halfFactor = 0.000_05 + 1e-12

// onCurve is the share of the hours that the n-th apartment takes.
func (c *checker) onCurve(n int) float64 {
	rate := 100.0
	if c.f.Job.Learning != nil {
		rate = c.f.Job.Learning.InexactFloat64()
	}
	return math.Pow(float64(n), math.Log2(rate/100))
}
