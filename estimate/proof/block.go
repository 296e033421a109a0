package proof

import (
	"fmt"
	"math"
)

// blocks tells a floor of a known pattern of blocks.
func (f *floor) blocks() bool {
	if f.entry.Blocks == nil {
		return false
	}
	switch f.entry.Kind {
	case "herringbone", "double herringbone", "chevron":
		return true
	}
	return false
}

// lattice is a pattern: blocks by their hand and the place of their frames'
// 0,0, repeated by two steps.
type lattice struct {
	along, across point
	blocks        []latticeBlock
	outlines      map[string]loop // by hand, anticlockwise
}

type latticeBlock struct {
	hand string
	at   point
}

// latticeOf is the floor's pattern of blocks of a size; why says what is wrong
// with it, if anything is.
func (f *floor) latticeOf(long, wide length) (l lattice, why string) {
	e := f.entry.Blocks
	if len(e.Origin) != 1 || long <= 0 || wide <= 0 {
		return l, "the pattern has no origin"
	}
	o := e.Origin[0]
	if f.entry.Kind == "chevron" {
		return f.chevron(o, float64(long), float64(wide))
	}
	abreast := length(1)
	if f.entry.Kind == "double herringbone" {
		abreast = 2
	}
	l = lattice{along: point{abreast * wide, abreast * wide}, across: point{-long, long}, outlines: map[string]loop{
		"right": rectangle(float64(long), float64(wide)), "left": rectangle(float64(wide), float64(long)),
	}}
	for i := range abreast {
		l.blocks = append(l.blocks, latticeBlock{"right", point{o.x, o.y + i*wide}},
			latticeBlock{"left", point{o.x + long + i*wide, o.y + abreast*wide - long}})
	}
	return l, ""
}

func rectangle(x, y float64) loop { return loop{{0, 0}, {x, 0}, {x, y}, {0, y}} }

func (f *floor) chevron(o point, long, wide float64) (l lattice, why string) {
	e := f.entry.Blocks
	if e.Angle == nil || e.Pitch <= 0 || e.Depth <= 0 || e.Slant < 0 {
		return l, "the chevron has no angle, pitch, depth or slant"
	}
	sine, cosine := math.Sincos(e.Angle.InexactFloat64() * math.Pi / 180)
	off := func(stated length, exact float64) bool { return math.Abs(float64(stated)-exact) > 1 }
	if off(e.Depth, long*sine) || off(e.Slant, long*cosine) || off(e.Pitch, wide/sine) {
		return l, "the chevron's blocks are not of the plank's size and angle"
	}
	p, d, s := float64(e.Pitch), float64(e.Depth), float64(e.Slant)
	return lattice{along: point{e.Pitch, 0}, across: point{0, 2 * e.Depth},
		blocks: []latticeBlock{{"left", o}, {"right", point{o.x, o.y + e.Depth}}},
		outlines: map[string]loop{
			"left": {{0, 0}, {p, 0}, {p + s, d}, {s, d}}, "right": {{s, 0}, {p + s, 0}, {p, d}, {0, d}},
		}}, ""
}

// holds tells whether a block of the hand lies at a place.
func (l *lattice) holds(hand string, at point) bool {
	// at = block + m along + n across, by Cramer's rule.
	det := l.along.x*l.across.y - l.along.y*l.across.x
	for _, b := range l.blocks {
		x, y := at.x-b.at.x, at.y-b.at.y
		if b.hand == hand && (x*l.across.y-y*l.across.x)%det == 0 && (l.along.x*y-l.along.y*x)%det == 0 {
			return true
		}
	}
	return false
}

// checkNumbers checks that every piece of a floor of blocks has a number of its
// own.
func (f *floor) checkNumbers(t *tally, where string) {
	seen := map[[2]int]bool{}
	for i := range f.entry.Pieces {
		p := &f.entry.Pieces[i]
		number := [2]int{p.Row, p.Seq}
		if !t.hold(!seen[number] && p.Row > 0 && p.Seq > 0) {
			t.broken(where, p.sign(), "a number of its own", "pieces are not numbered")
		}
		seen[number] = true
	}
}

// origin is where the piece's block has its 0,0 in the layout's frame.
func (p planked) origin() point {
	in, b := p.piece().InStock, p.floor.bounds[p.index]
	return point{b.x0 - in.x0, b.y0 - in.y0}
}

// inBlock is a ring of the piece in its block's frame.
func (p planked) inBlock(r ring) loop {
	o := p.origin()
	l := make(loop, len(r))
	for i, q := range r {
		l[i] = spot{float64(q.x - o.x), float64(q.y - o.y)}
	}
	return l
}

// checkInBlock checks that the piece lies in a block of the pattern of its own
// hand, and that sides of it that are not the block's run along a wall.
func (p planked) checkInBlock(block *stockEntry, claims *plankClaims, where string) {
	piece := p.piece()
	if !claims.hand.hold(piece.Hand == block.Hand) {
		claims.hand.broken(where, piece.Hand, block.Hand, p.sign()+" is not of its block's hand")
		return
	}
	l, why := p.floor.latticeOf(block.Length, block.Width)
	outline, known := l.outlines[piece.Hand]
	if why == "" && !known {
		why = p.sign() + " is neither left nor right"
	}
	if !claims.pattern.hold(why == "") {
		claims.pattern.broken(where, piece.Hand, "a pattern of blocks", why)
		return
	}
	if !claims.pattern.hold(l.holds(piece.Hand, p.origin())) {
		claims.pattern.broken(where, piece.InStock.sign(), "a block of the pattern", p.sign()+" is not in its place in the pattern")
	}
	in, b := piece.InStock, p.floor.bounds[p.index]
	if !claims.inPlank.hold(in.width() == b.width() && in.height() == b.height() && p.inside(outline)) {
		claims.inPlank.broken(where, in.sign(), "a "+piece.Hand+" block", p.sign()+" reaches beyond its block")
	}
	p.checkBlockSides(outline, claims.hand, where)
}

