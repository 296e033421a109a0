// Package layout lays plank floors piece by piece: which row starts with how
// much of a plank, which plank every piece is cut from, and how few planks
// could do.
//
// Every room is seen in the frame of its laying direction: x along the planks,
// y a quarter turn further. Rows rise with y and pieces with x; planks are
// neither turned nor flipped. The floor inside the expansion gap is cut into
// rows; in each row it falls into segments, unbroken along x. A segment longer
// than a plank is a starter, whole planks and an end piece.
//
// With handed ends (click, tongue and groove) the joint side of a starter must
// be the plank's right factory end, that of an end piece the left one, and the
// joint side of a ripped first row the far edge, that of a ripped last row the
// near one. So one plank gives at most one end piece at its left, one starter at
// its right, one strip of a first row and one strip of a last row; counting
// planks is matching them (derived in the package, no published source).
package layout

import (
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Plank is the size of the planks of a pool.
type Plank struct{ Length, Width measure.Length }

// Ends says which ends of a plank may be a joint.
type Ends int

// Kinds of ends.
const (
	// Handed: a starter keeps the plank's right factory end, an end piece its
	// left (click, tongue and groove).
	Handed Ends = iota
	// Free: starters and end pieces may come from either end of a plank
	// (glue-down, loose-laid).
	Free
)

// Rules are the lengths a layout keeps to. Usual values (common practice): gap
// 8 to 15 mm, kerf 3 mm, least end 300 mm, least stagger 300 mm or a third of
// the plank, least row 50 mm, joints two rows apart 50 mm out of line.
type Rules struct {
	Gap          measure.Length // expansion gap along walls and fixtures
	Kerf         measure.Length // lost between two pieces of one plank
	LeastEnd     measure.Length // shortest starter or end piece
	LeastStagger measure.Length // between joints of neighbouring rows
	LeastRow     measure.Length // narrowest first or last row
	LineUp       measure.Length // between joints two rows apart, kept where it costs no plank
	Ends         Ends
	Pattern      Pattern
}

// Room is one floor of a pool.
type Room struct {
	ID         string        // unique in the pool; rooms are worked in the order of their IDs
	Floor      shape.Region  // floor less fixtures, in the room's frame, before the gap
	Directions []shape.Angle // of the planks; several: the best is chosen; none: along the longer side
	// Fields are parts of the floor that are laid one by one, with an expansion
	// gap along all their sides; none when the floor is laid in one piece. A floor
	// of fields has one direction.
	Fields []shape.Region
}

// Pool is rooms that are laid from the same planks: off-cuts and ripped strips
// of one room may be used in another.
type Pool struct {
	Plank         Plank
	Rules         Rules
	PiecesPerPack int
	Rooms         []Room
	Seed          int64
}

// Row is one course of planks from Y0 to Y1 in the layout's frame.
type Row struct{ Y0, Y1 measure.Length }

// Field is the rows of a part of a floor that is laid by itself, by their
// numbers, which go on from field to field.
type Field struct {
	First, Last int
	Phase       measure.Length // as Layout.Phase
}

// Piece is one piece of a floor.
type Piece struct {
	Row, Seq int        // from 1; Seq counts along the row
	At       shape.Ring // in the layout's frame
	Holes    []shape.Ring
	Stock    int       // number of its plank in the pool, from 1
	In       shape.Box // the smallest rectangle of the plank it is cut from: x along, y across
	Hand     Hand      // of its block, where the floor is laid in blocks
}

// Layout is the floor of one room, laid.
type Layout struct {
	Room       string
	Direction  shape.Angle
	Blocks     *Blocks // nil where planks lie in rows
	Rows       []Row
	Phase      measure.Length // in a fixed pattern: where joints of the first row lie, less whole planks; of fields each has its own
	Fields     []Field        // none when the floor is laid in one piece
	Pieces     []Piece
	Planks     int // planks first cut for this layout; the layouts of a pool add up to its planks
	LowerBound int // planks that no layout of this room alone undercuts; 0 when its pool has several rooms
	Cuts       int // cross cuts, and cuts on the slant
	Rips       int // pieces cut along their length
	Notches    int // pieces cut round a corner or a fixture
}

// countShape counts the saw's work on a piece that is no plain rectangle.
func (l *Layout) countShape(piece *shape.Polygon) {
	if len(piece.Holes) == 0 && piece.Outer.Convex() {
		l.Cuts++
	} else {
		l.Notches++
	}
}

// Area is the floor the pieces cover.
func (l *Layout) Area() measure.Area {
	var double int64
	for i := range l.Pieces {
		p := shape.Polygon{Outer: l.Pieces[i].At, Holes: l.Pieces[i].Holes}
		double += p.DoubleArea()
	}
	return measure.Area(double / 2)
}

// Plan is a pool, laid.
type Plan struct {
	Layouts []Layout // in the order of Pool.Rooms
	Planks  int
	// LowerBound is the number of planks that no layout of the pool undercuts,
	// whatever its directions, first rows and starters. Stagger is left out of
	// it: it seldom costs a plank.
	LowerBound int
	Proven     bool // Planks equals LowerBound
	// RowBound is the number of planks that no way of cutting the rows of this
	// plan undercuts. Certificate proves it; nil when there is none to give.
	RowBound    int
	Certificate *Certificate
	// InPattern is the number of planks that no layout of a single room in its
	// fixed pattern undercuts: each of its phases was counted. 0 when not known.
	InPattern  int
	ByEye      int // planks that the crew's row-by-row method takes
	Shortfalls []Shortfall

	Lefts, Rights int    // of the planks, where they are blocks
	Spots         []Spot // prove RowBound where the planks are blocks, a hand each
}

// Shortfall is a rule that a layout does not keep: the worst place in a row.
type Shortfall struct {
	Room  string
	Row   int // from 1; 0 when it is the whole room
	Rule  Rule
	At    shape.Point // in the layout's frame
	Found measure.Length
	Want  measure.Length
	Text  string // what is found in the row, lengths in millimetres
}

// Rule names a rule of laying.
type Rule = string

// Rules that a shortfall may name.
const (
	RuleRoom    Rule = "room"    // no floor is left inside the expansion gap
	RuleEnd     Rule = "end"     // a piece shorter along the row than the least end piece
	RuleStagger Rule = "stagger" // joints of neighbouring rows too near
	RuleRow     Rule = "row"     // the first or the last row narrower than the least row
	RuleNarrow  Rule = "narrow"  // a piece at an inner wall narrower than the least row
	RuleLineUp  Rule = "line-up" // joints two rows apart in line
	RuleHole    Rule = "hole"    // a fixture stands inside one piece: no board goes over it whole
	RulePattern Rule = "pattern" // a row out of the product's pattern
)
