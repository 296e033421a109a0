package layout

import "laybill/estimate/measure"

// Certificate proves a lower bound on the planks that rows take: the sum of
// Count x Price over Plank, rounded up.
//
// A row of length R = qL + r, 0 < r <= L, longer than a plank takes a starter a
// from an off-cut with a right end and leaves one where its end piece is cut.
// With the value v of an off-cut by its length, its price is at most
//
//	q Plank + v(a) - v(a-r-k)        for max(r,e) <= a <= min(L, r+L-e)
//	(q+1) Plank + v(a) - v(L-k-r+a)  for e <= a <= r-e
//	v(o) - v(o-R-k)                  for R <= o <= L, when R <= L
//
// for kerf k and least end e. Any v that does not fall, with v(L) <= Plank,
// makes a valid bound: linear-programming duality on the flow of off-cuts (our
// own derivation). With free ends it is as valid, see bestWorth.
type Certificate struct {
	Plank  int64       // weight of a whole plank
	Values []ValueStep // rising; an off-cut shorter than the first is worth nothing
	Rows   []PricedRow // no two of them can be ripped side by side from one plank
}

// ValueStep says that off-cuts from this length on are worth the weight.
type ValueStep struct {
	From   measure.Length
	Weight int64
}

// PricedRow is Count rows of one length, width and need of factory edges.
type PricedRow struct {
	Length, Width measure.Length
	Edges         Edges
	Count         int
	Price         int64 // each, in the weight of Certificate.Plank
}

// Edges says which long factory edges a row needs.
type Edges string

// Needs of long edges.
const (
	EdgesBoth Edges = "both"
	EdgesNear Edges = "near" // meets only the row below
	EdgesFar  Edges = "far"  // meets only the row above
	EdgesNone Edges = "none"
)