func (p planked) checkBlockSides(outline loop, t *tally, where string) {
	piece := p.piece()
	for _, r := range append([]ring{piece.At}, piece.Holes...) {
		in, at := p.inBlock(r), r.loop()
		for i := range in {
			j := (i + 1) % len(in)
			middle := spot{(at[i].x + at[j].x) / 2, (at[i].y + at[j].y) / 2}
			if !t.hold(alongSide(outline, in[i], in[j]) || p.floor.alongWall(middle)) {
				t.broken(where, middle.sign(), "a side of the block or a wall", p.sign()+" meets another piece with a sawn side")
			}
		}
	}
}

// inside tells whether the piece lies in its block, to within a unit.
func (p planked) inside(outline loop) bool {
	for _, q := range p.inBlock(p.piece().At) {
		for i, a := range outline {
			if beyond(a, outline[(i+1)%len(outline)], q) > 1 {
				return false
			}
		}
	}
	return true
}

// beyond is how far a spot lies to the right of the line from a to b.
func beyond(a, b, q spot) float64 {
	return ((b.y-a.y)*(q.x-a.x) - (b.x-a.x)*(q.y-a.y)) / math.Hypot(b.x-a.x, b.y-a.y)
}

// alongSide tells whether a stretch lies on a side of the outline, to within a
// unit.
func alongSide(outline loop, from, to spot) bool {
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if math.Abs(beyond(a, b, from)) <= 1 && math.Abs(beyond(a, b, to)) <= 1 {
			return true
		}
	}
	return false
}

// checkSawn finds straight saw cuts, one kerf wide, that part all pieces of a
// block.
func (p *pool) checkSawn(block *stockEntry, pieces []planked, t *tally) {
	kerf := 0.0
	outlines := make([]loop, len(pieces))
	for i, piece := range pieces {
		outlines[i] = piece.inBlock(piece.piece().At)
		kerf = math.Max(kerf, float64(piece.floor.entry.Kerf))
	}
	if t.hold(sawn(outlines, kerf)) {
		return
	}
	t.broken(p.plankSign(block), pieces[0].sign(), fmt.Sprintf("apart from %s by %s", pieces[1].sign(), length(kerf).mm()),
		"pieces of a block overlap or leave no room for the saw")
}

// sawn tells whether cuts along sides of pieces part all of them. Any cut that
// parts them is as good as another.
func sawn(pieces []loop, kerf float64) bool {
	if len(pieces) < 2 {
		return true
	}
	for _, l := range pieces {
		for i, a := range l {
			if near, far, clean := sortBy(pieces, a, l[(i+1)%len(l)], kerf); clean {
				return sawn(near, kerf) && sawn(far, kerf)
			}
		}
	}
	return false
}

// sortBy sorts pieces by the side of a cut they lie on; clean tells that each
// lies on one, and some on either.
func sortBy(pieces []loop, a, b spot, kerf float64) (near, far []loop, clean bool) {
	const nothing = 1e-6
	for _, l := range pieces {
		least, most := math.Inf(1), math.Inf(-1)
		for _, q := range l {
			off := beyond(a, b, q)
			least, most = math.Min(least, off), math.Max(most, off)
		}
		switch {
		case most <= nothing:
			near = append(near, l)
		case least >= kerf-nothing:
			far = append(far, l)
		default:
			return nil, nil, false
		}
	}
	return near, far, len(near) > 0 && len(far) > 0
}

// spotBound is the blocks that the pool's spots prove: for each hand the best
// spot counts.
func (p *pool) spotBound(t *tally) int64 {
	best := map[string]int64{}
	for _, s := range p.spots() {
		if !t.want(len(s.At) == 1, p.name.sign(), "a spot", "a place", "a spot has no place") {
			continue
		}
		found := p.holding(s.Hand, spot{float64(s.At[0].x), float64(s.At[0].y)})
		t.want(s.Pieces <= found, p.name.sign(), fmt.Sprintf("%d pieces stated", s.Pieces), fmt.Sprintf("%d found", found), "fewer pieces hold the spot")
		best[s.Hand] = max(best[s.Hand], min(s.Pieces, found))
	}
	return best["left"] + best["right"]
}

// holding counts the pieces of a hand that hold a spot of the block or come
// nearer to it than half a kerf.
func (p *pool) holding(hand string, at spot) int64 {
	found := int64(0)
	for _, f := range p.floors {
		for i := range f.entry.Pieces {
			piece := planked{f, i}
			if piece.piece().Hand != hand {
				continue
			}
			l := piece.inBlock(piece.piece().At)
			near := l.holds(at)
			for k := range l {
				near = near || distance(at, l[k], l[(k+1)%len(l)]) < float64(f.entry.Kerf)/2
			}
			if near {
				found++
			}
		}
	}
	return found
}
