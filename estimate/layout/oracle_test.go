package layout

import (
	"math/rand/v2"
	"slices"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// fewest is the least number of planks for a rectangle of rows of one length,
// found by trying every starter on a grid of step, with handed ends and without
// stagger: the definition, by brute force.
func fewest(p Plank, r Rules, row measure.Length, rows int, step measure.Length) int {
	type laid struct{ starter, end measure.Length }
	var ways []laid
	var whole []int
	for a := r.LeastEnd; a <= p.Length; a += step {
		rest := row - a
		m := int((rest - 1) / p.Length)
		end := rest - measure.Length(m)*p.Length
		if end >= r.LeastEnd {
			ways = append(ways, laid{a, end})
			whole = append(whole, m)
		}
	}
	best := 1 << 30
	var starters, ends []measure.Length
	var try func(from, left, sum int)
	try = func(from, left, sum int) {
		if left == 0 {
			best = min(best, sum-mostPairs(starters, ends, p.Length-r.Kerf))
			return
		}
		for i := from; i < len(ways); i++ {
			starters, ends = append(starters, ways[i].starter), append(ends, ways[i].end)
			try(i, left-1, sum+whole[i]+2)
			starters, ends = starters[:len(starters)-1], ends[:len(ends)-1]
		}
	}
	try(0, rows, 0)
	return best
}

// mostPairs is a greatest matching by augmenting paths.
func mostPairs(starters, ends []measure.Length, room measure.Length) int {
	of := make([]int, len(ends))
	for i := range of {
		of[i] = -1
	}
	var augment func(a int, seen []bool) bool
	augment = func(a int, seen []bool) bool {
		for b := range ends {
			if seen[b] || starters[a]+ends[b] > room {
				continue
			}
			seen[b] = true
			if of[b] < 0 || augment(of[b], seen) {
				of[b] = a
				return true
			}
		}
		return false
	}
	n := 0
	for a := range starters {
		if augment(a, make([]bool, len(ends))) {
			n++
		}
	}
	return n
}

// Small rectangles against every way to lay them. Lengths are multiples of the
// grid, so the best on the grid is close to the best of all: the plan may beat
// it, the bound may not exceed it.
func TestSmallRoomsAgainstEveryWay(t *testing.T) {
	plank := Plank{1200 * mm, 190 * mm}
	rules := Rules{Gap: 10 * mm, LeastEnd: 300 * mm, LeastRow: 50 * mm}
	for length := int64(1300); length <= 3700; length += 100 {
		for rows := 2; rows <= 4; rows++ {
			floor := shape.Rectangle(shape.Box{X1: measure.Length(length+20) * mm, Y1: measure.Length(190*rows+20) * mm})
			p := poolOf(plank, rules, Room{Floor: shape.Region{floor}, Directions: []shape.Angle{0}})
			want := fewest(plank, rules, measure.Length(length)*mm, rows, 100*mm)
			plan := mustLay(t, Lay, p)
			report(t, p, plan)
			if plan.Planks > want || plan.LowerBound > want {
				t.Errorf("row %d mm, %d rows: %d planks, bound %d, best by trying all %d", length, rows, plan.Planks, plan.LowerBound, want)
			}
		}
	}
}

func TestMatchingIsGreatest(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 2000 {
		list := func() []measure.Length {
			l := make([]measure.Length, r.IntN(7))
			for i := range l {
				l[i] = measure.Length(1 + r.IntN(12))
			}
			slices.Sort(l)
			return l
		}
		a, b := list(), list()
		want := mostPairs(a, b, 12)
		if got := len(matching(a, b, 12)); got != want {
			t.Fatalf("%v with %v: %d pairs, want %d", a, b, got, want)
		}
		for n := range 8 {
			if fits := overflow(a, b, n, 12, far) == 0; fits != (n <= want) {
				t.Fatalf("%v with %v: %d pairs without overflow %t, greatest %d", a, b, n, fits, want)
			}
		}
		if got, want := len(freeMatching(a, 12)), mostFreePairs(a, 12); got != want {
			t.Fatalf("%v among themselves: %d pairs, want %d", a, got, want)
		}
	}
}

// A value exchanged in a list is the list sorted anew, and back again; counting
// overflow up to a limit tells on which side of it the whole lies.
func TestExchangeKeepsOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 13))
	for range 2000 {
		list := make([]measure.Length, 1+r.IntN(9))
		for i := range list {
			list[i] = measure.Length(r.IntN(8))
		}
		slices.Sort(list)
		before := slices.Clone(list)
		at, next := r.IntN(len(list)), measure.Length(r.IntN(8))
		want := slices.Clone(list)
		want[at] = next
		slices.Sort(want)
		x := replace(list, list[at], next)
		if !slices.Equal(list, want) {
			t.Fatalf("%v with %d for %d: %v, want %v", before, next, before[at], list, want)
		}
		n, most := r.IntN(12), measure.Length(r.IntN(20))
		whole, free := overflow(before, want, n, 6, far), freeOverflow(want, n, 6, far)
		if (overflow(before, want, n, 6, most) > most) != (whole > most) || (freeOverflow(want, n, 6, most) > most) != (free > most) {
			t.Fatalf("%v with %v, %d pairs: overflow %d and %d, not the same side of %d", before, want, n, whole, free, most)
		}
		x.undo()
		if !slices.Equal(list, before) {
			t.Fatalf("%v taken back is %v", before, list)
		}
	}
}

