package proof

import (
	"fmt"
	"math/big"

	"github.com/shopspring/decimal"
)

// leftOver is what is to be taken away.
type leftOver struct {
	volume *big.Rat // cubes of 1/320 mm
	weight *big.Rat // kilograms
}

func nothingLeft() *leftOver { return &leftOver{new(big.Rat), new(big.Rat)} }

// rest is a whole that is shared out by weights that add up to of. Running sums
// are rounded down, so that the parts add up.
type rest struct{ whole, of, before, given *big.Int }

func newRest() *rest { return &rest{new(big.Int), new(big.Int), new(big.Int), new(big.Int)} }

func (r *rest) part(weight *big.Int) *big.Int {
	if r.of.Sign() <= 0 || r.whole.Sign() <= 0 {
		return new(big.Int)
	}
	r.before.Add(r.before, weight)
	upTo := new(big.Int).Mul(r.whole, r.before)
	upTo.Quo(upTo, r.of)
	part := new(big.Int).Sub(upTo, r.given)
	r.given = upTo
	return part
}

// wasteCount counts the waste of the rooms from the terms of the file.
type wasteCount struct {
	*checker
	t     *tally
	goods map[string]*goodsEntry
}

// countWaste counts what every room leaves over; without terms in the file
// nothing is known.
func (c *checker) countWaste(t *tally) {
	if c.f.Waste == nil {
		t.remark = "the file does not say what waste is counted from"
		return
	}
	w := &wasteCount{c, t, map[string]*goodsEntry{}}
	w.readGoods()
	c.waste = map[*roomEntry]*leftOver{}
	for i := range c.f.Rooms {
		c.waste[&c.f.Rooms[i]] = nothingLeft()
	}
	w.addOldFloors()
	w.addPlanks()
	w.addOtherCoverings()
	w.addLengths()
	w.addUnpacked()
	w.addRepairs()
}

// readGoods finds the goods by product, and compares them with what the file says
// of them elsewhere.
func (w *wasteCount) readGoods() {
	for i := range w.f.Waste.Goods {
		g := &w.f.Waste.Goods[i]
		w.t.want(w.goods[g.Product] == nil, g.sign(), "listed twice", "listed once", "goods have one entry")
		least := min(g.Length, g.Width, g.Thickness)
		w.t.want(least >= 0 && g.Weight.Sign() >= 0 && g.Packing.Sign() >= 0 && g.PackingWeight.Sign() >= 0, g.sign(), "less than nothing", "0 or more", "a measure of goods is negative")
		w.goods[g.Product] = g
	}
	for i := range w.f.Stock {
		s := &w.f.Stock[i]
		if g := w.goods[s.Product]; g != nil && (g.Length != s.Length || g.Width != s.Width) {
			w.t.broken(g.sign(), g.Length.mm()+" x "+g.Width.mm(), s.Length.mm()+" x "+s.Width.mm(), "planks are not of the size of those cut")
		}
	}
	for _, corner := range w.f.Corners {
		if g := w.goods[corner.Product]; g != nil {
			w.t.want(g.Thickness == corner.Thickness, g.sign(), g.Thickness.mm(), corner.Thickness.mm(), "as thick as its corners are cut")
		}
	}
	for i := range w.f.Materials {
		m := &w.f.Materials[i]
		if g := w.goods[m.Product]; g != nil && g.Pieces != nil && m.Piece != nil && m.PerSold != nil {
			held := g.Pieces.Mul(m.Piece.Decimal)
			rounding := m.Piece.Shift(-partPlaces).Add(decimal.New(1, 0))
			w.t.want(held.Sub(m.PerSold.Decimal).Abs().LessThanOrEqual(rounding), g.sign(),
				held.String(), m.PerSold.String(), "the pieces of a sold unit are not what it holds")
		}
	}
}

// partPlaces is the number of decimals of sold units and their pieces.
const partPlaces = 12

func (g *goodsEntry) sign() string { return "waste " + g.Product }

// of are the goods of a product; nil, and said so, where they are missing.
func (w *wasteCount) of(product, where string) *goodsEntry {
	g := w.goods[product]
	w.t.want(g != nil, where, product+" missing", "its entry in waste.goods", "what is left over of a product is not known")
	return g
}

