package trim

// Dual-feasible functions give every size a weight such that whatever fits a
// bar weighs at most as much as a full bar. They bound the number of bars of
// one length at the cost of a few sums.

// cheapBound returns the best bound that needs no linear programme, and the
// weighing behind it.
func (t *task) cheapBound() (int64, weighing) {
	best := t.byLength()
	bound := best.bound(t, t.need())
	if len(t.bars) > 1 {
		return bound, best
	}
	b := t.bars[0]
	bars := int64(0)
	w := make([]int64, len(t.sizes))
	try := func(full int64) {
		sum := int64(0)
		for i, d := range t.demand {
			sum += int64(d) * w[i]
		}
		for _, r := range t.runs {
			sum += int64(r.count) * r.least(w)
		}
		if n := (sum + full - 1) / full; n > bars {
			bars = n
			best = weighing{append([]int64(nil), w...), []int64{full}}
		}
	}
	for _, alpha := range t.sizes {
		if 2*alpha <= b.size {
			dropSmall(w, t.sizes, b.size, alpha)
			try(int64(b.size))
		}
	}
	for k := 1; k <= maxRounding; k++ {
		roundDown(w, t.sizes, b.size, k)
		try(int64(b.size) * int64(k))
	}
	for _, lambda := range t.gridSteps(b.size) {
		gridFromEnds(w, t.sizes, b.size, lambda)
		try(2 * int64(b.size/lambda))
	}
	return max(bound, bars*b.price), best
}

const (
	maxRounding = 100       // largest k of roundDown
	maxGridWork = 1_000_000 // sizes weighed by gridFromEnds, about
)

// byLength weighs every size by itself: the material bound.
func (t *task) byLength() weighing {
	w := weighing{make([]int64, len(t.sizes)), make([]int64, len(t.bars))}
	for i, s := range t.sizes {
		w.weights[i] = int64(s)
	}
	for k, b := range t.bars {
		w.most[k] = int64(b.size)
	}
	return w
}

// gridSteps is the steps tried by gridFromEnds: all, or when that is too much
// work those that divide a size or the bar evenly.
func (t *task) gridSteps(full int) []int {
	var steps []int
	if len(t.sizes)*full/2 <= maxGridWork {
		for s := 1; 2*s <= full; s++ {
			steps = append(steps, s)
		}
		return steps
	}
	for _, s := range t.sizes {
		if 2*s <= full {
			steps = append(steps, s)
		}
	}
	for n := 2; n <= maxRounding && full/n > 0; n++ {
		steps = append(steps, full/n)
	}
	return steps
}

// dropSmall lets sizes above full-alpha weigh a full bar and those below alpha
// nothing (Martello, Toth 1990, bound L2); a full bar weighs full.
func dropSmall(w []int64, sizes []int, full, alpha int) {
	for i, s := range sizes {
		switch {
		case s > full-alpha:
			w[i] = int64(full)
		case s >= alpha:
			w[i] = int64(s)
		default:
			w[i] = 0
		}
	}
}

// roundDown rounds the share of the bar down to k-ths of k+1 steps (Fekete,
// Schepers 2001, u(k)); a full bar weighs k times full.
func roundDown(w []int64, sizes []int, full, k int) {
	for i, s := range sizes {
		if (k+1)*s%full == 0 {
			w[i] = int64(s) * int64(k)
		} else {
			w[i] = int64((k + 1) * s / full * full)
		}
	}
}

// gridFromEnds counts steps of lambda, small sizes from their start and large
// ones from the far end of the bar (Carlier, Clautiaux, Moukrim 2007); a full
// bar weighs twice its own steps.
func gridFromEnds(w []int64, sizes []int, full, lambda int) {
	for i, s := range sizes {
		switch {
		case 2*s > full:
			w[i] = 2 * int64(full/lambda-(full-s)/lambda)
		case 2*s == full:
			w[i] = int64(full / lambda)
		default:
			w[i] = 2 * int64(s/lambda)
		}
	}
}
