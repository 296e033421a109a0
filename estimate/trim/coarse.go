package trim

import (
	"math"
	"slices"
)

const (
	firstNodes = 40
	fewNodes   = 60        // in the end, where stock is limited
	manyNodes  = 1000      // in the end, elsewhere
	divingFrom = 600       // nodes; with fewer the plans come out too dear, but for the last
	restSizes  = 180       // from so few sizes on, what is left is a task for itself
	restNodes  = 60        // linear programmes for it
	restWork   = 1_000_000 // pivots times rows for it
	alike      = 8         // wanted sizes tried for a piece
)

// coarsely works with a row for some sizes only: for few at first, then for those
// that would raise the bound most as well.
func (s *state) coarsely(crew scheme) {
	most := manyNodes
	if s.task.limited() {
		most = fewNodes
	}
	m := s.start(evenNodes(s.task, firstNodes), crew)
	for {
		s.raise(m)
		known := len(m.nodes.sizes)
		finer := m.with(m.nodes.refined(s.task, m.surplus(), min(known, most-known)))
		last := !s.open() || len(finer.nodes.sizes) < known*5/4
		if last {
			s.boundByCounts()
		}
		if s.open() && (last || known >= divingFrom) {
			s.best = diveFor(m, s.best, s.bound)
		}
		if last {
			return
		}
		m = finer
	}
}

// boundByCounts raises the bound to the cheapest whole numbers of bars that the
// weighings allow.
func (s *state) boundByCounts() {
	c := newCounting(s.task, s.task.need(), s.proofs)
	if c.search(s.best.setups.cost(s.task)) {
		s.bound = max(s.bound, c.cost)
	}
}

// surplus is how many pieces of each size the linear programme cuts too many.
func (m *master) surplus() []float64 {
	all := make([]float64, len(m.task.sizes))
	for i, n := range m.need.pieces {
		all[i] = float64(-n)
	}
	for p, j := range m.lp.basis {
		for _, c := range m.pattern[j].cuts {
			all[c.piece] += float64(m.lp.x[p] * float64(c.n))
		}
	}
	for _, s := range m.splits {
		if p := m.lp.where[s.column]; p >= 0 {
			for _, c := range m.task.runs[s.run].splits[s.split].parts {
				all[c.piece] -= float64(m.lp.x[p] * float64(c.n))
			}
		}
	}
	return all
}

// with is a master of the same need with other nodes, but these patterns and
// prices.
func (m *master) with(n nodes) *master {
	r := newMasterOf(m.task, n)
	for j, p := range m.pattern {
		if len(p.cuts) > 0 && m.lp.reduced[j] < 0.05 {
			r.addPattern(p.bar, p.cuts)
		}
	}
	r.bound, r.proof = m.bound, m.proof
	if m.steady == nil {
		return r
	}
	r.steadyBound, r.steady = m.steadyBound, make([]float64, len(r.lp.rhs))
	for k, i := range n.sizes {
		r.steady[k] = m.nodes.price(m.steady, i)
	}
	copy(r.steady[len(n.sizes):], m.steady[len(m.nodes.sizes):])
	return r
}

// singles cuts for every node bars of that size alone: a first basis.
func (m *master) singles(left []float64, basis []int32, bars []int) {
	t := m.task
	for k, i := range m.nodes.sizes {
		if left[k] <= 0 {
			continue
		}
		bar := t.barFor(t.sizes[i], bars)
		if j := m.addPattern(bar, []cut{{i, t.bars[bar].size / t.sizes[i]}}); j >= 0 {
			basis[k] = int32(j)
		}
	}
}

// fixNear makes bars nearly as the solution of a coarse programme says: it tells
// which sizes go together, not how many there are of each. Bars that come out
// worth less than they cost wait for the next solution, unless all do.
func (d *dive) fixNear(left need, made *cutting, shares []share) {
	parts := fractions(shares)
	for _, loss := range []float64{0.0005, 0.005, math.Inf(1)} {
		before := len(*made)
		for _, s := range shares {
			d.cutNear(left, made, s, int(s.value+1e-3), loss)
		}
		if len(*made) > before {
			return
		}
		for i, s := range parts {
			if i == 0 || s.value > 0.7 || i < len(parts)/10 {
				d.cutNear(left, made, s, 1, loss)
			}
		}
		if len(*made) > before {
			return
		}
	}
}

// cutNear makes up to so many bars near to the pattern. They are worth their
// price and as full as it, but for the share that may be lost.
func (d *dive) cutNear(left need, made *cutting, s share, times int, loss float64) {
	m := d.master
	for ; times > 0 && left.bars[s.bar] > 0; times-- {
		cuts := m.filler.near(left, s.bar, s.cuts)
		if len(cuts) == 0 || m.worth(cuts) < m.expense(s.bar)*(1-loss)-costTolerance ||
			float64(m.task.used(cuts)) < float64(m.task.used(s.cuts))*(1-loss) {
			return
		}
		*made = append(*made, left.take(setup{s.bar, cuts, 1}))
	}
}

// worth is what the cuts come to at the dual prices.
func (m *master) worth(cuts []cut) float64 {
	sum := 0.0
	for _, c := range cuts {
		sum += float64(float64(c.n) * m.nodes.price(m.lp.y, c.piece))
	}
	return sum
}

// expense is the price of a bar, and that of its being limited.
func (m *master) expense(bar int) float64 {
	if r := m.row[bar]; r >= 0 {
		return m.price[bar] - m.lp.y[r]
	}
	return m.price[bar]
}

// finish completes a coarse plan once few sizes are left; it says whether they
// are.
func (d *dive) finish(left need, made cutting) bool {
	if left.splitting() {
		return false
	}
	r := d.master.task.rest(left)
	if len(r.sizes) > restSizes {
		return false
	}
	spent := made.cost(d.master.task)
	m := newMaster(r.task)
	m.strict = true
	m.limit = restWork / len(m.lp.basis)
	f := dive{master: m, cost: d.cost - spent, target: d.target - spent, nodes: restNodes, rounds: d.rounds, work: m.limit}
	f.search(departures)
	if len(f.best.setups) > 0 {
		d.offer(scheme{append(slices.Clip(made), r.translate(f.best.setups)...), left.splits})
	}
	return true
}

// rest is what is left of a task as a task for itself.
type rest struct {
	task  *task
	sizes []int // of the whole task, by those of the rest
	kinds []int // of bars, the same
}

func (t *task) rest(left need) rest {
	r := rest{task: &task{step: t.step}}
	for i, n := range left.pieces {
		if n > 0 {
			r.sizes = append(r.sizes, i)
			r.task.sizes = append(r.task.sizes, t.sizes[i])
			r.task.demand = append(r.task.demand, n)
		}
	}
	r.task.most = r.task.demand
	for k, b := range t.bars {
		switch n := left.bars[k]; n {
		case 0:
			continue
		case unlimited:
			b.limit = 0
		default:
			b.limit = n
		}
		r.kinds = append(r.kinds, k)
		r.task.bars = append(r.task.bars, b)
	}
	return r
}

// translate is setups of the rest as setups of the whole.
func (r rest) translate(setups cutting) cutting {
	var all cutting
	for _, s := range setups {
		whole := setup{bar: r.kinds[s.bar], times: s.times}
		for _, c := range s.cuts {
			whole.cuts = append(whole.cuts, cut{r.sizes[c.piece], c.n})
		}
		all = append(all, whole)
	}
	return all
}
