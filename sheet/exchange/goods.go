package exchange

import (
	"math/big"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/purchase"
)

func materials(r *estimate.Result) []materialEntry {
	entries := make([]materialEntry, len(r.Materials))
	for i, m := range r.Materials {
		entries[i] = materialEntry{Product: m.Product.Code, Unit: materialUnit(m), Bought: m.Bought, Laid: m.Laid, Spare: m.Spare, Attic: m.Attic,
			Returned: m.Returned, LeftOver: m.LeftOver, Waste: m.Waste, PerSold: dec(purchase.ContentOf(m.Product))}
		if size := purchase.PieceSize(m.Product); size > 0 {
			entries[i].Piece = &size
		}
		entries[i].Hands = handsNeeded(r, m.Product)
	}
	return entries
}

// handsNeeded is how many left and right blocks a product is needed in, nil of a
// product without hands.
func handsNeeded(r *estimate.Result, p *job.Product) *handsEntry {
	e := &handsEntry{Packs: p.Hands.String(), InPack: p.PiecesPerPack}
	found := false
	for _, need := range r.Needs {
		if need.Product != p {
			continue
		}
		for i := range need.Lefts {
			e.Left, e.Right, found = e.Left+need.Lefts[i], e.Right+need.Rights[i], true
		}
	}
	if !found {
		return nil
	}
	return e
}

func materialUnit(m purchase.Material) string {
	switch m.Unit {
	case purchase.ByArea:
		return "area"
	case purchase.ByLength:
		return "length"
	}
	return m.Product.SoldBy.String()
}

// wherever names a room, or an apartment, or, with neither, the job.
func wherever(apartment *job.Apartment, room *building.Room) place {
	switch {
	case room != nil:
		return placeOf(room)
	case apartment != nil:
		return place{Apartment: apartment.Name, Type: apartment.Type}
	}
	return place{}
}

func quantities(r *estimate.Result) []quantityEntry {
	entries := make([]quantityEntry, len(r.Takeoff.Lines))
	for i, line := range r.Takeoff.Lines {
		e := quantityEntry{place: wherever(line.Apartment, line.Room), Item: line.Item(), MeasuredBy: line.Measure.String(),
			Quantity: dec(line.Quantity), Unit: line.Unit}
		if line.Spec != nil {
			factor := dec(line.Spec.Factor)
			e.Factor, e.Waste = &factor, dec(line.Spec.Waste)
		}
		if line.Bags != nil {
			bags := dec(decimal.NewFromBigRat(line.Bags, bagPlaces))
			e.Bags = &bags
		}
		entries[i] = e
	}
	return entries
}

// bagPlaces is the number of decimals that a line's bags are written with.
const bagPlaces = 8

func uses(r *estimate.Result) []useEntry {
	entries := make([]useEntry, len(r.Takeoff.Uses))
	for i, use := range r.Takeoff.Uses {
		entries[i] = useEntry{place: wherever(nil, use.Room), Product: use.Product.Code, Amount: use.Amount}
	}
	return entries
}

func orders(r *estimate.Result) []orderEntry {
	entries := make([]orderEntry, len(r.Orders))
	for i, o := range r.Orders {
		entries[i] = orderOf(o)
		entries[i].For = r.Consignments[o.Consignment].Name
	}
	return entries
}

// atOnce is one order of the whole job for each supplier that gets several.
func atOnce(r *estimate.Result) []orderEntry {
	entries := make([]orderEntry, len(r.Splits))
	for i, split := range r.Splits {
		entries[i] = orderOf(split.Once)
	}
	return entries
}

func orderOf(o purchase.Order) orderEntry {
	e := orderEntry{
		Supplier: o.Supplier.Code, Name: o.Supplier.Name, Number: o.Number,
		NeededBy: dateOrNull(o.NeededBy), OrderBy: dateOrNull(o.OrderBy), Weight: dec(o.Weight),
		Goods: amount(o.Goods), MinimumOrder: amount(o.Supplier.MinimumOrder), Charge: amount(o.Supplier.Delivery), FreeFrom: orNull(o.Supplier.FreeFrom),
		DiscountPercent: dec(o.Supplier.OrderDiscountPercent), DiscountFrom: orNull(o.Supplier.OrderDiscountFrom), Discount: amount(o.Allowance),
		Delivery: amount(o.Delivery), Supplement: amount(o.Supplement), Net: amount(o.Net), Tax: amount(o.Tax), Gross: amount(o.Gross),
		PaidAlready: amount(o.Supplier.Paid), Paid: amount(o.Paid), PayableStep: orNull(o.Supplier.PayableStep), Rounding: amount(o.Rounding), Payable: amount(o.Payable),
	}
	for _, line := range o.Lines {
		e.Lines = append(e.Lines, lineOf(line))
	}
	for _, tax := range o.Taxes {
		e.Taxes = append(e.Taxes, taxEntry{dec(tax.Percent), amount(tax.Allowance), amount(tax.Base), amount(tax.Amount)})
	}
	return e
}

func dateOrNull(t time.Time) *string {
	if t.IsZero() {
		return nil
	}
	text := isoDate(t)
	return &text
}

func lineOf(line purchase.Line) lineEntry {
	p := line.Product
	e := lineEntry{Product: p.Code, Description: line.Words(), Kind: p.Kind.String(), Quantity: dec(line.Quantity), Unit: p.SoldBy.String(), SoldBy: p.SoldBy.String(),
		Price: dec(line.Price), PricePer: p.PricePer.String(), UnitsPerSold: dec(line.UnitsPerSold), ListPrice: dec(p.Price), Breaks: breaksOf(p),
		Discount: dec(line.Discount), Charge: amount(line.Charge), Net: amount(line.Net), Tax: dec(line.TaxPercent)}
	if line.Packs.Sign() > 0 {
		packs := dec(line.Packs)
		e.Packs = &packs
		if p.PiecesPerPack > 0 {
			e.PiecesPerPack = &p.PiecesPerPack
		}
	}
	if full, part, said := line.Pallets(); said {
		e.FullPallets, e.PartPallet = &full, &part
	}
	if purchase.PieceSize(p) > 0 {
		pieces := dec(decimal.NewFromBigRat(new(big.Rat).Mul(line.Quantity.Rat(), purchase.PiecesPerSold(p)), 0))
		e.Pieces = &pieces
	}
	return e
}
