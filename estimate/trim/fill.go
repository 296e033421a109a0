package trim

import (
	"math/bits"
	"slices"
)

// filler finds the pieces that fill a bar best: the sums that the pieces can
// reach are kept as bits, for the sizes from each place in the order on.
type filler struct {
	task  *task
	order []int // the sizes still wanted
	reach [][]uint64
	sums  []uint64 // that reach is parts of
}

// fillAll is a greedy plan for what is still wanted: the longest piece left
// goes into the bar that can be filled at the least price for the length used,
// together with the pieces that fill it best; that pattern is repeated while
// the pieces last. The need is used up.
func (f *filler) fillAll(n need) cutting { return f.fillInOrder(n, func([]int) {}) }

// fillAtRandom is fillAll, but what goes with the longest piece is chosen at
// random among all that fills the bar as well.
func (f *filler) fillAtRandom(n need, r *random) cutting { return f.fillInOrder(n, r.shuffle) }

// fillInOrder is fillAll with the sizes arranged anew for every bar.
func (f *filler) fillInOrder(n need, arrange func(sizes []int)) cutting {
	var made cutting
	for {
		first := n.longest(0)
		if first < 0 {
			return made
		}
		f.order = f.order[:0]
		for i := first; i < len(n.pieces); i++ {
			if n.pieces[i] > 0 {
				f.order = append(f.order, i)
			}
		}
		arrange(f.order)
		bar, cuts := f.fill(n, first)
		made = append(made, n.take(setup{bar, cuts, unlimited}))
	}
}

// maxFillWork limits the words of one filling; beyond it the longest pieces
// that fit are taken.
const maxFillWork = 2_000_000

// fill chooses a bar for the longest piece and what goes with it.
func (f *filler) fill(n need, first int) (int, []cut) {
	t := f.task
	if t.fillWork(len(f.order)) > maxFillWork {
		bar := t.barFor(t.sizes[first], n.bars)
		return bar, t.adapt(n, bar, []cut{{first, 1}})
	}
	n.pieces[first]--
	defer func() { n.pieces[first]++ }()
	f.spread(n, t.bars[0].size-t.sizes[first])
	bar, used := f.choose(n, first)
	cuts := []cut{{first, 1}}
	rest := used - t.sizes[first]
	for at, i := range f.order {
		k := min(n.pieces[i], rest/t.sizes[i])
		for ; k > 0 && !f.reaches(at+1, rest-k*t.sizes[i]); k-- {
		}
		rest -= k * t.sizes[i]
		switch {
		case k > 0 && i == first:
			cuts[0].n += k
		case k > 0:
			cuts = append(cuts, cut{i, k})
		}
	}
	slices.SortFunc(cuts, compareCut)
	return bar, cuts
}

// fillWork is the words of one filling with so many sizes.
func (t *task) fillWork(sizes int) int { return (t.bars[0].size/64 + 1) * sizes }

// choose is the bar with the least price for the length used, and that length.
func (f *filler) choose(n need, first int) (bar, used int) {
	t := f.task
	bar = -1
	for k, b := range t.bars {
		if n.bars[k] <= 0 || b.size < t.sizes[first] {
			continue
		}
		u := t.sizes[first] + f.fullest(b.size-t.sizes[first])
		if bar >= 0 {
			a := t.bars[bar]
			now, best := float64(b.price)*float64(used), float64(a.price)*float64(u)
			if now > best || now == best && u*a.size <= used*b.size {
				continue
			}
		}
		bar, used = k, u
	}
	return bar, used
}

// spread sets the sums up to room that the wanted pieces from each place in the
// order on can reach.
func (f *filler) spread(n need, room int) {
	t := f.task
	words := room/64 + 1
	for len(f.reach) <= len(f.order) {
		f.reach = append(f.reach, nil)
	}
	all := words * (len(f.order) + 1)
	if cap(f.sums) < all {
		f.sums = make([]uint64, all)
	}
	at := func(i int) []uint64 {
		f.reach[i] = f.sums[i*words:][:words:words]
		return f.reach[i]
	}
	last := at(len(f.order))
	clear(last)
	last[0] = 1
	for p, i := range slices.Backward(f.order) {
		sums := at(p)
		copy(sums, f.reach[p+1])
		left := min(n.pieces[i], room/t.sizes[i])
		for k := 1; left > 0; k *= 2 { // 1, 2, 4, ... and the rest make any number
			k = min(k, left)
			left -= k
			shiftOr(sums, k*t.sizes[i])
		}
	}
	keepTo(f.reach[0], room)
}

// shiftOr adds the sums shifted up by size.
func shiftOr(sums []uint64, size int) {
	words, shift := size/64, uint(size%64)
	for i := len(sums) - 1; i >= words; i-- {
		v := sums[i-words] << shift
		if shift > 0 && i > words {
			v |= sums[i-words-1] >> (64 - shift)
		}
		sums[i] |= v
	}
}

// keepTo drops the sums above room.
func keepTo(sums []uint64, room int) {
	if r := uint(room%64) + 1; r < 64 {
		sums[len(sums)-1] &= 1<<r - 1
	}
}

func (f *filler) reaches(i, sum int) bool { return f.reach[i][sum/64]>>(uint(sum)%64)&1 == 1 }

// fullest is the greatest sum up to room.
func (f *filler) fullest(room int) int {
	sums := f.reach[0]
	w := room / 64
	v := sums[w]
	if r := uint(room%64) + 1; r < 64 {
		v &= 1<<r - 1
	}
	for v == 0 {
		w--
		v = sums[w]
	}
	return w*64 + 63 - bits.LeadingZeros64(v)
}
