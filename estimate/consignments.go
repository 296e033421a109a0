package estimate

import (
	"cmp"
	"slices"
	"time"

	"laybill/estimate/building"
	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/purchase"
)

// Consignment is a part of the building whose goods are ordered and delivered
// together.
type Consignment struct {
	Name  string    // "" for the whole job
	Start time.Time // of laying in its first apartment; zero when the job gives no date
}

// consignments are the parts that the job's deliveries are made for, the one
// that is laid first at the head, and each room's among them.
func consignments(j *job.Job, rooms []*building.Room) (all []Consignment, of []int) {
	at := map[string]int{}
	for _, room := range rooms {
		name := j.Settings.Deliveries.Part(room.Apartment)
		i, known := at[name]
		if !known {
			i = len(all)
			at[name] = i
			all = append(all, Consignment{Name: name})
		}
		start := room.Apartment.Start
		if start.IsZero() {
			start = j.Settings.StartDate
		}
		if first := all[i].Start; first.IsZero() || !start.IsZero() && start.Before(first) {
			all[i].Start = start
		}
	}
	if len(all) == 0 { // a job of loose lengths alone has no rooms
		all = []Consignment{{Start: j.Settings.StartDate}}
	}
	slices.SortFunc(all, func(a, b Consignment) int { return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Name, b.Name)) })
	for i, c := range all {
		at[c.Name] = i
	}
	for _, room := range rooms {
		of = append(of, at[j.Settings.Deliveries.Part(room.Apartment)])
	}
	return all, of
}

// ConsignmentOf is the index of the room's consignment; what belongs to no room comes with the first.
func (r *Result) ConsignmentOf(room *building.Room) int {
	if room == nil {
		return 0
	}
	return r.inConsignment[room.Index]
}

// planksBy counts a floor's planks by consignment: a plank comes with the first
// that lays a piece of it.
func (r *Result) planksBy(floor *Floor) []planks {
	first := make([]int, floor.Plan.Planks)
	hands := make([]layout.Hand, floor.Plan.Planks)
	for i := range first {
		first[i] = len(r.Consignments)
	}
	for slot, room := range floor.Rooms {
		for _, piece := range floor.Plan.Layouts[slot].Pieces {
			first[piece.Stock-1] = min(first[piece.Stock-1], r.ConsignmentOf(room))
			hands[piece.Stock-1] = piece.Hand
		}
	}
	by := make([]planks, len(r.Consignments))
	for i, consignment := range first {
		at := min(consignment, len(by)-1)
		by[at] = by[at].plus(onePlank(hands[i]))
	}
	return by
}

// barsBy counts a pool's bars of one stock by consignment: a bar comes with the
// first that gets a piece of it, where pieces of one length go to the
// consignments in their order.
func (r *Result) barsBy(pool *cutting.Pool, stock int) []int64 {
	wanted := map[measure.Length][]int{}
	for _, piece := range pool.Pieces {
		wanted[piece.Length] = append(wanted[piece.Length], r.ConsignmentOf(piece.Run.Room))
	}
	for _, places := range wanted {
		slices.Sort(places)
	}
	var first []int
	for _, bar := range pool.Plan.Bars {
		for range bar.Count {
			at := len(r.Consignments)
			for _, cut := range bar.Cuts {
				at = min(at, wanted[cut][0])
				wanted[cut] = wanted[cut][1:]
			}
			if bar.Stock == stock {
				first = append(first, at)
			}
		}
	}
	return r.counted(first)
}

// counted counts things by the consignment that each comes with.
func (r *Result) counted(first []int) []int64 {
	by := make([]int64, len(r.Consignments))
	for _, i := range first {
		by[min(i, len(by)-1)]++
	}
	return by
}

// dateOrders gives every order the days of the programme: goods are on site by
// the first of its deliveries, and ordered early enough for each of them.
func (r *Result) dateOrders() {
	type of struct {
		supplier    *job.Supplier
		consignment int
	}
	at := map[of]*purchase.Order{}
	for i := range r.Orders {
		at[of{r.Orders[i].Supplier, r.Orders[i].Consignment}] = &r.Orders[i]
	}
	for _, d := range r.Programme.Deliveries {
		if order := at[of{d.Supplier, d.Consignment}]; order != nil {
			order.NeededBy = earlier(order.NeededBy, d.Day.Date())
			order.OrderBy = earlier(order.OrderBy, d.OrderBy.Date())
		}
	}
}

// earlier is the earlier of two days, either of which may not be given.
func earlier(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}
