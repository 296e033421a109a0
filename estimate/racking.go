package estimate

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/quantity"
)

// Racked is a room that is laid with boards of random lengths: its rows are
// known, its boards are not before packs are open.
type Racked struct {
	Room    *building.Room
	Product *job.Product
	ID      string // of its rows in the result file
	Pool    string // rooms of one pool share off-cuts
	Sharing int    // rooms of the pool
	Rows    layout.Racked
}

// Least is the area of boards that no way of laying the room undercuts.
func (r *Racked) Least() measure.Area { return r.Rows.Layout.Area() }

// Most is the area of boards that the room takes at most, with its part of those
// that may be left over in its pool.
func (r *Racked) Most() measure.Area {
	left := layout.LeftOver * r.Product.Length.Times(r.Product.Width)
	return r.Rows.Most + (left+measure.Area(r.Sharing)-1)/measure.Area(r.Sharing)
}

// laid counts what is known of the room; of its pieces, the fewest there can be.
func (r *Racked) laid() quantity.Laid {
	rows := &r.Rows.Layout
	l := quantity.Laid{Area: r.Least(), Most: r.Most(), Rows: len(rows.Rows), Cuts: rows.Cuts + rows.Rips + rows.Notches,
		Rips: rows.Rips, Notches: rows.Notches}
	for i := range rows.Pieces {
		box := rows.Pieces[i].At.Bounds()
		l.Pieces += int((box.X1 - box.X0 + r.Product.Length - 1) / r.Product.Length)
	}
	return l
}

// rack cuts the rooms with boards of random lengths into rows. Racked has an
// entry for each of them, in the order of the rooms.
func (r *Result) rack() {
	sharing := map[string]int{}
	for _, room := range r.Building.Rooms {
		covering := room.Spec.BuildUp.Covering()
		if covering == nil || !covering.Product.Mixed() {
			continue
		}
		p := covering.Product
		laid := layout.Room{ID: room.Spec.Name, Floor: room.Floor, Directions: room.Directions}
		if len(room.Fields) > 0 {
			laid.Fields = room.LaidInOne()
		}
		rows := layout.Rack(laid, layout.Plank{Length: p.Length, Width: p.Width}, rulesOf(p))
		if len(rows.Layout.Pieces) > 0 {
			pool := poolID(room.Place(r.Job.Settings.Sharing), p)
			sharing[pool]++
			r.Racked = append(r.Racked, Racked{Room: room, Product: p, ID: fmt.Sprintf("R%d", len(r.Racked)+1), Pool: pool, Rows: rows})
		}
	}
	for i := range r.Racked {
		r.Racked[i].Sharing = sharing[r.Racked[i].Pool]
	}
}

// RackedIn is the racked floor of a room, nil when it has none.
func (r *Result) RackedIn(room *building.Room) *Racked {
	for i := range r.Racked {
		if r.Racked[i].Room == room {
			return &r.Racked[i]
		}
	}
	return nil
}

// RackedGoods is what all rooms with one product of random lengths take.
type RackedGoods struct {
	Product     *job.Product
	Floor       measure.Area // wall to wall
	Least, Most measure.Area // of boards
}

// RackedGoods adds up the racked rooms by product, in the order of the rooms.
func (r *Result) RackedGoods() []RackedGoods {
	var goods []RackedGoods
	at := map[*job.Product]int{}
	for i := range r.Racked {
		racked := &r.Racked[i]
		n, known := at[racked.Product]
		if !known {
			n = len(goods)
			at[racked.Product] = n
			goods = append(goods, RackedGoods{Product: racked.Product})
		}
		g := &goods[n]
		g.Floor += racked.Room.Area
		g.Least += racked.Least()
		g.Most += racked.Most()
	}
	return goods
}

// Packs is the range in whole packs, as if packs were opened for the job.
func (g *RackedGoods) Packs() (least, most int64) {
	up := func(a measure.Area) int64 { return int64((a + g.Product.AreaPerPack - 1) / g.Product.AreaPerPack) }
	return up(g.Least), up(g.Most)
}

// MostWaste is how much more than the floor the most is, in per cent.
func (g *RackedGoods) MostWaste() decimal.Decimal {
	return decimal.NewFromInt(int64(g.Most-g.Least)).Shift(2).DivRound(decimal.NewFromInt(int64(g.Least)), 1)
}

// Words is the range in an area unit and in packs.
func (g *RackedGoods) Words(unit measure.AreaUnit) string {
	least, most := g.Packs()
	return fmt.Sprintf("%s to %s %s of boards, %d to %d packs", g.Least.Decimal(unit, 1).StringFixed(1), g.Most.Decimal(unit, 1).StringFixed(1), unit, least, most)
}

// rackedCautions says how far what boards of random lengths take is known.
func (r *Result) rackedCautions() problem.List {
	var list problem.List
	unit := r.Job.Settings.AreaUnit
	for _, g := range r.RackedGoods() {
		list.Add(problem.Problem{Code: problem.RandomLengths, At: g.Product.Ref,
			Found: fmt.Sprintf("%s: %s for %s %s of floor; the most is bought", g.Product.Code, g.Words(unit), g.Floor.Decimal(unit, 1).StringFixed(1), unit),
			Want:  "boards laid by the rule on the cut lists", Fix: "open packs as the rows need them and keep the others closed to send back"})
	}
	return list
}
