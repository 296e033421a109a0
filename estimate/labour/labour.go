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