func mostFreePairs(l []measure.Length, room measure.Length) int {
	if len(l) < 2 {
		return 0
	}
	best := mostFreePairs(l[1:], room)
	for i := 1; i < len(l); i++ {
		if l[0]+l[i] <= room {
			rest := slices.Concat(l[1:i], l[i+1:])
			best = max(best, 1+mostFreePairs(rest, room))
		}
	}
	return best
}

// A certificate must hold by its own definition, tried at every length.
func TestCertificateHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for i := range 4 {
		p := poolOf(trialPlanks[i%4], trialRules, apartmentRooms(r)[:1+i/3]...)
		plan := mustLay(t, Lay, p)
		c := plan.Certificate
		if c == nil {
			continue
		}
		value := func(l measure.Length) int64 {
			v := int64(0)
			for _, s := range c.Values {
				if s.From <= l {
					v = s.Weight
				}
			}
			return v
		}
		var sum int64
		for _, row := range c.Rows {
			if least := leastPrice(p, value, c.Plank, row.Length); row.Price > least {
				t.Errorf("row of %d is priced %d, may cost %d", row.Length, row.Price, least)
			}
			sum += row.Price * int64(row.Count)
		}
		if bound := int((sum + c.Plank - 1) / c.Plank); bound < plan.RowBound {
			t.Errorf("certificate proves %d, row bound %d", bound, plan.RowBound)
		}
		if value(p.Plank.Length) > c.Plank || !slices.IsSortedFunc(c.Values, func(a, b ValueStep) int { return int(a.Weight - b.Weight) }) {
			t.Errorf("value function is none: %v", c.Values)
		}
	}
}

func leastPrice(p Pool, value func(measure.Length) int64, plank int64, row measure.Length) int64 {
	length, kerf, end := p.Plank.Length, p.Rules.Kerf, p.Rules.LeastEnd
	least := int64(1) << 60
	if row <= length {
		for o := row; o <= length; o += mm {
			least = min(least, value(o)-value(o-row-kerf))
		}
		return least
	}
	q := int64((row - 1) / length)
	rest := row - measure.Length(q)*length
	for a := max(rest, end); a <= min(length, rest+length-end); a += mm {
		least = min(least, q*plank+value(a)-value(a-rest-kerf))
	}
	for a := end; a <= rest-end; a += mm {
		least = min(least, (q+1)*plank+value(a)-value(length-kerf-rest+a))
	}
	return least
}
