package crew

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/cutlist"
	"laybill/estimate/drawing"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// BlockCut is blocks of a herringbone or chevron that are cut alike, one after
// another: the pieces of each, and where those of the first, the second and so
// on are laid.
type BlockCut struct {
	Hand       layout.Hand
	Count      int
	From       string // "new 1-12", "off-cut 7"
	Cut, Laid  string // of the first piece of each
	Rest, Kept string // of what is cut from the rest, blank where nothing is
}

// BlockWords says how the cuts of blocks are written.
const BlockWords = "A block is seen the way the points run: rear end, front end, left and right long side. \"Front, left 345, right 245\": keep the front end, so much of each long side. " +
	"\"Off rear right 120 x 60\": cut that corner off, so much along the long side and so much of the end; \"only\" keeps just the corner. " +
	"Other pieces by their corners, along from the rearmost point x across from the right side."

// InBlocks tells a room laid in blocks from one laid in rows of planks.
func (l *Lists) InBlocks(room *building.Room) bool {
	layout := l.result.Layout(room)
	return layout != nil && layout.Blocks != nil
}

// Blocks lists how the blocks of the room are cut: those first cut here with all
// their pieces, and what comes from blocks of other rooms.
func (l *Lists) Blocks(p *Plan, room *building.Room) []BlockCut {
	if !l.InBlocks(room) {
		return nil
	}
	w := blockWriter{Lists: l, plan: p, room: room, blocks: l.result.Layout(room).Blocks, unit: l.unit, product: room.Spec.BuildUp.Covering().Product}
	for _, step := range l.Steps(room) {
		if step.Source == cutlist.Whole || step.Before != nil && step.Before.Room == l.slot(room) {
			continue
		}
		w.add(step)
	}
	slices.SortStableFunc(w.cuts, func(a, b *alikeCuts) int {
		return cmp.Or(cmp.Compare(a.Hand, b.Hand), -cmp.Compare(a.Count, b.Count))
	})
	return w.written()
}

// slot is the room's place in its pool.
func (l *Lists) slot(room *building.Room) int { return l.result.RoomFloor[room.Index].Slot }

// alikeCuts gathers blocks cut alike.
type alikeCuts struct {
	BlockCut
	numbers    []int
	laid, kept []string
	offcut     bool
}

// mostAlike is how many blocks one line of the list names at most.
const mostAlike = 40

type blockWriter struct {
	*Lists
	plan    *Plan
	room    *building.Room
	blocks  *layout.Blocks
	product *job.Product
	unit    measure.Unit
	cuts    []*alikeCuts
}

// add adds the block that a step is the room's first of, with what is cut from
// it later.
func (w *blockWriter) add(step cutlist.Step) {
	cut, offcut := w.words(step.Piece), step.Before != nil
	var rest, kept []string
	if !offcut {
		for _, later := range w.later(step) {
			rest = append(rest, w.words(later.Piece))
			kept = append(kept, w.placeWords(w.plan, w.room, later))
		}
	}
	restWords := strings.Join(rest, "; ")
	at := slices.IndexFunc(w.cuts, func(c *alikeCuts) bool {
		return c.Count < mostAlike && c.Hand == step.Piece.Hand && c.Cut == cut && c.Rest == restWords && c.offcut == offcut
	})
	if at < 0 {
		at = len(w.cuts)
		w.cuts = append(w.cuts, &alikeCuts{BlockCut: BlockCut{Hand: step.Piece.Hand, Cut: cut, Rest: restWords}, offcut: offcut})
	}
	c := w.cuts[at]
	c.Count++
	c.numbers = append(c.numbers, step.Piece.Stock)
	c.laid = append(c.laid, drawing.PieceNumber(step.Piece))
	if len(kept) > 0 {
		c.kept = append(c.kept, strings.Join(kept, "; "))
	}
}

// later are the pieces cut from the step's block after it.
func (w *blockWriter) later(step cutlist.Step) []*cutlist.Place {
	var places []*cutlist.Place
	steps := w.steps[w.result.Floors[w.result.RoomFloor[w.room.Index].Floor].First]
	for next := step.After; next != nil; {
		places = append(places, next)
		i := slices.IndexFunc(steps[next.Room], func(s cutlist.Step) bool { return s.Piece == next.Piece })
		next = steps[next.Room][i].After
	}
	return places
}

func (w *blockWriter) written() []BlockCut {
	cuts := make([]BlockCut, len(w.cuts))
	for i, c := range w.cuts {
		cuts[i] = c.BlockCut
		word := "new "
		if c.offcut {
			word = "off-cut "
		}
		cuts[i].From = word + ranges(c.numbers)
		cuts[i].Laid, cuts[i].Kept = piecesTogether(c.laid), placesTogether(c.kept)
	}
	return cuts
}

