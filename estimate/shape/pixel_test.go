package shape

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"laybill/estimate/measure"
)

// pixels is a floor drawn on squared paper, the oracle for axis-parallel
// floors: it knows nothing of walls. A square is 2 units wide, so that its
// middle has whole coordinates.
type pixels [paper][paper]bool // [y][x]

const (
	paper  = 30
	square = 2
)

// drawPixels draws a floor of random blocks, with columns and touching corners.
func drawPixels(t *rapid.T) pixels {
	var drawn pixels
	for i := range rapid.IntRange(1, 7).Draw(t, "blocks") {
		x0 := rapid.IntRange(0, paper-2).Draw(t, "x0")
		y0 := rapid.IntRange(0, paper-2).Draw(t, "y0")
		x1 := rapid.IntRange(x0+1, paper).Draw(t, "x1")
		y1 := rapid.IntRange(y0+1, paper).Draw(t, "y1")
		drawn.paint(x0, y0, x1, y1, i%3 != 2)
	}
	return drawn
}

func (p *pixels) paint(x0, y0, x1, y1 int, floor bool) {
	for y := max(y0, 0); y < min(y1, paper); y++ {
		for x := max(x0, 0); x < min(x1, paper); x++ {
			p[y][x] = floor
		}
	}
}

// region is the floor's outlines: the boxes of all squares taken together.
func (p *pixels) region() Region {
	var walls []wall
	for y := range paper {
		for x := range paper {
			if p[y][x] {
				walls = addWalls(walls, Rectangle(squareBox(x, y)).Outer)
			}
		}
	}
	return floorOf(walls)
}

func squareBox(x, y int) Box {
	left, bottom := measure.Length(square*x), measure.Length(square*y)
	return Box{left, bottom, left + square, bottom + square}
}

// eroded leaves the squares whose surroundings, gap squares all round, are
// floor.
func (p *pixels) eroded(gap int) pixels {
	var left pixels
	for y := gap; y < paper-gap; y++ {
		for x := gap; x < paper-gap; x++ {
			left[y][x] = p.all(x-gap, y-gap, x+gap, y+gap)
		}
	}
	return left
}

func (p *pixels) all(x0, y0, x1, y1 int) bool {
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			if !p[y][x] {
				return false
			}
		}
	}
	return true
}

// parts numbers the squares of each part that hangs together by sides, from 1.
func (p *pixels) parts() (numbers [paper][paper]int, count int) {
	var fill func(x, y int)
	fill = func(x, y int) {
		if x < 0 || y < 0 || x >= paper || y >= paper || !p[y][x] || numbers[y][x] != 0 {
			return
		}
		numbers[y][x] = count
		fill(x+1, y)
		fill(x-1, y)
		fill(x, y+1)
		fill(x, y-1)
	}
	for y := range paper {
		for x := range paper {
			if p[y][x] && numbers[y][x] == 0 {
				count++
				fill(x, y)
			}
		}
	}
	return numbers, count
}

// check compares polygons with the squared paper: the same squares, the same
// parts, sound outlines in normal form.
func (p *pixels) check(t *rapid.T, what string, got []Polygon) {
	t.Helper()
	numbers, count := p.parts()
	if len(got) != count {
		t.Fatalf("%s: %d parts, want %d: %v", what, len(got), count, got)
	}
	for i, part := range got {
		if faults := Validate(part); slices.ContainsFunc(faults, func(f Fault) bool { return f.Kind != Touching && f.Kind != HoleCrosses && f.Kind != HolesMeet }) {
			t.Fatalf("%s: part %d %v has faults %v", what, i, part, faults)
		}
		if normal := Normalise(part); !cmp.Equal(normal, part) {
			t.Fatalf("%s: part %v is not in normal form %v", what, part, normal)
		}
		number, covered := 0, int64(0)
		for y := range paper {
			for x := range paper {
				middle := Point{measure.Length(square*x + 1), measure.Length(square*y + 1)}
				if !part.Contains(middle) {
					continue
				}
				covered++
				if number == 0 {
					number = numbers[y][x]
				}
				if number == 0 || numbers[y][x] != number {
					t.Fatalf("%s: part %v covers square %d,%d of part %d, want part %d", what, part, x, y, numbers[y][x], number)
				}
			}
		}
		if covered*2*square*square != part.DoubleArea() {
			t.Fatalf("%s: part %v has a doubled area of %d and covers %d squares", what, part, part.DoubleArea(), covered)
		}
	}
	var all Region = got
	if want := p.doubleArea(); all.DoubleArea() != want {
		t.Fatalf("%s: doubled area %d, want %d", what, all.DoubleArea(), want)
	}
}

