// Package price climbs from cost to price in one stated order and shares every
// amount of it out to the rooms without losing a cent.
package price

import (
	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/money"
)

// Ladder is the job's price, step by step.
type Ladder struct {
	Material            money.Amount
	Labour              money.Amount
	Other               money.Amount
	MaterialContingency money.Amount
	LabourContingency   money.Amount
	OtherContingency    money.Amount
	Contingency         money.Amount // sum of the three
	Overhead            money.Amount
	Cost                money.Amount
	Profit              money.Amount
	Net                 money.Amount // the price before tax
	Tax                 money.Amount
	Gross               money.Amount
	Retention           money.Amount    // shown, not deducted
	Margin              decimal.Decimal // profit / price in per cent, 2 places
	Markup              decimal.Decimal // profit / cost in per cent, 2 places
}

// Share is what one room, or one group of rooms, takes of the ladder. Price is
// the sum of the others.
type Share struct {
	Material, Labour, Other, Contingency, Overhead, Profit, Price money.Amount
}

// ExtraLine is one extra cost counted for the job.
type ExtraLine struct {
	Extra  *job.Extra
	Times  int          // how many jobs, blocks, floors or apartments
	Amount money.Amount // round(times x quantity x unit cost)
}

// Price is the whole result: every column of Rooms adds up to the ladder.
type Price struct {
	Ladder Ladder
	Extras []ExtraLine
	Rooms  []Share // by room index
}

// Group is the shares of the rooms of one apartment, type, floor or block.
type Group struct {
	Name  string
	Rooms []*building.Room
	Share Share
}