// forget leaves a room out of what is known.
func (w *wasteCount) forget(room *roomEntry) { delete(w.waste, room) }

func (w *wasteCount) addOldFloors() {
	floors := map[string]*oldFloorEntry{}
	for i := range w.f.Waste.OldFloors {
		old := &w.f.Waste.OldFloors[i]
		w.t.want(floors[old.OldFloor] == nil && old.Thickness >= 0 && old.Weight.Sign() >= 0, "old floor "+old.OldFloor, "not so", "listed once, of 0 or more", "an old floor makes no sense")
		floors[old.OldFloor] = old
	}
	for i := range w.f.Rooms {
		room := &w.f.Rooms[i]
		if room.OldFloor == "" {
			continue
		}
		old := floors[room.OldFloor]
		if !w.t.want(old != nil, room.sign(), room.OldFloor, "an entry of old_floors", "the room's old floor is not in the file") {
			w.forget(room)
			continue
		}
		area := big.NewRat(w.floorArea[room], 1)
		w.waste[room].layer(area, old.Thickness)
		w.waste[room].weight.Add(w.waste[room].weight, times(area, old.Weight.Rat(), perSquareMetre))
	}
}

// perSquareMetre is one over the squares of 1/320 mm in a square metre.
var perSquareMetre = big.NewRat(1, squareMetre)

func times(factors ...*big.Rat) *big.Rat {
	product := big.NewRat(1, 1)
	for _, f := range factors {
		product.Mul(product, f)
	}
	return product
}

// layer adds the volume of an area as thick as it is.
func (l *leftOver) layer(area *big.Rat, thickness length) {
	l.volume.Add(l.volume, times(area, big.NewRat(int64(thickness), 1)))
}

// covering adds an area of a covering.
func (l *leftOver) covering(g *goodsEntry, area *big.Rat) {
	l.layer(area, g.Thickness)
	if g.Area != nil && g.Area.Sign() > 0 {
		l.weight.Add(l.weight, new(big.Rat).Quo(times(area, perSquareMetre, g.Weight.Rat()), g.Area.Rat()))
	}
}

// packing adds the packing of so many sold units.
func (l *leftOver) packing(g *goodsEntry, sold *big.Rat) {
	l.volume.Add(l.volume, times(g.Packing.Rat(), sold, cubicMetre))
	l.weight.Add(l.weight, times(g.PackingWeight.Rat(), sold))
}

// packed tells goods that leave packing.
func (g *goodsEntry) packed() bool { return g.Packing.Sign() > 0 || g.PackingWeight.Sign() > 0 }

// soldPieces is how many sold units so many pieces are; 0 of goods that are not
// sold in pieces.
func (g *goodsEntry) soldPieces(pieces *big.Rat) *big.Rat {
	if g.Pieces == nil || g.Pieces.Sign() <= 0 {
		return new(big.Rat)
	}
	return new(big.Rat).Quo(pieces, g.Pieces.Rat())
}

// addPlanks shares what the planks of each pool have beyond their pieces, and
// unpacks those first cut for each room.
func (w *wasteCount) addPlanks() {
	rests := w.plankRests()
	for i := range w.f.Rooms {
		room := &w.f.Rooms[i]
		f := w.floorOf(room)
		if f == nil || f.racked() {
			continue
		}
		g := w.of(f.entry.Product, room.sign())
		if g == nil || !f.sound {
			w.forget(room)
			continue
		}
		part := rests[poolName{f.entry.Product, room.Pool}].part(big.NewInt(f.area))
		if left := w.waste[room]; left != nil {
			left.covering(g, new(big.Rat).SetInt(part))
			left.packing(g, g.soldPieces(big.NewRat(int64(f.entry.Planks), 1)))
		}
	}
}

