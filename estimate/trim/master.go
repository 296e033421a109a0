package trim

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
)

// master is the linear programme of the patterns (Gilmore, Gomory 1961): rows
// are the sizes, each to be covered, and the bars of limited number; columns
// are patterns, found by a knapsack when they are needed. Columns that give a
// shorter piece for the next longer one make the dual prices fall with the
// size and save rounds (Valerio de Carvalho 2005, from memory).
type master struct {
	task    *task
	nodes   nodes
	filler  filler
	need    need
	lp      simplex
	pattern []setup // by column; no cuts for the other columns
	known   map[string]bool
	gone    []bool // patterns, by column, that may not be used any more; nil when all may
	row     []int  // of each bar, -1 when it is unlimited
	runRow  int    // of the first run; the others follow
	splits  []splitColumn
	most    []int // pieces of each size that may still be cut
	strict  bool  // splits that only prove bounds are barred, else those that only plans use
	scale   float64
	price   []float64 // of each bar, in units of the dearest common one

	knapsack    knapsack
	steady      []float64 // dual prices of the best bound so far
	steadyBound int64
	bound       int64 // of the need as it is now
	proof       weighing
	last        weighing // of the last knapsack, whatever it proves

	limit int     // pivots of the simplex method, over all its life, that end the column generation
	shake float64 // size of the disturbance of the right-hand side
	seed  random  // of the disturbance
}

const (
	weightScale = 1 << 36 // whole weights in a dual price of 1
	barred      = 16.0    // added to the price of a pattern that cuts more than is wanted
	columnsARow = 6       // columns kept for each row, at least
	newColumns  = 150     // columns taken in a round, at most
)

func newMaster(t *task) *master { return newMasterOf(t, everySize(t)) }

// newMasterOf is a master with a row for each node.
func newMasterOf(t *task, nodes nodes) *master {
	m := &master{task: t, nodes: nodes, filler: newFiller(t), need: t.need(), most: t.most, known: map[string]bool{}, limit: math.MaxInt, shake: 1e-6, seed: 1}
	m.setPrices()
	m.addRows()
	m.addExchanges()
	m.addSplits()
	m.lp.rhs = m.rightHandSide()
	m.lp.start(m.firstBasis())
	m.startBound()
	return m
}

// coarse says that some sizes have no row of their own.
func (m *master) coarse() bool { return len(m.nodes.sizes) < len(m.task.sizes) }

// startBound sets the bound to what the lengths alone prove.
func (m *master) startBound() {
	m.proof = m.task.byLength()
	m.bound = m.proof.bound(m.task, m.need)
	m.steady = nil
}

func (m *master) setPrices() {
	common := int64(0)
	for _, b := range m.task.bars {
		if b.stock != NoIndex {
			common = max(common, b.price)
		}
	}
	m.scale = float64(max(common, 1))
	for _, b := range m.task.bars {
		m.price = append(m.price, min(float64(b.price)/m.scale, 1000))
	}
}

// addRows makes a row and its slack for every size and limited bar.
func (m *master) addRows() {
	rows := len(m.nodes.sizes)
	for i := range rows {
		m.lp.slack = append(m.lp.slack, int32(m.addOther(entries{[]int32{int32(i)}, []float64{-1}})))
	}
	for k := range m.task.bars {
		m.row = append(m.row, -1)
		if m.need.bars[k] != unlimited {
			m.row[k] = rows
			m.lp.slack = append(m.lp.slack, int32(m.addOther(entries{[]int32{int32(rows)}, []float64{1}})))
			rows++
		}
	}
	m.runRow = rows
	for range m.task.runs {
		m.lp.slack = append(m.lp.slack, int32(m.addOther(entries{[]int32{int32(rows)}, []float64{-1}})))
		rows++
	}
}

// addOther adds a column that is no pattern and costs nothing.
func (m *master) addOther(c entries) int {
	m.pattern = append(m.pattern, setup{})
	return m.lp.addColumn(c, 0)
}

func (m *master) addExchanges() {
	for i := 1; i < len(m.nodes.sizes); i++ {
		m.addOther(entries{[]int32{int32(i - 1), int32(i)}, []float64{-1, 1}})
	}
}

