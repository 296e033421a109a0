package proof

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// charge is what one room, or one line, bears in minor units.
type charge = *big.Int

// minorUnits is an amount in whole minor units.
func (c *checker) minorUnits(amount decimal.Decimal) charge {
	return amount.Shift(c.minor).Round(0).BigInt()
}

// divide splits an amount by weights: each part cut down to a whole number, the
// units left over one each to the largest remainders, the earlier first. With no
// weight at all the parts are equal.
func divide(amount charge, weights []*big.Int) []charge {
	total := new(big.Int)
	for _, w := range weights {
		total.Add(total, w)
	}
	parts := make([]charge, len(weights))
	if total.Sign() == 0 {
		for i := range weights {
			parts[i] = big.NewInt(1)
		}
		if len(weights) == 0 {
			return nil
		}
		return divide(amount, parts)
	}
	left := new(big.Int).Abs(amount)
	rests := make([]*big.Int, len(weights))
	for i, w := range weights {
		parts[i], rests[i] = new(big.Int).Mul(new(big.Int).Abs(amount), w), new(big.Int)
		parts[i].QuoRem(parts[i], total, rests[i])
	}
	order := make([]int, len(weights))
	for i := range order {
		order[i] = i
		left.Sub(left, parts[i])
	}
	slices.SortStableFunc(order, func(i, j int) int { return rests[j].Cmp(rests[i]) })
	for i := range left.Int64() {
		parts[order[i]].Add(parts[order[i]], big.NewInt(1))
	}
	if amount.Sign() < 0 {
		for _, part := range parts {
			part.Neg(part)
		}
	}
	return parts
}

// charged is what every room bears of one kind of cost, by index of the room.
type charged []charge

func (c *checker) nothingCharged() charged {
	all := make(charged, len(c.places))
	for i := range all {
		all[i] = new(big.Int)
	}
	return all
}

// split charges an amount to some rooms by weights.
func (to charged) split(amount charge, rooms []int, weights []*big.Int) {
	for i, part := range divide(amount, weights) {
		to[rooms[i]].Add(to[rooms[i]], part)
	}
}

// splitByArea charges an amount to some rooms by net floor area.
func (c *checker) splitByArea(to charged, amount charge, rooms []int) {
	weights := make([]*big.Int, len(rooms))
	for i, room := range rooms {
		weights[i] = big.NewInt(c.floorArea[c.places[room]])
	}
	to.split(amount, rooms, weights)
}

func (c *checker) allRooms() []int {
	rooms := make([]int, len(c.places))
	for i := range rooms {
		rooms[i] = i
	}
	return rooms
}

// chargedMaterial splits every order line by the uses of its product.
func (c *checker) chargedMaterial() charged {
	all := c.nothingCharged()
	used := c.usedBy()
	for i := range c.f.Orders {
		o := &c.f.Orders[i]
		for j, cost := range c.lineCosts(o) {
			by := used[o.Lines[j].Product]
			if by == nil {
				c.splitByArea(all, cost, c.allRooms())
				continue
			}
			all.split(cost, by.rooms, by.amounts)
		}
	}
	return all
}

// lineCosts are an order's lines less their part of its discount, with their part
// of its charges, and of its tax where that is a cost.
func (c *checker) lineCosts(o *orderEntry) []charge {
	nets := make([]*big.Int, len(o.Lines))
	for i := range nets {
		nets[i] = c.weight(c.minorUnits(o.Lines[i].Net.Decimal))
	}
	extra := c.minorUnits(o.Delivery.Add(o.Supplement.Decimal))
	charges := divide(extra, nets)
	rates := c.rates(o)
	kept := c.kept(o, rates, nets)
	costs := make([]charge, len(nets))
	for i := range costs {
		costs[i] = new(big.Int).Add(kept[i], charges[i])
	}
	if !c.f.Price.PurchaseTaxIsCost {
		return costs
	}
	for _, r := range rates {
		bases := make([]*big.Int, len(nets))
		for i, l := range o.Lines {
			bases[i] = new(big.Int)
			if l.Tax.Equal(r.percent) {
				bases[i].Add(bases[i], kept[i])
			}
			if c.f.Price.TaxPct.Equal(r.percent) {
				bases[i].Add(bases[i], charges[i])
			}
		}
		for i, part := range divide(c.minorUnits(c.share(r.base, r.percent)), bases) {
			costs[i].Add(costs[i], part)
		}
	}
	return costs
}

