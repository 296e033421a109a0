package drawing

import (
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Space around the room on the paper in mm: doors and row numbers on the
// left, doors, row widths and the room's height on the right, doors above,
// doors, the room's length and the legend below.
const (
	marginLeft   = 24.0
	marginRight  = 31.0
	marginTop    = 7.0
	marginBottom = 21.0
)

// largest is the largest scale, 1 : 10: a small store need not fill a page.
const largest = 1.0 / 10

// frame places the room on the paper. The drawing is turned by quarters so
// that the rows run from left to right, or as near to it as quarters allow.
type frame struct {
	direction   shape.Angle // of the layout in the room
	quarter     shape.Angle // how far the room is turned
	bounds      shape.Box   // of the turned room
	perUnit     float64     // paper mm for 1/320 mm
	left, top   float64     // of the room on the paper
	width, deep float64     // of the room on the paper
}

func newFrame(walls shape.Polygon, direction, rows shape.Angle, width, height float64) frame {
	f := frame{direction: direction, quarter: nearestQuarter(rows), left: marginLeft, top: marginTop}
	f.bounds = walls.Outer.Turn(f.quarter).Bounds()
	across, down := float64(f.bounds.X1-f.bounds.X0), float64(f.bounds.Y1-f.bounds.Y0)
	paper := min((width-marginLeft-marginRight)/across, (height-marginTop-marginBottom)/down)
	f.perUnit = min(paper, largest/float64(measure.Millimetre))
	f.width, f.deep = across*f.perUnit, down*f.perUnit
	return f
}

// nearestQuarter is the quarter turn nearest to an angle, the lower one where
// it lies halfway.
func nearestQuarter(a shape.Angle) shape.Angle {
	a = a.Normal()
	return ((a + shape.QuarterTurn/2 - 1) / shape.QuarterTurn * shape.QuarterTurn).Normal()
}

// room puts a ring of the room's own frame on the paper.
func (f frame) room(r shape.Ring) []Point { return f.points(r.Turn(f.quarter)) }

// laid puts a ring of the layout's frame, which lies along the planks, on the
// paper.
func (f frame) laid(r shape.Ring) []Point { return f.points(r.Turn(f.quarter - f.direction)) }

// slope is the turn of the planks on the paper in degrees anticlockwise.
func (f frame) slope() float64 {
	a := (f.direction - f.quarter).Normal()
	if a > shape.FullTurn/2 {
		a -= shape.FullTurn
	}
	return float64(a) / 1000
}

func (f frame) points(r shape.Ring) []Point {
	points := make([]Point, len(r))
	for i, p := range r {
		points[i] = Point{
			X: f.left + float64(p.X-f.bounds.X0)*f.perUnit,
			Y: f.top + float64(f.bounds.Y1-p.Y)*f.perUnit,
		}
	}
	return points
}

func (f frame) right() float64  { return f.left + f.width }
func (f frame) bottom() float64 { return f.top + f.deep }
