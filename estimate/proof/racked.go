package proof

import (
	"fmt"
	"math/big"
)

// racked tells a floor of boards of random lengths.
func (f *floor) racked() bool { return f.entry.Kind == "racked" && f.entry.Racked != nil }

// checkRacked lays the rows of boards of random lengths back into the room and
// counts again what they take at least and at most.
func (c *checker) checkRacked(f *floor, claims *floorClaims) {
	e := f.entry.Racked
	t, where := claims.racked, f.sign()
	if !t.want(0 < e.Shortest && e.Shortest < e.Longest && 0 < e.Width, where, e.Shortest.mm()+" to "+e.Longest.mm(), "lengths that differ", "no boards of random lengths") {
		return
	}
	for _, part := range f.parted() {
		part.checkSides(claims.pieces, where)
		c.checkCover(part, claims, where)
		part.checkPoints(claims.points, where)
		part.meet()
		part.checkBands(e.Width, claims.bands, where)
	}
	t.same(where, e.Least.String(), fmt.Sprint(f.area), "the least is not the area of the rows")
	for _, b := range f.bounds {
		t.want(b.height() <= e.Width, where, b.height().mm(), "at most "+e.Width.mm(), "a row is wider than the boards")
	}
	for _, room := range f.rooms {
		t.same(room.sign(), e.Most.String(), f.most(c.sharing(room, f.entry.Product)).String(), "the most is not what the rows take")
	}
}

// most is the area of boards that the floor takes at most when so many rooms
// share off-cuts.
func (f *floor) most(sharing int64) *big.Int {
	e := f.entry.Racked
	along := new(big.Int)
	for _, b := range f.bounds {
		along.Add(along, big.NewInt(int64(b.width())+int64(f.entry.Rules.LeastEnd)/2+int64(f.entry.Kerf)))
	}
	wide := big.NewInt(int64(e.Width))
	two := new(big.Int).Mul(big.NewInt(2*int64(e.Longest)), wide)
	part := big.NewInt(ceiling(two, big.NewInt(sharing)))
	return part.Add(part, along.Mul(along, wide))
}

// sharing is the number of rooms of a product that share off-cuts with one.
func (c *checker) sharing(room *roomEntry, product string) int64 {
	if c.racks == nil {
		c.racks = map[poolName]int64{}
		for i := range c.f.Rooms {
			if f := c.floorOf(&c.f.Rooms[i]); f != nil && f.racked() {
				c.racks[poolName{f.entry.Product, c.f.Rooms[i].Pool}]++
			}
		}
	}
	return c.racks[poolName{product, room.Pool}]
}

// rackedMost is what the racked floors of each product take at most.
func (c *checker) rackedMost() map[string]*big.Int {
	most := map[string]*big.Int{}
	for i := range c.f.Rooms {
		f := c.floorOf(&c.f.Rooms[i])
		if f == nil || !f.racked() || !f.sound {
			continue
		}
		if most[f.entry.Product] == nil {
			most[f.entry.Product] = new(big.Int)
		}
		most[f.entry.Product].Add(most[f.entry.Product], f.most(c.sharing(&c.f.Rooms[i], f.entry.Product)))
	}
	return most
}

// checkRacked compares the account with the rows: what is laid is their area, and
// what is bought besides spares covers the most that they take.
func (m *materialEntry) checkRacked(laid, most *big.Int, t *tally, where string) {
	t.want(m.Unit == "area", where, m.Unit, "area", "boards are accounted for by area")
	t.same(where, m.Laid.String(), integer(laid).String(), "laid is not the area of the rows")
	enough := m.Bought.Sub(m.Spare.Decimal)
	t.want(enough.BigInt().Cmp(most) >= 0, where, enough.String(), most.String(), "less is bought than the rows take at most")
}
