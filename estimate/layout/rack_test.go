package layout

import (
	"math/rand/v2"
	"slices"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// A floor by hand: 4000 x 1000 mm, gap 10, boards 140 wide, least end 300, kerf 3,
// least row 50 mm. Inside the gap 3980 x 980 mm, seven rows of 140: 7 x (3980 +
// 150 + 3) = 28 931 mm of boards at most, 7 x 3980 = 27 860 mm at least.
func TestRackByHand(t *testing.T) {
	rules := Rules{Gap: 10 * mm, Kerf: 3 * mm, LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm}
	room := Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: 4000 * mm, Y1: 1000 * mm})}}
	r := Rack(room, Plank{1800 * mm, 140 * mm}, rules)
	if len(r.Layout.Rows) != 7 || r.Most != (28_931*mm).Times(140*mm) || r.Layout.Area() != (27_860*mm).Times(140*mm) {
		t.Errorf("%d rows, most %d, laid %d", len(r.Layout.Rows), r.Most, r.Layout.Area())
	}
	// Across there are 29 rows of 980 mm, the last 60 mm: 28 x 140 + 60 = 3980.
	room.Directions = []shape.Angle{shape.QuarterTurn}
	if r = Rack(room, Plank{1800 * mm, 140 * mm}, rules); len(r.Layout.Rows) != 29 || r.Most != (29*(980+153)*mm).Times(140*mm) {
		t.Errorf("across: %d rows, most %d", len(r.Layout.Rows), r.Most)
	}
	// The last row is one rip of a board; along the floor no row is ripped.
	if r.Layout.Rips != 1 || r.Layout.Notches != 0 {
		t.Errorf("across: %d rips, %d notches", r.Layout.Rips, r.Layout.Notches)
	}
	room.Directions = []shape.Angle{0, shape.QuarterTurn}
	if r = Rack(room, Plank{1800 * mm, 140 * mm}, rules); r.Layout.Direction != 0 {
		t.Errorf("of both directions %v", r.Layout.Direction)
	}
}

// A row of 60 mm along 3980 mm takes at least three boards of up to 1800 mm, each
// of them ripped.
func TestRippedRowsOfRandomBoards(t *testing.T) {
	room := Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: 4000 * mm, Y1: 220 * mm})}}
	r := Rack(room, Plank{1800 * mm, 140 * mm}, Rules{Gap: 10 * mm, LeastRow: 50 * mm})
	if len(r.Layout.Rows) != 2 || r.Layout.Rips != 3 {
		t.Errorf("%d rows, %d rips", len(r.Layout.Rows), r.Layout.Rips)
	}
}

// racker lays rows from packs of random boards by the rule of Rack, with some
// boards before it to choose from.
type racker struct {
	random   *rand.Rand
	shortest measure.Length
	longest  measure.Length
	rules    *Rules
	open     []measure.Length // boards to choose from
	pile     []measure.Length // off-cuts with a right end
	before   []measure.Length // joints of the row before
	used     measure.Length   // length of boards taken
	close    int              // joints nearer than the stagger
}

// handful is how many boards the crew has before it: less than two packs.
const handful = 12

func (c *racker) draw() {
	for len(c.open) < handful {
		c.open = append(c.open, c.shortest+measure.Length(c.random.Int64N(int64((c.longest-c.shortest)/mm)+1))*mm)
	}
}

func (c *racker) staggered(x measure.Length) bool {
	return !slices.ContainsFunc(c.before, func(j measure.Length) bool { return abs(j-x) < c.rules.LeastStagger })
}

// keep puts what is left of a board on the pile, or throws it away.
func (c *racker) keep(rest measure.Length) {
	if rest -= c.rules.Kerf; rest >= c.rules.LeastEnd {
		c.pile = append(c.pile, rest)
	}
}

// row lays an unbroken row that begins at from.
func (c *racker) row(from, length measure.Length) {
	var joints []measure.Length
	at := from
	first := true
	for left := length; left > 0; first = false {
		piece, rest := c.take(at, left, first)
		if left -= piece; left > 0 {
			at += piece
			if !c.staggered(at) {
				c.close++
			}
			joints = append(joints, at)
			continue
		}
		c.keep(rest)
	}
	c.before = joints
}

