package purchase

import (
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// UnitPlaces is the number of decimals of Line.UnitsPerSold: enough for a
// square foot in square metres and for an area stated in feet to come back as
// it was written.
const UnitPlaces = 8

// packs is the number of packs a quantity comes in, whole; 0 for goods without
// packs.
func packs(p *job.Product, quantity decimal.Decimal) decimal.Decimal {
	size := packSize(p)
	if size == nil {
		return decimal.Zero
	}
	return upTo(new(big.Rat).Quo(quantity.Rat(), size), decimal.NewFromInt(1))
}

// PackPlaces is the number of decimals of a pack's area in the unit it is sold
// by. The usual order step of such goods is the same rounded area, so that a
// need of ten packs is never a hair more than ten steps.
const PackPlaces = 6

// packSize is the number of sold units in a pack; nil for goods without packs.
func packSize(p *job.Product) *big.Rat {
	switch p.SoldBy {
	case job.PerPack:
		return big.NewRat(1, 1)
	case job.PerPiece, job.PerEach:
		return p.PiecesIn(job.PerPack)
	case job.PerSquareMetre, job.PerSquareFoot, job.PerSquareYard:
		if p.AreaPerPack > 0 {
			exact := new(big.Rat).Quo(p.AreaIn(job.PerPack), p.AreaIn(p.SoldBy))
			return decimals(exact, PackPlaces).Rat()
		}
	}
	return nil
}

// decimals is a rational as a decimal of so many places, half away from zero.
func decimals(r *big.Rat, places int) decimal.Decimal {
	return decimal.NewFromBigRat(r, int32(places))
}

// PiecePrice is the price of one plank, bar or roll with the discount of its
// line, exact; nil when the product's row does not say.
func PiecePrice(p *job.Product) *big.Rat {
	price, pieces := SoldPrice(p), PiecesPerSold(p)
	if price == nil || pieces == nil {
		return nil
	}
	return price.Quo(price, pieces)
}

// SoldPrice is the price of one sold unit with the discount of its line, below
// the first price break, exact; nil when the product's row does not say.
func SoldPrice(p *job.Product) *big.Rat {
	perSold := p.PriceUnits()
	if perSold == nil || p.Supplier == nil {
		return nil
	}
	price := new(big.Rat).Mul(p.Price.Rat(), perSold)
	return price.Mul(price, decimal.NewFromInt(100).Sub(p.LineDiscount()).Shift(-2).Rat())
}
