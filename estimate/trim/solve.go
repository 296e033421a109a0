package trim

// solve returns the best plan found, a lower bound on the cost of any, and the
// weighings that prove the bound. It stops as soon as the two meet.
func solve(t *task, crew cutting) (cutting, int64, []weighing) {
	bound, proof := t.cheapBound()
	best := crew
	if filled := t.swap(t.fillAll(t.need())); filled.cost(t) < best.cost(t) {
		best = filled
	}
	if best.cost(t) <= bound {
		return best, bound, []weighing{proof}
	}
	m := newMaster(t)
	m.addPlan(crew)
	m.addPlan(best)
	m.bound, m.proof = bound, proof
	m.optimise(maxRounds, best.cost(t))
	bound, proof = m.bound, m.proof
	proofs := []weighing{proof}
	if best.cost(t) > bound {
		d := dive{master: m, best: best, cost: best.cost(t), target: bound, nodes: 400, rounds: 20}
		if len(t.bars) > 1 {
			d.nodes = 20
		}
		d.search(3)
		best = d.best
	}
	if len(t.bars) > 1 && best.cost(t) > bound {
		b := barCounts{task: t, proofs: proofs, best: best, cost: best.cost(t), bound: bound}
		b.improve()
		best, bound, proofs = b.best, b.bound, b.proofs
	}
	return best, bound, proofs
}

const maxRounds = 1000
