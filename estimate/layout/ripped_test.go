package layout

import (
	"math/rand/v2"
	"testing"

	"laybill/estimate/measure"
)

// The bound for shared strips against every choice and width of first row: rows
// of which no two go into one plank cost their full prices, so whatever is chosen
// costs at least the dearest such rows, found by trying every set of strips.
func TestSharedBoundAgainstEveryWay(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 15))
	s := search{table: &table{saw: &saw{plank: Plank{Length: 100, Width: 12}, kerf: 1}}}
	const pools = 400
	met := 0
	for range pools {
		rooms := make([][]edged, 1+r.IntN(3))
		for i := range rooms {
			for range 1 + r.IntN(2) {
				rooms[i] = append(rooms[i], someEdged(r, s.saw.plank.Width))
			}
		}
		least := leastOfAll(rooms, s.saw.plank.Width-s.saw.kerf, nil, 0)
		best := s.proportionalShare(rooms)
		for n := 1; n <= mostShares; n++ {
			if bound := s.steppedShare(rooms, n); bound > least {
				t.Fatalf("%d steps: bound %d, least %d of %+v", n, bound, least, rooms)
			} else if bound > best {
				best = bound
			}
		}
		if best > least {
			t.Fatalf("bound %d, least %d of %+v", best, least, rooms)
		}
		if best == least {
			met++
		}
	}
	if met < pools/2 {
		t.Errorf("only %d of %d bounds are met", met, pools)
	}
	t.Logf("%d of %d bounds are met", met, pools)
}

// someEdged is a choice with a rest that its first and last row both have room
// for.
func someEdged(r *rand.Rand, plank measure.Length) edged {
	rest := 2 + measure.Length(r.IntN(int(2*plank-1)))
	widths := interval{max(1, rest-plank), min(plank, rest-1)}
	widths.lo += measure.Length(r.IntN(int(widths.span())))
	return edged{inner: r.Int64N(50), first: 1 + r.Int64N(20), last: 1 + r.Int64N(20), widths: widths, rest: rest}
}

// edge is a first or last row as laid.
type edge struct {
	width measure.Length
	last  bool
	price int64
}

func leastOfAll(rooms [][]edged, room measure.Length, chosen []edge, inner int64) int64 {
	if len(rooms) == 0 {
		return inner + dearest(chosen, room, nil)
	}
	least := int64(1) << 60
	for _, e := range rooms[0] {
		for w := e.widths.lo; w <= e.widths.hi; w++ {
			with := append(chosen[:len(chosen):len(chosen)], edge{w, false, e.first}, edge{e.rest - w, true, e.last})
			least = min(least, leastOfAll(rooms[1:], room, with, inner+e.inner))
		}
	}
	return least
}

// dearest is the highest price of edges of which no first and last one are
// together as wide as room or less.
func dearest(edges []edge, room measure.Length, taken []edge) int64 {
	if len(edges) == 0 {
		return 0
	}
	most := dearest(edges[1:], room, taken)
	for _, other := range taken {
		if other.last != edges[0].last && other.width+edges[0].width <= room {
			return most
		}
	}
	with := append(taken[:len(taken):len(taken)], edges[0])
	return max(most, edges[0].price+dearest(edges[1:], room, with))
}
