package trim

import "slices"

// need is what is still to be cut, and how many bars of each kind are left.
type need struct {
	pieces []int // of each size
	bars   []int // of each kind; unlimited when any number may be used
	runs   []int // still to be split; their parts are no pieces yet
	splits []splitRuns
}

const (
	unlimited = 1 << 40
	none      = -1 // the limit of a bar that may not be used
)

// need is the whole task.
func (t *task) need() need {
	n := need{pieces: slices.Clone(t.demand), bars: make([]int, len(t.bars))}
	for _, r := range t.runs {
		n.runs = append(n.runs, r.count)
	}
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

func (n need) clone() need {
	return need{slices.Clone(n.pieces), slices.Clone(n.bars), slices.Clone(n.runs), slices.Clip(n.splits)}
}

// most is how many pieces of each size may still be cut, however runs are split.
func (n need) most(t *task) []int {
	if !n.splitting() {
		return n.pieces
	}
	most := slices.Clone(n.pieces)
	for j, r := range t.runs {
		for i, k := range r.most {
			most[i] += k * n.runs[j]
		}
	}
	return most
}

// splitting says that runs are still to be split.
func (n need) splitting() bool {
	return slices.ContainsFunc(n.runs, func(k int) bool { return k > 0 })
}

// split splits some runs and makes their parts pieces.
func (n *need) split(t *task, s splitRuns) {
	n.runs[s.run] -= s.times
	for _, c := range t.runs[s.run].splits[s.split].parts {
		n.pieces[c.piece] += c.n * s.times
	}
	n.splits = append(n.splits, s)
}

// splitAll splits all runs in the way that choose says.
func (n *need) splitAll(t *task, choose func(run) int) {
	for j, k := range n.runs {
		if k > 0 {
			n.split(t, splitRuns{j, choose(t.runs[j]), k})
		}
	}
}

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
func (n need) holds(cuts []cut) bool { return holds(n.pieces, cuts) }

// holds says that the cuts are among so many pieces of each size.
func holds(pieces []int, cuts []cut) bool {
	for _, c := range cuts {
		if pieces[c.piece] < c.n {
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
