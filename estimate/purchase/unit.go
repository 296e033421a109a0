package purchase

import (
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// UnitPlaces is the number of decimals of Line.UnitsPerSold: enough for a
// square foot in square metres and for an area stated in feet to come back as
// it was written.
const UnitPlaces = 8

// unitsPerSold is how many price units one sold unit is: the pieces of a pack
// priced per piece, the area of a pack priced per m2. It is nil when the two
// units cannot be compared by what the product's row says.
func unitsPerSold(p *job.Product) *big.Rat {
	if p.SoldBy == p.PricePer {
		return big.NewRat(1, 1)
	}
	for _, amount := range []func(*job.Product, job.Unit) *big.Rat{pieces, lengthOf, areaOf} {
		sold, priced := amount(p, p.SoldBy), amount(p, p.PricePer)
		if sold != nil && priced != nil {
			return new(big.Rat).Quo(sold, priced)
		}
	}
	return nil
}

// pieces is how many pieces a unit is; nil for units of length and area, and
// for bags, tubs and rolls, which are no pieces of each other.
func pieces(p *job.Product, unit job.Unit) *big.Rat {
	switch unit {
	case job.PerPack:
		return positive(int64(p.PiecesPerPack))
	case job.PerPiece, job.PerEach:
		return big.NewRat(1, 1)
	case job.PerRoll, job.PerBag, job.PerTub:
		if p.SoldBy == job.PerPack || p.PricePer == job.PerPack {
			return big.NewRat(1, 1)
		}
	}
	return nil
}

// lengthOf is the length of a unit laid end to end, in 1/320 mm.
func lengthOf(p *job.Product, unit job.Unit) *big.Rat {
	switch unit {
	case job.PerMetre:
		return positive(int64(measure.Metre))
	case job.PerFoot:
		return positive(int64(measure.Foot))
	case job.PerPack:
		return positive(int64(p.Length) * int64(max(1, p.PiecesPerPack)))
	case job.PerPiece, job.PerEach, job.PerRoll:
		return positive(int64(p.Length))
	}
	return nil
}

// areaOf is the area of a unit in squares of 1/320 mm: of packs and rolls as
// stated, of pieces by length and width.
func areaOf(p *job.Product, unit job.Unit) *big.Rat {
	switch unit {
	case job.PerSquareMetre:
		return positive(int64(measure.SquareMetre))
	case job.PerSquareFoot:
		return positive(int64(measure.SquareFoot))
	case job.PerSquareYard:
		return positive(int64(measure.SquareYard))
	case job.PerMetre:
		return positive(int64(measure.Metre.Times(p.Width)))
	case job.PerFoot:
		return positive(int64(measure.Foot.Times(p.Width)))
	case job.PerPiece, job.PerEach:
		return positive(int64(pieceArea(p)))
	case job.PerPack:
		return positive(int64(p.AreaPerPack))
	case job.PerRoll:
		if p.AreaPerPack > 0 {
			return positive(int64(p.AreaPerPack))
		}
		return positive(int64(pieceArea(p)))
	}
	return nil
}

func pieceArea(p *job.Product) measure.Area { return p.Length.Times(p.Width) }

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
		return positive(int64(p.PiecesPerPack))
	case job.PerSquareMetre, job.PerSquareFoot, job.PerSquareYard:
		if p.AreaPerPack > 0 {
			exact := new(big.Rat).Quo(areaOf(p, job.PerPack), areaOf(p, p.SoldBy))
			return decimals(exact, PackPlaces).Rat()
		}
	}
	return nil
}

// decimals is a rational as a decimal of so many places, half away from zero.
func decimals(r *big.Rat, places int) decimal.Decimal {
	return decimal.NewFromBigRat(r, int32(places))
}

func positive(n int64) *big.Rat {
	if n <= 0 {
		return nil
	}
	return big.NewRat(n, 1)
}

// PiecePrice is the price of one plank, bar or roll with the supplier's
// discount, exact; nil when the product's row does not say.
func PiecePrice(p *job.Product) *big.Rat {
	price, pieces := SoldPrice(p), PiecesPerSold(p)
	if price == nil || pieces == nil {
		return nil
	}
	return price.Quo(price, pieces)
}

// SoldPrice is the price of one sold unit with the supplier's discount, below
// the first price break, exact; nil when the product's row does not say.
func SoldPrice(p *job.Product) *big.Rat {
	perSold := unitsPerSold(p)
	if perSold == nil || p.Supplier == nil {
		return nil
	}
	price := new(big.Rat).Mul(p.Price.Rat(), perSold)
	return price.Mul(price, decimal.NewFromInt(100).Sub(p.Supplier.DiscountPercent).Shift(-2).Rat())
}
