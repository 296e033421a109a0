package proof

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"
)

// floor is a layout laid back into its rooms.
type floor struct {
	entry  *layoutEntry
	of     *floor   // that this is a field of, nil for a whole floor
	number int      // of the field, from 1
	parts  []*floor // its fields, or itself
	rooms  []*roomEntry
	ground ground
	bounds []box // of each piece
	area   int64 // of all pieces, in squares of 1/320 mm
	sound  bool  // pieces can be laid and planks recounted

	along    []meeting // pieces that meet end to end
	across   []meeting // pieces that meet edge to edge
	segments []segment
}

// floorClaims are the claims on floors, opened in the order they are reported.
type floorClaims struct {
	layouts, pieces, cover, area, points *tally
	holes                                *tally
	run, end, stagger, lineUp            *tally
	pattern, bands, row, racked          *tally
	byOther                              int // layouts of other kinds than planks and blocks
}

// checkFloors lays every layout back into the rooms that name it.
func (c *checker) checkFloors() {
	claims := &floorClaims{
		layouts: c.claim(claimLayouts), pieces: c.claim(claimPieces), cover: c.claim(claimCover),
		area: c.claim(claimFloorArea), points: c.claim(claimPoints), holes: c.claim(claimHoles), run: c.claim(claimRun),
		end: c.claim(claimEnd), stagger: c.claim(claimStagger), lineUp: c.claim(claimLineUp),
		pattern: c.claim(claimPattern), bands: c.claim(claimBands), row: c.claim(claimRow), racked: c.claim(claimRacked),
	}
	c.inPattern = c.claim(claimBlocks)
	c.gatherFloors(claims.layouts)
	c.report.Layouts = len(c.f.Layouts)
	total := 0.0
	for i := range c.f.Layouts {
		f := c.floors[c.f.Layouts[i].ID]
		if f == nil || f.entry != &c.f.Layouts[i] || len(f.rooms) == 0 {
			continue
		}
		c.layBackByField(f, claims)
		total += float64(f.area) * float64(len(f.rooms))
	}
	claims.cover.remark = fmt.Sprintf("%.2f m2 of pieces in %d rooms", total/squareMetre, c.report.Floors)
	if claims.byOther > 0 {
		claims.cover.remark += fmt.Sprintf("; %d layouts are neither of planks nor of blocks and were not laid back", claims.byOther)
	}
}

// gatherFloors finds the rooms of every layout: all have the same floor.
func (c *checker) gatherFloors(t *tally) {
	for i := range c.f.Layouts {
		entry := &c.f.Layouts[i]
		if t.want(c.floors[entry.ID] == nil, "layout "+entry.ID, "twice", "once", "two layouts have this id") {
			c.floors[entry.ID] = &floor{entry: entry}
			c.floors[entry.ID].parts = []*floor{c.floors[entry.ID]}
		}
	}
	signatures := map[*floor]string{}
	for i := range c.f.Rooms {
		room := &c.f.Rooms[i]
		if room.Layout == nil || !room.drawn() {
			continue
		}
		f := c.floors[*room.Layout]
		if !t.want(f != nil, room.sign(), *room.Layout, "a layout", "the room's layout is not in the file") {
			continue
		}
		c.report.Floors++
		signature := room.signature(false, false)
		if len(f.rooms) == 0 {
			signatures[f] = signature
		} else {
			t.want(signature == signatures[f], room.sign(), "another floor", "that of "+f.rooms[0].sign(),
				"rooms with layout "+f.entry.ID+" differ")
		}
		f.rooms = append(f.rooms, room)
	}
	for i := range c.f.Layouts {
		id := c.f.Layouts[i].ID
		t.want(len(c.floors[id].rooms) > 0, "layout "+id, "no room", "a room", "no room has this layout")
	}
}

// layBackByField checks one layout, each field by itself.
func (c *checker) layBackByField(f *floor, claims *floorClaims) {
	if f.sound = f.readPieces(claims.pieces, f.sign()); !f.sound {
		return
	}
	c.report.Pieces += len(f.entry.Pieces) * len(f.rooms)
	c.checkRun(f, claims.run)
	if f.racked() {
		c.checkRacked(f, claims)
		return
	}
	if !f.planks() && !f.blocks() {
		claims.byOther++
		return
	}
	c.checkHoles(f, claims.holes)
	f.parts = f.parted()
	for _, part := range f.parts {
		c.layBack(part, claims)
	}
}

// layBack checks a floor that is laid in one piece.
func (c *checker) layBack(f *floor, claims *floorClaims) {
	where := f.sign()
	if f.blocks() {
		c.checkCover(f, claims, where)
		f.checkPoints(claims.points, where)
		f.checkNumbers(claims.pieces, where)
		return
	}
	f.checkSides(claims.pieces, where)
	c.checkCover(f, claims, where)
	f.checkPoints(claims.points, where)
	f.meet()
	f.checkOrder(claims.pieces, where)
	f.checkBands(c.plankSizes()[f.entry.Product].wide, claims.bands, where)
	f.findSegments()
	c.checkRules(f, claims)
}

// whole is the floor that this is a field of, or itself.
func (f *floor) whole() *floor {
	if f.of != nil {
		return f.of
	}
	return f
}

func (f *floor) planks() bool { return f.entry.Kind == "plank" || f.entry.Kind == "" }

