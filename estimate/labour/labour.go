// Package labour turns measured operations into hours and wages.
package labour

import (
	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/money"
)

// Line is one operation in one room, or what the least hours of an operation
// add in an apartment (Room nil), or a line of the whole job (Apartment nil
// too).
type Line struct {
	Apartment *job.Apartment
	Room      *building.Room
	Operation *job.Operation
	Quantity  decimal.Decimal // 0 for what least hours add
	Hours     decimal.Decimal // rounded to 0.01 h, half away from zero
	Cost      money.Amount    // round(hours x wage x (1 + burden))
}

// Days is how many whole working days the hours take so many crews of so many
// workers who work so many hours a day each: man-hours over the hours of all
// workers in a day, rounded up (the rule of NAVEDTRA 14045, chapter 2, whose
// availability and man-day equivalent go into the hours a day). It is 0 when
// nobody works.
func Days(hours decimal.Decimal, crews, crewSize int, hoursADay decimal.Decimal) int64 {
	aDay := hoursADay.Mul(decimal.NewFromInt(int64(crews) * int64(crewSize)))
	if aDay.Sign() <= 0 {
		return 0
	}
	whole, rest := hours.QuoRem(aDay, 0)
	if rest.Sign() > 0 {
		whole = whole.Add(decimal.NewFromInt(1))
	}
	return whole.IntPart()
}
