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
	Repeat    int             // number of its apartment among those of its type; 0 where practice does not count
	Factor    decimal.Decimal // by learning; 1 where practice does not count
	Hours     decimal.Decimal // round(quantity x hours per unit x factor) to 0.01 h, half away from zero
	CallOut   bool            // hours beyond those worked, see callOut; a line of the whole job
	Cost      money.Amount    // round(hours x wage x (1 + overtime) x (1 + burden)), see Overtime
}

// Overtime is how many of the hours of a working day are paid at the overtime
// factor: those beyond the hours that a day has at the plain wage. The hours of
// a day are the same for all work of the job, so every hour bears its part of
// the premium, as in an employee's pay over a week: all hours at the wage, and
// for those of overtime the factor less one on top (29 CFR 778.110).
type Overtime struct{ Hours, Day decimal.Decimal }

// OvertimeOf is the job's; its Hours are 0 when no overtime is worked.
func OvertimeOf(s job.Settings) Overtime {
	o := Overtime{Day: s.HoursADay}
	if s.OvertimeAfter.Sign() > 0 && s.HoursADay.Cmp(s.OvertimeAfter) > 0 {
		o.Hours = s.HoursADay.Sub(s.OvertimeAfter)
	}
	return o
}

// pay is what hours cost at a wage with overtime at a factor, rounded once:
// hours x wage x (1 + (factor - 1) x overtime hours / hours of the day) x
// (1 + burden).
func (o Overtime) pay(currency money.Currency, hours decimal.Decimal, trade *job.Trade) money.Amount {
	burdened := decimal.NewFromInt(100).Add(trade.BurdenPercent).Shift(-2)
	plain := hours.Mul(trade.Wage).Mul(burdened)
	if o.Hours.IsZero() {
		return currency.Round(plain)
	}
	paid := o.Day.Add(trade.Overtime.Sub(decimal.NewFromInt(1)).Mul(o.Hours))
	return currency.RoundQuotient(plain.Mul(paid), o.Day)
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