// addPattern adds the column of a pattern, unless it is there already.
func (m *master) addPattern(bar int, cuts []cut) int {
	key := patternKey(bar, cuts)
	if m.known[key] {
		return -1
	}
	m.known[key] = true
	col := m.nodes.entries(cuts)
	if m.row[bar] >= 0 {
		col.row = append(col.row, int32(m.row[bar]))
		col.value = append(col.value, 1)
	}
	m.pattern = append(m.pattern, setup{bar, cuts, 0})
	return m.lp.addColumn(col, m.charge(m.lp.columns()))
}

// charge is the price of a pattern in the linear programme: one that cuts more
// than is wanted, or that may not be used any more, costs far more.
func (m *master) charge(j int) float64 {
	p := m.pattern[j]
	if m.usable(j) {
		return m.price[p.bar]
	}
	return m.price[p.bar] + barred
}

func (m *master) usable(j int) bool {
	if m.gone != nil {
		return j < len(m.gone) && !m.gone[j]
	}
	return holds(m.most, m.pattern[j].cuts)
}

func patternKey(bar int, cuts []cut) string {
	key := binary.AppendUvarint(nil, uint64(bar))
	for _, c := range cuts {
		key = binary.AppendUvarint(binary.AppendUvarint(key, uint64(c.piece)), uint64(c.n))
	}
	return string(key)
}

// addPlan adds the patterns of a plan.
func (m *master) addPlan(c cutting) {
	for _, s := range c {
		m.addPattern(s.bar, s.cuts)
	}
}

// rightHandSide is the need, shaken so that no two rows tie.
func (m *master) rightHandSide() []float64 {
	rhs := make([]float64, len(m.lp.slack))
	random := m.seed
	next := func() float64 { return m.shake * (1 + float64(random.next())/(1<<31)) }
	for i, n := range m.nodes.spread(m.need.pieces) {
		rhs[i] = n + next()
		if n == 0 {
			rhs[i] = -next()
		}
	}
	for k, r := range m.row {
		if r >= 0 {
			rhs[r] = float64(m.need.bars[k]) + next()
		}
	}
	for j, n := range m.need.runs {
		rhs[m.runRow+j] = float64(n) + next()
		if n == 0 {
			rhs[m.runRow+j] = -next()
		}
	}
	return rhs
}

// firstBasis is a plan in fractions of bars that uses up at least one size
// with each pattern, so that its columns form a triangle.
func (m *master) firstBasis() []int32 {
	t := m.task
	left := slices.Clone(m.lp.rhs)
	basis := slices.Clone(m.lp.slack)
	free := need{pieces: slices.Clone(m.need.pieces), bars: make([]int, len(t.bars)), runs: slices.Clone(m.need.runs)}
	free.splitAll(t, run.byRule)
	for _, s := range m.splits {
		if s.split == 0 && m.need.runs[s.run] > 0 {
			basis[m.runRow+s.run] = int32(s.column)
			parts := m.nodes.entries(t.runs[s.run].splits[0].parts)
			for k, row := range parts.row {
				left[row] += float64(left[m.runRow+s.run] * parts.value[k])
			}
		}
	}
	for k := range t.bars {
		if m.row[k] < 0 {
			free.bars[k] = unlimited
		}
	}
	if m.coarse() {
		m.singles(left, basis, free.bars)
		return basis
	}
	for {
		first := free.longest(0)
		if first < 0 {
			return basis
		}
		bar := t.barFor(t.sizes[first], free.bars)
		cuts := t.adapt(free, bar, []cut{{first, 1}})
		gone, times := -1, math.Inf(1)
		for _, c := range cuts {
			if x := left[c.piece] / float64(c.n); x < times {
				gone, times = c.piece, x
			}
		}
		for _, c := range cuts {
			left[c.piece] -= times * float64(c.n)
			free.pieces[c.piece] = max(1, int(math.Ceil(left[c.piece]-1e-4)))
		}
		free.pieces[gone] = 0
		if j := m.addPattern(bar, cuts); j >= 0 {
			basis[gone] = int32(j)
		}
	}
}

// setNeed changes what is wanted and makes the basis feasible again.
func (m *master) setNeed(n need) {
	m.need = n.clone()
	m.most = n.most(m.task)
	m.last = weighing{}
	m.startBound()
	m.moveRightHandSide()
}

// moveRightHandSide sets the right-hand side anew, makes the basis feasible
// again and the prices right.
func (m *master) moveRightHandSide() {
	m.lp.rhs = m.rightHandSide()
	m.lp.place()
	ok := m.lp.dual(20 * len(m.lp.basis))
	for j, p := range m.pattern {
		if len(p.cuts) > 0 {
			m.lp.cost[j] = m.charge(j)
		}
	}
	m.chargeSplits()
	if !ok {
		m.restart()
		return
	}
	m.lp.reprice()
}

