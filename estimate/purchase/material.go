package purchase

import (
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
)

// PiecesPerSold is the number of whole pieces (planks, tiles, bars, rolls) in
// one sold unit; goods sold by area come in whole packs where the product has
// packs. It is nil when the product's row does not say.
func PiecesPerSold(p *job.Product) *big.Rat {
	switch p.SoldBy {
	case job.PerPack:
		return p.PiecesIn(job.PerPack)
	case job.PerSquareMetre, job.PerSquareFoot, job.PerSquareYard:
		if packed := packSize(p); packed != nil && p.PiecesPerPack > 0 {
			return new(big.Rat).Quo(p.PiecesIn(job.PerPack), packed)
		}
		return ratio(p.AreaIn(p.SoldBy), p.AreaIn(job.PerPiece))
	case job.PerMetre, job.PerFoot:
		return ratio(p.LengthIn(p.SoldBy), p.LengthIn(job.PerPiece))
	}
	return big.NewRat(1, 1)
}

func ratio(a, b *big.Rat) *big.Rat {
	if a == nil || b == nil {
		return nil
	}
	return new(big.Rat).Quo(a, b)
}

// content is what one sold unit holds in the product's material unit; nil when
// the product's row does not say.
func content(p *job.Product) *big.Rat {
	switch UnitOf(p) {
	case ByArea:
		if inPieces(p) {
			return times(PiecesPerSold(p), p.AreaIn(job.PerPiece))
		}
		return p.AreaIn(p.SoldBy)
	case ByLength:
		return p.LengthIn(p.SoldBy)
	}
	return big.NewRat(1, 1)
}

// inPieces tells goods by area that are counted in whole pieces from those
// that are counted by their area.
func inPieces(p *job.Product) bool { return p.Kind == job.Plank && !p.Mixed() || p.Kind.InStrips() }

func times(a, b *big.Rat) *big.Rat {
	if a == nil || b == nil {
		return nil
	}
	return new(big.Rat).Mul(a, b)
}

// unit is the least whole part of the product that can be left over: a piece,
// or a sold unit of goods that are none.
func (p purchase) unit() *big.Rat {
	var piece *big.Rat
	switch UnitOf(p.product) {
	case ByArea:
		piece = p.product.AreaIn(job.PerPiece)
	case ByLength:
		piece = p.product.LengthIn(job.PerPiece)
	}
	if piece == nil {
		return p.content
	}
	return piece
}

// material accounts for what is bought. A place leaves over the whole pieces
// that its opened packs hold beyond what it uses; packs that no place opens go
// back when the product is returnable. What is neither laid nor spare, returned
// or left over is waste.
func (p purchase) material() Material {
	m := Material{Product: p.product, Unit: UnitOf(p.product), Bought: whole(p.amount(p.quantity))}
	unopened := p.quantity
	for i, need := range p.places {
		m.Laid += need.Laid
		m.Spare += need.Spare
		m.Attic += need.Attic
		m.LeftOver += p.leftOver(need, p.opened[i])
		unopened = unopened.Sub(p.opened[i])
	}
	returned := p.returned(unopened)
	m.ReturnedUnits, m.Returned = returned, whole(p.amount(returned))
	m.LeftOver += whole(p.amount(unopened.Sub(returned)))
	m.Waste = m.Bought - m.Laid - m.Spare - m.Returned - m.LeftOver
	return m
}

// amount is sold units in material units.
func (p purchase) amount(sold decimal.Decimal) *big.Rat {
	return new(big.Rat).Mul(sold.Rat(), p.content)
}

// leftOver is the whole pieces left of what a place opens.
func (p purchase) leftOver(need Need, opened decimal.Decimal) int64 {
	unused := p.amount(opened)
	unused.Sub(unused, big.NewRat(need.Used+need.Spare, 1))
	if unused.Sign() <= 0 {
		return 0
	}
	unit := p.unit()
	pieces := floor(new(big.Rat).Quo(unused, unit))
	return whole(new(big.Rat).Mul(pieces, unit))
}

// returned is how many of the unopened sold units may go back: whole packs.
func (p purchase) returned(unopened decimal.Decimal) decimal.Decimal {
	if !p.product.Returnable || cutToMeasure(p.product) {
		return decimal.Zero
	}
	size := packSize(p.product)
	if size == nil {
		return unopened
	}
	packs := floor(new(big.Rat).Quo(unopened.Rat(), size))
	return decimals(packs.Mul(packs, size), UnitPlaces)
}

// cutToMeasure tells goods that the supplier cuts: sold by length, or by area
// without packs.
func cutToMeasure(p *job.Product) bool {
	switch p.SoldBy {
	case job.PerMetre, job.PerFoot:
		return true
	case job.PerSquareMetre, job.PerSquareFoot, job.PerSquareYard:
		return p.AreaPerPack <= 0
	}
	return false
}

func floor(r *big.Rat) *big.Rat {
	return new(big.Rat).SetInt(new(big.Int).Div(r.Num(), r.Denom()))
}

// whole is a rational as a whole number, half away from zero.
func whole(r *big.Rat) int64 { return decimals(r, 0).IntPart() }

// Breakage is the spare pieces for breakage.
func (m Material) Breakage() int64 { return m.Spare - m.Attic }

// Accounted is the sum of what became of the material; it equals Bought.
func (m Material) Accounted() int64 { return m.Laid + m.Spare + m.Returned + m.LeftOver + m.Waste }

// ContentOf is what one sold unit holds in the product's material unit, as a
// decimal: exact for goods in pieces, since these are whole numbers.
func ContentOf(p *job.Product) decimal.Decimal { return decimals(content(p), UnitPlaces) }

// PieceSize is the size of one plank, bar or roll in the product's material
// unit; 0 for goods that are not counted in pieces.
func PieceSize(p *job.Product) int64 {
	switch {
	case UnitOf(p) == ByArea && inPieces(p):
		return int64(p.PieceArea())
	case UnitOf(p) == ByLength:
		return int64(p.Length)
	}
	return 0
}
