package job

import (
	"math/big"

	"laybill/estimate/measure"
)

// What one of a unit holds of a product: this table is what needs are turned
// into sold units by, prices into those of a sold unit, and sold units into
// materials. Each is nil where the product's row does not say.

// PiecesIn is how many pieces a unit is; nil for units of length and area, and
// for bags, tubs and rolls that no pack holds.
func (p *Product) PiecesIn(unit Unit) *big.Rat {
	switch unit {
	case PerPack:
		return positive(int64(p.PiecesPerPack))
	case PerPiece, PerEach:
		return big.NewRat(1, 1)
	case PerRoll, PerBag, PerTub:
		if p.SoldBy == PerPack || p.PricePer == PerPack {
			return big.NewRat(1, 1)
		}
	}
	return nil
}

// LengthIn is the length of a unit laid end to end, in 1/320 mm.
func (p *Product) LengthIn(unit Unit) *big.Rat {
	switch unit {
	case PerMetre:
		return positive(int64(measure.Metre))
	case PerFoot:
		return positive(int64(measure.Foot))
	case PerPack:
		return positive(int64(p.Length) * int64(max(1, p.PiecesPerPack)))
	case PerSquareMetre, PerSquareFoot, PerSquareYard:
		return nil
	}
	return positive(int64(p.Length))
}

// AreaIn is the area of a unit in squares of 1/320 mm: of packs, rolls, bags and
// tubs as stated, of pieces and of rolls without it by length and width.
func (p *Product) AreaIn(unit Unit) *big.Rat {
	piece, stated := positive(int64(p.PieceArea())), positive(int64(p.AreaPerPack))
	switch unit {
	case PerSquareMetre:
		return positive(int64(measure.SquareMetre))
	case PerSquareFoot:
		return positive(int64(measure.SquareFoot))
	case PerSquareYard:
		return positive(int64(measure.SquareYard))
	case PerMetre:
		return positive(int64(measure.Metre.Times(p.Width)))
	case PerFoot:
		return positive(int64(measure.Foot.Times(p.Width)))
	case PerPiece, PerEach:
		if piece == nil && p.PiecesPerPack <= 1 {
			return stated
		}
		return piece
	case PerRoll:
		if stated == nil {
			return piece
		}
	}
	return stated
}

// PieceArea is the area of one piece, roll or sheet; 0 of planks of random
// lengths.
func (p *Product) PieceArea() measure.Area {
	if p.Mixed() {
		return 0
	}
	return p.Length.Times(p.Width)
}

// PriceUnits is how many price units one sold unit is: the pieces of a pack
// priced per piece, the area of a pack priced per m2. It is nil when the two
// units cannot be compared.
func (p *Product) PriceUnits() *big.Rat {
	if p.SoldBy == p.PricePer {
		return big.NewRat(1, 1)
	}
	for _, held := range []func(Unit) *big.Rat{p.PiecesIn, p.LengthIn, p.AreaIn} {
		if sold, priced := held(p.SoldBy), held(p.PricePer); sold != nil && priced != nil {
			return new(big.Rat).Quo(sold, priced)
		}
	}
	return nil
}

func positive(n int64) *big.Rat {
	if n <= 0 {
		return nil
	}
	return big.NewRat(n, 1)
}