// plankRests are the areas of the planks of each pool less those of its rooms'
// pieces.
func (w *wasteCount) plankRests() map[poolName]*rest {
	rests := map[poolName]*rest{}
	of := func(product, pool string) *rest {
		name := poolName{product, pool}
		if rests[name] == nil {
			rests[name] = newRest()
		}
		return rests[name]
	}
	for i := range w.f.Stock {
		s := &w.f.Stock[i]
		r := of(s.Product, s.Pool)
		r.whole.Add(r.whole, new(big.Int).Mul(big.NewInt(int64(s.Length)), big.NewInt(int64(s.Width))))
	}
	for i := range w.f.Rooms {
		if f := w.floorOf(&w.f.Rooms[i]); f != nil {
			r := of(f.entry.Product, w.f.Rooms[i].Pool)
			r.of.Add(r.of, big.NewInt(f.area))
		}
	}
	for _, r := range rests {
		r.whole.Sub(r.whole, r.of)
	}
	return rests
}

// addOtherCoverings adds the waste per cent of coverings that have no layout, in
// the uses of their rooms.
func (w *wasteCount) addOtherCoverings() {
	percent := map[useOf]*big.Rat{} // of rooms and coverings
	for i := range w.f.Quantities {
		q := &w.f.Quantities[i]
		room, g := w.roomAt(q.place), w.goods[q.Item]
		if f := w.layoutOf(room); room == nil || g == nil || !g.Covering || f != nil || q.Waste.Sign() <= 0 {
			continue
		}
		percent[useOf{room, q.Item}] = q.Waste.Rat()
	}
	for i := range w.f.Uses {
		u := &w.f.Uses[i]
		key := useOf{w.roomAt(u.place), u.Product}
		left := w.waste[key.room]
		if percent[key] == nil || left == nil {
			continue
		}
		share := new(big.Rat).Quo(percent[key], new(big.Rat).Add(hundred.Rat(), percent[key]))
		left.covering(w.goods[u.Product], share.Mul(share, u.Amount.Rat()))
	}
}

// layoutOf is the layout of a room, nil without one.
func (w *wasteCount) layoutOf(room *roomEntry) *floor {
	if room == nil {
		return nil
	}
	return w.floorOf(room)
}

// addLengths shares what is left of the bars of each pool, and unpacks what is
// cut for each room.
func (w *wasteCount) addLengths() {
	rests := w.barRests()
	for i := range w.f.Lengths {
		e := &w.f.Lengths[i]
		r := rests[poolName{e.Product, e.Pool}]
		if r == nil {
			continue // said in trims
		}
		part := r.part(big.NewInt(int64(e.Length)))
		room := w.roomAt(e.place)
		left := w.waste[room]
		if left == nil {
			continue
		}
		g := w.of(e.Product, e.sign())
		if g == nil || g.Length <= 0 {
			w.forget(room)
			continue
		}
		left.cutOff(g, part)
		if g.packed() {
			left.packing(g, g.soldPieces(big.NewRat(int64(e.Length), int64(g.Length))))
		}
	}
}

// cutOff adds what is cut off bars or rolls.
func (l *leftOver) cutOff(g *goodsEntry, long *big.Int) {
	l.layer(times(new(big.Rat).SetInt(long), big.NewRat(int64(g.Width), 1)), g.Thickness)
	if g.Weight.Sign() > 0 {
		l.weight.Add(l.weight, times(g.Weight.Rat(), g.soldPieces(new(big.Rat).SetFrac(long, big.NewInt(int64(g.Length))))))
	}
}

// barRests are what the bars of each pool of lengths leave to be taken away.
func (w *wasteCount) barRests() map[poolName]*rest {
	pools := w.poolsOfStocks()
	rests := map[poolName]*rest{}
	for i := range w.f.Trims {
		e := &w.f.Trims[i]
		name := pools.of(e)
		if rests[name] == nil {
			rests[name] = newRest()
		}
		for _, b := range e.Bars {
			long := e.waste(b, w.f.Waste.LeastKept)
			rests[name].whole.Add(rests[name].whole, new(big.Int).Mul(big.NewInt(int64(long)), big.NewInt(b.Count)))
		}
	}
	for i := range w.f.Lengths {
		if r := rests[poolName{w.f.Lengths[i].Product, w.f.Lengths[i].Pool}]; r != nil {
			r.of.Add(r.of, big.NewInt(int64(w.f.Lengths[i].Length)))
		}
	}
	return rests
}

