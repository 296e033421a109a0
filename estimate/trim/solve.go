package trim

import "math"

// solve returns the best plan found, a lower bound on the cost of any, and the
// weighings that prove the bound. It stops as soon as the two meet.
func solve(t *task, crew scheme) (scheme, int64, []weighing) {
	bound, proof := t.cheapBound()
	best := crew
	n := t.need()
	n.splitAll(t, run.cheapest)
	if filled := t.swap((&filler{task: t}).fillAll(n)); filled.cost(t) < best.setups.cost(t) {
		best = scheme{filled, n.splits}
	}
	if best.setups.cost(t) <= bound {
		return best, bound, []weighing{proof}
	}
	m := newMaster(t)
	m.addPlan(crew.setups)
	m.addPlan(best.setups)
	best = m.addRandomPlans(best)
	m.bound, m.proof = bound, proof
	m.limit = rootWork / len(m.lp.basis)
	m.optimise(maxRounds, best.setups.cost(t))
	m.limit = math.MaxInt
	bound, proof = m.bound, m.proof
	proofs := []weighing{proof}
	if best.setups.cost(t) > bound {
		best = diveFor(m, best, bound)
	}
	if len(t.bars) == 1 && len(t.runs) == 0 {
		best, bound = settle(m, best, bound)
	}
	if len(t.bars) > 1 && best.setups.cost(t) > bound {
		b := barCounts{task: t, patterns: m.pattern, proofs: proofs, best: best, cost: best.setups.cost(t), bound: bound}
		b.improve()
		best, bound, proofs = b.best, b.bound, b.proofs
	}
	return best, bound, proofs
}

const (
	maxRounds = 1000        // of column generation for the whole order
	rootWork  = 150_000_000 // pivots times rows of it
)

// settle searches exhaustively for plans at the bound of an order of one stock
// length, and raises the bound where there are none.
func settle(m *master, best scheme, bound int64) (scheme, int64) {
	for best.setups.cost(m.task) > bound {
		m.setNeed(m.task.need())
		switch result, plan := exhaust(m, bound, settleWork); result {
		case planFound:
			best.setups = plan
		case noPlan:
			bound += m.task.step
		default:
			return best, bound
		}
	}
	return best, bound
}

const (
	manySizes   = 100 // from so many on, plans made at random help
	randomPlans = 10
)

// addRandomPlans adds the patterns of a few plans made at random, which save
// rounds of column generation, and returns the best plan.
func (m *master) addRandomPlans(best scheme) scheme {
	t := m.task
	if len(t.sizes) < manySizes || t.fillWork(len(t.sizes)) > maxFillWork {
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
	fewNodes     = 20  // where counts of bars will be searched next
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
		attempts, nodes = 1, fewNodes
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
