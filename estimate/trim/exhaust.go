package trim

import "slices"

// exhaustion is the last resort: it lists every pattern that a plan of at most
// the target's cost can use, and searches all plans made of them. At each step
// either one more bar is cut to a pattern, or the pattern is not used any more
// (Belov, Scheithauer 2006, branch on patterns; here over an explicit list).
type exhaustion struct {
	master   *master // over the listed patterns only
	target   int64
	first    int // column of the first listed pattern
	work     int // pivots still allowed; a linear programme costs some
	complete bool
	best     cutting
}

const (
	fewWeighings   = 5
	manyWeighings  = 20
	convergeRounds = 300
	nodePivots     = 20  // what a linear programme counts for beside its pivots
	exhaustBars    = 500 // plans of more bars are not searched: too much is alike in them
)

// outcome is what an exhaustive search came to.
type outcome int

const (
	unsettled outcome = iota
	planFound
	noPlan
)

// exhaust looks for a plan of at most the target's cost that uses at most the
// bars of the need. The master must stand at that need. Work limits the pivots
// times rows of the search.
func exhaust(m *master, target int64, work int) (outcome, cutting) {
	if m.task.reachCells() > maxReachCells {
		return unsettled, nil
	}
	e := enumeration{task: m.task, need: m.need.clone()}
	var found []setup
	ok := false
	for n, before := fewWeighings, -1; !ok && n <= manyWeighings && e.steps != before; n *= 2 {
		before = e.steps
		if !e.weigh(m, target, n) {
			return unsettled, nil
		}
		if slices.ContainsFunc(e.slack, func(s int64) bool { return s < 0 }) {
			return noPlan, nil
		}
		found, ok = e.list()
	}
	if !ok {
		return unsettled, nil
	}
	x := newExhaustion(m.task, found, target)
	x.work = work / len(m.lp.basis)
	x.search(m.need.clone(), nil)
	switch {
	case x.best != nil:
		return planFound, x.best
	case x.complete:
		return noPlan, nil
	}
	return unsettled, nil
}

// weigh collects n optimal dual solutions: the demand is shaken in different
// ways.
func (e *enumeration) weigh(m *master, target int64, n int) bool {
	counts := m.barsFor(target)
	if counts == nil {
		return false
	}
	bars := 0
	for _, n := range counts {
		bars += n
	}
	if bars > exhaustBars {
		return false
	}
	e.need.bars = counts
	shake, seed := m.shake, m.seed
	defer func() { m.shake, m.seed = shake, seed }()
	for q := len(e.weighings); q < n; q++ {
		if q > 0 {
			m.shake, m.seed = 1e-4, seed+random(q)
			m.moveRightHandSide()
		}
		if !m.converge(convergeRounds) {
			return q > 0
		}
		w := m.last
		if w.most == nil {
			return q > 0
		}
		total := w.total(m.task, m.need)
		slack := int64(0)
		for k, n := range counts {
			slack += int64(n) * w.most[k]
		}
		if !total.IsInt64() {
			return q > 0
		}
		e.weighings = append(e.weighings, w)
		e.slack = append(e.slack, slack-total.Int64())
	}
	return true
}

// barsFor is the greatest number of bars of each kind in a plan of at most the
// target's cost, or nil when that is not settled by limits and one price.
func (m *master) barsFor(target int64) []int {
	counts := slices.Clone(m.need.bars)
	for k, n := range counts {
		if n != unlimited {
			continue
		}
		if len(counts) > 1 && target > 0 || m.task.bars[k].price == 0 {
			return nil
		}
		counts[k] = int(target / m.task.bars[k].price)
	}
	return counts
}

func newExhaustion(t *task, found []setup, target int64) *exhaustion {
	x := &exhaustion{target: target, complete: true}
	x.master = newMaster(t)
	m := x.master
	m.gone = make([]bool, m.lp.columns())
	for j := range m.gone {
		m.gone[j] = true
	}
	m.known = map[string]bool{}
	x.first = m.lp.columns()
	for _, p := range found {
		m.gone = append(m.gone, false)
		m.addPattern(p.bar, p.cuts)
	}
	return x
}

// search tries to complete the plan; it returns true when that is done.
func (x *exhaustion) search(left need, made cutting) bool {
	m, t := x.master, x.master.task
	spent := made.cost(t)
	var removed []int
	defer func() {
		for _, j := range removed {
			m.gone[j] = false
		}
	}()
	for {
		x.work -= nodePivots
		if m.lp.pivots > x.work {
			x.complete = false
			return false
		}
		m.setNeed(left)
		m.lp.primal(100 * len(m.lp.basis))
		if spent+m.attainable(m.value()) > x.target {
			x.complete = x.complete && spent+x.bound(left) > x.target
			return false
		}
		shares := m.shares()
		if x.round(left, made, shares) {
			return true
		}
		j := x.branch()
		if j < 0 {
			x.complete = false
			return false
		}
		next := left.clone()
		use := t.use(next, setup{m.pattern[j].bar, m.pattern[j].cuts, 1})
		if len(use) > 0 && x.search(next, append(slices.Clip(made), use...)) {
			return true
		}
		m.gone[j] = true
		removed = append(removed, j)
	}
}

// bound is a certain bound on the cost of what is left, over the listed
// patterns that may still be used.
func (x *exhaustion) bound(left need) int64 {
	m := x.master
	w := m.weigh(m.lp.y)
	w.most = make([]int64, len(m.task.bars))
	for j := x.first; j < len(m.pattern); j++ {
		if !m.usable(j) {
			continue
		}
		p := m.pattern[j]
		sum := int64(0)
		for _, c := range p.cuts {
			sum += int64(c.n) * w.weights[c.piece]
		}
		w.most[p.bar] = max(w.most[p.bar], sum)
	}
	return w.boundOrNone(m.task, left)
}

// branch is the listed pattern used most, or -1.
func (x *exhaustion) branch() int {
	m := x.master
	best, most := -1, 1e-6
	for p, j := range m.lp.basis {
		if int(j) >= x.first && m.usable(int(j)) && m.lp.x[p] > most {
			best, most = int(j), m.lp.x[p]
		}
	}
	return best
}

// round completes the plan by rounding, and notes it when it is good enough.
func (x *exhaustion) round(left need, made cutting, shares []share) bool {
	t := x.master.task
	d := dive{master: x.master, cost: x.target + t.step}
	rest := left.clone()
	plan := slices.Clip(made)
	fixWhole(t, rest, &plan, shares)
	d.round(rest, plan, shares)
	x.best = d.best.setups
	return x.best != nil
}
