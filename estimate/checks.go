package estimate

import (
	"fmt"

	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/price"
	"laybill/estimate/purchase"
	"laybill/estimate/shape"
)

// checks recounts the invariants of the result with both sides shown.
func (r *Result) checks() []Check {
	var all []Check
	all = append(all, r.floorChecks()...)
	all = append(all, r.materialChecks()...)
	return append(all, r.moneyChecks()...)
}

func check(name string, left, right fmt.Stringer) Check {
	return Check{Name: name, OK: left.String() == right.String(), Left: left.String(), Right: right.String()}
}

type whole int64

func (w whole) String() string { return fmt.Sprint(int64(w)) }

// floorChecks: the pieces cover the floor inside the expansion gap, and the
// planks of the layouts are the planks of their pool.
func (r *Result) floorChecks() []Check {
	var pieces, floors measure.Area
	planks, stock := 0, 0
	for i := range r.Floors {
		floor := &r.Floors[i]
		if floor.First != i {
			continue
		}
		highest := 0
		for slot := range floor.Plan.Layouts {
			layout := &floor.Plan.Layouts[slot]
			pieces += layout.Area()
			planks += layout.Planks
			for _, part := range floor.Rooms[slot].LaidInOne() {
				if len(layout.Pieces) > 0 {
					floors += shape.Inset(part.Turn(layout.Direction), floor.Product.Gap).Area()
				}
			}
			for _, piece := range layout.Pieces {
				highest = max(highest, piece.Stock)
			}
		}
		stock += highest
	}
	// Crossing points on slanted walls and blocks are rounded to 1/320 mm; a
	// hundredth of a square metre in all is far above what that can add up to in a
	// job.
	area := check("floor inside the expansion gap is covered", rounded(pieces), rounded(floors))
	area.OK = max(pieces-floors, floors-pieces) < measure.SquareMetre/100
	return []Check{area, check("planks of the layouts are the planks cut", whole(planks), whole(stock))}
}

type rounded measure.Area

func (a rounded) String() string {
	return measure.Area(a).Decimal(measure.M2, 2).StringFixed(2) + " m2"
}

// materialChecks: everything bought is accounted for.
func (r *Result) materialChecks() []Check {
	var all []Check
	for _, m := range r.Materials {
		all = append(all, Check{Name: "bought = laid + spare + returned + left over + waste: " + m.Product.Code,
			OK: m.Bought == m.Accounted(), Left: materialWords(m, m.Bought), Right: materialWords(m, m.Accounted())})
	}
	return all
}

// materialWords is an amount of a material as a person reads it; the check
// itself compares the whole units.
func materialWords(m purchase.Material, amount int64) string {
	switch m.Unit {
	case purchase.ByArea:
		return measure.Area(amount).Decimal(measure.M2, 6).String() + " m2"
	case purchase.ByLength:
		return measure.Length(amount).Decimal(measure.M).String() + " m"
	}
	return fmt.Sprintf("%d %s", amount, m.Product.SoldBy)
}

// moneyChecks: what the rooms are charged is what the orders, wages and extras
// cost, and what the summary shows.
func (r *Result) moneyChecks() []Check {
	currency := r.Job.Settings.Currency
	ladder := r.Price.Ladder
	orders, wages, extras := currency.Zero(), currency.Zero(), currency.Zero()
	for _, order := range r.Orders {
		orders = orders.Add(order.Net)
		if r.Job.Settings.PurchaseTaxIsCost {
			orders = orders.Add(order.Tax)
		}
	}
	for _, line := range r.Labour {
		wages = wages.Add(line.Cost)
	}
	for _, line := range r.Price.Extras {
		extras = extras.Add(line.Amount)
	}
	costAndProfit := check("cost + profit = price", ladder.Cost.Add(ladder.Profit), ladder.Net)
	if len(r.Price.Rooms) == 0 {
		return []Check{costAndProfit} // a job of loose lengths only has no rooms to charge
	}
	column := func(of func(price.Share) money.Amount) money.Amount {
		total := currency.Zero()
		for _, share := range r.Price.Rooms {
			total = total.Add(of(share))
		}
		return total
	}
	return []Check{
		check("material of the rooms = orders", column(func(s price.Share) money.Amount { return s.Material }), orders),
		check("labour of the rooms = wages", column(func(s price.Share) money.Amount { return s.Labour }), wages),
		check("other of the rooms = extras", column(func(s price.Share) money.Amount { return s.Other }), extras),
		check("contingency of the rooms = summary", column(func(s price.Share) money.Amount { return s.Contingency }), ladder.Contingency),
		check("overhead of the rooms = summary", column(func(s price.Share) money.Amount { return s.Overhead }), ladder.Overhead),
		check("profit of the rooms = summary", column(func(s price.Share) money.Amount { return s.Profit }), ladder.Profit),
		check("price of the rooms = summary", column(func(s price.Share) money.Amount { return s.Price }), ladder.Net),
		costAndProfit,
	}
}
