// Package drawing draws a laid room as a scene: shapes, lines and texts in
// millimetres on paper, to be rendered by others. Hatch and number carry the
// meaning, never colour.
package drawing

// Point is a place on the paper in millimetres, x to the right and y down from
// the upper left corner.
type Point struct{ X, Y float64 }

// Scene is a drawing. Areas are painted first, then lines, then texts, each in
// their order.
type Scene struct {
	Width, Height float64 // mm
	Areas         []Area
	Lines         []Line
	Texts         []Text
}

// Shade is how dark an area is filled.
type Shade int

// The shades.
const (
	Clear Shade = iota // not filled
	White
	Light
	Dark
	Black
)

// Area is a closed shape; inside is what an odd number of its rings goes round.
type Area struct {
	Rings  [][]Point
	Fill   Shade
	Stroke float64 // width of the outline in mm, 0 for none
}

// Line is a straight black line.
type Line struct {
	From, To Point
	Width    float64 // mm
}

// Anchor is the part of a text that stands at its place.
type Anchor int

// The anchors, along the text.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of writing. Its place is on the base line.
type Text struct {
	At     Point
	Size   float64 // height of the type in mm
	Anchor Anchor
	Turn   float64 // degrees anticlockwise
	Bold   bool
	Halo   bool // painted on a white ground so that hatches do not cross it
	Value  string
}

func (s *Scene) area(a Area) { s.Areas = append(s.Areas, a) }

func (s *Scene) line(from, to Point, width float64) {
	s.Lines = append(s.Lines, Line{from, to, width})
}

func (s *Scene) text(t Text) { s.Texts = append(s.Texts, t) }

func box(x0, y0, x1, y1 float64) []Point {
	return []Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}
