package layout

import (
	"slices"
	"sort"

	"laybill/estimate/measure"
)

// plankWeight is the weight of a whole plank in certificates.
const plankWeight = int64(1) << 20

// worth is a value function on off-cuts: steps that rise, the last at most
// plankWeight.
type worth []ValueStep

// of is the worth of an off-cut.
func (v worth) of(l measure.Length) int64 {
	i := sort.Search(len(v), func(i int) bool { return v[i].From > l })
	if i == 0 {
		return 0
	}
	return v[i-1].Weight
}

// price is the least that a row can cost under a value function: what it takes
// less what it gives back, over every way to start it (see Certificate).
func (s *saw) price(v worth, row measure.Length) int64 {
	length := s.plank.Length
	if row <= length {
		return v.least(interval{row, length}, -row-s.kerf)
	}
	whole, rest := s.split(row)
	short, long := s.starters(row)
	price := v.least(long, -rest-s.kerf)
	if !short.empty() {
		price = min(price, plankWeight+v.least(short, length-s.kerf-rest))
	}
	return int64(whole)*plankWeight + price
}

// least is the minimum of v(a) - v(a+shift) over an interval. Where v(a) stays
// level the second part only grows, so the minimum lies just before a step of
// v(a) or at the end.
func (v worth) least(a interval, shift measure.Length) int64 {
	least := v.of(a.hi) - v.of(a.hi+shift)
	from := sort.Search(len(v), func(i int) bool { return v[i].From > a.lo })
	before := int64(0)
	if from > 0 {
		before = v[from-1].Weight
	}
	for i := from; i < len(v) && v[i].From <= a.hi; i++ {
		least = min(least, before-v.of(v[i].From-1+shift))
		before = v[i].Weight
	}
	return least
}

// proportional is the value function of bare capacity: an off-cut is worth its
// length and a kerf in a plank and a kerf. It holds for free ends too.
func (s *saw) proportional() worth {
	const steps = 1024
	length := s.plank.Length
	var v worth
	for i := measure.Length(1); i <= steps; i++ {
		from := (length*i + steps - 1) / steps
		weight := plankWeight * int64(from+s.kerf) / int64(length+s.kerf)
		if from >= s.leastEnd || from >= length {
			v = append(v, ValueStep{from, weight})
		}
	}
	return v
}

// kind is rows that cost the same but for whole planks: what is left of their
// length after whole planks.
type kind struct {
	rest   measure.Length
	single bool // no longer than a plank
	count  float64
}

// kindsOf sorts rows into kinds.
func (s *saw) kindsOf(rows []measure.Length) []kind {
	var kinds []kind
	for _, row := range rows {
		k := kind{row, true, 1}
		if row > s.plank.Length {
			_, k.rest = s.split(row)
			k.single = false
		}
		i, known := slices.BinarySearchFunc(kinds, k, func(a, b kind) int {
			if a.single != b.single {
				if a.single {
					return -1
				}
				return 1
			}
			return int(a.rest - b.rest)
		})
		if known {
			kinds[i].count++
		} else {
			kinds = slices.Insert(kinds, i, k)
		}
	}
	return kinds
}

// mostKinds is how many kinds of row the search for a value function takes in;
// past that, near ones count as one.
const mostKinds = 24

// fewer joins the kinds nearest to each other until few are left. The bound
// stays valid: the value function found is weighed against the true rows.
func fewer(kinds []kind) []kind {
	for len(kinds) > mostKinds {
		best, at := far, -1
		for i := 1; i < len(kinds); i++ {
			if kinds[i].single == kinds[i-1].single && kinds[i].rest-kinds[i-1].rest < best {
				best, at = kinds[i].rest-kinds[i-1].rest, i
			}
		}
		if kinds[at].count > kinds[at-1].count {
			kinds[at-1].rest = kinds[at].rest
		}
		kinds[at-1].count += kinds[at].count
		kinds = slices.Delete(kinds, at, at+1)
	}
	return kinds
}

// bestWorth is the value function that makes the most of rows, and the sum of
// their prices under it. The sum bounds planks with free ends too. There let an
// end piece c, starter or not, weigh half of v(c) + 1 - v(L-k-c). Two of one plank
// weigh no more than the plank, less what the rows of one piece cut from between
// them are priced at: v falls by that from L-k-c1 down to c2, and from L-k-c2 down
// to c1. And a row weighs the mean of its prices laid from its left and from its
// right, so no less than the least of them.
func (s *saw) bestWorth(rows []measure.Length) (worth, int64) {
	best := s.proportional()
	most := s.sum(best, rows)
	if len(rows) == 0 {
		return best, most
	}
	if v := s.dualWorth(rows); v != nil {
		if sum := s.sum(v, rows); sum > most {
			best, most = v, sum
		}
	}
	return best, most
}

func (s *saw) sum(v worth, rows []measure.Length) int64 {
	var sum int64
	price, row := int64(0), measure.Length(-1)
	for _, r := range rows {
		if r != row {
			price, row = s.price(v, r), r
		}
		sum += price
	}
	return sum
}

// planks is a weight in planks, rounded up.
func planks(weight int64) int { return int((weight + plankWeight - 1) / plankWeight) }
