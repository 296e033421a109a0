package exchange

import (
	"cmp"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/purchase"
)

// partPlaces is the number of decimals of sold units and their pieces.
const partPlaces = 12

// wasteOf is what the waste of the rooms is counted from; nil where none is.
func wasteOf(r *estimate.Result) *wasteEntry {
	if !r.CountsWaste() {
		return nil
	}
	e := &wasteEntry{LeastKept: mm(r.Job.Settings.LeastUseful)}
	for _, old := range r.Job.OldFloors {
		e.OldFloors = append(e.OldFloors, oldFloorEntry{OldFloor: old.Name, Thickness: mm(old.Thickness), Weight: dec(old.Weight)})
	}
	for _, p := range leavingWaste(r) {
		e.Goods = append(e.Goods, goodsOf(p))
	}
	for i := range r.Takeoff.Demands {
		if d := &r.Takeoff.Demands[i]; d.Unpacked() {
			e.Unpacked = append(e.Unpacked, unpackedEntry{place: placeOf(d.Room), Product: d.Product.Code, Sold: dec(decimal.NewFromBigRat(d.Sold, partPlaces))})
		}
	}
	return e
}

// leavingWaste are the products that leave off-cuts or packing, by their codes.
func leavingWaste(r *estimate.Result) []*job.Product {
	leaves := map[*job.Product]bool{}
	for _, room := range r.Building.Rooms {
		if covering := room.Spec.BuildUp.Covering(); covering != nil {
			leaves[covering.Product] = true
		}
	}
	for i := range r.Building.Repairs {
		leaves[r.Building.Repairs[i].Product] = true
	}
	for i := range r.Cutting {
		leaves[r.Cutting[i].Product] = true
	}
	for i := range r.Takeoff.Demands {
		if d := &r.Takeoff.Demands[i]; d.Unpacked() {
			leaves[d.Product] = true
		}
	}
	products := make([]*job.Product, 0, len(leaves))
	for p := range leaves { // sorted below
		products = append(products, p)
	}
	slices.SortFunc(products, func(a, b *job.Product) int { return cmp.Compare(a.Code, b.Code) })
	return products
}

func goodsOf(p *job.Product) goodsEntry {
	e := goodsEntry{Product: p.Code, Covering: p.Kind.Covering(), Length: mm(p.Length), Width: mm(p.Width), Thickness: mm(p.Thickness),
		Weight: dec(p.Weight), Packing: dec(p.Packing), PackingWeight: dec(p.PackingWeight)}
	if pieces := purchase.PiecesPerSold(p); pieces != nil && purchase.PieceSize(p) > 0 {
		n := dec(decimal.NewFromBigRat(pieces, partPlaces))
		e.Pieces = &n
	}
	if area := p.AreaIn(p.SoldBy); area != nil && e.Covering {
		squareMetres := new(big.Rat).Quo(area, big.NewRat(int64(measure.SquareMetre), 1))
		n := dec(decimal.NewFromBigRat(squareMetres, areaExactly))
		e.Area = &n
	}
	return e
}

// areaExactly is the number of decimals that the square of 1/320 mm has in m2.
const areaExactly = 18
