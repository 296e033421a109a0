package proof

import (
	"math/big"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// saw is the saw's work on a floor of planks in rows.
type saw struct{ cuts, rips, notches int64 }

// counted is a quantity that is counted and not measured, counted again; ok is
// false where the file does not hold what it is counted from.
func (c *checker) counted(room *roomEntry, q *quantityEntry) (n *big.Rat, exact, ok bool) {
	whole := func(n int64) (*big.Rat, bool, bool) { return big.NewRat(n, 1), true, true }
	switch q.MeasuredBy {
	case "inside corners", "outside corners":
		if room.countedDoors() > 0 {
			return nil, false, false // nobody knows which runs they shorten
		}
		return whole(corners(room, q.MeasuredBy == "inside corners"))
	case "bags":
		bags := c.bags[room]
		return bags, false, bags != nil
	}
	f := c.floorOf(room)
	if f == nil || !f.sound {
		return nil, false, false
	}
	switch q.MeasuredBy {
	case "pieces":
		return whole(int64(len(f.entry.Pieces)))
	case "packs":
		n = c.packsIn(f)
		return n, true, n != nil
	case "carried":
		n = c.carriedTo(room, f)
		return n, false, n != nil
	case "cuts", "rips", "notches":
		s, inRows := c.sawing(f)
		return big.NewRat(map[string]int64{"cuts": s.cuts, "rips": s.rips, "notches": s.notches}[q.MeasuredBy], 1), true, inRows
	}
	return nil, false, false
}

// corners counts the corners at which two stretches of skirting meet: by the one
// that ends there on its left.
func corners(room *roomEntry, inside bool) int64 {
	n := int64(0)
	for _, s := range stretches(room, true) {
		if s.left.met && (s.left.turn > 0) == inside {
			n++
		}
	}
	return n
}

// sawing counts the saw's work on a floor of planks in rows.
func (c *checker) sawing(f *floor) (s saw, inRows bool) {
	if known, before := c.sawn[f]; before {
		return known, true
	}
	size := c.plankSizes()[f.entry.Product]
	if !f.planks() || size.long == 0 || size.wide == 0 {
		return saw{}, false
	}
	for i := range f.entry.Pieces {
		s.add(&f.entry.Pieces[i], size)
	}
	s.cuts += s.rips + s.notches
	c.sawn[f] = s
	return s, true
}

func (s *saw) add(p *pieceEntry, plank plankSize) {
	for _, sawn := range []bool{p.InStock.x0 > 0, p.InStock.x1 < plank.long} {
		if sawn {
			s.cuts++
		}
	}
	if p.InStock.height() < plank.wide {
		s.rips++
	}
	switch {
	case len(p.Holes) > 0 || p.At.bendsInward():
		s.notches++
	case !p.At.upright():
		s.cuts++
	}
}

// bendsInward tells a ring that turns both ways.
func (r ring) bendsInward() bool {
	left, right := false, false
	for i, a := range r {
		b, c := r[(i+1)%len(r)], r[(i+2)%len(r)]
		turn := int64(b.x-a.x)*int64(c.y-b.y) - int64(b.y-a.y)*int64(c.x-b.x)
		left, right = left || turn > 0, right || turn < 0
	}
	return left && right
}

// upright tells a rectangle along the axes.
func (r ring) upright() bool {
	return len(r) == 4 && !slices.ContainsFunc([]int{0, 1, 2, 3}, func(i int) bool {
		a, b := r[i], r[(i+1)%4]
		return a.x != b.x && a.y != b.y
	})
}

// packsIn is the floor's planks in packs; nil when no order says how many are in
// one.
func (c *checker) packsIn(f *floor) *big.Rat {
	inPack := c.packsOf(f.entry.Product).inPack
	if !f.planks() || inPack.Sign() <= 0 {
		return nil
	}
	return new(big.Rat).Quo(big.NewRat(int64(f.entry.Planks), 1), inPack.Rat())
}

// carriedTo is the packs and bags of a room times the storeys that they are
// carried; nil when its packs or its floor are not known.
func (c *checker) carriedTo(room *roomEntry, f *floor) *big.Rat {
	n := c.packsIn(f)
	at, err := strconv.Atoi(room.Floor)
	if ground := strings.ToLower(room.Floor); ground == "g" || ground == "ground" {
		at, err = c.f.Job.EntranceFloor, nil
	}
	if n == nil || err != nil {
		return nil
	}
	storeys := max(at-c.f.Job.EntranceFloor, c.f.Job.EntranceFloor-at)
	if c.f.Job.Lift {
		storeys = min(storeys, 1)
	}
	if bags := c.bags[room]; bags != nil {
		n.Add(n, bags)
	}
	return n.Mul(n, big.NewRat(int64(storeys), 1))
}

// countBags adds up the bags of each room.
func (c *checker) countBags() {
	for i := range c.f.Quantities {
		q := &c.f.Quantities[i]
		room := c.roomAt(q.place)
		if q.Bags == nil || room == nil {
			continue
		}
		if c.bags[room] == nil {
			c.bags[room] = new(big.Rat)
		}
		c.bags[room].Add(c.bags[room], q.Bags.Rat())
	}
}

// checkBags wants no more bags in the rooms than are ordered.
func (c *checker) checkBags(t *tally) {
	left := map[string]decimal.Decimal{}
	for i := range c.f.Orders {
		for _, line := range c.f.Orders[i].Lines {
			left[line.Product] = left[line.Product].Add(line.Quantity.Decimal)
		}
	}
	rounding := decimal.New(5, -9) // of a line
	for i := range c.f.Quantities {
		q := &c.f.Quantities[i]
		if q.Bags == nil {
			continue
		}
		over := q.Bags.Sub(rounding).Sub(left[q.Item])
		t.want(over.Sign() <= 0, q.sign()+": "+q.Item, over.String()+" bags too many", "no more than are ordered", "more bags than are ordered")
		left[q.Item] = over.Neg()
	}
}