// kept is what the discount of its rate leaves of every line's net.
func (c *checker) kept(o *orderEntry, rates []rate, nets []*big.Int) []charge {
	kept := make([]charge, len(nets))
	for i := range kept {
		kept[i] = c.minorUnits(o.Lines[i].Net.Decimal)
	}
	for _, r := range rates {
		under := noWeights(len(nets))
		for i, l := range o.Lines {
			if l.Tax.Equal(r.percent) {
				under[i] = nets[i]
			}
		}
		for i, part := range divide(c.minorUnits(r.discount), under) {
			kept[i].Sub(kept[i], part)
		}
	}
	return kept
}

// weight is an amount as a weight: below nought it weighs nothing.
func (c *checker) weight(amount charge) *big.Int {
	if amount.Sign() < 0 {
		return new(big.Int)
	}
	return amount
}

// usage is the rooms that use a product, in order, and how much.
type usage struct {
	rooms   []int
	amounts []*big.Int
}

func (c *checker) usedBy() map[string]*usage {
	index := map[*roomEntry]int{}
	for i, room := range c.places {
		index[room] = i
	}
	sums := map[string]map[int]*big.Int{}
	for i := range c.f.Uses {
		u := &c.f.Uses[i]
		room := c.roomAt(u.place)
		if room == nil || u.Amount.Sign() <= 0 {
			continue
		}
		if sums[u.Product] == nil {
			sums[u.Product] = map[int]*big.Int{}
		}
		at := index[room]
		if sums[u.Product][at] == nil {
			sums[u.Product][at] = new(big.Int)
		}
		sums[u.Product][at].Add(sums[u.Product][at], u.Amount.BigInt())
	}
	used := map[string]*usage{}
	for product, by := range sums {
		u := &usage{}
		for room := range by {
			u.rooms = append(u.rooms, room)
		}
		slices.Sort(u.rooms)
		for _, room := range u.rooms {
			u.amounts = append(u.amounts, by[room])
		}
		used[product] = u
	}
	return used
}

// chargedLabour gives every line to its room, and splits lines of an apartment
// or of the job by area.
func (c *checker) chargedLabour() charged {
	all := c.nothingCharged()
	index := map[*roomEntry]int{}
	apartments := map[[2]string][]int{}
	for i, room := range c.places {
		index[room] = i
		apartments[[2]string{room.Apartment, ""}] = append(apartments[[2]string{room.Apartment, ""}], i)
		if room.Type != "" {
			apartments[[2]string{room.Apartment, room.Type}] = append(apartments[[2]string{room.Apartment, room.Type}], i)
		}
	}
	for i := range c.f.Labour {
		l := &c.f.Labour[i]
		cost := c.minorUnits(l.Cost.Decimal)
		if room := c.roomAt(l.place); room != nil {
			all[index[room]].Add(all[index[room]], cost)
			continue
		}
		rooms := apartments[[2]string{l.Apartment, l.Type}]
		if l.Apartment == "" && l.Type == "" {
			rooms = c.allRooms()
		}
		c.splitByArea(all, cost, rooms)
	}
	return all
}

// chargedOther splits every extra evenly over its places, then by area.
func (c *checker) chargedOther() charged {
	all := c.nothingCharged()
	for i := range c.f.Extras {
		e := &c.f.Extras[i]
		places := c.placesPer(e.Per)
		for j, part := range divide(c.minorUnits(e.Amount.Decimal), noWeights(len(places))) {
			c.splitByArea(all, part, places[j])
		}
	}
	return all
}

// noWeights is so many weights of nought, which count as equal.
func noWeights(n int) []*big.Int {
	weights := make([]*big.Int, n)
	for i := range weights {
		weights[i] = new(big.Int)
	}
	return weights
}

// placesPer is the rooms of the job, of each block, floor or apartment, in the
// order of rooms.
func (c *checker) placesPer(per string) [][]int {
	var places [][]int
	at := map[[2]string]int{}
	for i, room := range c.places {
		var name [2]string
		switch per {
		case "job":
		case "block":
			name = [2]string{room.Block}
		case "floor":
			name = [2]string{room.Block, room.Floor}
		case "apartment":
			name = [2]string{cmp.Or(room.Apartment, room.Type)}
		default:
			return nil
		}
		k, known := at[name]
		if !known {
			k = len(places)
			at[name] = k
			places = append(places, nil)
		}
		places[k] = append(places[k], i)
	}
	return places
}

// columns are the amounts of a share, the last being the price.
var columns = []string{"material", "labour", "other", "contingency", "overhead", "profit", "price"}

func (s *shareEntry) columns() []*number {
	return []*number{&s.Material, &s.Labour, &s.Other, s.Contingency, s.Overhead, s.Profit, &s.Price}
}

