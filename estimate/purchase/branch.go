package purchase

import (
	"cmp"
	"math"
	"slices"
)

// branch is the search within one combination of steps, by Lagrangian bounds:
// an order that lacks goods for its step makes its lines cheaper by a
// multiplier for each minor unit, one that has too many makes them dearer. For
// any multipliers the cheapest lines, corrected by them, cost no more than the
// best choice does.
type branch struct {
	*search
	steps       []step
	places      []place
	multipliers []int64 // cost by minor unit of goods, of each order
	goods       []int64 // of each order so far
	least       []int64 // least corrected cost of the products from each place on
	reach       [][]int64
	current     []int
}

// place is a product with its usable lines at what they cost within the steps.
type place struct {
	product int
	lines   []offered
	offers  []int   // index of each line among the product's offers
	reduced []int64 // what each line costs with the multipliers
}

// newBranch is nil when a product cannot be bought within the steps.
func newBranch(s *search, steps []step) *branch {
	b := &branch{search: s, steps: slices.Clone(steps), current: make([]int, len(s.lines)), multipliers: make([]int64, len(s.orders))}
	for product := range s.lines {
		p := place{product: product}
		for i, line := range s.lines[product] {
			if st := steps[line.order]; st.used {
				line.cost -= line.goods * st.relief
				p.lines, p.offers, p.reduced = append(p.lines, line), append(p.offers, i), append(p.reduced, 0)
			}
		}
		if len(p.lines) == 0 {
			return nil
		}
		b.places = append(b.places, p)
	}
	for _, o := range s.orders {
		b.goods = append(b.goods, o.goods)
	}
	return b
}

// base is what the orders cost before the lines that are chosen.
func (b *branch) base() int64 {
	var base int64
	for i, st := range b.steps {
		base += st.base + b.orders[i].cost
	}
	return base
}

func (b *branch) run() {
	if b.tune() >= b.best {
		return
	}
	b.arrange()
	b.visit(0, b.base())
}

// tune moves the multipliers until the bound they give is hardly better, along
// what the orders lack (subgradient method with the step of Polyak), and gives
// the best bound. Every choice met on the way is a candidate.
func (b *branch) tune() int64 {
	const rounds, patience = 400, 12
	base, share, idle := b.base(), 1.0, 0
	bound, best := int64(math.MinInt64), slices.Clone(b.multipliers)
	for range rounds {
		now, lacks := b.relax(base)
		if now > bound {
			bound, best, idle = now, slices.Clone(b.multipliers), 0
		} else if idle++; idle == patience {
			share, idle = share/2, 0
			copy(b.multipliers, best)
		}
		norm := 0.0
		for _, lack := range lacks {
			norm += float64(float64(lack) * float64(lack))
		}
		if norm == 0 || bound >= b.best {
			break
		}
		for i, lack := range lacks {
			b.multipliers[i] += int64(share * float64(b.best-now) / norm * float64(lack))
			b.multipliers[i] = b.signed(i)
		}
	}
	copy(b.multipliers, best)
	return bound
}

// signed is an order's multiplier, or 0 where its step has no such limit.
func (b *branch) signed(order int) int64 {
	st, m := b.steps[order], b.multipliers[order]
	if m > 0 && st.from == 0 || m < 0 && st.most == math.MaxInt64 {
		return 0
	}
	return m
}

// relax chooses the cheapest lines under the multipliers; it gives the bound
// and what each order then lacks (or has too much of, below zero).
func (b *branch) relax(base int64) (bound int64, lacks []int64) {
	goods := slices.Clone(b.goods)
	bound = base
	for i := range b.places {
		p := &b.places[i]
		least := p.reduce(b.multipliers)
		bound += p.reduced[least]
		goods[p.lines[least].order] += p.lines[least].goods
		b.current[p.product] = p.offers[least]
	}
	b.offer()
	lacks = make([]int64, len(goods))
	for i, st := range b.steps {
		bound += b.correction(i, b.goods[i])
		switch m := b.multipliers[i]; {
		case !st.used:
		case m > 0 || m == 0 && goods[i] < st.from:
			lacks[i] = st.from - goods[i]
		case m < 0 || goods[i] > st.most:
			lacks[i] = st.most - goods[i]
		}
	}
	return bound, lacks
}

// correction is what the multiplier of an order takes back of what it gave,
// when the order has so many goods already.
func (b *branch) correction(order int, goods int64) int64 {
	switch m := b.multipliers[order]; {
	case m > 0:
		return m * (b.steps[order].from - goods)
	case m < 0:
		return m * (b.steps[order].most - goods)
	}
	return 0
}

// reduce finds what the lines cost under the multipliers, and the least.
func (p *place) reduce(multipliers []int64) (least int) {
	for i, line := range p.lines {
		p.reduced[i] = line.cost - multipliers[line.order]*line.goods
		if p.reduced[i] < p.reduced[least] {
			least = i
		}
	}
	return least
}

// offer takes the current choice when it costs less than the best so far.
func (b *branch) offer() {
	if total := b.cost(b.current); total < b.best {
		b.best, b.taken = total, slices.Clone(b.current)
	}
}

// arrange puts the products first whose best line stands out most, and sums up
// what is still to come from each place on.
func (b *branch) arrange() {
	for i := range b.places {
		b.places[i].sort(b.multipliers)
	}
	slices.SortStableFunc(b.places, func(x, y place) int { return cmp.Compare(y.lead(), x.lead()) })
	n := len(b.places)
	b.least, b.reach = make([]int64, n+1), make([][]int64, n+1)
	b.reach[n] = make([]int64, len(b.orders))
	for i := n - 1; i >= 0; i-- {
		b.least[i] = b.least[i+1] + b.places[i].reduced[0]
		b.reach[i] = slices.Clone(b.reach[i+1])
		for _, line := range b.places[i].lines {
			b.reach[i][line.order] += line.goods
		}
	}
}

// sort puts a product's lines in the order of their cost under the multipliers.
func (p *place) sort(multipliers []int64) {
	p.reduce(multipliers)
	order := make([]int, len(p.lines))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(p.reduced[x], p.reduced[y]) })
	sorted := place{product: p.product}
	for _, i := range order {
		sorted.lines, sorted.offers, sorted.reduced = append(sorted.lines, p.lines[i]), append(sorted.offers, p.offers[i]), append(sorted.reduced, p.reduced[i])
	}
	*p = sorted
}

// lead is how much dearer the second line is than the first.
func (p *place) lead() int64 {
	if len(p.lines) == 1 {
		return math.MaxInt64
	}
	return p.reduced[1] - p.reduced[0]
}

// visit chooses the line of one place and all after it. cost is that of the
// lines before it, without multipliers.
func (b *branch) visit(at int, cost int64) {
	if b.left <= 0 || b.hopeless(at, cost) {
		return
	}
	b.left--
	if at == len(b.places) {
		b.offer()
		return
	}
	p := &b.places[at]
	for i, line := range p.lines {
		b.current[p.product] = p.offers[i]
		b.goods[line.order] += line.goods
		b.visit(at+1, cost+line.cost)
		b.goods[line.order] -= line.goods
	}
}

// hopeless tells that no choice from a place on is better than the best: the
// bound says so, or an order cannot come into its step any more.
func (b *branch) hopeless(at int, cost int64) bool {
	bound := cost + b.least[at]
	for i, st := range b.steps {
		if st.used && (b.goods[i]+b.reach[at][i] < st.from || b.goods[i] > st.most) {
			return true
		}
		bound += b.correction(i, b.goods[i])
	}
	return bound >= b.best
}
