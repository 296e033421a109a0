package blocks

import (
	"slices"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// How finely the places at which a pattern may begin, and the spots of a block,
// are told apart. Each step is counted at several places, so that a narrow strip
// of floor is not overlooked.
const (
	stepsAlong   = 16
	stepsAcross  = 64
	placesAlong  = 2 * stepsAlong
	placesAcross = 4 * stepsAcross
	spotsLong    = 48
	spotsWide    = 4
)

// field is, for every spot of a cell, how many repeats of it lie on a floor: as
// many pieces hold the spot of the block there, and so many blocks they take at
// least. It is laid for the pattern begun at a corner; for one begun elsewhere
// it is looked up with a shift.
type field [stepsAcross][stepsAlong]int32

// fieldOf counts the repeats on a floor, seen from a corner.
func fieldOf(floor shape.Region, p *pattern, corner shape.Point) *field {
	along, across := p.periods()
	sides := turnedSides(floor, p, corner)
	low, high := sides[0][0].Y, sides[0][0].Y
	for _, s := range sides {
		low, high = min(low, s[0].Y), max(high, s[0].Y)
	}
	var f field
	for j := range measure.Length(placesAcross) {
		var counts [placesAlong]int32
		first := (2*j + 1) * across / (2 * placesAcross)
		for y := first + measure.Length(floorDivide(low-first, across))*across; y <= high; y += across {
			count(&counts, sides, y, along)
		}
		row := &f[j*stepsAcross/placesAcross]
		for i, n := range counts {
			at := i * stepsAlong / placesAlong
			row[at] = max(row[at], n)
		}
	}
	return &f
}

// turnedSides are the sides of a floor as torus sees them from a corner.
func turnedSides(floor shape.Region, p *pattern, corner shape.Point) [][2]shape.Point {
	turn := func(q shape.Point) shape.Point {
		q = p.torus(q)
		return shape.Point{X: q.X - corner.X, Y: q.Y - corner.Y}
	}
	var sides [][2]shape.Point
	for _, part := range floor {
		for _, ring := range append([]shape.Ring{part.Outer}, part.Holes...) {
			for i, from := range ring {
				sides = append(sides, [2]shape.Point{turn(from), turn(ring[(i+1)%len(ring)])})
			}
		}
	}
	return sides
}

// count adds the repeats on one line along the points.
func count(counts *[placesAlong]int32, sides [][2]shape.Point, y, period measure.Length) {
	var crossed [16]measure.Length
	at := crossed[:0]
	for _, s := range sides {
		a, b := s[0], s[1]
		if (a.Y > y) != (b.Y > y) {
			at = append(at, a.X+measure.Length(float64(b.X-a.X)*float64(y-a.Y)/float64(b.Y-a.Y)))
		}
	}
	slices.Sort(at)
	for i := 0; i+1 < len(at); i += 2 {
		for k := range counts {
			from := measure.Length(2*k+1) * period / (2 * placesAlong)
			counts[k] += int32(floorDivide(at[i+1]-from, period) - floorDivide(at[i]-from, period))
		}
	}
}

// spots are, for each hand, the steps of a cell at which the spots of its blocks
// lie: a spot lies once in every block of the cell that has the hand.
type spots [2][][]step

type step struct{ along, across int }

func (p *pattern) spots() *spots {
	var all spots
	along, across := p.periods()
	for h, outline := range p.outlines {
		from, wide := widthOf(outline, p.sides[h])
		all[h] = make([][]step, spotsLong*spotsWide)
		for _, block := range p.cell {
			if block.hand != layout.Left+layout.Hand(h) {
				continue
			}
			for i := range all[h] {
				at := p.torus(plus(plus(block.at, from), plus(
					spread(p.sides[h], i%spotsLong, spotsLong), spread(wide, i/spotsLong, spotsWide))))
				all[h][i] = append(all[h][i], step{modulo(floorDivide(at.X*stepsAlong, along), stepsAlong), modulo(floorDivide(at.Y*stepsAcross, across), stepsAcross)})
			}
		}
	}
	return &all
}

// spread is the place of one of n spots along a side, the first and the last so
// near its ends that they see the corners cut from blocks.
func spread(side shape.Point, i, n int) shape.Point {
	const margin = 3 * measure.Millimetre
	long := max(side.X, -side.X) + max(side.Y, -side.Y)
	edge := min(margin, long/8)
	along := edge + (long-2*edge)*measure.Length(i)/measure.Length(n-1)
	return shape.Point{X: side.X * along / long, Y: side.Y * along / long}
}

func modulo(a, b int) int { return ((a % b) + b) % b }

// load is how many pieces hold each spot of the blocks of each hand.
type load [2][spotsLong * spotsWide]int32

// add adds a floor's pieces for a pattern begun so many steps from the field's
// corner, or takes them away.
func (l *load) add(f *field, all *spots, begin step, sign int32) {
	for h := range all {
		for i, steps := range all[h] {
			for _, s := range steps {
				l[h][i] += sign * f[(s.across+begin.across)%stepsAcross][(s.along+begin.along)%stepsAlong]
			}
		}
	}
}

// blocks are what the loads take of each hand at least.
func (l *load) blocks() (lefts, rights int) {
	return int(slices.Max(l[0][:])), int(slices.Max(l[1][:]))
}