// checkShares charges every room anew and adds rooms and apartments up.
func (c *checker) checkShares() {
	rules, sums, apartments := c.claim(claimShares), c.claim(claimShareSums), c.claim(claimApartments)
	totals := c.f.Price.columns()
	if len(c.places) > 0 || len(c.f.RoomShares) > 0 { // a job of loose lengths alone has no rooms to charge
		c.checkSums(c.f.RoomShares, totals, sums)
	}
	c.checkSums(c.f.ByApartment, totals, apartments)
	if len(c.f.RoomShares) > 0 {
		c.checkApartments(apartments)
		c.checkCharges(rules)
	} else {
		sums.want(len(c.places) == 0, "room_shares", "none", "one a room", "no room is charged anything")
	}
}

func (p *priceEntry) columns() []decimal.Decimal {
	return []decimal.Decimal{p.Material.Decimal, p.Labour.Decimal, p.Other.Decimal, p.Contingency.Decimal,
		p.Overhead.Decimal, p.Profit.Decimal, p.Net.Decimal}
}

// checkSums adds up every share across and every column down.
func (c *checker) checkSums(shares []shareEntry, totals []decimal.Decimal, t *tally) {
	sums := make([]decimal.Decimal, len(columns))
	missing := make([]bool, len(columns))
	for i := range shares {
		across, whole := decimal.Zero, true
		for k, n := range shares[i].columns() {
			if n == nil {
				missing[k], whole = true, false
				continue
			}
			sums[k] = sums[k].Add(n.Decimal)
			if k < len(columns)-1 {
				across = across.Add(n.Decimal)
			}
		}
		if whole {
			t.equal(shares[i].sign(), shares[i].Price, across, "price is not the sum of the columns before it")
		}
	}
	for k, name := range columns {
		if !missing[k] && (len(shares) > 0 || !totals[k].IsZero()) {
			t.want(sums[k].Equal(totals[k]), "column "+name, sums[k].String(), totals[k].String(), "the shares do not add up to the price")
		}
	}
}

// checkApartments compares by_apartment with the shares of its rooms.
func (c *checker) checkApartments(t *tally) {
	sums := map[string][]decimal.Decimal{}
	for i := range c.f.RoomShares {
		s := &c.f.RoomShares[i]
		name := cmp.Or(s.Apartment, s.Type)
		if sums[name] == nil {
			sums[name] = make([]decimal.Decimal, len(columns))
		}
		for k, n := range s.columns() {
			sums[name][k] = sums[name][k].Add(orZero(n))
		}
	}
	t.same("by_apartment", fmt.Sprint(len(c.f.ByApartment)), fmt.Sprint(len(sums)), "number of apartments")
	for i := range c.f.ByApartment {
		s := &c.f.ByApartment[i]
		name := cmp.Or(s.Apartment, s.Type)
		if !t.want(sums[name] != nil, name, "no rooms", "rooms", "no room is charged in this apartment") {
			continue
		}
		for k, n := range s.columns() {
			if n != nil {
				t.equal(name, *n, sums[name][k], columns[k]+" is not the sum of the rooms")
			}
		}
	}
}

// checkCharges charges every room by the rules of shareEntry.
func (c *checker) checkCharges(t *tally) {
	if !t.want(len(c.f.RoomShares) == len(c.places), "room_shares", fmt.Sprint(len(c.f.RoomShares)), fmt.Sprint(len(c.places)),
		"shares and rooms") {
		return
	}
	want := make([]charged, len(columns)-1)
	want[0], want[1], want[2] = c.chargedMaterial(), c.chargedLabour(), c.chargedOther()
	direct := make([]*big.Int, len(c.places))
	for i := range c.f.RoomShares {
		s := &c.f.RoomShares[i]
		direct[i] = c.weight(c.minorUnits(s.Material.Add(s.Labour.Decimal).Add(s.Other.Decimal)))
	}
	for k, total := range c.f.Price.columns()[:len(want)] {
		if k > 2 {
			want[k] = divide(c.minorUnits(total), direct)
		}
	}
	if len(c.f.Uses) == 0 {
		want[0] = nil
	}
	for i, room := range c.places {
		s := &c.f.RoomShares[i]
		where := room.sign()
		ok := s.Apartment == room.Apartment && s.Room != nil && *s.Room == room.Room && (s.Type == "" || s.Type == room.Type)
		if !t.want(ok, where, s.sign(), where, "shares are not in the order of rooms") {
			return
		}
		for k, n := range s.columns()[:len(want)] {
			if want[k] == nil {
				continue
			}
			if n == nil {
				t.fail(where, columns[k]+" is missing")
				continue
			}
			t.equal(where, *n, decimal.NewFromBigInt(want[k][i], -c.minor), columns[k]+" is not the room's share")
		}
	}
}
