package purchase

import "slices"

// mend turns the node's choice into good ones: it moves products from supplier
// to supplier until every order is in one of its steps, each time the product
// that costs least for what it brings, and then as long as all orders together
// become cheaper.
func (n *node) mend() {
	m := mender{node: n, choice: n.choice, have: slices.Clone(n.goods), costs: slices.Clone(n.costs)}
	for range n.products {
		if m.off(nil, nil) == 0 || !m.moveNearer() {
			break
		}
	}
	n.consider(m.choice)
	for m.moveCheaper() {
	}
	n.consider(m.choice)
	n.relax()
}

// mender is a choice being changed.
type mender struct {
	*node
	choice []int
	have   []int64 // goods of each order
	costs  []int64 // what its lines cost
}

// off is how far all orders together are outside their steps when the lines of
// one offer go and those of another come.
func (m *mender) off(gone, come offered) int64 {
	m.swap(gone, come)
	total := int64(0)
	for i, steps := range m.steps {
		total += max(0, steps[0].from-m.have[i], m.have[i]-steps[len(steps)-1].most)
	}
	m.swap(come, gone)
	return total
}

func (m *mender) swap(gone, come offered) {
	for _, l := range gone {
		m.have[l.order] -= l.goods
		m.costs[l.order] -= l.cost
	}
	for _, l := range come {
		m.have[l.order] += l.goods
		m.costs[l.order] += l.cost
	}
}

// moveNearer moves the product that costs least for each minor unit by which it
// brings the orders nearer to their steps; false when none does.
func (m *mender) moveNearer() bool {
	before := m.off(nil, nil)
	product, to, least := -1, 0, 0.0
	for p, offers := range m.products {
		from := offers[m.choice[p]]
		own := m.reduced(from)
		for i, offer := range offers {
			dearer := m.reduced(offer)
			if dearer == never {
				continue
			}
			if nearer := before - m.off(from, offer); nearer > 0 {
				if each := float64(dearer-own) / float64(nearer); product < 0 || each < least {
					product, to, least = p, i, each
				}
			}
		}
	}
	if product < 0 {
		return false
	}
	m.move(product, to)
	return true
}

func (m *mender) move(product, to int) {
	offers := m.products[product]
	m.swap(offers[m.choice[product]], offers[to])
	m.choice[product] = to
}

// moveCheaper moves every product for which that makes the orders cheaper, and
// tells whether there was one.
func (m *mender) moveCheaper() bool {
	moved := false
	for p, offers := range m.products {
		for i := range offers {
			if i != m.choice[p] && m.left > 0 && m.saves(offers[m.choice[p]], offers[i]) {
				m.move(p, i)
				moved = true
			}
		}
	}
	return moved
}

// saves tells whether all orders cost less with the lines of another offer.
func (m *mender) saves(gone, come offered) bool {
	change := int64(0)
	touched := func(sign int64) {
		for _, lines := range []offered{gone, come} {
			for _, l := range lines {
				o := m.orders[l.order]
				o.used = o.used || m.have[l.order] > o.goods
				o.goods, o.cost = m.have[l.order], m.costs[l.order]
				change += sign * m.charges(o)
			}
		}
	}
	touched(-1)
	m.swap(gone, come)
	touched(1)
	m.swap(come, gone)
	for _, l := range gone {
		change -= l.cost
	}
	for _, l := range come {
		change += l.cost
	}
	m.left -= len(gone) + len(come)
	return change < 0
}
