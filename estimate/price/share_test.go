package price

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// priced is a random job with its price.
type priced struct {
	settings job.Settings
	rooms    []*building.Room
	orders   []purchase.Order
	uses     []quantity.Use
	work     []labour.Line
	extras   []*job.Extra
}

func (p priced) climb() Price {
	return Climb(p.settings, p.rooms, p.orders, p.uses, p.work, p.extras)
}

var jobs = rapid.Custom(func(t *rapid.T) priced {
	number := func(name string, least, most int64, places int32) decimal.Decimal {
		return decimal.New(rapid.Int64Range(least, most).Draw(t, name), -places)
	}
	var p priced
	s := &p.settings
	s.Currency = rapid.SampledFrom([]money.Currency{euro, mustLookup("JPY"), mustLookup("KWD")}).Draw(t, "currency")
	s.MaterialContingency, s.LabourContingency, s.OtherContingency = number("mc", 0, 100, 1), number("lc", 0, 100, 1), number("oc", 0, 100, 1)
	s.OverheadPercent, s.ProfitPercent = number("overhead", 0, 200, 1), number("profit", -200, 600, 1)
	s.ProfitBasis = rapid.SampledFrom([]job.ProfitBasis{job.OnPrice, job.OnCost}).Draw(t, "basis")
	s.PriceStep = s.Currency.Round(number("step", 0, 100, 0))
	s.PurchaseTaxIsCost = rapid.Bool().Draw(t, "tax is a cost")
	s.TaxPercent, s.RetentionPercent = number("tax", 0, 250, 1), number("retention", 0, 100, 1)
	p.rooms = drawRooms(t)
	p.orders, p.uses = drawOrders(t, *s, p.rooms)
	o := &job.Operation{Code: "O"}
	for range rapid.IntRange(0, 8).Draw(t, "work") {
		line := labour.Line{Operation: o, Cost: s.Currency.Round(number("wages", 0, 1_000_000, 3))}
		room := rapid.SampledFrom(p.rooms).Draw(t, "work in")
		switch rapid.IntRange(0, 2).Draw(t, "work of") {
		case 0:
			line.Apartment, line.Room = room.Apartment, room
		case 1:
			line.Apartment = room.Apartment
		}
		p.work = append(p.work, line)
	}
	for range rapid.IntRange(0, 3).Draw(t, "extras") {
		p.extras = append(p.extras, &job.Extra{Per: rapid.SampledFrom(job.ExtraLevels).Draw(t, "per"), Quantity: number("times", 0, 30, 1), UnitCost: number("unit cost", 0, 100_000, 3)})
	}
	return p
})

func drawRooms(t *rapid.T) []*building.Room {
	var rooms []*building.Room
	for a := range rapid.IntRange(1, 4).Draw(t, "apartments") {
		apartment := &job.Apartment{Name: fmt.Sprint(a), Floor: fmt.Sprint(a % 2), Block: fmt.Sprint(a % 3)}
		for r := range rapid.IntRange(1, 3).Draw(t, "rooms") {
			rooms = append(rooms, &building.Room{Index: len(rooms), Apartment: apartment, Spec: &job.Room{Name: fmt.Sprint(r)},
				Area: measure.Area(rapid.Int64Range(0, 50).Draw(t, "area")) * measure.SquareMetre})
		}
	}
	return rooms
}

func drawOrders(t *rapid.T, settings job.Settings, rooms []*building.Room) ([]purchase.Order, []quantity.Use) {
	supplier := &job.Supplier{Code: "S", Delivery: settings.Currency.Round(decimal.New(rapid.Int64Range(0, 9999).Draw(t, "delivery"), -2)),
		MinimumOrder:         settings.Currency.Round(decimal.New(rapid.Int64Range(0, 9999).Draw(t, "minimum"), -1)),
		OrderDiscountPercent: decimal.New(rapid.Int64Range(0, 1000).Draw(t, "order discount"), -1),
		OrderDiscountFrom:    settings.Currency.Round(decimal.New(rapid.Int64Range(0, 9999).Draw(t, "discount from"), -1)),
		Paid:                 settings.Currency.Round(decimal.New(rapid.Int64Range(0, 9999).Draw(t, "paid"), -1))}
	var needs []purchase.Need
	var uses []quantity.Use
	for i := range rapid.IntRange(0, 4).Draw(t, "products") {
		product := &job.Product{Code: fmt.Sprint(i), Supplier: supplier, Kind: job.Each, SoldBy: job.PerEach, PricePer: job.PerEach, OrderStep: dec("1"),
			LineCharge: settings.Currency.Round(decimal.New(rapid.Int64Range(0, 999).Draw(t, "line charge"), -2)),
			Price:      decimal.New(rapid.Int64Range(0, 99_999).Draw(t, "price"), -3), TaxPercent: decimal.New(rapid.SampledFrom([]int64{0, 7, 19}).Draw(t, "rate"), 0)}
		needs = append(needs, purchase.Need{Product: product, Sold: big.NewRat(rapid.Int64Range(0, 99).Draw(t, "sold"), 1)})
		for range rapid.IntRange(0, 4).Draw(t, "uses") {
			use := quantity.Use{Product: product, Amount: rapid.Int64Range(0, 1_000_000).Draw(t, "used")}
			if rapid.IntRange(0, 4).Draw(t, "in a room") > 0 {
				use.Room = rapid.SampledFrom(rooms).Draw(t, "used in")
			}
			uses = append(uses, use)
		}
	}
	orders, _, _ := purchase.Buy(settings, []*job.Supplier{supplier}, needs)
	return orders, uses
}