func (p *pixels) doubleArea() int64 {
	var sum int64
	for y := range paper {
		for x := range paper {
			if p[y][x] {
				sum += 2 * square * square
			}
		}
	}
	return sum
}

func TestInsetAgreesWithSquaredPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := drawPixels(t)
		floor := paper.region()
		paper.check(t, "floor", floor)
		gap := rapid.IntRange(0, 4).Draw(t, "gap")
		left := paper.eroded(gap)
		left.check(t, "inset", Inset(floor, measure.Length(square*gap)))
	})
}

func TestSubtractAgreesWithSquaredPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := drawPixels(t)
		floor := paper.region()
		var boxes []Box
		for range rapid.IntRange(1, 4).Draw(t, "boxes") {
			x0, y0 := rapid.IntRange(-5, 32).Draw(t, "x0"), rapid.IntRange(-5, 32).Draw(t, "y0")
			x1, y1 := x0+rapid.IntRange(0, 20).Draw(t, "width"), y0+rapid.IntRange(0, 20).Draw(t, "depth")
			boxes = append(boxes, Box{square * measure.Length(x0), square * measure.Length(y0), square * measure.Length(x1), square * measure.Length(y1)})
			paper.paint(x0, y0, x1, y1, false)
		}
		paper.check(t, "rest", Subtract(floor, boxes...))
	})
}

func drawCuts(t *rapid.T) []int {
	cuts := rapid.SliceOfNDistinct(rapid.IntRange(-2, paper+2), 1, 8, rapid.ID).Draw(t, "cuts")
	slices.Sort(cuts)
	return cuts
}

func lengths(squares []int) []measure.Length {
	result := make([]measure.Length, len(squares))
	for i, n := range squares {
		result[i] = measure.Length(square * n)
	}
	return result
}

func TestRowsAgreeWithSquaredPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := drawPixels(t)
		cuts := drawCuts(t)
		rows := Rows(paper.region(), lengths(cuts))
		if len(rows) != len(cuts)-1 {
			t.Fatalf("%d rows between %d cuts", len(rows), len(cuts))
		}
		for i, parts := range rows {
			band := paper
			band.keepRows(cuts[i], cuts[i+1])
			band.check(t, "row", parts)
			if !slices.IsSortedFunc(parts, byXThenY) {
				t.Fatalf("parts of a row are out of order: %v", parts)
			}
		}
	})
}

func byXThenY(a, b Polygon) int {
	boxA, boxB := a.Bounds(), b.Bounds()
	if boxA.X0 != boxB.X0 {
		return int(boxA.X0 - boxB.X0)
	}
	return int(boxA.Y0 - boxB.Y0)
}

func (p *pixels) keepRows(from, to int) {
	for y := range paper {
		if y < from || y >= to {
			p[y] = [paper]bool{}
		}
	}
}

// Columns of a floor are the rows of the floor with x and y exchanged.
func TestColumnsAgreeWithSquaredPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := drawPixels(t)
		cuts := drawCuts(t)
		for _, part := range paper.region() {
			columns := Columns(part, lengths(cuts))
			var exchanged pixels
			for y := range exchanged {
				for x := range exchanged[y] {
					exchanged[y][x] = part.Contains(Point{measure.Length(square*y + 1), measure.Length(square*x + 1)})
				}
			}
			for i, parts := range columns {
				band := exchanged
				band.keepRows(cuts[i], cuts[i+1])
				turned := make([]Polygon, len(parts))
				for j := range parts {
					if normal := Normalise(parts[j]); !cmp.Equal(normal, parts[j]) {
						t.Fatalf("column part %v is not in normal form", parts[j])
					}
					turned[j] = Normalise(parts[j].transposed())
				}
				band.check(t, "column", turned)
			}
		}
	})
}

func TestTurningAndMirroringTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := drawPixels(t)
		floor := paper.region()
		turned := floor
		for range 4 {
			turned = turned.Turn(QuarterTurn)
			if turned.DoubleArea() != floor.DoubleArea() {
				t.Fatalf("a quarter turn changes the area of %v", floor)
			}
		}
		if !cmp.Equal(turned, floor) {
			t.Fatalf("four quarter turns of %v give %v", floor, turned)
		}
		axis := measure.Length(rapid.IntRange(-50, 50).Draw(t, "axis"))
		for _, part := range floor {
			mirrored := part.Mirror(axis)
			if mirrored.DoubleArea() != part.DoubleArea() {
				t.Fatalf("mirroring changes the area of %v", part)
			}
			if again := mirrored.Mirror(axis); !cmp.Equal(again, part) {
				t.Fatalf("mirrored twice, %v is %v", part, again)
			}
		}
	})
}
