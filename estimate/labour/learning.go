package labour

import (
	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// FactorPlaces is the number of decimals of a learning factor, rounded half away
// from zero.
const FactorPlaces = 4

// curve is the learning curve of a job in its unit form (J. R. Crawford): the n-th
// of like apartments takes the hours of the first times n to the power log2 of the
// rate, so that every doubling of n takes the rate's share of the hours. It holds
// the factors of n = 1, 2, .. before they are rounded.
type curve []decimal.Decimal

// curvePlaces is the number of decimals that factors are worked with; those given
// are right to far more than FactorPlaces.
const curvePlaces = 30

// Learned tells whether repeated apartments take fewer hours by the settings.
func Learned(s job.Settings) bool {
	return s.LearningPercent.Sign() > 0 && s.LearningPercent.Cmp(decimal.NewFromInt(100)) < 0
}

// curveOf works the factors of the first n apartments out. Powers of a product are
// products of powers, so only primes take logarithms; powers of two are exact.
func curveOf(percent decimal.Decimal, n int) curve {
	one, rate := decimal.NewFromInt(1), percent.Shift(-2)
	power := logarithm(rate).DivRound(logarithm(decimal.NewFromInt(2)), curvePlaces)
	c := make(curve, n+1)
	for i := 1; i <= n; i++ {
		switch p := leastDivisor(i); {
		case i == 1:
			c[i] = one
		case i == 2:
			c[i] = rate
		case p == i:
			c[i], _ = logarithm(decimal.NewFromInt(int64(i))).Mul(power).ExpTaylor(curvePlaces)
		default:
			c[i] = c[p].Mul(c[i/p]).Round(curvePlaces)
		}
	}
	return c
}

// factor is that of the n-th apartment, rounded.
func (c curve) factor(n int) decimal.Decimal { return c[n].Round(FactorPlaces) }

// logarithm is the natural one of a number above 0.
func logarithm(d decimal.Decimal) decimal.Decimal {
	ln, err := d.Ln(curvePlaces)
	if err != nil {
		panic("labour: " + err.Error()) // of 0 and less only
	}
	return ln
}

// leastDivisor is the least divisor of n above 1; n itself of primes and of 1.
func leastDivisor(n int) int {
	for p := 2; p*p <= n; p++ {
		if n%p == 0 {
			return p
		}
	}
	return n
}

// repeats numbers the apartments of each type from 1, in the order of the
// Apartments sheet; most is the highest number.
func repeats(apartments []*job.Apartment) (numbers map[*job.Apartment]int, most int) {
	numbers = make(map[*job.Apartment]int, len(apartments))
	ofType := map[string]int{}
	for _, a := range apartments {
		ofType[a.Type]++
		numbers[a] = ofType[a.Type]
		most = max(most, numbers[a])
	}
	return numbers, most
}

// learn gives the lines of apartments their place on the curve, where the
// operation is one that goes faster with practice. Repairs are never alike.
func learn(j *job.Job, lines []Line) {
	if !Learned(j.Settings) {
		return
	}
	numbers, most := repeats(j.Apartments)
	c := curveOf(j.Settings.LearningPercent, most)
	for i := range lines {
		if l := &lines[i]; l.Apartment != nil && l.Operation.Learned && (l.Room == nil || !l.Room.Repaired) {
			l.Repeat = numbers[l.Apartment]
			l.Factor = c.factor(l.Repeat)
		}
	}
}
