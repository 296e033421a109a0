package programme

import (
	"cmp"
	"maps"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// share is an apartment's part of what a place needs of a product.
type share struct {
	partOf        // what it is a share of
	chain  *chain // nil: goods of the whole job
	rank   int    // of the chain, in the order asked for; -1 for the whole job
	visit  int    // that the goods must be there for
	sold   *big.Rat
	Supply
}

// until is the visit that uses the goods up.
func (s *share) until() int {
	if s.visit == levelVisit {
		return levelVisit
	}
	return layVisit
}

// partOf is what comes of a need with one consignment.
type partOf struct {
	need        int
	consignment int
}

// shareOut divides what is needed of each consignment among its apartments by
// the amounts used there, spares with it. What no apartment uses, such as loose
// lengths, is for the whole job.
func (p *planner) shareOut(w Work) []*share {
	used := p.usage(w)
	var shares []*share
	for n, need := range w.Needs {
		by := need.By
		if by == nil {
			by = []*big.Rat{need.Sold}
		}
		for consignment, sold := range by {
			of := partOf{n, consignment}
			u := used[needOf{need.Product, need.Place, consignment}]
			switch {
			case sold.Sign() <= 0:
			case u == nil:
				shares = append(shares, &share{partOf: of, rank: -1, visit: supplyVisit, sold: sold, Supply: Supply{Product: need.Product}})
			default:
				shares = append(shares, p.divided(of, sold, need.Product, u)...)
			}
		}
	}
	return shares
}

// divided is so many sold units divided among the apartments that use them.
func (p *planner) divided(of partOf, sold *big.Rat, product *job.Product, u *usage) []*share {
	var shares []*share
	for _, rank := range slices.Sorted(maps.Keys(u.amounts)) {
		c := p.chains[rank]
		s := &share{partOf: of, chain: c, rank: rank, visit: supplyVisit, sold: new(big.Rat).Mul(sold, big.NewRat(u.amounts[rank], u.total)),
			Supply: Supply{Apartment: c.apartment, Product: product}}
		if u.levels[rank] {
			s.visit = levelVisit
		}
		shares = append(shares, s)
	}
	return shares
}

// needOf is a product at a place where packs are opened, with one consignment.
type needOf struct {
	product     *job.Product
	place       string
	consignment int
}

// usage is what the apartments of a place use of a product, by their rank.
type usage struct {
	amounts map[int]int64
	levels  map[int]bool // used for levelling
	total   int64
}

func (p *planner) usage(w Work) map[needOf]*usage {
	ranks := map[*job.Apartment]int{}
	for i, c := range p.chains {
		ranks[c.apartment] = i
	}
	used := map[needOf]*usage{}
	for _, use := range w.Uses {
		if use.Room == nil || use.Amount <= 0 {
			continue
		}
		key := needOf{use.Product, use.Room.Place(p.settings.PackRounding), w.Consignments[use.Room.Index]}
		u := used[key]
		if u == nil {
			u = &usage{amounts: map[int]int64{}, levels: map[int]bool{}}
			used[key] = u
		}
		rank := ranks[use.Room.Apartment]
		u.amounts[rank] += use.Amount
		u.total += use.Amount
		u.levels[rank] = u.levels[rank] || isForLevelling(use)
	}
	return used
}

// isForLevelling tells whether goods are needed before a floor is levelled:
// compound, and what stands above the work of levelling in the build-up, such
// as primer.
func isForLevelling(use quantity.Use) bool {
	if use.Product.Kind == job.Compound {
		return true
	}
	above := false
	for _, line := range use.Room.Spec.BuildUp.Lines {
		above = above || line.Product == use.Product
		if above && line.Operation != nil && line.Operation.Step == job.Levelling {
			return true
		}
	}
	return false
}

// weighGoods tells every chain what its goods weigh.
func (p *planner) weighGoods() {
	weights := map[*chain]*[visits]int64{}
	for _, s := range p.shares {
		if s.chain == nil {
			continue
		}
		s.chain.supplied = s.chain.supplied || s.visit == supplyVisit
		if weights[s.chain] == nil {
			weights[s.chain] = &[visits]int64{}
		}
		weights[s.chain][s.visit] += s.most()
	}
	for _, c := range p.chains {
		if w := weights[c]; w != nil {
			c.keep(levelVisit, levelVisit, w[levelVisit])
			c.keep(supplyVisit, layVisit, w[supplyVisit])
		}
	}
}

func (c *chain) keep(from, until int, grams int64) {
	if grams > 0 {
		c.loads = append(c.loads, load{from, until, grams})
	}
}

// most is the weight in grams of the most whole sold units that a share can
// bring.
func (s *share) most() int64 {
	return grams(purchase.Opened(s.Product, s.sold).Mul(s.Product.Weight))
}

// dateShares gives every share its days; a job without dates has no schedule.
func (p *planner) dateShares(s *schedule) {
	for _, share := range p.shares {
		share.By, share.Until = NoDay, NoDay
		switch {
		case s == nil:
		case share.chain == nil:
			share.By, share.Until = p.clock.day(0), p.clock.ends(s.finish).Day
		default:
			slots := s.slots[share.chain]
			first, last := s.stored(slots, load{from: share.visit, until: share.until()})
			share.By, share.Until = p.clock.day(first), p.clock.day(last)
		}
	}
}

// bring rounds the shares of each need up to whole sold units one after
// another, by consignment and in the order in which they are needed, so that all
// of them bring what the place opens and what is left of an opened unit goes to
// the next.
func (p *planner) bring() {
	slices.SortStableFunc(p.shares, func(a, b *share) int {
		return cmp.Or(cmp.Compare(a.need, b.need), cmp.Compare(a.consignment, b.consignment), cmp.Compare(a.By, b.By), cmp.Compare(a.rank, b.rank))
	})
	var sum *big.Rat
	brought := decimal.Zero
	for i, s := range p.shares {
		if i == 0 || p.shares[i-1].need != s.need {
			sum, brought = new(big.Rat), decimal.Zero
		}
		sum.Add(sum, s.sold)
		s.Needed = decimal.NewFromBigRat(s.sold, quantity.Places)
		s.Bring = purchase.Opened(s.Product, sum).Sub(brought)
		brought = brought.Add(s.Bring)
	}
}

// deliveries gathers what each supplier brings to each floor. The goods of a
// phase come at once as far as the floor can store them, else on the last day
// that is early enough.
func (p *planner) deliveries(s *schedule) []Delivery {
	p.dateShares(s)
	p.bring()
	goods := slices.DeleteFunc(slices.Clone(p.shares), func(s *share) bool { return s.Bring.IsZero() })
	slices.SortStableFunc(goods, byDestination)
	var list []Delivery
	for from := 0; from < len(goods); {
		until := from + 1
		for until < len(goods) && sameLoad(goods[from], goods[until]) {
			until++
		}
		if n := len(list); from == 0 || !sameDestination(goods[from-1], goods[from]) || !p.comesEarly(s, goods[from:until], list[n-1].Day) {
			list = append(list, p.delivery(goods[from]))
		}
		for _, share := range goods[from:until] {
			list[len(list)-1].Supplies = append(list[len(list)-1].Supplies, share.Supply)
		}
		from = until
	}
	for i := range list {
		p.orderBy(&list[i])
	}
	slices.SortStableFunc(list, func(a, b Delivery) int { return cmp.Compare(a.Day, b.Day) })
	return list
}

func (p *planner) delivery(s *share) Delivery {
	d := Delivery{Supplier: s.Product.Supplier, Consignment: s.consignment, Day: s.By}
	if a := s.Apartment; a != nil {
		d.Block, d.Floor, d.Phase = a.Block, a.Floor, a.Phase
	}
	return d
}

// orderBy counts the longest lead time of the goods back from the delivery.
func (p *planner) orderBy(d *Delivery) {
	d.OrderBy = d.Day
	if d.Day == NoDay {
		return
	}
	lead := 0
	for _, supply := range d.Supplies {
		lead = max(lead, supply.Product.LeadDays)
	}
	d.OrderBy = p.calendar.Back(d.Day, lead)
}

// comesEarly takes goods into the floor's store from an earlier day on, where
// there is room for them.
func (p *planner) comesEarly(s *schedule, goods []*share, day Day) bool {
	if s == nil || p.limit() == 0 || goods[0].chain == nil {
		return true
	}
	weight := int64(0)
	for _, share := range goods {
		weight += share.most()
	}
	store := s.store(floorOf(goods[0].chain))
	first, last := p.clock.number(day), p.clock.number(goods[0].By)-1
	if _, full := store.full(first, last, weight, p.limit()); full || weight > p.limit() {
		return false
	}
	store.add(first, last, weight)
	return true
}

// byDestination is by supplier, consignment, phase, block and floor, then by
// day, apartment and product.
func byDestination(a, b *share) int {
	return cmp.Or(destinationOrder(a, b), cmp.Compare(a.By, b.By), cmp.Compare(a.rank, b.rank), cmp.Compare(a.visit, b.visit), cmp.Compare(a.Product.Code, b.Product.Code))
}

func destinationOrder(a, b *share) int {
	order := cmp.Or(cmp.Compare(a.Product.Supplier.Code, b.Product.Supplier.Code), cmp.Compare(a.consignment, b.consignment))
	if order != 0 || a.chain == nil || b.chain == nil {
		return cmp.Or(order, cmp.Compare(a.rank, b.rank))
	}
	x, y := a.Apartment, b.Apartment
	return cmp.Or(byNumber(x.Phase, y.Phase), byNumber(x.Block, y.Block), byNumber(x.Floor, y.Floor))
}

func sameDestination(a, b *share) bool { return destinationOrder(a, b) == 0 }

// sameLoad tells whether goods come together: from one supplier for one visit to
// one apartment.
func sameLoad(a, b *share) bool {
	return sameDestination(a, b) && a.rank == b.rank && a.visit == b.visit
}