// piecesTogether lists pieces, three or more of a row that follow one another, or
// every second of them, as one: "1.2, 6.3–6.37, every second 7.2–7.18".
func piecesTogether(pieces []string) string {
	var listed []string
	for i := 0; i < len(pieces); {
		last, step := i, 0
		for last+1 < len(pieces) {
			next := stepBetween(pieces[last], pieces[last+1])
			if next < 1 || next > 2 || step != 0 && next != step {
				break
			}
			last, step = last+1, next
		}
		if last < i+2 {
			listed, i = append(listed, pieces[i]), i+1
			continue
		}
		words := pieces[i] + "\u2013" + pieces[last]
		if step == 2 {
			words = "every second " + words
		}
		listed, i = append(listed, words), last+1
	}
	return strings.Join(listed, ", ")
}

// stepBetween is how far the second piece lies behind the first in its row; 0 in
// different rows.
func stepBetween(first, second string) int {
	row1, seq1, _ := strings.Cut(first, ".")
	row2, seq2, _ := strings.Cut(second, ".")
	from, err1 := strconv.Atoi(seq1)
	to, err2 := strconv.Atoi(seq2)
	if row1 != row2 || err1 != nil || err2 != nil {
		return 0
	}
	return to - from
}

// placesTogether lists places of other rooms with each room named once: "R2 7.1,
// 7.2".
func placesTogether(places []string) string {
	listed := make([]string, len(places))
	room := ""
	for i, place := range places {
		listed[i] = place
		at := strings.LastIndexByte(place, ' ')
		if at >= 0 && place[:at] == room {
			listed[i] = place[at+1:]
		}
		room = place[:max(0, at)]
	}
	return strings.Join(listed, ", ")
}

// words says how a piece is cut from its block.
func (w *blockWriter) words(piece *layout.Piece) string {
	b := newBench(w.blocks, piece.Hand)
	ring := piece.InBlock(piece.At)
	cut := -1
	for i, from := range ring {
		if to := ring[(i+1)%len(ring)]; b.side(from, to) == none {
			if cut >= 0 {
				return w.corners(b, ring, piece)
			}
			cut = i
		}
	}
	if cut < 0 || len(piece.Holes) > 0 {
		return w.corners(b, ring, piece)
	}
	from, to := ring[cut], ring[(cut+1)%len(ring)]
	// The piece lies to the left of its cut.
	before, after := ring[(cut+len(ring)-1)%len(ring)], ring[(cut+2)%len(ring)]
	return w.oneCut(b, from, to, b.side(before, from), b.side(to, after))
}

// oneCut says where the only cut of a piece runs: from a point of one side to a
// point of another, the piece on its left.
func (w *blockWriter) oneCut(b bench, from, to shape.Point, first, last blockSide) string {
	length := func(l float64) string { return w.Cut(Saw(measure.Length(math.Round(l)), w.unit)) }
	along := func(side blockSide, end blockSide, q shape.Point) float64 { return b.distance(b.corner(side, end), q) }
	switch {
	case first == left && last == right:
		return fmt.Sprintf("Front, left %s, right %s", length(along(left, front, from)), length(along(right, front, to)))
	case first == right && last == left:
		return fmt.Sprintf("Rear, left %s, right %s", length(along(left, rear, to)), length(along(right, rear, from)))
	case first == front && last == rear:
		return fmt.Sprintf("Right side, front %s, rear %s", length(along(right, front, from)), length(along(right, rear, to)))
	case first == rear && last == front:
		return fmt.Sprintf("Left side, front %s, rear %s", length(along(left, front, to)), length(along(left, rear, from)))
	}
	// One end of the cut is on a long side, the other on an end: a corner.
	long, end, onLong, onEnd := first, last, from, to
	if first == front || first == rear {
		long, end, onLong, onEnd = last, first, to, from
	}
	corner := b.corner(long, end)
	word := "Off"
	if b.leftOf(from, to, corner) {
		word = "Only"
	}
	return fmt.Sprintf("%s %s %s %s x %s", word, end, long, length(b.distance(corner, onLong)), length(b.distance(corner, onEnd)))
}

// corners lists a piece's corners.
func (w *blockWriter) corners(b bench, ring shape.Ring, piece *layout.Piece) string {
	list := func(r shape.Ring) string {
		places := make([]string, len(r))
		for i, q := range r {
			along, across := b.place(q)
			places[i] = w.Cut(measure.Length(math.Round(along))) + " x " + w.Cut(measure.Length(math.Round(across)))
		}
		return strings.Join(places, ",  ")
	}
	words := list(ring)
	for _, hole := range piece.Holes {
		words += ";  hole " + list(piece.InBlock(hole))
	}
	return words
}

