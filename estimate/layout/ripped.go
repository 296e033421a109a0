package layout

import "laybill/estimate/measure"

// sharedBound is the least that the rows of all rooms cost when strips of first
// and last rows are shared. A plank gives at most one strip of each, and a kerf
// between them. Let a first row of width w count the part f(w) of its price and
// a last row the part 1 - f(W - k - w), for plank width W, kerf k and any f that
// does not fall and lies in [0, 1]. Take a number u in [0, 1): of the first rows
// with f > u and the last rows whose part is at least 1 - u no two go into one
// plank, so that with all inner rows they cost their full prices. The mean over
// u is the sum of the parts (our own derivation; such f are the dual feasible
// functions of bin packing).
func (s *search) sharedBound(v worth) int64 {
	rooms, paired := s.edged(v)
	best := s.proportionalShare(rooms)
	if !paired || s.saw.ends == Free {
		return best
	}
	for n := 1; n <= mostShares; n++ {
		best = max(best, s.steppedShare(rooms, n))
	}
	return best
}

// Counts that limit the search for f (found by trial on the rooms of the goals).
const (
	mostShares  = 6 // steps
	shareStarts = 3 // at random, besides evenly spread steps
)

// edged is what the rows of a choice cost, its first and last row apart.
type edged struct {
	inner, first, last int64
	widths             interval       // of the first row
	rest               measure.Length // width of first and last row together, or of the only row
	only               bool           // the floor is one row
}

// edged are the choices of each room; paired says that every one has a first and
// a last row.
func (s *search) edged(v worth) (rooms [][]edged, paired bool) {
	paired = true
	for i := range s.choices {
		var room []edged
		for j := range s.choices[i] {
			e := s.edges(v, &s.choices[i][j])
			paired = paired && !e.only
			room = append(room, e)
		}
		if len(room) > 0 {
			rooms = append(rooms, room)
		}
	}
	return rooms, paired
}

func (s *search) edges(v worth, c *choice) edged {
	last := len(c.grid.rows) - 1
	e := edged{widths: c.first, rest: c.rest, only: last == 0}
	price, row := int64(0), measure.Length(-1)
	for i := range c.grid.segments {
		seg := &c.grid.segments[i]
		if l := seg.length(); l != row {
			price, row = s.saw.price(v, l), l
		}
		switch seg.row {
		case 0:
			e.first += price
		case last:
			e.last += price
		default:
			e.inner += price
		}
	}
	return e
}

// proportionalShare counts a strip by its width and a kerf in a plank's width and
// a kerf, which no strips of one plank exceed, whatever edges they need.
func (s *search) proportionalShare(rooms [][]edged) int64 {
	var sum int64
	for _, room := range rooms {
		least := int64(-1)
		for _, e := range room {
			for _, width := range []measure.Length{e.widths.lo, e.widths.hi} {
				price := e.inner + s.share(e.first, width)
				if !e.only {
					price += s.share(e.last, e.rest-width)
				}
				if least < 0 || price < least {
					least = price
				}
			}
		}
		sum += least
	}
	return sum
}

// share is the part of a price that a strip of some width counts.
func (s *search) share(price int64, width measure.Length) int64 {
	return price * int64(width+s.saw.kerf) / int64(s.saw.plank.Width+s.saw.kerf)
}

// steppedShare is the best bound found with an f of n equal steps, from steps
// evenly spread and from some at random.
func (s *search) steppedShare(rooms [][]edged, n int) int64 {
	room := s.saw.plank.Width - s.saw.kerf
	steps := make([]measure.Length, n)
	for i := range steps {
		steps[i] = room * measure.Length(2*i+1) / measure.Length(2*n)
	}
	best := climb(rooms, steps, room)
	random := random(n)
	for range shareStarts {
		for i := range steps {
			steps[i] = random.length(room)
		}
		best = max(best, climb(rooms, steps, room))
	}
	return best
}

// climb moves each step as long as the bound gains, by less and less.
func climb(rooms [][]edged, steps []measure.Length, room measure.Length) int64 {
	best := stepped(rooms, steps, room)
	gains := func(i int, by measure.Length) bool {
		steps[i] += by
		sum := stepped(rooms, steps, room)
		if sum <= best {
			steps[i] -= by
			return false
		}
		best = sum
		return true
	}
	for by := room / 4; by > room/200; by = by * 2 / 3 {
		for i := range steps {
			for gains(i, by) {
			}
			for gains(i, -by) {
			}
		}
	}
	return best
}

// stepped is the bound with an f that rises by 1/n at each of n steps; room is
// what two strips of one plank come to at most.
func stepped(rooms [][]edged, steps []measure.Length, room measure.Length) int64 {
	var sum int64 // n times the bound
	for _, choices := range rooms {
		least := int64(-1)
		for i := range choices {
			if price := choices[i].stepped(steps, room); least < 0 || price < least {
				least = price
			}
		}
		sum += least
	}
	return sum / int64(len(steps))
}

// stepped is n times the least price of the choice over the widths of its first
// row: at the widest, or where its part is about to rise.
func (e *edged) stepped(steps []measure.Length, room measure.Length) int64 {
	n := int64(len(steps))
	over := e.rest - room
	at := func(width measure.Length) int64 {
		return e.first*reached(steps, width) + e.last*(n-reached(steps, width-over))
	}
	least := at(e.widths.hi)
	for _, step := range steps {
		if e.widths.has(step - 1) {
			least = min(least, at(step-1))
		}
	}
	return e.inner*n + least
}

// reached is how many steps are no longer than a width.
func reached(steps []measure.Length, width measure.Length) int64 {
	n := int64(0)
	for _, step := range steps {
		if step <= width {
			n++
		}
	}
	return n
}
