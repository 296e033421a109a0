package trim

import "slices"

// near fits a bar's cuts to what is still wanted, as adapt does, but looks for
// each piece among the wanted ones of about its size for those that together
// leave least of the bar.
func (f *filler) near(n need, bar int, cuts []cut) []cut {
	t := f.task
	room := f.room(bar)
	groups := t.likes(n, cuts)
	if f.work(len(groups)*alike) > maxFillWork {
		return t.adapt(n, bar, cuts)
	}
	f.pick(groups, room)
	sum := f.fullest(room)
	taken := map[int]int{}
	for g, group := range groups {
		for _, i := range group {
			if size := f.sizes[i]; size <= sum && f.reaches(g+1, sum-size) {
				taken[i]++
				sum -= size
				break
			}
		}
	}
	picked := make([]cut, 0, len(taken))
	for i, k := range taken {
		picked = append(picked, cut{i, k})
	}
	slices.SortFunc(picked, compareCut)
	return t.adapt(n, bar, picked)
}

// likes is, for every piece of the cuts, the wanted sizes nearest to it. No piece
// is in two groups.
func (t *task) likes(n need, cuts []cut) [][]int {
	spoken := map[int]int{}
	var groups [][]int
	for _, c := range cuts {
		for range c.n {
			groups = append(groups, nil)
		}
	}
	for range alike {
		g := 0
		for _, c := range cuts {
			for range c.n {
				if i := t.nearest(n, c.piece, spoken); i >= 0 {
					spoken[i]++
					groups[g] = append(groups[g], i)
				}
				g++
			}
		}
	}
	return groups
}

// nearest is the wanted size nearest to that of a piece, beyond those spoken
// for, or -1.
func (t *task) nearest(n need, piece int, spoken map[int]int) int {
	free := func(i int) bool { return n.pieces[i] > spoken[i] }
	longer, shorter := piece, piece+1
	for longer >= 0 && !free(longer) {
		longer--
	}
	for shorter < len(t.sizes) && !free(shorter) {
		shorter++
	}
	switch {
	case longer < 0 && shorter == len(t.sizes):
		return -1
	case longer < 0, shorter < len(t.sizes) && t.sizes[piece]-t.sizes[shorter] < t.sizes[longer]-t.sizes[piece]:
		return shorter
	}
	return longer
}

// pick sets the sums up to room that one or none of each group, from each group on,
// can reach.
func (f *filler) pick(groups [][]int, room int) {
	words := room/64 + 1
	for len(f.reach) <= len(groups) {
		f.reach = append(f.reach, nil)
	}
	if all := words * (len(groups) + 1); cap(f.sums) < all {
		f.sums = make([]uint64, all)
	}
	for g := len(groups); g >= 0; g-- {
		sums := f.sums[g*words:][:words:words]
		f.reach[g] = sums
		if g == len(groups) {
			clear(sums)
			sums[0] = 1
			continue
		}
		below := f.reach[g+1]
		copy(sums, below)
		for _, i := range groups[g] {
			orShifted(sums, below, f.sizes[i])
		}
	}
	keepTo(f.reach[0], room)
}

// orShifted adds the sums of below shifted up by size.
func orShifted(sums, below []uint64, size int) {
	words, shift := size/64, uint(size%64)
	for i := len(sums) - 1; i >= words; i-- {
		v := below[i-words] << shift
		if shift > 0 && i > words {
			v |= below[i-words-1] >> (64 - shift)
		}
		sums[i] |= v
	}
}
