package proof

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
)

// randomPoints is how many random points are thrown on every floor.
const randomPoints = 10_000

// checkPoints throws points on the floor and counts the pieces that hold each:
// one well inside the gap, none in it or outside. Points near the gap's edge or
// a corner are left to the sweep.
func (f *floor) checkPoints(t *tally, where string) {
	seed := fnv.New64a()
	seed.Write([]byte(f.entry.ID))
	dice := rand.New(rand.NewPCG(seed.Sum64(), randomPoints))
	low, high := f.ground.walls[0], f.ground.walls[0]
	for _, p := range f.ground.walls {
		low = spot{math.Min(low.x, p.x), math.Min(low.y, p.y)}
		high = spot{math.Max(high.x, p.x), math.Max(high.y, p.y)}
	}
	shelves := f.shelve(low.y, high.y)
	for range randomPoints {
		at := spot{low.x + dice.Float64()*(high.x-low.x), low.y + dice.Float64()*(high.y-low.y)}
		want, sure := f.expected(at)
		if !sure {
			continue
		}
		if found := f.piecesAt(at, shelves.at(at.y)); found != want {
			t.want(false, where, fmt.Sprint(found), fmt.Sprint(want), "pieces at "+at.sign())
			return
		}
	}
	t.hold(true)
}

// expected is how many pieces must hold a spot, where that is sure.
func (f *floor) expected(at spot) (pieces int, sure bool) {
	gap := float64(f.entry.Gap)
	mitre := 1.5 * gap // of a square corner, with some to spare
	if f.ground.slanted {
		mitre = mitreLimit * gap
	}
	if !f.ground.holds(at) {
		return 0, !f.ground.slanted || gap > slack
	}
	side, corner := f.ground.nearest(at)
	switch {
	case gap > unit && side < (gap-unit)*(gap-unit):
		return 0, true
	case side > (gap+unit)*(gap+unit) && corner > mitre*mitre:
		return 1, true
	}
	return 0, false
}

// nearest is how far the nearest side and the nearest corner are from a spot,
// both squared: there are many spots.
func (g *ground) nearest(at spot) (side, corner float64) {
	side, corner = nearestOf(g.walls, at)
	for _, hole := range g.holes {
		s, c := nearestOf(hole, at)
		side, corner = min(side, s), min(corner, c)
	}
	return side, corner
}

func nearestOf(l loop, at spot) (side, corner float64) {
	side, corner = math.Inf(1), math.Inf(1)
	a := l[len(l)-1]
	for _, b := range l {
		dx, dy, x, y := b.x-a.x, b.y-a.y, at.x-a.x, at.y-a.y
		corner = min(corner, x*x+y*y)
		if along := dx*x + dy*y; along <= 0 {
			side = min(side, x*x+y*y)
		} else if squared := dx*dx + dy*dy; along < squared {
			across := dx*y - dy*x
			side = min(side, across*across/squared)
		}
		a = b
	}
	return side, corner
}

// shelves are a floor's pieces by height, so that only few are looked at for a
// spot.
type shelves struct {
	low, high float64
	pieces    [][]shelved
}

// shelved is a piece on a shelf; its outline is nil where it is its bounds.
type shelved struct {
	index   int
	outline loop
}

func (f *floor) shelve(low, high float64) shelves {
	s := shelves{low, high, make([][]shelved, 1+len(f.bounds))}
	for i, b := range f.bounds {
		on := shelved{index: i}
		if p := &f.entry.Pieces[i]; len(p.At) != 4 || !p.At.loop().axisParallel() {
			on.outline = p.At.loop()
		}
		for n := s.number(float64(b.y0)); n <= s.number(float64(b.y1)); n++ {
			s.pieces[n] = append(s.pieces[n], on)
		}
	}
	return s
}

func (s *shelves) at(y float64) []shelved { return s.pieces[s.number(y)] }

func (s *shelves) number(y float64) int {
	n := len(s.pieces)
	return max(0, min(n-1, int(float64(n)*(y-s.low)/(s.high-s.low))))
}

func (f *floor) piecesAt(at spot, on []shelved) int {
	found := 0
	for i := range on {
		b := &f.bounds[on[i].index]
		if at.x < float64(b.x0) || at.x > float64(b.x1) || at.y < float64(b.y0) || at.y > float64(b.y1) {
			continue
		}
		if on[i].outline != nil && !on[i].outline.holds(at) {
			continue
		}
		if !slices.ContainsFunc(f.entry.Pieces[on[i].index].Holes, func(h ring) bool { return h.loop().holds(at) }) {
			found++
		}
	}
	return found
}
