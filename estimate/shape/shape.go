// Package shape holds the outlines of rooms and pieces and cuts them: inset
// by the expansion gap, less fixtures, into rows and into pieces.
//
// Coordinates are whole units of 1/320 mm. Outer rings run anticlockwise,
// holes clockwise (y read upwards), the first point is not repeated, and no
// three successive points lie on one line. Outlines with axis-parallel walls
// only are cut in exact integer arithmetic; slanted ones are cut exactly along
// x and y and only the crossing points on slanted walls are rounded to the
// unit.
package shape

import "laybill/estimate/measure"

// Point is a place in a room; x runs east along the room's length, y north.
type Point struct{ X, Y measure.Length }

// Ring is a closed outline whose first point is not repeated.
type Ring []Point

// Polygon is one connected floor with its holes (columns, hearths, shafts).
type Polygon struct {
	Outer Ring
	Holes []Ring
}

// Region is a floor that may fall into several parts. Parts do not overlap.
type Region []Polygon

// Box is an axis-parallel rectangle, X0 <= X1 and Y0 <= Y1.
type Box struct{ X0, Y0, X1, Y1 measure.Length }
