package trim

import (
	"cmp"
	"math"
	"slices"
)

// nodes is the sizes that have a dual price of their own, and so a row in the
// linear programme. The price of a size between two of them lies on the straight
// line through theirs. So orders of a thousand sizes and more are priced with a
// tenth as many rows; whatever the prices, what they prove is exact.
type nodes struct {
	sizes []int     // of the nodes: rising piece indices, the first and the last among them
	at    []int32   // of each size: the node at or before it
	share []float64 // of each size: how much of its price is that node's; the rest is the next one's
}

// everySize makes every size a node.
func everySize(t *task) nodes {
	all := make([]int, len(t.sizes))
	for i := range all {
		all[i] = i
	}
	return newNodes(t, all)
}

// evenNodes is so many nodes spread evenly over the sizes.
func evenNodes(t *task, n int) nodes {
	sizes := make([]int, n)
	for k := range sizes {
		sizes[k] = k * (len(t.sizes) - 1) / (n - 1)
	}
	return newNodes(t, sizes)
}

func newNodes(t *task, sizes []int) nodes {
	n := nodes{sizes: sizes, at: make([]int32, len(t.sizes)), share: make([]float64, len(t.sizes))}
	for k, i := range sizes {
		n.at[i], n.share[i] = int32(k), 1
		if k+1 == len(sizes) {
			break
		}
		next := sizes[k+1]
		for j := i + 1; j < next; j++ {
			n.at[j] = int32(k)
			n.share[j] = float64(t.sizes[j]-t.sizes[next]) / float64(t.sizes[i]-t.sizes[next])
		}
	}
	return n
}

// entries is what the cuts come to in the rows of the nodes.
func (n nodes) entries(cuts []cut) entries {
	var e entries
	add := func(row int32, x float64) {
		for k := len(e.row) - 1; k >= 0 && e.row[k] >= row; k-- {
			if e.row[k] == row {
				e.value[k] += x
				return
			}
		}
		e.row, e.value = append(e.row, row), append(e.value, x)
	}
	for _, c := range cuts {
		share := n.share[c.piece]
		add(n.at[c.piece], float64(float64(c.n)*share))
		if share < 1 {
			add(n.at[c.piece]+1, float64(float64(c.n)*(1-share)))
		}
	}
	return e
}

// spread is what so many pieces of each size come to in the rows.
func (n nodes) spread(pieces []int) []float64 {
	sums := make([]float64, len(n.sizes))
	for i, d := range pieces {
		k, share := n.at[i], n.share[i]
		sums[k] += float64(float64(d) * share)
		if share < 1 {
			sums[k+1] += float64(float64(d) * (1 - share))
		}
	}
	return sums
}

// price is the dual price of a size.
func (n nodes) price(y []float64, i int) float64 {
	k, share := n.at[i], n.share[i]
	if share == 1 {
		return y[k]
	}
	return float64(share*y[k]) + float64((1-share)*y[k+1])
}

// refined adds up to more nodes: of each gap between two the size whose own price
// would help most. surplus is, by size, how many pieces the linear programme cuts
// too many.
func (n nodes) refined(t *task, surplus []float64, more int) nodes {
	type offer struct {
		size int
		gain float64
	}
	var offers []offer
	for k := 0; k+1 < len(n.sizes); k++ {
		if i, gain := n.worst(t, surplus, n.sizes[k], n.sizes[k+1]); gain > 1e-6 {
			offers = append(offers, offer{i, gain})
		}
	}
	slices.SortStableFunc(offers, func(a, b offer) int { return cmp.Compare(b.gain, a.gain) })
	sizes := slices.Clone(n.sizes)
	for _, o := range offers[:min(more, len(offers))] {
		sizes = append(sizes, o.size)
	}
	slices.Sort(sizes)
	return newNodes(t, sizes)
}

// worst is the size between two nodes at which a price off the straight line
// would meet the largest surplus or lack, and that surplus in full pieces.
func (n nodes) worst(t *task, surplus []float64, first, last int) (int, float64) {
	// With the price at size i raised by 1, that at j beyond it rises in proportion
	// to its distance from the end of the gap.
	best, most := -1, 0.0
	before, moment := 0.0, 0.0
	after, rest := 0.0, 0.0
	for j := first + 1; j < last; j++ {
		after += surplus[j]
		rest += float64(surplus[j] * float64(t.sizes[j]-t.sizes[last]))
	}
	for i := first + 1; i < last; i++ {
		before += surplus[i]
		moment += float64(surplus[i] * float64(t.sizes[first]-t.sizes[i]))
		after -= surplus[i]
		rest -= float64(surplus[i] * float64(t.sizes[i]-t.sizes[last]))
		sum := moment/float64(t.sizes[first]-t.sizes[i]) + rest/float64(t.sizes[i]-t.sizes[last])
		if g := math.Abs(sum); g > most {
			best, most = i, g
		}
	}
	return best, most
}
