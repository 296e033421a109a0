package trim

import (
	"slices"

	"laybill/estimate/measure"
)

// Reason names what is wrong with an order.
type Reason string

// The reasons for which an order cannot be cut.
const (
	NoStock           Reason = "no-stock"            // the order names no stock
	LengthNotPositive Reason = "length-not-positive" // a piece has no length
	CountNegative     Reason = "count-negative"      // fewer than no pieces are wanted
	PieceTooLong      Reason = "piece-too-long"      // a piece is longer than every stock
	KerfTooLarge      Reason = "kerf-too-large"      // the kerf is wider than a piece is long
	KerfNegative      Reason = "kerf-negative"       // the kerf is below 0
	StockNotPositive  Reason = "stock-length-not-positive"
	PriceOutOfRange   Reason = "price-out-of-range" // a price is below 0 or above 10^12 minor units
	LimitNegative     Reason = "limit-negative"     // fewer than no bars are on hand
	TooManyPieces     Reason = "too-many-pieces"    // more than five million pieces
	RunNotSplit       Reason = "run-not-split"      // no parts of a run are long enough and fit the stock
	NotEnoughStock    Reason = "not-enough-stock"   // no plan within the limits of the stocks was found
)

// NoIndex stands for "none" in Fault.Cut and Fault.Stock.
const NoIndex = -1

const (
	maxPieces = 5_000_000
	maxPrice  = 1_000_000_000_000
)

// Fault is one thing wrong with an order.
type Fault struct {
	Reason Reason
	Cut    int // index into Order.Cuts, or that of a run after the last of them, or NoIndex
	Stock  int // index into Order.Stocks, or NoIndex
}

// check returns everything that is wrong with the order.
func check(o Order) []Fault {
	faults := checkStocks(o)
	if o.Kerf < 0 {
		faults = append(faults, Fault{KerfNegative, NoIndex, NoIndex})
	}
	return append(faults, checkCuts(o)...)
}

func checkStocks(o Order) []Fault {
	var faults []Fault
	if len(o.Stocks) == 0 {
		faults = append(faults, Fault{NoStock, NoIndex, NoIndex})
	}
	for k, s := range o.Stocks {
		if s.Length <= 0 {
			faults = append(faults, Fault{StockNotPositive, NoIndex, k})
		}
		if s.Price < 0 || s.Price > maxPrice {
			faults = append(faults, Fault{PriceOutOfRange, NoIndex, k})
		}
		if s.Limit < 0 {
			faults = append(faults, Fault{LimitNegative, NoIndex, k})
		}
	}
	return faults
}

func checkCuts(o Order) []Fault {
	var longest measure.Length
	for _, s := range o.Stocks {
		longest = max(longest, s.Length)
	}
	var faults []Fault
	pieces := 0
	buyable := o.longestStock()
	all := slices.Clip(o.Cuts)
	for _, r := range o.Runs {
		all = append(all, Cut(r))
	}
	for i, c := range all {
		isRun := i >= len(o.Cuts)
		switch {
		case c.Length <= 0:
			faults = append(faults, Fault{LengthNotPositive, i, NoIndex})
		case !isRun && len(o.Stocks) > 0 && c.Length > longest:
			faults = append(faults, Fault{PieceTooLong, i, NoIndex})
		case isRun && buyable > 0 && Split(c.Length, buyable, o.LeastPart) == nil:
			faults = append(faults, Fault{RunNotSplit, i, NoIndex})
		case o.Kerf > c.Length:
			faults = append(faults, Fault{KerfTooLarge, i, NoIndex})
		}
		if c.Count < 0 {
			faults = append(faults, Fault{CountNegative, i, NoIndex})
		}
		if pieces <= maxPieces && c.Count > maxPieces-pieces {
			faults = append(faults, Fault{TooManyPieces, i, NoIndex})
		}
		pieces += min(max(c.Count, 0), maxPieces+1)
	}
	return faults
}