// restart begins again from a greedy basis.
func (m *master) restart() {
	for p := range m.lp.basis {
		m.lp.where[m.lp.basis[p]] = -1
	}
	m.known = map[string]bool{}
	m.lp.start(m.firstBasis())
}

// optimise solves the linear programme by column generation until its value is
// known up to the next attainable cost, or reaches enough, or rounds or pivots
// are used up. It returns the value reached; bound and proof hold what is certain.
func (m *master) optimise(rounds int, enough int64) float64 {
	value := math.Inf(1)
	for range rounds {
		if value = m.resolve(); m.lp.pivots >= m.limit {
			return value
		}
		if m.bound >= m.attainable(value) || m.bound >= enough {
			return value
		}
		if m.steady != nil {
			middle := make([]float64, len(m.lp.y))
			for r, y := range m.lp.y {
				middle[r] = (y + m.steady[r]) / 2
			}
			if m.generate(middle) {
				continue
			}
			if m.bound >= m.attainable(value) || m.bound >= enough {
				return value
			}
		}
		if !m.generate(m.lp.y) {
			return value
		}
	}
	return value
}

// converge solves the linear programme by column generation to the end. It
// returns false when the rounds did not do.
func (m *master) converge(rounds int) bool {
	for range rounds {
		m.resolve()
		if !m.generate(m.lp.y) {
			return true
		}
	}
	return false
}

// resolve solves the linear programme over the columns it has and returns its
// value.
func (m *master) resolve() float64 {
	m.purge()
	m.lp.primal(max(1, min(100*len(m.lp.basis), m.limit-m.lp.pivots)))
	return m.value()
}

// value is the dual value at the need as it is, not shaken, in price units.
func (m *master) value() float64 {
	sum := 0.0
	for i, n := range m.nodes.spread(m.need.pieces) {
		sum += float64(n * m.lp.y[i])
	}
	for k, r := range m.row {
		if r >= 0 {
			sum += float64(float64(m.need.bars[k]) * m.lp.y[r])
		}
	}
	for j, n := range m.need.runs {
		sum += float64(float64(n) * m.lp.y[m.runRow+j])
	}
	return sum * m.scale
}

// attainable is the least attainable cost that is not clearly below value.
func (m *master) attainable(value float64) int64 {
	step := float64(m.task.step)
	return int64(math.Ceil(value/step-1e-7)) * m.task.step
}

// generate finds columns that are worth more than they cost at the dual prices
// y, improves the bound, and says whether a column came in that is worth it at
// the present prices too.
func (m *master) generate(y []float64) bool {
	t := m.task
	w := m.weigh(y)
	floors := make([]int64, len(t.bars))
	for k := range t.bars {
		floors[k] = int64(math.Ceil(m.price[k] * weightScale))
		if r := m.row[k]; r >= 0 {
			floors[k] += int64(max(0, -y[r]) * weightScale)
		}
	}
	if m.knapsack.solve(t, m.most, w.weights, floors, 0.3) {
		w.most = slices.Clone(m.knapsack.best)
		m.last = w
		b := w.bound(t, m.need)
		if b > m.bound {
			m.bound, m.proof = b, w
		}
		if b >= m.steadyBound || m.steady == nil {
			m.steadyBound, m.steady = b, slices.Clone(y)
		}
	}
	return m.takeIn()
}

// weigh makes whole weights of dual prices; they never rise as sizes fall.
func (m *master) weigh(y []float64) weighing {
	n := len(m.task.sizes)
	w := weighing{weights: make([]int64, n)}
	least := int64(0)
	for i := n - 1; i >= 0; i-- {
		least = max(least, int64(m.nodes.price(y, i)*weightScale))
		w.weights[i] = least
	}
	return w
}