// blockSide is a side of a block, seen the way the points run.
type blockSide string

const (
	none  blockSide = ""
	left  blockSide = "left"
	right blockSide = "right"
	front blockSide = "front"
	rear  blockSide = "rear"
)

// bench is a block on the bench: its corners and its long side.
type bench struct {
	corners map[[2]blockSide]shape.Point // by long side and end
	sides   []namedSide
	long    shape.Point
}

type namedSide struct {
	name     blockSide
	from, to shape.Point
}

func newBench(blocks *layout.Blocks, hand layout.Hand) bench {
	outline, long := blocks.Outline(hand), blocks.Sides[hand-layout.Left]
	b := bench{corners: map[[2]blockSide]shape.Point{}, long: long}
	for i, from := range outline {
		to := outline[(i+1)%len(outline)]
		if to.X-from.X == long.X && to.Y-from.Y == long.Y {
			far, back := outline[(i+2)%len(outline)], outline[(i+3)%len(outline)]
			b.corners[[2]blockSide{right, rear}], b.corners[[2]blockSide{right, front}] = from, to
			b.corners[[2]blockSide{left, front}], b.corners[[2]blockSide{left, rear}] = far, back
			b.sides = []namedSide{{right, from, to}, {front, to, far}, {left, far, back}, {rear, back, from}}
		}
	}
	return b
}

func (b bench) corner(long, end blockSide) shape.Point { return b.corners[[2]blockSide{long, end}] }

// side is the side of the block that a stretch lies on, to within two units.
func (b bench) side(from, to shape.Point) blockSide {
	for _, s := range b.sides {
		if b.onLine(s, from) && b.onLine(s, to) {
			return s.name
		}
	}
	return none
}

func (b bench) onLine(s namedSide, q shape.Point) bool {
	dx, dy := float64(s.to.X-s.from.X), float64(s.to.Y-s.from.Y)
	return math.Abs(dx*float64(q.Y-s.from.Y)-dy*float64(q.X-s.from.X)) <= 2*math.Hypot(dx, dy)
}

func (b bench) distance(p, q shape.Point) float64 {
	return math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
}

// leftOf tells whether a point lies to the left of the way from one to another.
func (b bench) leftOf(from, to, q shape.Point) bool {
	return int64(to.X-from.X)*int64(q.Y-from.Y) > int64(to.Y-from.Y)*int64(q.X-from.X)
}

// place is how far a point lies along the block from its rearmost corner and
// across it from its right side.
func (b bench) place(q shape.Point) (along, across float64) {
	along, across = b.from(b.corner(right, rear), q)
	back, _ := b.from(b.corner(right, rear), b.corner(left, rear))
	return along - min(0, back), across
}

// from is how far a point lies along the block and across it from another.
func (b bench) from(o, q shape.Point) (along, across float64) {
	long := math.Hypot(float64(b.long.X), float64(b.long.Y))
	x, y := float64(q.X-o.X), float64(q.Y-o.Y)
	dx, dy := float64(b.long.X)/long, float64(b.long.Y)/long
	return x*dx + y*dy, y*dx - x*dy
}

// blockFacts is what a person wants to know of a room laid in blocks.
func (l *Lists) blockFacts(room *building.Room, area string) string {
	product, laid := room.Spec.BuildUp.Covering().Product, l.result.Layout(room)
	fresh, cut := map[layout.Hand]int{}, 0
	for _, step := range l.Steps(room) {
		if step.Before == nil {
			fresh[step.Piece.Hand]++
		}
		if step.Source != cutlist.Whole {
			cut++
		}
	}
	facts := []string{
		product.Description,
		fmt.Sprintf("%s, block %s x %s", product.Pattern, l.Cut(product.Length), l.Cut(product.Width)),
		area,
		fmt.Sprintf("gap %s all round", l.Cut(product.Gap)),
		fmt.Sprintf("points run %s", directionWords(laid.Along())),
		fmt.Sprintf("%s, %s, %d of them cut", Counted(len(laid.Rows), "row"), Counted(len(laid.Pieces), "piece"), cut),
		fmt.Sprintf("%d new blocks: %d left, %d right", laid.Planks, fresh[layout.Left], fresh[layout.Right]),
	}
	if room.Spec.Heated {
		facts = append(facts, "HEATED FLOOR")
	}
	return strings.Join(facts, " · ")
}
