package trim

import (
	"math"
	"slices"
)

// state is what is known of a task: the best plan found, a lower bound on the
// cost of any, and the weighings that prove the bound.
type state struct {
	task   *task
	best   scheme
	bound  int64
	proofs []weighing
}

// open says that plan and bound do not meet yet.
func (s *state) open() bool { return s.best.setups.cost(s.task) > s.bound }

// solve finds the best plan and the best bound it can, and stops as soon as the
// two meet.
func solve(t *task, crew scheme) state {
	bound, proof := t.cheapBound()
	s := state{t, crew, bound, []weighing{proof}}
	n := t.need()
	n.splitAll(t, run.cheapest)
	f := newFiller(t)
	if filled := t.swap(f.fillAll(n)); filled.cost(t) < crew.setups.cost(t) {
		s.best = scheme{filled, n.splits}
	}
	if !s.open() {
		return s
	}
	if t.large() {
		s.coarsely(crew)
	} else {
		s.finely(crew)
	}
	return s
}

const (
	largeLimited = 300         // sizes from which on an order is large, where stock is limited
	large        = 1500        // the same elsewhere
	maxRounds    = 1000        // of column generation for the whole order
	rootWork     = 150_000_000 // pivots times rows of it
)

// large says that a row for every size would take too long. With one kind of bars
// it does not, and where the stock on hand may not do every way is tried.
func (t *task) large() bool {
	short := slices.ContainsFunc(t.bars, func(b bar) bool { return b.stock == NoIndex })
	switch n := len(t.sizes); {
	case len(t.bars) == 1, short:
		return false
	case t.limited():
		return n >= largeLimited
	default:
		return n >= large
	}
}

// limited says that there are only so many of some bars.
func (t *task) limited() bool {
	return slices.ContainsFunc(t.bars, func(b bar) bool { return b.limit > 0 })
}

// start is the linear programme with the patterns of a few plans.
func (s *state) start(n nodes, crew scheme) *master {
	m := newMasterOf(s.task, n)
	m.addPlan(crew.setups)
	m.addPlan(s.best.setups)
	s.best = m.addRandomPlans(s.best)
	m.bound, m.proof = s.bound, s.proofs[0]
	return m
}

// raise makes the linear programme raise the bound.
func (s *state) raise(m *master) {
	m.limit = rootWork / len(m.lp.basis)
	m.optimise(maxRounds, s.best.setups.cost(s.task))
	m.limit = math.MaxInt
	s.bound, s.proofs = m.bound, []weighing{m.proof}
}

// finely works with a row for every size.
func (s *state) finely(crew scheme) {
	m := s.start(everySize(s.task), crew)
	s.raise(m)
	if s.open() {
		s.best = diveFor(m, s.best, s.bound)
	}
	switch {
	case len(s.task.bars) > 1:
		s.count(m)
	case len(s.task.runs) == 0:
		s.settle(m)
	}
}

// count decides how many bars of each kind to buy.
func (s *state) count(m *master) {
	if s.open() {
		b := barCounts{task: s.task, patterns: m.pattern, proofs: s.proofs, best: s.best, cost: s.best.setups.cost(s.task), bound: s.bound}
		b.improve()
		s.best, s.bound, s.proofs = b.best, b.bound, b.proofs
	}
}

// settle searches exhaustively for plans at the bound of an order of one stock
// length, and raises the bound where there are none.
func (s *state) settle(m *master) {
	for s.open() {
		m.setNeed(m.task.need())
		switch result, plan := exhaust(m, s.bound, settleWork); result {
		case planFound:
			s.best.setups = plan
		case noPlan:
			s.bound += m.task.step
		default:
			return
		}
	}
}

const (
	manySizes   = 100 // from so many on, plans made at random help
	randomPlans = 10
)

// addRandomPlans adds the patterns of a few plans made at random, which save
// rounds of column generation, and returns the best plan.
func (m *master) addRandomPlans(best scheme) scheme {
	t := m.task
	if len(t.sizes) < manySizes || m.filler.work(len(t.sizes)) > maxFillWork {
		return best
	}
	r := random(7)
	for range randomPlans {
		n := t.need()
		n.splitAll(t, run.cheapest)
		filled := t.swap(m.filler.fillAtRandom(n, &r))
		m.addPlan(filled)
		if filled.cost(t) < best.setups.cost(t) {
			best = scheme{filled, n.splits}
		}
	}
	return best
}

const (
	diveAttempts = 3
	diveNodes    = 150 // linear programmes in one attempt
	hastyDive    = 20  // where counts of bars will be searched next
	diveRounds   = 20
	diveWork     = 30_000_000 // pivots times rows
	departures   = 3
	settleWork   = 25_000_000
)

// diveFor dives from different solutions of the linear programme.
func diveFor(m *master, best scheme, bound int64) scheme {
	d := dive{master: m, best: best, cost: best.setups.cost(m.task), target: bound, rounds: diveRounds}
	d.work = m.lp.pivots + diveWork/len(m.lp.basis)
	m.strict = true
	defer func() { m.strict = false }()
	attempts, nodes := diveAttempts, diveNodes
	if len(m.task.bars) > 1 {
		attempts, nodes = 1, hastyDive
	}
	for range attempts {
		d.nodes = nodes
		d.search(departures)
		if d.cost <= bound {
			break
		}
		m.seed++
	}
	return d.best
}
