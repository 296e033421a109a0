package purchase

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

// search finds the cheapest choice of suppliers. What an order costs depends on
// its goods in steps: below the minimum order, below the free limit, above it.
// For every combination of the steps that the suppliers' orders may be in, what
// lines cost is a plain sum, and a branch-and-bound search over the products
// finds the least one that keeps the orders in their steps; see branch.
//
// Costs are whole numbers: minor units times the scale, so that a tax per cent
// on top is exact to two decimals.
type search struct {
	settings  job.Settings
	chargeTax int64 // scale raised by the tax on delivery and supplement
	orders    []terms
	lines     [][]offered // by product, the order's index in it
	at        map[*job.Supplier]int
	left      int // nodes that may still be visited
	best      int64
	taken     []int
}

// scale is 100 % to four decimals.
const scale = 10_000

// mostNodes bounds the search; a choice found beyond it is not called proven.
const mostNodes = 2_000_000

// terms are a supplier's terms with what is ordered there in any case.
type terms struct {
	minimum, delivery, free int64 // minor units
	goods, cost             int64 // of the fixed lines
	used                    bool
}

// offered is one line at one supplier.
type offered struct {
	order       int
	goods, cost int64
}

func newSearch(settings job.Settings, suppliers []*job.Supplier) *search {
	s := &search{settings: settings, at: map[*job.Supplier]int{}, left: mostNodes}
	s.chargeTax = s.taxed(1, settings.TaxPercent)
	for _, supplier := range byCode(suppliers) {
		s.at[supplier] = len(s.orders)
		s.orders = append(s.orders, terms{minimum: supplier.MinimumOrder.Weight(), delivery: supplier.Delivery.Weight(), free: supplier.FreeFrom.Weight()})
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

func (s *search) line(l Line) offered {
	units := l.Net.Weight()
	return offered{order: s.at[l.Product.Supplier], goods: units, cost: s.taxed(units, l.TaxPercent)}
}

func (s *search) fix(l Line) {
	o := s.line(l)
	at := &s.orders[o.order]
	at.goods, at.cost, at.used = at.goods+o.goods, at.cost+o.cost, true
}

func (s *search) open(lines []Line) {
	var all []offered
	for _, l := range lines {
		all = append(all, s.line(l))
	}
	s.lines = append(s.lines, all)
}

// amount is a cost as money, rounded.
func (s *search) amount(cost int64) money.Amount {
	return s.settings.Currency.Round(decimal.NewFromInt(cost).Div(decimal.NewFromInt(scale)).Shift(-s.settings.Currency.Minor))
}

// cost is what all orders cost under a choice.
func (s *search) cost(taken []int) int64 {
	orders := slices.Clone(s.orders)
	for i, t := range taken {
		line := s.lines[i][t]
		at := &orders[line.order]
		at.goods, at.cost, at.used = at.goods+line.goods, at.cost+line.cost, true
	}
	var total int64
	for _, o := range orders {
		total += o.cost + s.charges(o)
	}
	return total
}

// charges are an order's delivery and supplement; see newOrder.
func (s *search) charges(o terms) int64 {
	if !o.used {
		return 0
	}
	charges := max(0, o.minimum-o.goods)
	if o.free == 0 || o.goods < o.free {
		charges += o.delivery
	}
	return charges * s.chargeTax
}

// step is a range of goods in which an order's cost is a plain sum: base, and
// for each line its cost less relief for each minor unit of goods. Beyond most
// the sum would be less than the true cost; between to and most it is more, so
// that a search which strays there loses nothing.
type step struct {
	used           bool
	from, to, most int64 // goods, all included
	base           int64
	relief         int64
}

// steps are the steps that an order may be in whose goods can reach an amount.
func (s *search) steps(o terms, reach int64, contested bool) []step {
	var all []step
	if !o.used {
		all = append(all, step{most: math.MaxInt64})
	}
	if !o.used && !contested {
		return all
	}
	edges := []int64{0}
	for _, edge := range []int64{o.minimum, o.free} {
		if edge > 0 && !slices.Contains(edges, edge) {
			edges = append(edges, edge)
		}
	}
	slices.Sort(edges)
	for i, from := range edges {
		st := step{used: true, from: from, to: math.MaxInt64, most: math.MaxInt64}
		if i+1 < len(edges) {
			st.to = edges[i+1] - 1
		}
		if from < o.minimum {
			st.most, st.base, st.relief = o.minimum-1, (o.minimum-o.goods)*s.chargeTax, s.chargeTax
		}
		if o.free == 0 || from < o.free {
			st.base += o.delivery * s.chargeTax
		}
		if from <= reach && o.goods <= st.to {
			all = append(all, st)
		}
	}
	return all
}

// solve searches all combinations of steps, from a first choice on.
func (s *search) solve(first []int) []int {
	s.taken, s.best = slices.Clone(first), s.cost(first)
	s.combine(make([]step, 0, len(s.orders)))
	return s.taken
}

// combine chooses the step of one order after another.
func (s *search) combine(chosen []step) {
	if len(chosen) == len(s.orders) {
		if b := newBranch(s, chosen); b != nil {
			b.run()
		}
		return
	}
	order := s.orders[len(chosen)]
	reach, contested := order.goods, false
	for _, lines := range s.lines {
		for _, line := range lines {
			if line.order == len(chosen) {
				reach, contested = reach+line.goods, true
			}
		}
	}
	for _, st := range s.steps(order, reach, contested) {
		s.combine(append(chosen, st))
	}
}