// takeIn adds the best columns of the last knapsack, at most one for each bar
// and last piece.
func (m *master) takeIn() bool {
	type offer struct {
		bar    int
		at     int32
		excess int64
	}
	t := m.task
	best := make([]offer, len(t.bars)*len(t.sizes))
	lowest := slices.Min(m.knapsack.floors)
	for at := 1; at < len(m.knapsack.sets); at++ {
		s := &m.knapsack.sets[at]
		if s.weight <= lowest {
			continue
		}
		for k, b := range t.bars {
			excess := s.weight - m.knapsack.floors[k]
			if o := &best[k*len(t.sizes)+int(s.piece)]; b.size >= s.size && m.need.bars[k] > 0 && excess > o.excess && excess > 64 {
				*o = offer{k, int32(at), excess}
			}
		}
	}
	best = slices.DeleteFunc(best, func(o offer) bool { return o.excess == 0 })
	slices.SortStableFunc(best, func(a, b offer) int { return cmp.Compare(b.excess, a.excess) })
	improved := false
	for _, o := range best[:min(len(best), newColumns)] {
		j := m.addPattern(o.bar, m.knapsack.cuts(o.at))
		if j >= 0 && m.lp.reduced[j] < -costTolerance {
			improved = true
		}
	}
	return improved
}

// purge drops the patterns with the highest reduced costs when there are too
// many.
func (m *master) purge() {
	most := columnsARow*len(m.lp.basis) + 1000
	if m.lp.columns() <= 2*most {
		return
	}
	costs := slices.Clone(m.lp.reduced)
	slices.Sort(costs)
	limit := max(costs[most], 1e-6)
	keep := make([]bool, m.lp.columns())
	kept := m.pattern[:0]
	for j, p := range m.pattern {
		keep[j] = len(p.cuts) == 0 || m.lp.where[j] >= 0 || m.lp.reduced[j] <= limit
		if keep[j] {
			kept = append(kept, p)
		}
	}
	m.pattern = kept
	m.lp.retain(keep)
	m.known = map[string]bool{}
	for _, p := range m.pattern {
		if len(p.cuts) > 0 {
			m.known[patternKey(p.bar, p.cuts)] = true
		}
	}
}

// share is a pattern and how often the linear programme makes it.
type share struct {
	setup
	value float64
}

// shares is the patterns in the solution of the linear programme, the most
// often made first.
func (m *master) shares() []share {
	var all []share
	for p, j := range m.lp.basis {
		if pat := m.pattern[j]; len(pat.cuts) > 0 && m.lp.x[p] > 1e-5 {
			all = append(all, share{pat, m.lp.x[p]})
		}
	}
	slices.SortStableFunc(all, func(a, b share) int {
		return cmp.Or(cmp.Compare(b.value, a.value), cmp.Compare(a.bar, b.bar), slices.CompareFunc(a.cuts, b.cuts, compareCut))
	})
	return all
}

// splitColumn is the column of a split: it stands for a run and asks for its
// parts.
type splitColumn struct{ run, split, column int }

func (m *master) addSplits() {
	for j, r := range m.task.runs {
		for k, s := range r.splits {
			c := entries{[]int32{int32(m.runRow + j)}, []float64{1}}
			parts := m.nodes.entries(s.parts)
			for k, row := range parts.row {
				c.row, c.value = append(c.row, row), append(c.value, -parts.value[k])
			}
			m.splits = append(m.splits, splitColumn{j, k, m.addOther(c)})
		}
	}
	m.chargeSplits()
}

// chargeSplits bars the splits that are of no use now.
func (m *master) chargeSplits() {
	for _, s := range m.splits {
		useless := planOnly
		if m.strict {
			useless = boundOnly
		}
		m.lp.cost[s.column] = 0
		if m.task.runs[s.run].splits[s.split].use == useless {
			m.lp.cost[s.column] = barred
		}
	}
}

// split splits those runs of the need for which the solution of the linear
// programme is clearest, at least one in so many.
func (m *master) split(n *need) {
	var parts []splitShare
	for _, s := range m.splits {
		p := m.lp.where[s.column]
		if p < 0 || m.task.runs[s.run].splits[s.split].use == boundOnly {
			continue
		}
		times := int(m.lp.x[p] + 1e-3)
		if times = min(times, n.runs[s.run]); times > 0 {
			n.split(m.task, splitRuns{s.run, s.split, times})
		}
		parts = append(parts, splitShare{s, m.lp.x[p] - float64(times)})
	}
	slices.SortStableFunc(parts, func(a, b splitShare) int { return cmp.Compare(b.value, a.value) })
	for i, s := range parts {
		if i > len(parts)/4 && s.value < 0.7 {
			break
		}
		if s.value > 1e-3 && n.runs[s.run] > 0 {
			n.split(m.task, splitRuns{s.run, s.split, 1})
		}
	}
	if len(parts) == 0 {
		n.splitAll(m.task, run.cheapest)
	}
}

// splitShare is a split and what part of a run the linear programme splits so
// beyond whole ones.
type splitShare struct {
	splitColumn
	value float64
}
