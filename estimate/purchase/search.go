package purchase

import (
	"cmp"
	"math/bits"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

// search finds the cheapest choice of suppliers. What an order costs on top of
// its goods depends on them in steps: nothing when nothing is ordered, then
// below the minimum order, below the limit for the discount on the order, below
// the free limit, above them. A node of the search
// says which steps each order may still be in; see node. A node whose bound
// does not settle it is split at the order that the bound is farthest off for,
// and, where every order is in one step, product by product.
//
// Costs are whole numbers: minor units times the scale, so that a tax per cent
// on top is exact to two decimals.
type search struct {
	settings     job.Settings
	chargeTax    int64 // scale raised by the tax on delivery and supplement
	mostTax      int64 // scale raised by the highest tax of any line
	consignments int
	orders       []terms               // of each supplier, by consignment
	products     [][]offered           // by product, then offer
	at           map[*job.Supplier]int // the supplier's first order
	left         int                   // work that may still be done, in lines looked at
	best         int64
	taken        []int
}

// scale is 100 % to four decimals.
const scale = 10_000

// mostWork bounds the search; a choice found beyond it is not called proven.
const mostWork = 200_000_000

// terms are a supplier's terms with what one order there has in any case.
type terms struct {
	minimum, delivery, free int64 // minor units
	discount                discount
	goods                   int64 // of the fixed lines
	cost, off               int64 // see offeredLine
	used                    bool
}

// discount is what is taken off an order's goods from some goods on: part of so
// many parts.
type discount struct {
	from        int64
	part, parts uint64
}

func discountOf(supplier *job.Supplier) discount {
	percent := supplier.OrderDiscountPercent
	hundred := decimal.NewFromInt(100).Shift(max(0, -percent.Exponent()))
	return discount{from: supplier.OrderDiscountFrom.Weight(), part: uint64(percent.Shift(max(0, -percent.Exponent())).IntPart()), parts: uint64(hundred.IntPart())}
}

// of is the discount on so many goods, rounded as newOrder does.
func (d discount) of(goods int64) int64 {
	if d.part == 0 || goods < d.from {
		return 0
	}
	return mulDiv(uint64(goods), d.part, d.parts)
}

// mulDiv is a x b / c, rounded half up, and mulDivUp rounded up; the result is at
// most a or b.
func mulDiv(a, b, c uint64) int64   { return dividedBy(a, b, c, c/2) }
func mulDivUp(a, b, c uint64) int64 { return dividedBy(a, b, c, c-1) }

// dividedBy is (a x b + more) / c, cut down to a whole number.
func dividedBy(a, b, c, more uint64) int64 {
	high, low := bits.Mul64(a, b)
	low, carry := bits.Add64(low, more, 0)
	quotient, _ := bits.Div64(high+carry, low, c)
	return int64(quotient)
}

// offered is a product from one supplier: a line in some of its orders.
type offered []offeredLine

// offeredLine is a line of an order; off is the most that the order's discount
// takes off its cost, but for the rounding of the discount.
type offeredLine struct {
	order            int
	goods, cost, off int64
}

func newSearch(settings job.Settings, suppliers []*job.Supplier, consignments int) *search {
	s := &search{settings: settings, consignments: consignments, at: map[*job.Supplier]int{}, left: mostWork}
	s.chargeTax = s.taxed(1, settings.TaxPercent)
	for _, supplier := range byCode(suppliers) {
		s.at[supplier] = len(s.orders)
		own := terms{minimum: supplier.MinimumOrder.Weight(), delivery: supplier.Delivery.Weight(), free: supplier.FreeFrom.Weight(), discount: discountOf(supplier)}
		s.orders = append(s.orders, slices.Repeat([]terms{own}, consignments)...)
	}
	return s
}

// taxed is minor units as a cost.
func (s *search) taxed(units int64, percent decimal.Decimal) int64 {
	if !s.settings.PurchaseTaxIsCost {
		return units * scale
	}
	return units * (scale + percent.Mul(decimal.NewFromInt(scale/100)).Round(0).IntPart())
}

// offer is what is bought of a product as the search sees it.
func (s *search) offer(p purchase) offered {
	var lines offered
	for consignment, l := range p.lines(s.settings.Currency) {
		if l.Quantity.Sign() > 0 {
			units := l.Net.Weight()
			s.mostTax = max(s.mostTax, s.taxed(1, l.TaxPercent))
			line := offeredLine{order: s.at[l.Product.Supplier] + consignment, goods: units, cost: s.taxed(units, l.TaxPercent)}
			line.off = s.orders[line.order].discount.most(line.cost)
			lines = append(lines, line)
		}
	}
	return lines
}

// fix orders something in any case.
func (s *search) fix(lines offered) {
	for _, l := range lines {
		s.orders[l.order].add(l)
	}
}

func (o *terms) add(l offeredLine) {
	o.goods, o.cost, o.off, o.used = o.goods+l.goods, o.cost+l.cost, o.off+l.off, true
}

// amount is a cost as money, rounded.
func (s *search) amount(cost int64) money.Amount {
	return s.settings.Currency.Round(decimal.New(cost, -4).Shift(-s.settings.Currency.Minor))
}

// cost is what all orders cost under a choice.
func (s *search) cost(taken []int) int64 {
	orders := slices.Clone(s.orders)
	for i, t := range taken {
		for _, l := range s.products[i][t] {
			orders[l.order].add(l)
		}
	}
	var total int64
	for _, o := range orders {
		total += o.cost + s.charges(o)
	}
	return total
}

// charges are an order's delivery and supplement less its discount; see newOrder.
func (s *search) charges(o terms) int64 {
	if !o.used {
		return 0
	}
	charges := max(0, o.minimum-o.goods)
	if o.free == 0 || o.goods < o.free {
		charges += o.delivery
	}
	return charges*s.chargeTax - o.relief()
}

// relief is what the order's discount takes off the cost of its lines, each its
// part.
func (o terms) relief() int64 {
	off := o.discount.of(o.goods)
	if off == 0 {
		return 0
	}
	return mulDiv(uint64(off), uint64(o.cost), uint64(o.goods))
}

// solve searches from a first choice on, and tells whether it came to its end.
func (s *search) solve(first []int) (taken []int, proven bool) {
	s.taken, s.best = slices.Clone(first), s.cost(first)
	root := s.root()
	root.tune()
	s.explore(root)
	return s.taken, s.left > 0
}

// explore searches a node whose bound is known: the parts it is split into in
// the order of their bounds.
func (s *search) explore(n *node) {
	if s.left <= 0 || n.bound >= s.best {
		return
	}
	order := n.farthest()
	if v := newVisit(n); order < 0 || v.choices(s.best-n.bound) <= fewChoices {
		v.run()
		return
	}
	var parts []*node
	for _, st := range n.steps[order] {
		part := n.with(order, st)
		part.tune()
		parts = append(parts, part)
	}
	slices.SortStableFunc(parts, func(a, b *node) int { return cmp.Compare(a.bound, b.bound) })
	for _, part := range parts {
		s.explore(part)
	}
}

// consider takes a choice when it costs less than the best so far.
func (s *search) consider(choice []int) {
	if total := s.cost(choice); total < s.best {
		s.best, s.taken = total, slices.Clone(choice)
	}
}
