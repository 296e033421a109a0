// Package blocks lays floors of herringbone and chevron blocks: where the
// pattern begins so that fewest blocks are bought, which block every piece is
// cut from, and how few could do.
//
// Blocks come in two mirrored hands, left and right. Every piece is cut from a
// block of its hand at the place in the block where it lies in the pattern, so
// that each of its sides that meets another piece is the factory's own. Two
// pieces come from one block where a straight saw cut, one kerf wide, parts
// them there. Since a piece has no other place in a block, a spot of the block
// that n pieces hold proves that they take n blocks (derived in the package, no
// published source).
//
// In a herringbone the end of one block meets the long side of the next at a
// right angle: blocks lie at 45 degrees to the way the points run. The layout's
// frame has its x along the right blocks, so that every block is an upright or a
// level rectangle and is cut exactly; walls are slanted in it. In a chevron all
// ends meet on lines along the points; the frame has its x along them, and
// blocks are parallelograms whose pitch, depth and slant are rounded once to the
// unit.
package blocks

import (
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Pattern is how blocks lie.
type Pattern uint8

// The patterns. In a double herringbone two blocks lie side by side.
const (
	None Pattern = iota
	Herringbone
	DoubleHerringbone
	Chevron
)

// Packs is which hands come in a pack.
type Packs uint8

// Kinds of packs.
const (
	Mixed Packs = iota // lefts and rights in equal numbers
	Apart              // packs of lefts and packs of rights
	Alike              // blocks without a hand: a pack serves either
)

// Style is a product's pattern and packs.
type Style struct {
	Pattern Pattern
	Angle   shape.Angle // of a chevron: between a block and the line its ends meet on
	Packs   Packs
}

// Bought is the number of blocks to buy, in packs of so many, for a need of
// both hands.
func (s Style) Bought(lefts, rights, perPack int) int {
	perPack = max(1, perPack)
	whole := func(n int) int { return (n + perPack - 1) / perPack * perPack }
	switch s.Packs {
	case Mixed:
		return whole(2 * max(lefts, rights))
	case Apart:
		return whole(lefts) + whole(rights)
	}
	return whole(lefts + rights)
}

// pattern is the blocks of one cell, repeated by two steps without end.
type pattern struct {
	turn          shape.Angle // of the layout's frame from the way the points run
	along, across shape.Point // steps to the next cell along the points, and to the next row
	cell          []place
	rows          int // in a cell
	outlines      [2]shape.Ring
	sides         [2]shape.Point // long sides of the blocks, the way the points run
	slanted       bool           // blocks are parallelograms
}

// place is a block of a cell.
type place struct {
	hand layout.Hand
	at   shape.Point // of the lower left corner of the rectangle round it
	row  int         // in the cell
}

func (s Style) pattern(block layout.Plank) *pattern {
	switch s.Pattern {
	case DoubleHerringbone:
		return herringbone(block, 2)
	case Chevron:
		return chevron(block, s.Angle)
	}
	return herringbone(block, 1)
}

// herringbone has units of so many blocks side by side. A level unit lies from
// 0,0; the upright one stands at its right end, its top in line with that of the
// level one. The next pair along the points is a unit's width to the right and
// up, the next row a length to the left and up.
func herringbone(block layout.Plank, abreast int) *pattern {
	length, width := block.Length, block.Width
	unit := measure.Length(abreast) * width
	p := &pattern{turn: -shape.QuarterTurn / 2, along: shape.Point{X: unit, Y: unit}, across: shape.Point{X: -length, Y: length}, rows: 1}
	for i := range measure.Length(abreast) {
		p.cell = append(p.cell, place{hand: layout.Right, at: shape.Point{Y: i * width}})
	}
	for i := range measure.Length(abreast) {
		p.cell = append(p.cell, place{hand: layout.Left, at: shape.Point{X: length + i*width, Y: unit - length}})
	}
	p.outlines = [2]shape.Ring{
		shape.Rectangle(shape.Box{X1: width, Y1: length}).Outer,
		shape.Rectangle(shape.Box{X1: length, Y1: width}).Outer,
	}
	p.sides = [2]shape.Point{{Y: length}, {X: length}}
	return p
}

// chevron has rows of left blocks and rows of right ones by turns.
func chevron(block layout.Plank, angle shape.Angle) *pattern {
	side := shape.Ring{{X: block.Length}}.TurnBack(angle)[0]
	deep, rise := side.Y, side.X
	// The pitch p of blocks w wide: p sin angle = w, and sin angle = depth / length.
	pitch := measure.Length((int64(block.Width)*int64(block.Length) + int64(deep)/2) / int64(deep))
	return &pattern{
		along: shape.Point{X: pitch}, across: shape.Point{Y: 2 * deep}, rows: 2, slanted: true,
		cell: []place{{hand: layout.Left}, {hand: layout.Right, at: shape.Point{Y: deep}, row: 1}},
		outlines: [2]shape.Ring{
			{{X: 0}, {X: pitch}, {X: pitch + rise, Y: deep}, {X: rise, Y: deep}},
			{{X: rise}, {X: pitch + rise}, {X: pitch, Y: deep}, {X: 0, Y: deep}},
		},
		sides: [2]shape.Point{{X: rise, Y: deep}, {X: rise, Y: -deep}},
	}
}

func (p *pattern) outline(h layout.Hand) shape.Ring { return p.outlines[h-layout.Left] }

// torus sees a point along and across the points, in a scale of the pattern's
// own in which both steps of the pattern are square to one another.
func (p *pattern) torus(q shape.Point) shape.Point {
	if p.turn == 0 {
		return q
	}
	return shape.Point{X: q.X + q.Y, Y: q.Y - q.X}
}

// untorus undoes torus, to within a unit.
func (p *pattern) untorus(q shape.Point) shape.Point {
	if p.turn == 0 {
		return q
	}
	return shape.Point{X: (q.X - q.Y) >> 1, Y: (q.X + q.Y) >> 1}
}

// periods are the lengths of both steps as torus sees them.
func (p *pattern) periods() (along, across measure.Length) {
	return p.torus(p.along).X, p.torus(p.across).Y
}

func plus(a, b shape.Point) shape.Point { return shape.Point{X: a.X + b.X, Y: a.Y + b.Y} }

func times(a shape.Point, n int) shape.Point {
	return shape.Point{X: a.X * measure.Length(n), Y: a.Y * measure.Length(n)}
}

// floorDivide rounds down; b is positive.
func floorDivide(a, b measure.Length) int {
	quotient := a / b
	if a%b < 0 {
		quotient--
	}
	return int(quotient)
}