// What the rooms are charged is what the ladder shows, kind by kind, also when
// the profit is a loss; every room's price is the sum of its parts.
func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := jobs.Draw(t, "job")
		got := p.climb()
		var total Share
		for i, share := range got.Rooms {
			total = total.Add(share)
			parts := p.settings.Currency.Sum(share.Material, share.Labour, share.Other, share.Contingency, share.Overhead, share.Profit)
			if !parts.Equal(share.Price) {
				t.Fatalf("room %d: parts %s, price %s", i, parts, share.Price)
			}
		}
		l := got.Ladder
		if want := (Share{l.Material, l.Labour, l.Other, l.Contingency, l.Overhead, l.Profit, l.Net}); !equal(total, want) {
			t.Fatalf("rooms %+v, ladder %+v", total, want)
		}
		var grouped Share
		for _, group := range GroupBy(p.rooms, got.Rooms, func(r *building.Room) string { return r.Place(job.LevelFloor) }) {
			grouped = grouped.Add(group.Share)
		}
		if !equal(grouped, total) {
			t.Fatalf("groups %+v, rooms %+v", grouped, total)
		}
	})
}

func equal(a, b Share) bool {
	return a.Material.Equal(b.Material) && a.Labour.Equal(b.Labour) && a.Other.Equal(b.Other) && a.Contingency.Equal(b.Contingency) &&
		a.Overhead.Equal(b.Overhead) && a.Profit.Equal(b.Profit) && a.Price.Equal(b.Price)
}

// The ladder adds up, whatever the settings, and a price step is kept, never
// below cost.
func TestLadderAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := jobs.Draw(t, "job")
		l := p.climb().Ladder
		sum := p.settings.Currency.Sum
		for what, sides := range map[string][2]money.Amount{
			"contingency": {l.Contingency, sum(l.MaterialContingency, l.LabourContingency, l.OtherContingency)},
			"cost":        {l.Cost, sum(l.Material, l.Labour, l.Other, l.Contingency, l.Overhead)},
			"price":       {l.Net, sum(l.Cost, l.Profit)},
			"gross":       {l.Gross, sum(l.Net, l.Tax)},
		} {
			if !sides[0].Equal(sides[1]) {
				t.Fatalf("%s: %s is not %s", what, sides[0], sides[1])
			}
		}
		if step := p.settings.PriceStep; step.Sign() > 0 && (!l.Net.UpToStep(step).Equal(l.Net) || l.Net.Cmp(l.Cost) < 0) {
			t.Fatalf("price %s of cost %s in steps of %s", l.Net, l.Cost, step)
		}
		if !l.Net.IsZero() {
			exact := new(big.Rat).Quo(l.Profit.Decimal().Rat(), l.Net.Decimal().Rat())
			off := exact.Sub(exact, l.Margin.Shift(-2).Rat())
			if off.Abs(off).Cmp(big.NewRat(1, 20_000)) > 0 {
				t.Fatalf("margin %s of profit %s and price %s", l.Margin, l.Profit, l.Net)
			}
		}
	})
}

// Rows in another order give the same shares.
func TestOrderOfUsesChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := jobs.Draw(t, "job")
		first := p.climb().Rooms
		p.uses = rapid.Permutation(p.uses).Draw(t, "uses")
		p.work = rapid.Permutation(p.work).Draw(t, "work")
		p.extras = rapid.Permutation(p.extras).Draw(t, "extras")
		for i, share := range p.climb().Rooms {
			if !equal(share, first[i]) {
				t.Fatalf("room %d: %+v, then %+v", i, first[i], share)
			}
		}
	})
}

// Direct costs of 30.00 and 10.00: overhead of 10 %, 4.00, goes 3.00 and 1.00; a
// markup of 25 % on 44.00, 11.00, goes 8.25 and 2.75.
func TestProfitGoesByDirectCost(t *testing.T) {
	rooms := house()[:2]
	work := []labour.Line{{Apartment: rooms[0].Apartment, Room: rooms[0], Cost: euros("30")}, {Apartment: rooms[1].Apartment, Room: rooms[1], Cost: euros("10")}}
	p := Climb(job.Settings{Currency: euro, OverheadPercent: dec("10"), ProfitBasis: job.OnCost, ProfitPercent: dec("25")}, rooms, nil, nil, work, nil)
	for i, want := range []struct{ overhead, profit, price string }{{"3.00", "8.25", "41.25"}, {"1.00", "2.75", "13.75"}} {
		same(t, "overhead", p.Rooms[i].Overhead.String(), want.overhead)
		same(t, "profit", p.Rooms[i].Profit.String(), want.profit)
		same(t, "price", p.Rooms[i].Price.String(), want.price)
	}
}

// Of two rooms alike the one with the lower index takes the cent.
func TestTiesGoToTheFirstRoom(t *testing.T) {
	rooms := house()[:2]
	rooms[1].Area = rooms[0].Area
	p := Climb(job.Settings{Currency: euro}, rooms, nil, nil, []labour.Line{{Cost: euros("0.01")}}, nil)
	same(t, "first room", p.Rooms[0].Labour.String(), "0.01")
	same(t, "second room", p.Rooms[1].Labour.String(), "0.00")
}
