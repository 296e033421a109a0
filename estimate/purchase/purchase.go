// Package purchase turns what the building needs into orders: whole packs at
// the place where packs are opened, order steps and minimum quantities, prices
// by any unit, discounts, delivery, supplements and tax.
package purchase

import (
	"math/big"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

// Need is what one place needs of one product; a place is where packs are
// opened: a room, an apartment, a floor or the job.
type Need struct {
	Product *job.Product
	Place   string
	Sold    *big.Rat // sold units needed, exact, spares included
	// By is Sold by consignment, in their order; nil where there is one.
	By []*big.Rat

	// Lefts and Rights are the blocks needed of each hand, spares included, by
	// consignment; nil of goods without hands.
	Lefts, Rights []int64

	// The same need in the product's material unit, see Material.
	Used  int64 // planks, bars, rolls cut open or amounts spread, without spares
	Laid  int64
	Spare int64 // whole spare pieces for breakage and attic stock
	Attic int64 // those of them for attic stock
}

// MaterialUnit is what a material is accounted in, always whole numbers.
type MaterialUnit int

// Goods laid by area count in squares of 1/320 mm, goods cut to length in
// 1/320 mm, the rest in sold units.
const (
	ByArea MaterialUnit = iota
	ByLength
	BySoldUnit
)

// UnitOf is the unit a product is accounted in.
func UnitOf(p *job.Product) MaterialUnit {
	switch p.Kind {
	case job.Plank, job.Tile, job.Roll, job.Sheet, job.Underlay, job.Film:
		return ByArea
	case job.Trim:
		return ByLength
	}
	return BySoldUnit
}

// Material accounts for everything bought of a product: Bought is the sum of
// Laid, Spare, Returned, LeftOver and Waste, exactly.
type Material struct {
	Product  *job.Product
	Unit     MaterialUnit
	Bought   int64
	Laid     int64
	Spare    int64 // breakage and attic stock
	Attic    int64 // the attic stock
	Returned int64 // unopened packs of a returnable product
	LeftOver int64 // whole pieces or units not used
	Waste    int64

	ReturnedUnits decimal.Decimal // Returned in sold units
}

// Order is one supplier's order for one consignment: the goods of one delivery.
type Order struct {
	Supplier    *job.Supplier
	Consignment int // index
	Number      string
	NeededBy    time.Time // on site; zero when the job does not say when laying starts
	OrderBy     time.Time // NeededBy less the lead time
	Lines       []Line
	Goods       money.Amount // sum of the lines' nets
	Allowance   money.Amount // discount on the order as a whole, taken off
	Delivery    money.Amount
	Supplement  money.Amount // up to the minimum order
	Net         money.Amount // goods less allowance, with delivery and supplement
	Taxes       []Tax
	Tax         money.Amount
	Gross       money.Amount
	Paid        money.Amount    // of what the supplier holds already, taken off
	Rounding    money.Amount    // to what sums payable are rounded to; may be below zero
	Payable     money.Amount    // gross less paid, with rounding
	Weight      decimal.Decimal // kg, of the lines whose weight is known
}

// Line is one product of an order.
type Line struct {
	Product      *job.Product
	Quantity     decimal.Decimal // sold units
	Packs        decimal.Decimal // packs it comes in; 0 when the product has none
	UnitsPerSold decimal.Decimal // price units in one sold unit
	Price        decimal.Decimal // of one price unit
	Discount     decimal.Decimal // per cent
	Charge       money.Amount    // whatever the quantity
	Net          money.Amount    // round(quantity x units per sold x price x (1 - discount)) + charge
	TaxPercent   decimal.Decimal
	Note         string // for the supplier, blank when there is nothing to say
}

// Words are the product's description and the note.
func (l Line) Words() string {
	if l.Note == "" {
		return l.Product.Description
	}
	return l.Product.Description + " (" + l.Note + ")"
}

// Pallets is how many pallets the line fills and how many packs, or sold units
// of goods without packs, are on one that is not full; said is false when the
// product's row does not say how many a pallet holds.
func (l Line) Pallets() (full, rest int64, said bool) {
	if l.Product.PacksPerPallet == 0 {
		return 0, 0, false
	}
	packs := l.Packs
	if packs.IsZero() {
		packs = l.Quantity
	}
	each := int64(l.Product.PacksPerPallet)
	n := packs.Ceil().IntPart()
	return n / each, n % each, true
}

// Tax is the tax of one rate in an order.
type Tax struct {
	Percent   decimal.Decimal
	Goods     money.Amount // of the lines that bear the rate
	Allowance money.Amount // their share of the order's
	Base      money.Amount // goods less allowance, and the charges that bear the rate
	Amount    money.Amount
}
