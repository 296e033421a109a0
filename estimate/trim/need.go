package trim

import "slices"

// need is what is still to be cut, and how many bars of each kind are left.
type need struct {
	pieces []int // of each size
	bars   []int // of each kind; unlimited when any number may be used
}

const (
	unlimited = 1 << 40
	none      = -1 // the limit of a bar that may not be used
)

// need is the whole task.
func (t *task) need() need {
	n := need{slices.Clone(t.demand), make([]int, len(t.bars))}
	for k, b := range t.bars {
		switch b.limit {
		case 0:
			n.bars[k] = unlimited
		case none:
			n.bars[k] = 0
		default:
			n.bars[k] = b.limit
		}
	}
	return n
}

func (n need) clone() need { return need{slices.Clone(n.pieces), slices.Clone(n.bars)} }

// longest is the index of the longest size still wanted at or after from, or
// -1.
func (n need) longest(from int) int {
	for i := from; i < len(n.pieces); i++ {
		if n.pieces[i] > 0 {
			return i
		}
	}
	return -1
}

// holds says that all the cuts are still wanted.
func (n need) holds(cuts []cut) bool {
	for _, c := range cuts {
		if n.pieces[c.piece] < c.n {
			return false
		}
	}
	return true
}

// take makes the setup, which must be wanted, as often as it is wanted and
// bars last, but not more often than it says. It returns what was made.
func (n need) take(s setup) setup {
	s.times = min(s.times, n.bars[s.bar])
	for _, c := range s.cuts {
		s.times = min(s.times, n.pieces[c.piece]/c.n)
	}
	for _, c := range s.cuts {
		n.pieces[c.piece] -= s.times * c.n
	}
	if n.bars[s.bar] != unlimited {
		n.bars[s.bar] -= s.times
	}
	return s
}

// adapt fits a bar's cuts to what is still wanted: a piece that is not gives
// way to the longest wanted one that is no longer, and what room is left goes
// to the longest pieces that fit.
func (t *task) adapt(n need, bar int, cuts []cut) []cut {
	room := t.bars[bar].size
	taken := map[int]int{}
	place := func(from, most, within int) int {
		placed := 0
		for i := from; i < len(n.pieces) && placed < most; i++ {
			fit := min(n.pieces[i]-taken[i], most-placed, within/t.sizes[i])
			if fit > 0 {
				taken[i] += fit
				placed += fit
				room -= fit * t.sizes[i]
				within = min(within, room)
			}
		}
		return placed
	}
	for _, c := range cuts {
		place(c.piece, c.n, min(room, c.n*t.sizes[c.piece]))
	}
	place(0, unlimited, room)
	adapted := make([]cut, 0, len(taken))
	for i, k := range taken {
		adapted = append(adapted, cut{i, k})
	}
	slices.SortFunc(adapted, compareCut)
	return adapted
}

// use makes a pattern times over, adapted to what is still wanted each time
// that changes. It returns what was made.
func (t *task) use(n need, s setup) cutting {
	var made cutting
	for s.times > 0 && n.bars[s.bar] > 0 {
		cuts := t.adapt(n, s.bar, s.cuts)
		if len(cuts) == 0 {
			break
		}
		once := n.take(setup{s.bar, cuts, s.times})
		s.times -= once.times
		made = append(made, once)
	}
	return made
}