// take chooses the next piece of a row of which some length is left: an off-cut
// where it is the first, else a board. One that reaches the end is cut.
func (c *racker) take(at, left measure.Length, first bool) (piece, rest measure.Length) {
	if first {
		slices.Sort(c.pile)
		for i := len(c.pile) - 1; i >= 0; i-- {
			if piece := c.starter(at, left, c.pile[i]); piece > 0 {
				rest := c.pile[i] - piece
				c.pile = slices.Delete(c.pile, i, i+1)
				if piece < left {
					rest = 0 // cut off at the wall, without a right end
				}
				return piece, rest
			}
		}
	}
	c.draw()
	best := -1
	for i, board := range c.open {
		if c.fits(at, left, board) && (best < 0 || better(board, c.open[best], left)) {
			best = i
		}
	}
	if best < 0 { // none keeps the stagger: one that keeps the end piece
		best = max(0, slices.IndexFunc(c.open, func(b measure.Length) bool { return b >= left || left-b >= c.rules.LeastEnd }))
	}
	board := c.open[best]
	c.open = slices.Delete(c.open, best, best+1)
	c.used += board
	return min(board, left), board - left
}

// fits tells whether a board ends the row, or leaves a last piece long enough
// and keeps the stagger.
func (c *racker) fits(at, left, board measure.Length) bool {
	return board >= left || left-board >= c.rules.LeastEnd && c.staggered(at+board)
}

// starter is how much of an off-cut can begin a row, shortened where it must
// leave a last piece; 0 when none.
func (c *racker) starter(at, left, offcut measure.Length) measure.Length {
	for _, piece := range []measure.Length{min(offcut, left), min(offcut, left-c.rules.LeastEnd)} {
		if piece >= c.rules.LeastEnd && c.fits(at, left, piece) {
			return piece
		}
	}
	return 0
}

// better prefers boards that end the row, of these the shortest, else the longest.
func better(board, than, left measure.Length) bool {
	if (board >= left) != (than >= left) {
		return board >= left
	}
	return (board >= left) == (board < than)
}

// Rooms laid from random packs by the rule never take more than is said, nor less
// than their area: apartments whose five rooms share off-cuts, single rooms and
// closets. With twelve boards to choose from a few joints come too near; a crew
// that opens more packs at once has fewer.
func TestRackedFloorsStayInRange(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 31))
	closet := func(r *rand.Rand) []Room {
		return []Room{roomOf(shape.Rectangle(shape.Box{X1: lengthBetween(r, 800, 2500), Y1: lengthBetween(r, 800, 1600)}))}
	}
	kinds := []struct {
		name  string
		rooms func(*rand.Rand) []Room
	}{{"apartments", apartmentRooms}, {"rooms", func(r *rand.Rand) []Room { return []Room{rectangleRoom(r)} }}, {"closets", closet}}
	mixes := []struct{ shortest, longest, width, end measure.Length }{
		{600 * mm, 1800 * mm, 140 * mm, 300 * mm}, {400 * mm, 1200 * mm, 120 * mm, 200 * mm},
		{300 * mm, 2100 * mm, 180 * mm, 300 * mm}, {900 * mm, 1500 * mm, 90 * mm, 300 * mm},
	}
	for _, kind := range kinds {
		var area, most, used measure.Area
		joints, close := 0, 0
		for i := range 400 {
			mix := mixes[i%4]
			rules := Rules{Gap: 12 * mm, Kerf: 3 * mm, LeastEnd: mix.end, LeastStagger: 200 * mm, LeastRow: 50 * mm}
			c := racker{random: r, shortest: mix.shortest, longest: mix.longest, rules: &rules}
			limit, floor := LeftOver*mix.longest.Times(mix.width), measure.Area(0)
			for _, room := range kind.rooms(r) {
				racked := Rack(room, Plank{mix.longest, mix.width}, rules)
				limit += racked.Most
				floor += racked.Layout.Area()
				c.before = nil
				for _, piece := range racked.Layout.Pieces {
					b := piece.At.Bounds()
					c.row(b.X0, b.X1-b.X0)
					joints += len(c.before)
				}
			}
			taken := c.used.Times(mix.width)
			if taken > limit || taken < floor {
				t.Errorf("%s %d, boards from %d to %d mm: %d taken, from %d to %d said", kind.name, i, mix.shortest/mm, mix.longest/mm, taken, floor, limit)
			}
			area, most, used, close = area+floor, most+limit, used+taken, close+c.close
		}
		over := func(a measure.Area) float64 { return 100 * (float64(a)/float64(area) - 1) }
		t.Logf("%s: taken %.1f %% over the area, said at most %.1f %%; %.1f %% of joints too near", kind.name, over(used), over(most), 100*float64(close)/float64(joints))
	}
}