// sign names the floor in messages.
func (f *floor) sign() string {
	if len(f.rooms) == 0 {
		return "layout " + f.entry.ID
	}
	field := ""
	if f.of != nil {
		field = fmt.Sprintf(", field %d", f.number)
	}
	return fmt.Sprintf("layout %s (%s%s)", f.entry.ID, f.rooms[0].sign(), field)
}

// rounded tells whether corners of pieces may be off the exact place: on slanted
// walls, and on the slanted sides of blocks.
func (f *floor) rounded() bool { return f.ground.slanted || f.blocks() }

// slackOf is what such corners may be off.
func (f *floor) slackOf() length {
	if f.rounded() {
		return slack
	}
	return 0
}

// readPieces checks that every piece is an outline with an area and a place in
// a plank, and that the layout's figures make sense.
func (f *floor) readPieces(t *tally, where string) bool {
	e := f.entry
	switch e.Joint {
	case "click", "tongue-groove", "glue-down", "loose":
	default:
		t.fail(where, fmt.Sprintf("the joint %.40q is not known", e.Joint))
		return false
	}
	if e.Gap < 0 || e.Kerf < 0 || e.Direction.Abs().GreaterThan(decimal.NewFromInt(3600)) {
		t.fail(where, "gap, kerf or direction is out of range")
		return false
	}
	sound, twice := true, int64(0)
	f.bounds = make([]box, len(e.Pieces))
	for i := range e.Pieces {
		p := &e.Pieces[i]
		area, ok := p.twiceArea()
		ok = ok && p.InStock.width() > 0 && p.InStock.height() > 0
		if !t.hold(ok) {
			t.broken(where, p.sign(), "a piece", "the piece has no area or no place in a plank")
			sound = false
			continue
		}
		p.At = p.At.anticlockwise(true)
		for j := range p.Holes {
			p.Holes[j] = p.Holes[j].anticlockwise(false)
		}
		f.bounds[i] = p.At.bounds()
		twice += area
	}
	f.area = twice / 2
	return sound
}

// twiceArea is twice the piece's area; ok is false when it has none.
func (p *pieceEntry) twiceArea() (twice int64, ok bool) {
	if len(p.At) < 3 {
		return 0, false
	}
	twice = abs(p.At.twiceArea())
	for _, hole := range p.Holes {
		if len(hole) < 3 {
			return 0, false
		}
		twice -= abs(hole.twiceArea())
	}
	return twice, twice > 0
}

func abs(n int64) int64 {
	if n < 0 {
		return -n
	}
	return n
}

// sign names a piece in messages.
func (p *pieceEntry) sign() string { return fmt.Sprintf("row %d piece %d", p.Row, p.Seq) }

// checkSides allows slanted sides of pieces only along slanted walls.
func (f *floor) checkSides(t *tally, where string) {
	for i := range f.entry.Pieces {
		p := &f.entry.Pieces[i]
		for _, r := range append([]ring{p.At}, p.Holes...) {
			l := r.loop()
			for j, a := range l {
				b := l[(j+1)%len(l)]
				if a.x != b.x && a.y != b.y && !f.alongWall(spot{(a.x + b.x) / 2, (a.y + b.y) / 2}) {
					t.fail(where, p.sign()+" has a slanted side away from every wall")
				}
			}
		}
	}
}

// alongWall tells whether a spot lies at the gap from a wall.
func (f *floor) alongWall(s spot) bool {
	gap := float64(f.entry.Gap)
	for _, l := range f.ground.loops() {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if math.Abs(lineDistance(s, a, b)-gap) <= unit && distance(s, a, b) <= mitreLimit*gap+unit {
				return true
			}
		}
	}
	return false
}

// checkCover sweeps floor, gap and pieces.
func (c *checker) checkCover(f *floor, claims *floorClaims, where string) {
	gap, off := float64(f.entry.Gap), float64(f.slackOf())
	w := sweep{}
	w.addGround(f.ground)
	for _, strip := range f.ground.margins(math.Max(0, gap-off)) {
		w.add(outerStrip, strip)
	}
	for _, strip := range f.ground.margins(gap + off) {
		w.add(innerStrip, strip)
	}
	for i := range f.entry.Pieces {
		p := &f.entry.Pieces[i]
		outlines := []loop{p.At.loop()}
		for _, hole := range p.Holes {
			outlines = append(outlines, hole.loop())
		}
		w.add(pieceLayer, outlines...)
	}
	found, ok := w.measure(&c.steps)
	if !claims.cover.want(ok, where, "too much", "a floor", "the floor is too intricate to check") {
		return
	}
	// Areas below what rounded corners on slanted walls can leave are nothing.
	nothing := 0.0
	if f.rounded() {
		nothing = unit * unit
		if gap < off {
			nothing += f.ground.around * unit / 50
		}
	}
	report := func(area float64, at spot, why string) {
		claims.cover.want(area <= nothing, where, squareMillimetres(area), "0 mm2", why+" at "+at.sign())
	}
	report(found.uncovered, found.uncoveredAt, "floor not covered")
	report(found.twice, found.twiceAt, "floor covered twice")
	report(found.outside, found.outsideAt, "pieces in the gap or outside the room")
	area := float64(f.area)
	claims.area.want(found.inner-nothing <= area && area <= found.outer+nothing, where,
		squareMillimetres(area), squareMillimetres(found.inner), "pieces and floor inside the gap differ")
}

func squareMillimetres(units float64) string {
	return fmt.Sprintf("%.2f mm2", units/(unit*unit))
}

// sign names a spot in messages.
func (s spot) sign() string { return fmt.Sprintf("%.1f, %.1f mm", s.x/unit, s.y/unit) }