// waste is what one bar has beyond its cuts, but for an off-cut that is kept.
func (e *trimEntry) waste(b barEntry, leastKept length) length {
	left := e.StockLength
	for _, cut := range b.Cuts {
		left -= cut
	}
	if offcut := left - length(len(b.Cuts))*e.Kerf; leastKept > 0 && offcut >= leastKept {
		left -= offcut
	}
	return left
}

// addUnpacked adds the packing of what has neither layout nor lengths, of which
// no more can be used than is ordered.
func (w *wasteCount) addUnpacked() {
	ordered := w.ordered()
	taken := map[string]decimal.Decimal{}
	for i := range w.f.Waste.Unpacked {
		u := &w.f.Waste.Unpacked[i]
		where := u.sign() + ": " + u.Product
		room := w.roomAt(u.place)
		left, g := w.waste[room], w.of(u.Product, where)
		if !w.t.want(room != nil && u.Sold.Sign() >= 0, where, u.Sold.String(), "0 or more in a room", "unpacked in no room") || left == nil || g == nil {
			continue
		}
		taken[u.Product] = taken[u.Product].Add(u.Sold.Decimal)
		over := taken[u.Product].Sub(ordered[u.Product].quantity)
		w.t.want(over.LessThanOrEqual(roundings), where, taken[u.Product].String(), "at most "+ordered[u.Product].quantity.String(), "more is unpacked than ordered")
		left.packing(g, u.Sold.Rat())
	}
}

// roundings is what the last decimals of all rooms' sold units can add up to.
var roundings = decimal.New(1, -partPlaces/2)

// addRepairs counts places with one repair.
func (w *wasteCount) addRepairs() {
	for i := range w.f.Repaired {
		room := &w.f.Repaired[i]
		r := w.onlyRepair(room)
		if r == nil {
			continue
		}
		g := w.of(r.Product, room.sign())
		if g == nil {
			continue
		}
		one := times(big.NewRat(int64(r.PlankLength), 1), big.NewRat(int64(r.PlankWidth), 1))
		left := nothingLeft()
		left.covering(g, times(one, big.NewRat(r.FromStock+r.NewPlanks, 1)))
		if g.Area != nil && g.Area.Sign() > 0 {
			left.packing(g, new(big.Rat).Quo(times(one, perSquareMetre, big.NewRat(r.NewPlanks, 1)), g.Area.Rat()))
		}
		w.waste[room] = left
	}
}

// ofWaste tells quantities of what is taken away.
func (q *quantityEntry) ofWaste() bool {
	return q.MeasuredBy == "waste volume" || q.MeasuredBy == "waste weight"
}

// wasteUnits are the units of waste in cubes of 1/320 mm and kilograms. The yard is
// 914.4 mm (international yard, NIST SP 811).
var (
	cubicMetre = new(big.Rat).SetInt(cube(1000 * unit))
	wasteUnits = map[string]*big.Rat{"m3": cubicMetre, "yd3": new(big.Rat).SetInt(cube(292_608)), "kg": big.NewRat(1, 1)}
)

func cube(side int64) *big.Int { return new(big.Int).Exp(big.NewInt(side), big.NewInt(3), nil) }

// checkWaste compares a quantity with what its room leaves over; false where that
// is not known.
func (c *checker) checkWaste(room *roomEntry, q *quantityEntry, t *tally) bool {
	left, size := c.waste[room], wasteUnits[q.Unit]
	where := q.sign() + ": " + q.Item
	if left == nil || !t.want(size != nil, where, q.Unit, "m3, yd3 or kg", "not a unit of waste") {
		return false
	}
	amount := left.volume
	if q.MeasuredBy == "waste weight" {
		amount = left.weight
	}
	want := times(amount, q.Factor.Rat(), hundred.Add(q.Waste.Decimal).Shift(-2).Rat())
	want.Quo(want, size)
	off := new(big.Rat).Sub(want, q.Quantity.Rat())
	t.want(off.Abs(off).Cmp(halfPlace) <= 0, where, q.Quantity.String(), want.FloatString(quantityPlaces+2), fmt.Sprintf("not the %s of the room", q.MeasuredBy))
	return true
}

// halfPlace is half of a quantity's last decimal, and what the decimals of parts
// of sold units can add to it.
var halfPlace = new(big.Rat).Add(decimal.New(5, -quantityPlaces-1).Rat(), decimal.New(1, -8).Rat())
