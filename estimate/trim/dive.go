package trim

import (
	"math"
	"slices"
)

// dive rounds solutions of the linear programme to plans: it makes whole bars
// of the patterns that the programme makes most, solves it again for the rest,
// and so on down; where that fails it goes back and leaves out the first choice
// (limited discrepancy search, Harvey, Ginsberg 1995).
type dive struct {
	master *master
	best   scheme
	cost   int64
	target int64 // a plan this cheap ends the search
	nodes  int   // linear programmes still allowed
	rounds int   // pricing rounds for each of them
	random random
	work   int // pivots of the simplex method, over all its life, that end the search
}

// search dives with up to so many discrepancies in the first levels.
func (d *dive) search(discrepancies int) {
	if d.master.coarse() {
		discrepancies = 0 // one way down; the rest of the way has them
	}
	for n := 0; n <= discrepancies && d.cost > d.target && d.nodes > 0; n++ {
		d.descend(d.master.task.need(), nil, n, maxDiscrepancyLevel)
	}
}

const maxDiscrepancyLevel = 4

// descend completes the plan made so far. Exactly n discrepancies are made, all
// of them in the next levels.
func (d *dive) descend(left need, made cutting, n, levels int) {
	m, t := d.master, d.master.task
	for d.nodes > 0 && d.cost > d.target && m.lp.pivots < d.work {
		spent := made.cost(t)
		if left.longest(0) < 0 && !left.splitting() {
			d.offer(scheme{made, left.splits})
			return
		}
		if m.coarse() && d.finish(left, made) {
			return
		}
		d.nodes--
		m.setNeed(left)
		value := m.optimise(d.rounds, d.cost-spent)
		if spent+max(m.bound, m.attainable(value)) >= d.cost {
			return
		}
		shares := m.shares()
		if len(shares) == 0 {
			return
		}
		left = left.clone()
		if left.splitting() {
			m.split(&left)
			continue
		}
		made = slices.Clip(made)
		if m.coarse() {
			d.fixNear(left, &made, shares)
			continue
		}
		whole := fixWhole(t, left, &made, shares)
		d.round(left, made, shares)
		parts := fractions(shares)
		if len(parts) == 0 && !whole {
			return
		}
		if n > 0 && levels > 0 && len(parts) > 1 {
			for k := 1; k <= n && k < len(parts); k++ {
				d.descendWith(left, made, parts[k], n-k, levels-1)
			}
		}
		if n > 0 && levels == 0 {
			return
		}
		levels--
		d.fix(left, &made, parts)
	}
}

// descendWith descends with one bar of the pattern made.
func (d *dive) descendWith(left need, made cutting, s share, n, levels int) {
	left = left.clone()
	made = append(slices.Clip(made), d.master.task.use(left, setup{s.bar, s.cuts, 1})...)
	d.descend(left, made, n, levels)
}

// fix makes one bar of the pattern with the largest fraction, and of all others
// that are nearly whole.
func (d *dive) fix(left need, made *cutting, parts []share) {
	for i, s := range parts {
		if i > 0 && (s.value < 0.9 || !left.holds(s.cuts)) && i > len(parts)/40 {
			break
		}
		*made = append(*made, d.master.task.use(left, setup{s.bar, s.cuts, 1})...)
	}
}

// fixWhole makes the whole bars of the solution.
func fixWhole(t *task, left need, made *cutting, shares []share) bool {
	whole := false
	for _, s := range shares {
		if times := int(s.value + 1e-3); times > 0 {
			*made = append(*made, t.use(left, setup{s.bar, s.cuts, times})...)
			whole = true
		}
	}
	return whole
}

// fractions is the shares without their whole bars, the largest first.
func fractions(shares []share) []share {
	var parts []share
	for _, s := range shares {
		s.value -= math.Floor(s.value + 1e-3)
		if s.value > 1e-3 {
			parts = append(parts, s)
		}
	}
	slices.SortStableFunc(parts, func(a, b share) int {
		switch {
		case a.value > b.value:
			return -1
		case a.value < b.value:
			return 1
		}
		return 0
	})
	return parts
}

// round completes the plan in simple ways: greedily, and after rounding up the
// larger fractions that still fit; where there are many sizes, also at random.
func (d *dive) round(left need, made cutting, shares []share) {
	t := d.master.task
	for _, least := range []float64{2, 0.5, 0.3} {
		rest := left.clone()
		plan := slices.Clip(made)
		for _, s := range fractions(shares) {
			if s.value >= least && rest.holds(s.cuts) {
				plan = append(plan, t.use(rest, setup{s.bar, s.cuts, 1})...)
			}
		}
		plan = slices.Clip(plan)
		fill := &d.master.filler
		d.offer(scheme{append(plan, fill.fillAll(rest.clone())...), rest.splits})
		for k := 0; k < randomFills && len(t.sizes) >= manySizes && d.cost > d.target; k++ {
			d.offer(scheme{append(plan, fill.fillAtRandom(rest.clone(), &d.random)...), rest.splits})
		}
	}
}

const randomFills = 4 // of each rounding

// offer keeps a plan that is cheaper than the best.
func (d *dive) offer(plan scheme) {
	plan.setups = d.master.task.swap(slices.Clone(plan.setups))
	if c := plan.setups.cost(d.master.task); c < d.cost {
		d.best, d.cost = plan, c
	}
}
