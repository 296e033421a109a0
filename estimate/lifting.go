package estimate

import "github.com/shopspring/decimal"

// lift is how one person takes up a load with both hands, once: the revised
// equation of NIOSH publication 94-110, in centimetres and degrees. The factors
// of its 1 for a firm grip and a single lift are left out.
type lift struct {
	reach  int64 // H: of the hands from the ankles, 25 at least
	height int64 // V: of the hands over the floor
	travel int64 // D: up or down, 25 at least
	turn   int64 // A: of the body to the side
}

// Lifts that a caution speaks of: where the load stands best, and a pack from the
// floor to the height of the hanging hands.
var (
	idealLift = lift{reach: 25, height: 75, travel: 25}
	fromFloor = lift{reach: 25, height: 0, travel: 75}
)

// liftConstant is what may be lifted in an ideal lift, in kg.
var liftConstant = decimal.NewFromInt(23)

// limit is the recommended weight in kg: nearly all healthy workers may lift so
// much. It is no promise that a lift is safe.
func (l lift) limit() decimal.Decimal {
	one := decimal.NewFromInt(1)
	apart := l.height - 75
	if apart < 0 {
		apart = -apart
	}
	height := one.Sub(decimal.New(3*apart, -3))
	turn := one.Sub(decimal.New(32*l.turn, -4))
	travel := decimal.New(82, -2).Add(decimal.New(45, -1).DivRound(decimal.NewFromInt(l.travel), 6))
	return liftConstant.Mul(decimal.NewFromInt(25)).Mul(height).Mul(travel).Mul(turn).DivRound(decimal.NewFromInt(l.reach), 1)
}
