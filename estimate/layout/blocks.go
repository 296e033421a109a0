package layout

import (
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Hand is which of the two mirrored blocks of a herringbone or chevron a piece
// is cut from. Seen the way the points run, a right block points to the right
// and a left one to the left.
type Hand uint8

// The hands; planks laid in rows have none.
const (
	NoHand Hand = iota
	Left
	Right
)

// Other is the opposite hand.
func (h Hand) Other() Hand { return Left + Right - h }

func (h Hand) String() string { return [...]string{"", "left", "right"}[h] }

// Blocks says how a floor laid in blocks lies. The rows of such a layout run
// the way the points do and are given across that way; they interlock.
//
// A piece lies in its block's own frame, Piece.In, as in the layout's: the axes
// are the layout's, 0,0 is the lower left corner of the rectangle round the
// block.
type Blocks struct {
	Along    shape.Angle    // the way the points run, anticlockwise from the room's x
	Origin   shape.Point    // of the pattern, in the layout's frame
	Outlines [2]shape.Ring  // of a left and of a right block, in its own frame
	Sides    [2]shape.Point // of a left and of a right block: its long side, from end to end
}

// Outline is the outline of the hand's block.
func (b *Blocks) Outline(h Hand) shape.Ring { return b.Outlines[h-Left] }

// Whole tells whether a piece is its block as it comes.
func (b *Blocks) Whole(p *Piece) bool {
	outline := b.Outline(p.Hand)
	if len(p.Holes) > 0 || len(p.At) != len(outline) {
		return false
	}
	x, y := p.origin()
	for i, corner := range outline {
		if p.At[i].X-x != corner.X || p.At[i].Y-y != corner.Y {
			return false
		}
	}
	return true
}

// InBlock is a ring of the piece seen in its block's frame.
func (p *Piece) InBlock(r shape.Ring) shape.Ring {
	x, y := p.origin()
	in := make(shape.Ring, len(r))
	for i, corner := range r {
		in[i] = shape.Point{X: corner.X - x, Y: corner.Y - y}
	}
	return in
}

// Spot is a place in the block of a hand that so many pieces of the hand hold,
// or come nearer to than half a kerf: no two of them can be cut from one block.
type Spot struct {
	Hand   Hand
	At     shape.Point // in the block's frame
	Pieces int
}

// origin is where the block's own 0,0 lies in the layout's frame.
func (p *Piece) origin() (x, y measure.Length) {
	bounds := p.At.Bounds()
	return bounds.X0 - p.In.X0, bounds.Y0 - p.In.Y0
}

// Along is the way the rows run, anticlockwise from the room's x.
func (l *Layout) Along() shape.Angle {
	if l.Blocks != nil {
		return l.Blocks.Along
	}
	return l.Direction
}
