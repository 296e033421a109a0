package quantity

import (
	"math/big"

	"laybill/estimate/building"
	"laybill/estimate/job"
)

func inPacks(packs *big.Rat) measured { return measured{counted, packs, big.NewRat(1, 1), "pack"} }

func inBags(bags *big.Rat) measured { return measured{counted, bags, big.NewRat(1, 1), "bag"} }

// packsOpened is the room's covering as a fraction of packs: the planks first cut
// for it, or of a covering that is counted by area the area with its waste.
func (t *taker) packsOpened(room *building.Room, laid Laid) *big.Rat {
	line := room.Spec.BuildUp.Covering()
	switch {
	case line == nil:
		return new(big.Rat)
	case laid.Most > 0:
		return big.NewRat(int64(laid.Most), int64(line.Product.AreaPerPack))
	case laid.ByPiece && line.Product.PiecesPerPack > 0:
		return big.NewRat(int64(laid.Planks), int64(line.Product.PiecesPerPack))
	case laid.ByPiece:
		return big.NewRat(int64(laid.Planks), 1)
	case line.Product.SoldBy == job.PerPack:
		return soldUnits(line.Product, line.Measure, t.measured(room, laid, line).scaled(line.Factor, line.Waste))
	}
	return new(big.Rat)
}

// bagsIn is what the room takes of all goods sold by the bag.
func (t *taker) bagsIn(room *building.Room, laid Laid) *big.Rat {
	bags := new(big.Rat)
	for _, line := range room.Spec.BuildUp.Lines {
		if byBag(line) {
			bags.Add(bags, bagsOf(line, t.measured(room, laid, line).scaled(line.Factor, line.Waste)))
		}
	}
	return bags
}

// carried is the room's packs and bags times the storeys that they are carried.
func (t *taker) carried(room *building.Room, laid Laid) measured {
	storeys, _ := t.settings.Storeys(room.Apartment) // floors that cannot be read are errors of the job
	n := t.packsOpened(room, laid)
	n.Add(n, t.bagsIn(room, laid))
	return measured{counted, n.Mul(n, big.NewRat(int64(storeys), 1)), big.NewRat(1, 1), "pack x storey"}
}

// bagsOf is how many bags a line takes, its factor and waste counted in; nil when
// its product is not sold by the bag.
func bagsOf(line *job.Line, raised measured) *big.Rat {
	if !byBag(line) {
		return nil
	}
	return soldUnits(line.Product, line.Measure, raised)
}

// byBag tells lines of what is carried in and mixed by the bag. Bags for waste
// come empty, and what goes by the bag is not counted among the bags.
func byBag(line *job.Line) bool {
	p := line.Product
	if p == nil || p.SoldBy != job.PerBag || !line.Measure.InRoom() || line.Measure.OfWaste() || line.Measure == job.Bags || line.Measure == job.Carried {
		return false
	}
	return p.Kind == job.Compound || p.Kind == job.Adhesive || p.Kind == job.Each
}
