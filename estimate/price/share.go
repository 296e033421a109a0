package price

import (
	"cmp"
	"slices"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// sharer shares costs out to the rooms by largest remainder, ties to the room
// with the lower index.
type sharer struct {
	settings   job.Settings
	rooms      []*building.Room
	apartments map[*job.Apartment][]*building.Room
	shares     []Share
}

func newSharer(settings job.Settings, rooms []*building.Room) *sharer {
	s := &sharer{settings: settings, rooms: rooms, apartments: map[*job.Apartment][]*building.Room{}, shares: make([]Share, len(rooms))}
	zero := settings.Currency.Zero()
	for i := range s.shares {
		s.shares[i] = Share{zero, zero, zero, zero, zero, zero, zero}
	}
	for _, room := range rooms {
		s.apartments[room.Apartment] = append(s.apartments[room.Apartment], room)
	}
	return s
}

// column picks one kind of cost of a share.
type column func(*Share) *money.Amount

func materialOf(s *Share) *money.Amount { return &s.Material }
func labourOf(s *Share) *money.Amount   { return &s.Labour }
func otherOf(s *Share) *money.Amount    { return &s.Other }

// share splits an amount among rooms by weights.
func (s *sharer) share(to column, amount money.Amount, rooms []*building.Room, weights []int64) {
	for i, part := range amount.Allocate(weights) {
		at := to(&s.shares[rooms[i].Index])
		*at = at.Add(part)
	}
}

// shareByArea splits an amount among rooms by their net floor areas.
func (s *sharer) shareByArea(to column, amount money.Amount, rooms []*building.Room) {
	weights := make([]int64, len(rooms))
	for i, room := range rooms {
		weights[i] = int64(room.Area)
	}
	s.share(to, amount, rooms, weights)
}

// material shares the cost of every order line by the amounts that the rooms
// use of its product; a product that no room uses, such as loose lengths only,
// goes by net floor area.
func (s *sharer) material(orders []purchase.Order, uses []quantity.Use) {
	used := usedBy(uses)
	for _, order := range orders {
		for i, cost := range s.lineCosts(order) {
			by := used[order.Lines[i].Product]
			if by == nil {
				s.shareByArea(materialOf, cost, s.rooms)
				continue
			}
			s.share(materialOf, cost, by.rooms, by.amounts)
		}
	}
}

// lineCosts are an order's lines less their part of its allowance, with their
// part of delivery and supplement, by the lines' nets, and of the tax where the
// purchase tax is a cost. They add up to the order's cost.
func (s *sharer) lineCosts(order purchase.Order) []money.Amount {
	nets := make([]money.Amount, len(order.Lines))
	for i, line := range order.Lines {
		nets[i] = line.Net
	}
	charges := order.Charges().Allocate(weightsOf(nets))
	kept := keptOf(order, nets)
	costs := make([]money.Amount, len(order.Lines))
	for i := range costs {
		costs[i] = kept[i].Add(charges[i])
	}
	if !s.settings.PurchaseTaxIsCost {
		return costs
	}
	for _, tax := range order.Taxes {
		for i, part := range tax.Amount.Allocate(s.taxed(order, tax, kept, charges)) {
			costs[i] = costs[i].Add(part)
		}
	}
	return costs
}

// keptOf is what an order's allowance leaves of each line's net: the share of each
// tax rate is taken off its lines by their nets.
func keptOf(order purchase.Order, nets []money.Amount) []money.Amount {
	kept := slices.Clone(nets)
	for _, tax := range order.Taxes {
		under := make([]money.Amount, len(nets))
		for i, line := range order.Lines {
			if line.TaxPercent.Equal(tax.Percent) {
				under[i] = nets[i]
			}
		}
		for i, part := range tax.Allowance.Allocate(weightsOf(under)) {
			kept[i] = kept[i].Sub(part)
		}
	}
	return kept
}

// taxed weighs an order's lines by what each has under a tax rate: what is kept of
// its net when it bears the rate, its part of the charges when they do.
func (s *sharer) taxed(order purchase.Order, tax purchase.Tax, kept, charges []money.Amount) []int64 {
	bases := make([]money.Amount, len(order.Lines))
	for i, line := range order.Lines {
		if line.TaxPercent.Equal(tax.Percent) {
			bases[i] = bases[i].Add(kept[i])
		}
		if s.settings.TaxPercent.Equal(tax.Percent) {
			bases[i] = bases[i].Add(charges[i])
		}
	}
	return weightsOf(bases)
}

// usage is what rooms use of one product, by room index.
type usage struct {
	rooms   []*building.Room
	amounts []int64
}

// usedBy gathers the uses of each product in rooms, one amount a room.
func usedBy(uses []quantity.Use) map[*job.Product]*usage {
	sorted := slices.DeleteFunc(slices.Clone(uses), func(u quantity.Use) bool { return u.Room == nil || u.Amount <= 0 })
	slices.SortStableFunc(sorted, func(a, b quantity.Use) int { return cmp.Compare(a.Room.Index, b.Room.Index) })
	used := map[*job.Product]*usage{}
	for _, use := range sorted {
		by := used[use.Product]
		if by == nil {
			by = &usage{}
			used[use.Product] = by
		}
		if n := len(by.rooms); n > 0 && by.rooms[n-1] == use.Room {
			by.amounts[n-1] += use.Amount
			continue
		}
		by.rooms = append(by.rooms, use.Room)
		by.amounts = append(by.amounts, use.Amount)
	}
	return used
}

// labour gives every line to its room; work of an apartment or of the job goes
// to its rooms by net floor area.
func (s *sharer) labour(work []labour.Line) {
	for _, line := range work {
		rooms := s.rooms
		switch {
		case line.Room != nil:
			rooms = []*building.Room{line.Room}
		case line.Apartment != nil:
			rooms = s.apartments[line.Apartment]
		}
		s.shareByArea(labourOf, line.Cost, rooms)
	}
}

// other shares the extras: each block, floor or apartment bears the same, and
// its rooms by net floor area.
func (s *sharer) other(extras []ExtraLine) {
	for _, line := range extras {
		places := placesOf(s.rooms, line.Extra.Per)
		for i, part := range line.Amount.Allocate(make([]int64, len(places))) {
			s.shareByArea(otherOf, part, places[i])
		}
	}
}

// onTop shares contingency, overhead and profit by each room's direct cost and
// adds every room's price up.
func (s *sharer) onTop(l Ladder) []Share {
	direct := make([]money.Amount, len(s.shares))
	for i, share := range s.shares {
		direct[i] = share.Material.Add(share.Labour).Add(share.Other)
	}
	weights := weightsOf(direct)
	contingency := l.Contingency.Allocate(weights)
	overhead := l.Overhead.Allocate(weights)
	profit := l.Profit.Allocate(weights)
	for i := range s.shares {
		share := &s.shares[i]
		share.Contingency, share.Overhead, share.Profit = contingency[i], overhead[i], profit[i]
		share.Price = direct[i].Add(contingency[i]).Add(overhead[i]).Add(profit[i])
	}
	return s.shares
}

func weightsOf(amounts []money.Amount) []int64 {
	weights := make([]int64, len(amounts))
	for i, amount := range amounts {
		weights[i] = amount.Weight()
	}
	return weights
}

// Add is the sum of two shares, column by column.
func (s Share) Add(t Share) Share {
	return Share{
		Material:    s.Material.Add(t.Material),
		Labour:      s.Labour.Add(t.Labour),
		Other:       s.Other.Add(t.Other),
		Contingency: s.Contingency.Add(t.Contingency),
		Overhead:    s.Overhead.Add(t.Overhead),
		Profit:      s.Profit.Add(t.Profit),
		Price:       s.Price.Add(t.Price),
	}
}

// GroupBy adds up the shares of the rooms that have the same key, groups in
// the order of their names. shares are by room index; rooms may be some of all.
func GroupBy(rooms []*building.Room, shares []Share, key func(*building.Room) string) []Group {
	at := map[string]int{}
	var groups []Group
	for _, room := range rooms {
		name := key(room)
		g, known := at[name]
		if !known {
			g = len(groups)
			at[name] = g
			groups = append(groups, Group{Name: name})
		}
		groups[g].Rooms = append(groups[g].Rooms, room)
		groups[g].Share = groups[g].Share.Add(shares[room.Index])
	}
	slices.SortStableFunc(groups, func(a, b Group) int { return cmp.Compare(a.Name, b.Name) })
	return groups
}
