package proof

import (
	"fmt"
	"math/big"

	"github.com/shopspring/decimal"
)

// checkOptions adds up what stands beside the job's own price: each option's
// price from its cost, and its difference.
func (c *checker) checkOptions() {
	t := c.claim(claimOptions)
	for i := range c.f.Options {
		o := &c.f.Options[i]
		where := "option " + o.Option
		t.equal(where, o.Net, o.Cost.Add(o.Profit.Decimal), "price is not cost + profit")
		t.equal(where, o.Difference, o.Net.Sub(c.f.Price.Net.Decimal), "difference is not from the price of the job")
		t.equal(where, o.Margin, share(o.Profit.Decimal, o.Net.Decimal), "margin is not profit / price")
		t.want(o.Hours.Sign() >= 0 && o.Packs.Sign() >= 0, where, "negative", "0 or more", "negative hours or packs")
	}
}

// takeoffPlaces is the number of decimals of the areas compared.
const takeoffPlaces = 4

// checkTakeoff compares the rooms with the takeoff's again.
func (c *checker) checkTakeoff() {
	t := c.claim(claimTakeoff)
	for i := range c.f.Takeoff {
		e := &c.f.Takeoff[i]
		where := "takeoff " + e.Type + " / " + e.Room
		area, times, price := c.roomsOf(e)
		if times == 0 { // only in the takeoff
			t.want(e.Area.IsZero() && e.Price.IsZero(), where, e.Area.String(), "0", "an area of no room")
			all, _ := c.areaIn(e.Unit, nil)
			t.equal(where, e.OnTakeoff, byArea(c.f.Price.Net.Decimal, e.Given.Mul(decimal.NewFromInt(e.Times)), all, c.minor), "price is not the job's by area")
			continue
		}
		t.want(e.Times == times, where, fmt.Sprint(e.Times), fmt.Sprint(times), "not the number of such rooms")
		t.equal(where, e.Area, area, "not the area of the room")
		t.equal(where, e.Price, price, "not the price of the rooms")
		t.equal(where, e.OnTakeoff, byArea(price, e.Given.Decimal, area, c.minor), "price is not that of the rooms by area")
	}
}

// roomsOf is the area of one room of a type, how many there are, and what they
// are charged together.
func (c *checker) roomsOf(e *takeoffEntry) (area decimal.Decimal, times int64, price decimal.Decimal) {
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		if room.Type != e.Type || room.Room != e.Room {
			continue
		}
		if times++; times == 1 {
			area, _ = c.areaIn(e.Unit, room)
		}
		if i < len(c.f.RoomShares) {
			price = price.Add(c.f.RoomShares[i].Price.Decimal)
		}
	}
	return area, times, price
}

// areaIn is the net floor of a room, or of all rooms, in a unit.
func (c *checker) areaIn(unit string, only *roomEntry) (decimal.Decimal, bool) {
	size, known := unitSizes[unit]
	if !known {
		return decimal.Zero, false
	}
	total := int64(0)
	for i := range c.f.Rooms {
		if room := &c.f.Rooms[i]; only == nil || only == room {
			total += c.floorArea[room]
		}
	}
	return rounded(big.NewRat(total, size), takeoffPlaces), true
}

// byArea is a price in the proportion of two areas; nothing for no area.
func byArea(price, given, own decimal.Decimal, minor int32) decimal.Decimal {
	if own.IsZero() {
		return decimal.Zero
	}
	return quotient(price.Mul(given), own, minor)
}
