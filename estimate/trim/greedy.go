package trim

import (
	"cmp"
	"slices"
)

// firstFit is the first-fit decreasing rule: see Greedy.
func (t *task) firstFit() scheme {
	n := t.need()
	n.splitAll(t, run.byRule)
	left := n.bars
	var open []openBar
	room := newRoomTree()
	for i, size := range t.sizes {
		for range n.pieces[i] {
			at := room.first(size)
			if at < 0 {
				k := t.barFor(size, left)
				left[k]--
				at = len(open)
				open = append(open, openBar{bar: k})
				room.add(t.bars[k].size)
			}
			open[at].put(i)
			room.take(at, size)
		}
	}
	return scheme{t.swap(group(open)), n.splits}
}

// barFor is the bar with the lowest price for its length that holds the size:
// the longest of equals, but the shortest of those that cost nothing.
func (t *task) barFor(size int, left []int) int {
	best := -1
	for k, b := range t.bars {
		if b.size < size || left[k] <= 0 {
			continue
		}
		if best < 0 {
			best = k
			continue
		}
		a := t.bars[best]
		order := cmp.Compare(float64(b.price)/float64(b.size), float64(a.price)/float64(a.size))
		if order < 0 || order == 0 && b.price == 0 {
			best = k
		}
	}
	return best
}

// openBar is a bar that is being filled.
type openBar struct {
	bar  int
	cuts []cut
}

func (b *openBar) put(piece int) {
	if n := len(b.cuts); n > 0 && b.cuts[n-1].piece == piece {
		b.cuts[n-1].n++
		return
	}
	b.cuts = append(b.cuts, cut{piece, 1})
}

// group joins equal bars.
func group(open []openBar) cutting {
	slices.SortFunc(open, func(a, b openBar) int {
		return cmp.Or(cmp.Compare(a.bar, b.bar), slices.CompareFunc(a.cuts, b.cuts, compareCut))
	})
	var c cutting
	for _, b := range open {
		last := len(c) - 1
		if last >= 0 && c[last].bar == b.bar && slices.Equal(c[last].cuts, b.cuts) {
			c[last].times++
			continue
		}
		c = append(c, setup{b.bar, b.cuts, 1})
	}
	return c
}

func compareCut(a, b cut) int {
	return cmp.Or(cmp.Compare(a.piece, b.piece), cmp.Compare(b.n, a.n))
}

// swap exchanges every bar for the cheapest that still holds its pieces and is
// not used up; bars that would save most go first.
func (t *task) swap(c cutting) cutting {
	if len(t.bars) == 1 {
		return c
	}
	left := t.need().bars
	for _, s := range c {
		left[s.bar] -= s.times
	}
	slices.SortStableFunc(c, func(a, b setup) int {
		return cmp.Or(cmp.Compare(t.bars[b.bar].price, t.bars[a.bar].price), cmp.Compare(t.used(a.cuts), t.used(b.cuts)))
	})
	var swapped cutting
	for _, s := range c {
		used := t.used(s.cuts)
		for s.times > 0 {
			k := t.cheapest(used, left, s.bar)
			n := s.times
			if k != s.bar {
				n = min(n, left[k])
			}
			left[s.bar] += n
			left[k] -= n
			swapped = append(swapped, setup{k, s.cuts, n})
			s.times -= n
		}
	}
	return swapped
}

// used is the total size of the cuts.
func (t *task) used(cuts []cut) int {
	sum := 0
	for _, c := range cuts {
		sum += t.sizes[c.piece] * c.n
	}
	return sum
}

// cheapest is the bar kind of the lowest price that holds used; now is kept
// among equals.
func (t *task) cheapest(used int, left []int, now int) int {
	for k, b := range t.bars {
		if b.size >= used && left[k] > 0 && b.price < t.bars[now].price {
			now = k
		}
	}
	return now
}

// roomTree finds the first of many bars with room for a size: a binary tree of
// the largest room below each node.
type roomTree struct {
	room   []int // 1-based heap; the leaves start at leaves
	leaves int
	n      int
}

func newRoomTree() *roomTree { return &roomTree{room: make([]int, 16), leaves: 8} }

// first is the index of the first bar with room for the size, or -1.
func (r *roomTree) first(size int) int {
	if r.room[1] < size {
		return -1
	}
	at := 1
	for at < r.leaves {
		at *= 2
		if r.room[at] < size {
			at++
		}
	}
	return at - r.leaves
}

// add appends a bar.
func (r *roomTree) add(room int) {
	if r.n == r.leaves {
		old := r.room[r.leaves:]
		r.leaves *= 2
		r.room = make([]int, 2*r.leaves)
		copy(r.room[r.leaves:], old)
		for at := r.leaves - 1; at > 0; at-- {
			r.room[at] = max(r.room[2*at], r.room[2*at+1])
		}
	}
	r.n++
	r.take(r.n-1, -room)
}

// take makes the room of a bar smaller by a size.
func (r *roomTree) take(at, size int) {
	at += r.leaves
	r.room[at] -= size
	for at /= 2; at > 0; at /= 2 {
		r.room[at] = max(r.room[2*at], r.room[2*at+1])
	}
}
