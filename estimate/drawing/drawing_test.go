package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"laybill/estimate/building"
	"laybill/estimate/cutlist"
	"laybill/estimate/job"
	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Lines a distance d apart have a total length of area / d, as near as the
// ends of the lines allow (Cavalieri's principle).
func TestHatchFillsItsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 { return rapid.Float64Range(10, 80).Draw(t, name) }
		w, h := draw("width"), draw("height")
		hole := box(w/3, h/3, w/2, h/2)
		s := &Scene{}
		h0 := rapid.SampledFrom([]hatch{rising, falling}).Draw(t, "hatch")
		h0.fill(s, [][]Point{box(0, 0, w, h), hole})
		length := 0.0
		for _, line := range s.Lines {
			length += math.Hypot(line.To.X-line.From.X, line.To.Y-line.From.Y)
		}
		want := (w*h - w/6*h/6) / h0.spacing
		if slack := 2 * (w + h); math.Abs(length-want) > slack {
			t.Fatalf("%v mm of lines, want about %v", length, want)
		}
	})
}

func TestNearestQuarter(t *testing.T) {
	for _, tt := range []struct{ angle, want shape.Angle }{
		{0, 0}, {44_999, 0}, {45_000, 0}, {45_001, 90_000}, {90_000, 90_000}, {180_000, 180_000}, {316_000, 0}, {-90_000, 270_000},
	} {
		if got := nearestQuarter(tt.angle); got != tt.want {
			t.Errorf("%d: %d, want %d", tt.angle, got, tt.want)
		}
	}
}

const mm = measure.Millimetre

// floor is an L-shaped room with a column, a door and one piece a row, its
// planks along a direction.
func floor(direction shape.Angle) Floor {
	walls := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: 4000 * mm, Y: 0}, {X: 4000 * mm, Y: 3000 * mm}, {X: 2000 * mm, Y: 3000 * mm}, {X: 2000 * mm, Y: 2000 * mm}, {X: 0, Y: 2000 * mm}}}
	room := &building.Room{
		Apartment: &job.Apartment{},
		Spec:      &job.Room{Name: "L"},
		Walls:     walls,
		Holes:     []shape.Ring{shape.Rectangle(shape.Box{X0: 1000 * mm, Y0: 500 * mm, X1: 1200 * mm, Y1: 700 * mm}).Outer},
		Openings:  []building.Opening{{Spec: &job.Opening{LeadsTo: "Hall"}, Wall: 1, From: 500 * mm, Width: 900 * mm}},
	}
	laid := walls.Turn(direction).Bounds()
	l := &layout.Layout{Direction: direction}
	for y := laid.Y0; y < laid.Y1; y += 250 * mm {
		row := layout.Row{Y0: y, Y1: min(y+250*mm, laid.Y1)}
		l.Rows = append(l.Rows, row)
		l.Pieces = append(l.Pieces, layout.Piece{Row: len(l.Rows), Seq: 1, Stock: len(l.Rows),
			At: shape.Rectangle(shape.Box{X0: laid.X0, X1: laid.X1, Y0: row.Y0, Y1: row.Y1}).Outer})
	}
	plan := &layout.Plan{Layouts: []layout.Layout{*l}}
	return Floor{Room: room, Layout: l, Steps: cutlist.Of(plan, 5000*mm, 250*mm)[0], Unit: measure.MM}
}

// Whatever the laying direction, everything lies on the paper, the pieces of an
// axis-parallel layout lie level and row 1 is the lowest.
func TestRoomLiesOnThePaper(t *testing.T) {
	for _, direction := range []shape.Angle{0, 90_000, 180_000, 270_000, 30_000} {
		s := Room(floor(direction), 205, 140)
		if s.Width != 205 || s.Height > 140.001 {
			t.Errorf("direction %d: the paper is %v x %v", direction, s.Width, s.Height)
		}
		for _, area := range s.Areas {
			for _, ring := range area.Rings {
				for _, p := range ring {
					if direction != 30_000 && (p.X < 0 || p.X > s.Width || p.Y < 0 || p.Y > s.Height) {
						t.Errorf("direction %d: %v is off the paper", direction, p)
					}
				}
			}
		}
		first, second := s.Areas[0].Rings[0], s.Areas[1].Rings[0]
		if direction%90_000 == 0 && centre(first).Y <= centre(second).Y {
			t.Errorf("direction %d: row 1 is at %v, row 2 at %v", direction, centre(first), centre(second))
		}
	}
}

// Sixteenths of an inch are the fineness of a tape in inches, millimetres of
// one in millimetres (common practice). Hand working: 1000 mm is 39.370 in, and
// 39 3/8 in is 1000.1 mm; 845.5 mm rounds up.
func TestCut(t *testing.T) {
	for _, tt := range []struct {
		length measure.Length
		unit   measure.Unit
		want   string
	}{
		{1000 * mm, measure.MM, "1000"},
		{845*mm + mm/2, measure.M, "846"},
		{1000 * mm, measure.Ft, `39 3/8"`},
	} {
		if got := Cut(tt.length, tt.unit); got != tt.want {
			t.Errorf("%v in %v: %s, want %s", tt.length, tt.unit, got, tt.want)
		}
	}
}
