package trim

import "slices"

// barCounts decides for several priced lengths first how many bars of each to
// buy: the cheapest counts that all proofs so far allow are put to the test. If
// no plan can do with them, that is one more proof, and the cost of the
// cheapest counts left is a bound; else a dive looks for the plan.
type barCounts struct {
	task     *task
	counts   *counting
	trial    *task // the bars of the counts cost nothing, one more kind costs 1
	master   *master
	patterns []setup // to start with
	proofs   []weighing
	best     scheme
	cost     int64
	bound    int64
	// unsettled: counts were left aside for which a plan may yet exist
	unsettled bool
}

const (
	maxTrials     = 60 // counts put to the test
	maxFailed     = 12 // of them that fractions of bars would allow
	trialNodes    = 60
	hastyNodes    = 20 // from hastySizes on: the next counts may be easier
	hastySizes    = 250
	trialRounds   = 200
	trialDeparted = 2
	countsWork    = 30_000_000 // pivots times rows of all trials
	trialWork     = 8_000_000  // pivots times rows of the exact search
)

// improve raises the bound and lowers the cost until they meet or the trials
// are used up.
func (b *barCounts) improve() {
	n := b.task.need()
	b.counts = newCounting(b.task, n, b.proofs)
	b.setUpTrial(n)
	for range maxTrials {
		if b.cost <= b.bound || b.master.lp.pivots >= b.master.limit || !b.counts.search(b.cost) {
			return
		}
		if b.counts.found == nil {
			if !b.unsettled {
				b.bound = b.cost
			}
			return
		}
		if !b.unsettled {
			b.bound = max(b.bound, b.counts.cost)
		}
		if b.cost <= b.bound || len(b.counts.barred) >= maxFailed {
			return
		}
		b.try(n, b.counts.found)
	}
}

// setUpTrial makes the task in which counts are tried.
func (b *barCounts) setUpTrial(n need) {
	t := b.task
	b.trial = &task{sizes: t.sizes, demand: t.demand, runs: t.runs, most: t.most, step: 1}
	b.trial.bars = append(b.trial.bars, bar{size: t.bars[0].size, price: 1})
	for k, kind := range t.bars {
		kind.price, kind.stock = 0, k
		kind.limit = none
		if t.bars[k].price == 0 {
			kind.limit = n.bars[k]
		}
		b.trial.bars = append(b.trial.bars, kind)
	}
	b.master = newMaster(b.trial)
	b.master.limit = countsWork / len(b.master.lp.basis)
	for _, s := range b.best.setups {
		b.master.addPattern(s.bar+1, s.cuts)
	}
	for _, s := range b.patterns {
		if len(s.cuts) > 0 {
			b.master.addPattern(s.bar+1, s.cuts)
		}
	}
}

// try tests one vector of counts.
func (b *barCounts) try(n need, counts []int64) {
	for i, k := range b.counts.kinds {
		b.trial.bars[k+1].limit = int(counts[i])
		if counts[i] == 0 {
			b.trial.bars[k+1].limit = none
		}
	}
	b.master.strict = false
	b.master.setNeed(b.trial.need())
	b.master.optimise(trialRounds, 1)
	if b.master.bound > 0 {
		w := weighing{b.master.proof.weights, b.master.proof.most[1:]}
		b.proofs = append(b.proofs, w)
		b.counts.add(b.task, n, w)
		return
	}
	d := dive{master: b.master, cost: 1 << 40, target: 0, nodes: trialNodes, rounds: diveRounds}
	if len(b.trial.sizes) >= hastySizes {
		d.nodes = hastyNodes
	}
	d.work = b.master.limit
	b.master.strict = true
	d.search(trialDeparted)
	result, plan := planFound, d.best
	switch {
	case d.cost > 0 && len(b.trial.runs) > 0:
		result = unsettled
	case d.cost > 0:
		b.master.setNeed(b.trial.need())
		result, plan.setups = exhaust(b.master, 0, trialWork)
	}
	if result != planFound {
		b.counts.barred = append(b.counts.barred, slices.Clone(counts))
		b.unsettled = b.unsettled || result == unsettled
		return
	}
	var setups cutting
	for _, s := range plan.setups {
		setups = append(setups, setup{s.bar - 1, s.cuts, s.times})
	}
	b.best = scheme{b.task.swap(setups), plan.splits}
	b.cost = b.best.setups.cost(b.task)
}
