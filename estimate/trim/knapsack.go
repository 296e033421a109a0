package trim

import "slices"

// A knapsack finds the heaviest cuts that fit a bar, for all kinds of bars at
// once. It keeps the list of sets of cuts that no other set beats in both size
// and weight, adds the sizes one after the other, most weight for its size
// first, and drops every set that cannot get above what is asked for any more
// (dynamic programming over lists, with bounds: Pisinger 1997 from memory).

// knapsack holds the work space; it may be used again and again.
type knapsack struct {
	sets  []set
	front []int32 // sets not beaten, by rising size
	added []int32
	merge []int32
	order []int
	// floors: a set matters only while it may outweigh one of them
	floors []int64
	best   []int64
	least  []float64 // by bar: what a set must still be able to outweigh
}

// set is a set of cuts: the set before it and one more piece.
type set struct {
	size   int
	weight int64
	before int32
	piece  int32
	n      int32 // pieces of this size in the set
}

// maxSets limits the work of one knapsack.
const maxSets = 20_000_000

// solve fills best: for every bar the greatest weight of cuts fitting it, or
// its floor when nothing is heavier. Sets that cannot lie above the floor by
// more than share of the best excess are dropped. It returns false when the
// work limit was reached: then best may be too low.
func (ks *knapsack) solve(t *task, demand []int, weights []int64, floors []int64, share float64) bool {
	ks.start(t, demand, weights, floors)
	for at, i := range ks.order {
		next := -1
		if at+1 < len(ks.order) {
			next = ks.order[at+1]
		}
		ks.add(t, i, min(demand[i], t.bars[0].size/t.sizes[i]), weights[i])
		ks.prune(t, next, weights, share)
		if len(ks.sets) > maxSets {
			return false
		}
	}
	return true
}

func (ks *knapsack) start(t *task, demand []int, weights []int64, floors []int64) {
	ks.sets = append(ks.sets[:0], set{before: -1, piece: -1})
	ks.front = append(ks.front[:0], 0)
	ks.floors = append(ks.floors[:0], floors...)
	ks.best = append(ks.best[:0], floors...)
	ks.order = ks.order[:0]
	for i := range t.sizes {
		if weights[i] > 0 && demand[i] > 0 && t.sizes[i] <= t.bars[0].size {
			ks.order = append(ks.order, i)
		}
	}
	slices.SortFunc(ks.order, func(a, b int) int {
		x := float64(weights[a]) * float64(t.sizes[b])
		y := float64(weights[b]) * float64(t.sizes[a])
		switch {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return a - b
	})
}

// add makes up to n pieces of size i part of the sets.
func (ks *knapsack) add(t *task, i, n int, weight int64) {
	size, room := t.sizes[i], t.bars[0].size
	ks.added = append(ks.added[:0], ks.front...)
	for copies := int32(1); int(copies) <= n && len(ks.added) > 0; copies++ {
		first := int32(len(ks.sets))
		for _, at := range ks.added {
			s := ks.sets[at]
			if s.size+size > room {
				break
			}
			ks.sets = append(ks.sets, set{s.size + size, s.weight + weight, at, int32(i), copies})
		}
		ks.mergeFrom(first)
	}
}

// mergeFrom merges the sets from first on into the front and leaves in added
// those that no other beats.
func (ks *knapsack) mergeFrom(first int32) {
	ks.added, ks.merge = ks.added[:0], ks.merge[:0]
	old, fresh := 0, first
	top := int64(-1)
	for old < len(ks.front) || int(fresh) < len(ks.sets) {
		takeOld := int(fresh) >= len(ks.sets)
		if !takeOld && old < len(ks.front) {
			a, b := &ks.sets[ks.front[old]], &ks.sets[fresh]
			takeOld = a.size < b.size || a.size == b.size && a.weight >= b.weight
		}
		at := fresh
		if takeOld {
			at = ks.front[old]
			old++
		} else {
			fresh++
		}
		if w := ks.sets[at].weight; w > top {
			top = w
			ks.merge = append(ks.merge, at)
			if !takeOld {
				ks.added = append(ks.added, at)
			}
		}
	}
	ks.front, ks.merge = ks.merge, ks.front
}

// prune notes the best sets and drops those that cannot outweigh a floor with
// any pieces from next on.
func (ks *knapsack) prune(t *task, next int, weights []int64, share float64) {
	for k, b := range t.bars {
		at, _ := slices.BinarySearchFunc(ks.front, b.size+1, func(f int32, size int) int { return ks.sets[f].size - size })
		if at > 0 {
			ks.best[k] = max(ks.best[k], ks.sets[ks.front[at-1]].weight)
		}
	}
	if next < 0 {
		return
	}
	perSize := float64(weights[next]) / float64(t.sizes[next]) * (1 + 1e-12)
	ks.least = ks.least[:0]
	for k := range t.bars {
		ks.least = append(ks.least, float64(ks.floors[k])+float64(share*float64(ks.best[k]-ks.floors[k])))
	}
	kept := ks.front[:0]
	for _, f := range ks.front {
		s := &ks.sets[f]
		for k, b := range t.bars {
			if b.size >= s.size && float64(s.weight)+float64(float64(b.size-s.size)*perSize)+1 > ks.least[k] {
				kept = append(kept, f)
				break
			}
		}
	}
	ks.front = kept
}

// cuts is the cuts of a set by falling size.
func (ks *knapsack) cuts(at int32) []cut {
	var cuts []cut
	for at > 0 {
		s := ks.sets[at]
		cuts = append(cuts, cut{int(s.piece), int(s.n)})
		for p := s.piece; at > 0 && ks.sets[at].piece == p; {
			at = ks.sets[at].before
		}
	}
	slices.SortFunc(cuts, compareCut)
	return cuts
}
