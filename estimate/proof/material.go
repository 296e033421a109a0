package proof

import (
	"fmt"
	"maps"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// checkMaterials accounts for everything bought of every product.
func (c *checker) checkMaterials() {
	account, laid, bought := c.claim(claimAccount), c.claim(claimLaid), c.claim(claimBought)
	ordered := c.ordered()
	inRooms, planks, cuts := c.laidAreas(), c.planksCut(), c.lengthsCut()
	racked := c.rackedMost()
	seen := map[string]bool{}
	for i := range c.f.Materials {
		m := &c.f.Materials[i]
		where := "material " + m.Product
		if !account.want(!seen[m.Product], where, "listed twice", "listed once", "the product is accounted for twice") {
			continue
		}
		seen[m.Product] = true
		m.checkAccount(account, where)
		m.checkBought(ordered[m.Product], bought, where)
		if most := racked[m.Product]; most != nil {
			m.checkRacked(inRooms[m.Product], most, laid, where)
			continue
		}
		m.checkLaid(inRooms[m.Product], planks[m.Product], cuts[m.Product], laid, where)
		if m.Hands != nil {
			m.checkHands(c.handsCut(m.Product), ordered[m.Product], bought, where)
		}
	}
	for _, o := range c.f.Orders {
		for _, line := range o.Lines {
			bought.want(seen[line.Product], "order "+o.Number, line.Product, "a material", "ordered, but not accounted for")
		}
	}
	c.checkUses(laid)
	for _, product := range slices.Concat(slices.Sorted(maps.Keys(planks)), slices.Sorted(maps.Keys(cuts)), slices.Sorted(maps.Keys(inRooms))) {
		laid.want(seen[product], "material "+product, "missing", "listed", "cut or laid, but not accounted for")
	}
}

// handsCut counts a product's blocks by their hand.
func (c *checker) handsCut(product string) map[string]int64 {
	cut := map[string]int64{}
	for i := range c.f.Stock {
		if s := &c.f.Stock[i]; s.Product == product {
			cut[s.Hand]++
		}
	}
	return cut
}

// checkHands checks that the blocks ordered are enough for either hand.
func (m *materialEntry) checkHands(cut map[string]int64, b bought, t *tally, where string) {
	h := m.Hands
	t.want(cut["left"] <= h.Left && cut["right"] <= h.Right, where, fmt.Sprintf("%d left, %d right cut", cut["left"], cut["right"]),
		fmt.Sprintf("%d left, %d right needed", h.Left, h.Right), "more blocks of a hand are cut than needed")
	need := 2 * max(h.Left, h.Right)
	if h.Packs == "packs of each" {
		pack := max(1, h.InPack)
		need = (h.Left+pack-1)/pack*pack + (h.Right+pack-1)/pack*pack
	}
	t.want(b.pieces.Cmp(decimal.NewFromInt(need)) >= 0, where, b.pieces.String()+" blocks", fmt.Sprintf("at least %d", need), "not enough blocks of both hands are ordered")
}

// checkUses compares what rooms use of the planks they are laid with.
func (c *checker) checkUses(t *tally) {
	if len(c.f.Uses) == 0 {
		return
	}
	used := c.usedBy()
	for i := range c.f.Rooms {
		f := c.floorOf(&c.f.Rooms[i])
		if f == nil {
			continue
		}
		amount := new(big.Int)
		if by := used[f.entry.Product]; by != nil {
			if k, found := slices.BinarySearch(by.rooms, i); found {
				amount = by.amounts[k]
			}
		}
		t.same(c.f.Rooms[i].sign(), amount.String(), fmt.Sprint(f.area), "use of "+f.entry.Product+" is not the area of the pieces")
	}
}

func (m *materialEntry) checkAccount(t *tally, where string) {
	sum := decimal.Zero
	for _, part := range []whole{m.Laid, m.Spare, m.Returned, m.LeftOver, m.Waste} {
		t.want(part.Sign() >= 0, where, part.String(), "0 or more", "a part is negative")
		sum = sum.Add(part.Decimal)
	}
	t.want(m.Attic.Sign() >= 0 && m.Attic.LessThanOrEqual(m.Spare.Decimal), where, m.Attic.String(), m.Spare.String(), "the attic stock is not part of the spares")
	t.want(sum.Equal(m.Bought.Decimal), where, m.Bought.String(), sum.String(), "bought is not laid + spare + returned + left over + waste")
}

// bought is what the orders bring of one product.
type bought struct {
	quantity decimal.Decimal
	pieces   decimal.Decimal
}

func (c *checker) ordered() map[string]bought {
	ordered := map[string]bought{}
	for i := range c.f.Orders {
		for j := range c.f.Orders[i].Lines {
			line := &c.f.Orders[i].Lines[j]
			sum := ordered[line.Product]
			sum.quantity = sum.quantity.Add(line.Quantity.Decimal)
			if line.Pieces != nil {
				sum.pieces = sum.pieces.Add(line.Pieces.Decimal)
			}
			ordered[line.Product] = sum
		}
	}
	return ordered
}

func (m *materialEntry) checkBought(b bought, t *tally, where string) {
	switch {
	case m.Piece != nil:
		units := b.pieces.Mul(m.Piece.Decimal)
		t.want(units.Equal(m.Bought.Decimal), where, m.Bought.String(), units.String(), "bought is not the pieces ordered")
	case m.PerSold != nil:
		units := b.quantity.Mul(m.PerSold.Decimal).Round(0)
		t.want(units.Equal(m.Bought.Decimal), where, m.Bought.String(), units.String(), "bought is not the quantity ordered")
	default:
		t.fail(where, "neither piece nor per_sold_unit says how much a unit holds")
	}
}

// laidAreas is the area of all pieces laid of each product, room by room, and of
// those that repairs cut from new planks.
func (c *checker) laidAreas() map[string]*big.Int {
	laid := map[string]*big.Int{}
	for i := range c.f.Rooms {
		f := c.floorOf(&c.f.Rooms[i])
		if f == nil {
			continue
		}
		if laid[f.entry.Product] == nil {
			laid[f.entry.Product] = new(big.Int)
		}
		laid[f.entry.Product].Add(laid[f.entry.Product], big.NewInt(f.area))
	}
	for i := range c.f.Repairs {
		r := &c.f.Repairs[i]
		if r.NewPlanks <= 0 {
			continue
		}
		if laid[r.Product] == nil {
			laid[r.Product] = new(big.Int)
		}
		laid[r.Product].Add(laid[r.Product], r.area(r.newPieces()))
	}
	return laid
}

func (c *checker) floorOf(room *roomEntry) *floor {
	if room.Layout == nil {
		return nil
	}
	return c.floors[*room.Layout]
}

// planksCut is the area of all planks in stock and of the new ones of repairs, by
// product.
func (c *checker) planksCut() map[string]*big.Int {
	cut := map[string]*big.Int{}
	for i := range c.f.Stock {
		s := &c.f.Stock[i]
		if cut[s.Product] == nil {
			cut[s.Product] = new(big.Int)
		}
		area := new(big.Int).Mul(big.NewInt(int64(s.Length)), big.NewInt(int64(s.Width)))
		cut[s.Product].Add(cut[s.Product], area)
	}
	for i := range c.f.Repairs {
		r := &c.f.Repairs[i]
		if r.NewPlanks <= 0 {
			continue
		}
		if cut[r.Product] == nil {
			cut[r.Product] = new(big.Int)
		}
		cut[r.Product].Add(cut[r.Product], r.planks())
	}
	return cut
}

// barsCut is what is cut to length of one product.
type barsCut struct {
	stock length   // of one bar or roll
	bars  int64    // how many
	cuts  *big.Int // sum of all cuts
}

func (c *checker) lengthsCut() map[string]*barsCut {
	cut := map[string]*barsCut{}
	for i := range c.f.Trims {
		e := &c.f.Trims[i]
		if e.Remnants {
			continue
		}
		sum := cut[e.Product]
		if sum == nil {
			sum = &barsCut{stock: e.StockLength, cuts: new(big.Int)}
			cut[e.Product] = sum
		}
		for _, d := range e.demand() {
			sum.cuts.Add(sum.cuts, new(big.Int).Mul(big.NewInt(int64(d.length)), big.NewInt(d.count)))
		}
		sum.bars += e.count()
	}
	return cut
}

// checkLaid compares the account with planks and bars: what is laid, and what
// is cut, laid or wasted.
func (m *materialEntry) checkLaid(laid, planks *big.Int, cut *barsCut, t *tally, where string) {
	used := m.Laid.Add(m.Waste.Decimal)
	if laid != nil || planks != nil {
		t.want(m.Unit == "area", where, m.Unit, "area", "planks are accounted for by area")
		t.same(where, m.Laid.String(), integer(laid).String(), "laid is not the area of the pieces")
		t.same(where, used.String(), integer(planks).String(), "laid and waste are not the planks cut")
	}
	if cut == nil {
		return
	}
	if !t.want(m.Piece != nil, where, "no piece", "a piece", "the size of a bar or roll is missing") {
		return
	}
	bars, stock := decimal.NewFromInt(cut.bars), decimal.NewFromInt(int64(cut.stock))
	t.want(m.Unit != "length" || m.Piece.Equal(stock), where, m.Piece.String(), stock.String(), "the piece is not a bar")
	t.want(used.Equal(m.Piece.Mul(bars)), where, used.String(), m.Piece.Mul(bars).String(), "laid and waste are not the bars or rolls cut")
	// Laid is to the cuts as a bar or roll is to its length.
	t.want(m.Laid.Mul(stock).Equal(m.Piece.Mul(decimal.NewFromBigInt(cut.cuts, 0))), where, m.Laid.String(), cut.cuts.String()+" of length",
		"laid is not the sum of the cuts")
}

func integer(n *big.Int) *big.Int {
	if n == nil {
		return new(big.Int)
	}
	return n
}

// checkQuantities measures again what can be measured from rooms and layouts.
func (c *checker) checkQuantities() {
	t, waste := c.claim(claimQuantities), c.claim(claimWaste)
	recounted := 0
	c.countBags()
	c.countWaste(waste)
	for i := range c.f.Quantities {
		q := &c.f.Quantities[i]
		where := q.sign() + ": " + q.Item
		if !t.want(q.Quantity.Sign() >= 0, where, q.Quantity.String(), "0 or more", "a negative quantity") || q.Factor == nil {
			continue
		}
		room := c.roomAt(q.place)
		if !t.want(room != nil || q.Room == nil, where, "no such room", "a room", "the room is not in the file") || room == nil {
			continue
		}
		if q.ofWaste() {
			if c.checkWaste(room, q, waste) {
				recounted++
			}
			continue
		}
		measured, exact, ok := c.measured(room, q)
		if !ok {
			continue
		}
		recounted++
		allowed := decimal.Zero
		if !exact {
			allowed = decimal.New(5, -quantityPlaces)
		}
		t.want(measured.Sub(q.Quantity.Decimal).Abs().LessThanOrEqual(allowed), where, q.Quantity.String(), measured.String(),
			"not as measured by "+q.MeasuredBy)
	}
	c.checkBags(t)
	t.remark = fmt.Sprintf("%d of %d quantities were measured again", recounted, len(c.f.Quantities))
}

// quantityPlaces is the number of decimals of a quantity.
const quantityPlaces = 4

// unitSizes are units of quantities in units of 1/320 mm and their squares. The
// foot is 304.8 mm (international foot, NIST SP 811).
var unitSizes = map[string]int64{
	"m": 1000 * unit, "ft": 97_536,
	"m2": squareMetre, "ft2": 97_536 * 97_536, "yd2": 9 * 97_536 * 97_536,
}

// measured is a quantity measured again; exact is false where slanted walls
// leave room for rounding, ok when it can be measured at all.
func (c *checker) measured(room *roomEntry, q *quantityEntry) (quantity decimal.Decimal, exact, ok bool) {
	if r := c.onlyRepair(room); r != nil {
		amount, ok := r.measured(q.MeasuredBy)
		return q.scaled(amount), true, ok
	}
	var amount int64
	f := c.floorOf(room)
	if counted, exact, ok := c.counted(room, q); ok {
		return raised(counted, q), exact, true
	}
	switch q.MeasuredBy {
	case "floor area", "old floor area":
		amount = c.floorArea[room]
	case "laid area":
		if f == nil {
			return decimal.Zero, false, false
		}
		amount = f.area
	case "perimeter":
		if room.Perimeter == nil {
			return decimal.Zero, false, false
		}
		amount = int64(*room.Perimeter)
	case "runs", "skirting":
		amount = int64(room.runLength(stretches(room, q.MeasuredBy == "skirting")))
	case "expansion profiles":
		amount = int64(room.profileLength())
	case "rooms":
		amount = 1
	case "area x depth", "grinding", "levelled area":
		if c.subfloors[room] == nil {
			return decimal.Zero, true, true
		}
		return c.subfloors[room].measured(q), len(c.subfloors[room].Readings) > 0 || q.MeasuredBy == "levelled area", true
	default:
		return decimal.Zero, false, false
	}
	return q.scaled(amount), !room.slanted(), true
}

// scaled is an amount in the quantity's unit with its factor and waste.
func (q *quantityEntry) scaled(amount int64) decimal.Decimal {
	size, known := unitSizes[q.Unit]
	if !known {
		size = 1
	}
	return raised(big.NewRat(amount, size), q)
}

// raised is a measured amount with the factor and the waste of its line.
func raised(amount *big.Rat, q *quantityEntry) decimal.Decimal {
	exactly := new(big.Rat).Mul(amount, q.Factor.Rat())
	exactly.Mul(exactly, hundred.Add(q.Waste.Decimal).Shift(-2).Rat())
	return rounded(exactly, quantityPlaces)
}
