// Package trim cuts goods sold by length (skirting, profiles, nosings, ripped
// planks) from stock bars at the least cost: the one-dimensional cutting-stock
// problem with a saw kerf, several priced stock lengths and a few remnants.
//
// The plan comes with a lower bound on the cost of any plan at all; the plan
// is proven optimal when the two meet. The bound rests on a Certificate that
// anybody can re-evaluate with a knapsack in whole numbers: no floating-point
// value is ever trusted.
//
// The way there, each step only while plan and bound still differ: bounds from
// dual-feasible functions (Fekete, Schepers 2001), greedy plans, some of them
// made at random where there are many lengths, column generation (Gilmore,
// Gomory 1961, 1963), rounding dives, a search over the counts of bars when stock
// comes in several lengths, and an exact search over the patterns that a better
// plan could use. The largest orders are priced at some of their lengths only. All
// work is limited by counts of steps, never by time, so that the same order gives
// the same plan anywhere.
package trim

import "laybill/estimate/measure"

// Stock is one length that can be bought or is on hand.
type Stock struct {
	Length measure.Length
	// Price of one bar in minor units of the currency, or 1 to count bars; the
	// unit is the same for all stocks of an order.
	Price int64
	// Limit is the number of bars there are; 0 stands for any number. Remnants
	// have a limit and usually the price 0.
	Limit int
}

// Cut is a number of pieces of one length that are wanted.
type Cut struct {
	Length measure.Length
	Count  int
}

// Run is a number of equal lengths that may come in parts where they are longer
// than the stock. They are split into the fewest parts that the longest stock
// of any number allows, and no part is shorter than Order.LeastPart. A run that
// fits that stock is cut whole.
type Run struct {
	Length measure.Length
	Count  int
}

// Order is what to cut and what to cut it from.
type Order struct {
	Stocks []Stock
	// Kerf is lost between two neighbouring pieces of a bar, and between the
	// last piece and an off-cut, but not at the ends of a bar: pieces fit when
	// their sum and the kerfs between them are at most the bar.
	Kerf measure.Length
	Cuts []Cut // equal lengths may be listed more than once
	Runs []Run // the same
	// LeastPart is the least length of a part of a run.
	LeastPart measure.Length
	// LeastUseful is the length from which on an off-cut is kept; 0 keeps none.
	LeastUseful measure.Length
}

// Bar is a number of bars of one stock that are cut alike.
type Bar struct {
	Stock  int              // index into Order.Stocks
	Cuts   []measure.Length // longest first
	Count  int
	Offcut measure.Length // what is left of each bar after the last cut
	Kept   bool           // the off-cut is at least Order.LeastUseful
}

// SplitRun is a number of runs of one length that are split alike.
type SplitRun struct {
	Length measure.Length
	Parts  []measure.Length // longest first
	Count  int
	// ByRule says that no other split was weighed up: the bound of the plan takes
	// this one as given. It is so where there is but one to choose, see Split,
	// where stock is limited and longer than what can be bought in any number,
	// and where there are too many.
	ByRule bool
}

// Plan is a cutting plan: every piece wanted is cut exactly once.
type Plan struct {
	Bars       []Bar      // by stock, then longest cuts first
	Runs       []SplitRun // those that do not come in one length, longest first
	Cost       int64      // the price of all bars
	GreedyCost int64      // the price of the plan of Greedy
	// LowerBound is a cost that no plan can undercut, and Proven says that Cost
	// reaches it: the plan is optimal.
	LowerBound int64
	Proven     bool
	// Certificate proves the lower bound or, where an exhaustive search raised
	// it, as much of it as Certified.
	Certificate *Certificate
	Certified   int64
}

// Solve returns the best plan found, never dearer than that of Greedy, with
// its lower bound. It returns no plan when the order has faults.
func Solve(o Order) (Plan, []Fault) {
	if faults := check(o); len(faults) > 0 {
		return Plan{}, faults
	}
	f := fold(o)
	if len(f.task.sizes) == 0 {
		return Plan{Proven: true}, nil
	}
	crew := f.task.firstFit()
	s := solve(f.task, crew)
	if f.short(s.best.setups) {
		return Plan{}, []Fault{{Reason: NotEnoughStock, Cut: NoIndex, Stock: NoIndex}}
	}
	plan := f.plan(o, s.best)
	plan.GreedyCost = crew.setups.cost(f.task)
	plan.LowerBound = s.bound
	plan.Proven = plan.Cost == s.bound
	plan.Certificate = f.certificate(o, s.proofs)
	plan.Certified = min(f.task.jointBound(s.proofs), s.bound)
	return plan, nil
}

// Greedy returns the plan of the crew's rule (common practice): the longest
// piece first, each into the first open bar that still holds it; a new bar is
// the one with the lowest price for its length, and in the end every bar is
// swapped for the cheapest that holds its pieces. Runs are split by Split.
func Greedy(o Order) (Plan, []Fault) {
	if faults := check(o); len(faults) > 0 {
		return Plan{}, faults
	}
	f := fold(o)
	crew := f.task.firstFit()
	if f.short(crew.setups) {
		return Plan{}, []Fault{{Reason: NotEnoughStock, Cut: NoIndex, Stock: NoIndex}}
	}
	plan := f.plan(o, crew)
	plan.GreedyCost = plan.Cost
	return plan, nil
}
