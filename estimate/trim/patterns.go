package trim

// enumeration lists the patterns that a plan with given numbers of bars can
// still use: in every weighing, the bars of the plan may fall short of the most
// they could carry only by so much in all.
//
// A pattern stays out when a piece could be added, or one exchanged for the
// next longer that is wanted and not all in the pattern: plans that cut too
// many or too long pieces are allowed, so the other pattern does as well.
type enumeration struct {
	task      *task
	need      need
	weighings []weighing
	slack     []int64     // by weighing
	reach     [][][]int64 // by weighing, size and room: most weight of the sizes from there on
	found     []setup
	steps     int
}

const (
	maxPatterns   = 20_000
	maxListSteps  = 3_000_000
	maxReachCells = 12_000_000
)

// list returns all such patterns; ok is false when there are too many.
func (e *enumeration) list() (found []setup, ok bool) {
	t := e.task
	cells := t.reachCells()
	if len(e.weighings) <= len(e.reach) {
		return nil, false
	}
	e.found, e.steps = nil, 0
	e.weighings = e.weighings[:min(len(e.weighings), max(1, maxReachCells/cells))]
	e.slack = e.slack[:len(e.weighings)]
	for _, w := range e.weighings[len(e.reach):] {
		e.reach = append(e.reach, t.reachable(e.need, w.weights))
	}
	sums := make([]int64, len(e.weighings))
	for k, b := range t.bars {
		if e.need.bars[k] > 0 && !e.extend(k, 0, b.size, nil, sums) {
			return nil, false
		}
	}
	return e.found, true
}

// reachCells is the size of the table of one weighing.
func (t *task) reachCells() int { return len(t.sizes) * (t.bars[0].size + 1) }

// reachable is, for each size and room, the greatest weight of wanted pieces
// from that size on that fit the room.
func (t *task) reachable(n need, weights []int64) [][]int64 {
	full := t.bars[0].size
	table := make([][]int64, len(t.sizes)+1)
	table[len(t.sizes)] = make([]int64, full+1)
	for i := len(t.sizes) - 1; i >= 0; i-- {
		table[i] = make([]int64, full+1)
		size, w, below := t.sizes[i], weights[i], table[i+1]
		copy(table[i], below)
		for k := 1; k <= min(n.pieces[i], full/size); k++ {
			for room := k * size; room <= full; room++ {
				table[i][room] = max(table[i][room], below[room-k*size]+int64(k)*w)
			}
		}
	}
	return table
}

// extend completes the cuts with the sizes from i on.
func (e *enumeration) extend(bar, i, room int, cuts []cut, sums []int64) bool {
	e.steps++
	if e.steps > maxListSteps {
		return false
	}
	for q, w := range e.weighings {
		if sums[q]+e.reach[q][i][room] < w.most[bar]-e.slack[q] {
			return true
		}
	}
	if i == len(e.task.sizes) {
		if e.undominated(cuts, room) {
			e.found = append(e.found, setup{bar, append([]cut(nil), cuts...), 0})
		}
		return len(e.found) <= maxPatterns
	}
	size := e.task.sizes[i]
	next := make([]int64, len(sums))
	for k := min(e.need.pieces[i], room/size); k >= 0; k-- {
		for q, w := range e.weighings {
			next[q] = sums[q] + int64(k)*w.weights[i]
		}
		with := cuts
		if k > 0 {
			with = append(cuts[:len(cuts):len(cuts)], cut{i, k})
		}
		if !e.extend(bar, i+1, room-k*size, with, next) {
			return false
		}
	}
	return true
}

// undominated says that no wanted piece fits the room, alone or in exchange
// for the next shorter one in the pattern.
func (e *enumeration) undominated(cuts []cut, room int) bool {
	at := 0
	larger := -1 // the smallest size so far that is not all in the pattern
	for i, size := range e.task.sizes {
		have := 0
		if at < len(cuts) && cuts[at].piece == i {
			have = cuts[at].n
			at++
		}
		if have > 0 && larger >= 0 && e.task.sizes[larger]-size <= room {
			return false
		}
		if have < e.need.pieces[i] {
			if size <= room {
				return false
			}
			larger = i
		}
	}
	return true
}
