package trim

import (
	"math/bits"
	"slices"
)

// filler finds the pieces that fill a bar best: the sums that the pieces can
// reach are kept as bits, for the sizes from each place in the order on.
type filler struct {
	task  *task
	grain int   // what sums are counted in
	sizes []int // of the task's pieces in grains, rounded up
	order []int // the sizes still wanted
	reach [][]uint64
	sums  []uint64 // that reach is parts of
}

func newFiller(t *task) filler {
	f := filler{task: t, grain: grain(t.sizes, t.bars[0].size)}
	for _, size := range t.sizes {
		f.sizes = append(f.sizes, (size+f.grain-1)/f.grain)
	}
	return f
}

// room is a bar in grains.
func (f *filler) room(bar int) int { return f.task.bars[bar].size / f.grain }

const (
	fineSums = 1 << 16 // sums up to which units are counted one by one
	seeds    = 8       // sizes that a grain is looked for from
	fewOdd   = 4       // one size of so many may be odd
)

// grain is what the sums of a filling are counted in: a unit or, where bars are
// many units long, the greatest common divisor of nearly all sizes. One odd
// length, such as a slanted wall's, would otherwise make a unit of the finest
// measure and every filling hundreds of times slower; with grains it is rounded
// up to the next, and no more than that of a bar is lost.
func grain(sizes []int, longest int) int {
	best, fewest := 1, len(sizes)/fewOdd
	if longest <= fineSums {
		return best
	}
	for _, seed := range sizes[:min(seeds, len(sizes))] {
		common, odd := seed, 0
		for _, size := range sizes {
			if g := int(gcd(int64(common), int64(size))); longest/g <= fineSums {
				common = g
			} else {
				odd++
			}
		}
		if odd < fewest || odd == fewest && common > best {
			best, fewest = common, odd
		}
	}
	return best
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
	if f.work(len(f.order)) > maxFillWork || !f.fits(n, first) {
		bar := t.barFor(t.sizes[first], n.bars)
		return bar, t.adapt(n, bar, []cut{{first, 1}})
	}
	n.pieces[first]--
	defer func() { n.pieces[first]++ }()
	f.spread(n, f.room(0)-f.sizes[first])
	bar, used := f.choose(n, first)
	cuts := []cut{{first, 1}}
	rest := used - f.sizes[first]
	for at, i := range f.order {
		k := min(n.pieces[i], rest/f.sizes[i])
		for ; k > 0 && !f.reaches(at+1, rest-k*f.sizes[i]); k-- {
		}
		rest -= k * f.sizes[i]
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

// fits tells whether a bar that is left holds a size rounded up to grains.
func (f *filler) fits(n need, size int) bool {
	for k := range f.task.bars {
		if n.bars[k] > 0 && f.room(k) >= f.sizes[size] {
			return true
		}
	}
	return false
}

// work is the words of one filling with so many sizes.
func (f *filler) work(sizes int) int { return (f.room(0)/64 + 1) * sizes }

// choose is the bar with the least price for the length used, and that length in
// grains.
func (f *filler) choose(n need, first int) (bar, used int) {
	t := f.task
	bar = -1
	for k, b := range t.bars {
		if n.bars[k] <= 0 || f.room(k) < f.sizes[first] {
			continue
		}
		u := f.sizes[first] + f.fullest(f.room(k)-f.sizes[first])
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
		left := min(n.pieces[i], room/f.sizes[i])
		for k := 1; left > 0; k *= 2 { // 1, 2, 4, ... and the rest make any number
			k = min(k, left)
			left -= k
			shiftOr(sums, k*f.sizes[i])
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
