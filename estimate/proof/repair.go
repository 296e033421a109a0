package proof

import (
	"fmt"
	"math/big"
)

// mostReplaced bounds counts of pieces and planks, so that areas cannot overflow.
const mostReplaced = 1_000_000

// gatherRepairs puts the repairs to their places, whose area is that of the pieces
// replaced there.
func (c *checker) gatherRepairs() {
	repaired := map[*roomEntry]bool{}
	for i := range c.f.Repaired {
		repaired[&c.f.Repaired[i]] = true
	}
	for i := range c.f.Repairs {
		r := &c.f.Repairs[i]
		if room := c.roomAt(r.place); repaired[room] && 0 < r.Pieces && r.Pieces <= mostReplaced {
			c.repairs[room] = append(c.repairs[room], r)
			c.floorArea[room] += r.area(r.Pieces).Int64()
		}
	}
}

// checkRepairs counts the planks of every repair again, and compares what each
// place uses of them.
func (c *checker) checkRepairs() {
	t := c.claim(claimRepairs)
	used := map[useOf]*big.Int{}
	for i := range c.f.Repairs {
		r := &c.f.Repairs[i]
		where := r.sign() + ": " + r.Product
		room := c.roomAt(r.place)
		if !t.want(c.repairs[room] != nil, where, "no such place", "a place of repaired", "the place of a repair is not in the file") || !r.checkPlanks(t, where) {
			continue
		}
		key := useOf{room, r.Product}
		if used[key] == nil {
			used[key] = new(big.Int)
		}
		used[key].Add(used[key], r.area(r.newPieces()))
	}
	for i := range c.f.Repaired {
		room := &c.f.Repaired[i]
		checkArea(t, room, c.floorArea[room])
		t.want(len(c.repairs[room]) > 0, room.sign(), "no repair", "a repair", "a place of repairs without one")
	}
	c.checkReplacedUses(used, t)
}

// useOf is a product in a place.
type useOf struct {
	room    *roomEntry
	product string
}

// checkPlanks tells whether the repair's counts make sense, and that the planks
// bought are those that its pieces take beyond the stock.
func (r *repairEntry) checkPlanks(t *tally, where string) bool {
	if !t.want(0 < r.Length && r.Length <= r.PlankLength && r.PlankWidth > 0 && r.Kerf >= 0, where, r.Length.mm(), "at most "+r.PlankLength.mm(), "the pieces fit no plank") {
		return false
	}
	if !t.want(0 < r.Pieces && r.Pieces <= mostReplaced && r.FromStock >= 0 && r.Rows >= 0, where, fmt.Sprint(r.Pieces), "pieces", "no number of pieces") {
		return false
	}
	planks := ceiling(big.NewInt(r.Pieces), big.NewInt(r.perPlank()))
	t.same(where, fmt.Sprint(r.FromStock+r.NewPlanks), fmt.Sprint(planks), "planks from stock and new ones are not those the pieces take")
	return t.want(r.NewPlanks >= 0, where, fmt.Sprint(r.NewPlanks), "0 or more", "more planks from stock than the pieces take")
}

// perPlank is the pieces that one plank gives.
func (r *repairEntry) perPlank() int64 {
	if r.Length <= 0 || r.Kerf < 0 {
		return 1 // said in checkPlanks
	}
	return (int64(r.PlankLength) + int64(r.Kerf)) / (int64(r.Length) + int64(r.Kerf))
}

func (r *repairEntry) newPieces() int64 { return max(0, r.Pieces-r.FromStock*r.perPlank()) }

// area is that of so many pieces.
func (r *repairEntry) area(pieces int64) *big.Int {
	one := new(big.Int).Mul(big.NewInt(int64(r.Length)), big.NewInt(int64(r.PlankWidth)))
	return one.Mul(one, big.NewInt(pieces))
}

// planks is the area of the new planks.
func (r *repairEntry) planks() *big.Int {
	one := new(big.Int).Mul(big.NewInt(int64(r.PlankLength)), big.NewInt(int64(r.PlankWidth)))
	return one.Mul(one, big.NewInt(r.NewPlanks))
}

// checkReplacedUses compares the uses of planks in the places of repairs.
func (c *checker) checkReplacedUses(want map[useOf]*big.Int, t *tally) {
	if len(c.f.Uses) == 0 {
		return
	}
	stated := map[useOf]*big.Int{}
	for i := range c.f.Uses {
		u := &c.f.Uses[i]
		key := useOf{c.roomAt(u.place), u.Product}
		if want[key] == nil {
			continue
		}
		if stated[key] == nil {
			stated[key] = new(big.Int)
		}
		stated[key].Add(stated[key], u.Amount.BigInt())
	}
	for i := range c.f.Repairs {
		key := useOf{c.roomAt(c.f.Repairs[i].place), c.f.Repairs[i].Product}
		if want[key] != nil {
			t.same(c.f.Repairs[i].sign(), integer(stated[key]).String(), want[key].String(), "use of "+key.product+" is not the area of the pieces cut from new planks")
		}
	}
}

// onlyRepair is the one repair of a place, nil of a room and where there are
// several.
func (c *checker) onlyRepair(room *roomEntry) *repairEntry {
	if all := c.repairs[room]; len(all) == 1 {
		return all[0]
	}
	return nil
}

// measured is what the method of the repair is measured by; 0 and false for
// other measures.
func (r *repairEntry) measured(by string) (int64, bool) {
	switch by {
	case "pieces":
		return r.Pieces, true
	case "rows":
		return r.Rows, true
	case "laid area":
		return r.area(r.Pieces).Int64(), true
	}
	return 0, false
}
