package shape

import (
	"math"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/published"
)

// planRoom is a room of a real plan with what GEOS found.
type planRoom struct {
	name  string
	floor Polygon
	geos  published.Measured
}

// planRooms reads one set: every room with its outline as drawn and with the
// tidied outline of a plan without columns.
func planRooms(t testing.TB, set string) []planRoom {
	t.Helper()
	measured := published.RoomsMeasured(t, set)
	var rooms []planRoom
	for _, plan := range published.Rooms(t, set) {
		geos, known := measured[plan.ID]
		if !known {
			t.Fatalf("%s has no reference values", plan.ID)
		}
		floor := Polygon{Outer: ringOfMillimetres(plan.Outer)}
		for _, hole := range plan.Holes {
			floor.Holes = append(floor.Holes, ringOfMillimetres(hole))
		}
		simple := Polygon{Outer: ringOfMillimetres(plan.Simple)}
		rooms = append(rooms, planRoom{plan.ID, Normalise(floor), geos[0]}, planRoom{plan.ID + " simple", Normalise(simple), geos[1]})
	}
	return rooms
}

func ringOfMillimetres(corners [][2]int) Ring {
	ring := make(Ring, len(corners))
	for i, c := range corners {
		ring[i] = Point{measure.Length(c[0]) * measure.Millimetre, measure.Length(c[1]) * measure.Millimetre}
	}
	return ring
}

const (
	planGap = 12 * measure.Millimetre
	planRow = 190 * measure.Millimetre
)

// rowEdges are the heights of whole rows that cover a box from its lowest y.
func rowEdges(box Box, row measure.Length) []measure.Length {
	edges := []measure.Length{box.Y0}
	for y := box.Y0; y < box.Y1; {
		y += row
		edges = append(edges, y)
	}
	return edges
}

// laid is what the reference values describe, computed by this package.
type laid struct {
	insetArea     float64
	insetParts    int
	rows, pieces  int
	pieceLengthMM float64
	lostArea      float64 // mm² of the inset that the rows do not have
}

func lay(floor Polygon) laid {
	inset := Inset(Region{floor}, planGap)
	edges := rowEdges(inset.Bounds(), planRow)
	if len(inset) == 0 {
		return laid{}
	}
	result := laid{
		insetArea: squareMillimetres(inset.DoubleArea()),
		rows:      len(edges) - 1,
	}
	for _, part := range inset {
		if squareMillimetres(part.DoubleArea()) > 1 {
			result.insetParts++
		}
	}
	var pieces int64
	for _, row := range Rows(inset, edges) {
		for _, piece := range row {
			pieces += piece.DoubleArea()
			if squareMillimetres(piece.DoubleArea()) > 1 {
				box := piece.Bounds()
				result.pieces++
				result.pieceLengthMM += float64(box.X1-box.X0) / float64(measure.Millimetre)
			}
		}
	}
	result.lostArea = squareMillimetres(inset.DoubleArea() - pieces)
	return result
}

func squareMillimetres(double int64) float64 {
	return float64(double) / 2 / float64(measure.SquareMillimetre)
}

// slantedSlack is how far rounding corners to the unit, at most 0.71 of a unit
// across a wall, can move the area along the slanted walls, in mm².
func slantedSlack(floor Polygon) float64 {
	const across = 0.71 / float64(measure.Millimetre)
	var slanted measure.Length
	for _, ring := range append([]Ring{floor.Outer}, floor.Holes...) {
		for i, p := range ring {
			if q := ring.after(i); p.X != q.X && p.Y != q.Y {
				slanted += distance(p, q)
			}
		}
	}
	return across * float64(slanted) / float64(measure.Millimetre)
}

// Reference: GEOS 3.11, buffer with mitred corners (limit 10), then strips.
// Axis-parallel rooms are exact to the digits of the reference file; slanted
// ones to 0.08 mm a piece and the rounding of their slanted walls, a few mm².
func TestPlanRoomsAgreeWithGEOS(t *testing.T) {
	for _, set := range published.RoomSets {
		t.Run(set, func(t *testing.T) {
			exact, close := 0, 0
			for _, room := range planRooms(t, set) {
				if got := room.floor.DoubleArea(); got != room.geos.DoubleArea*int64(measure.SquareMillimetre) {
					t.Errorf("%s: doubled area %d, want %d mm²", room.name, got, room.geos.DoubleArea)
				}
				got := lay(room.floor)
				areaSlack, lengthSlack := 0.0006, 0.006
				if room.floor.AxisParallel() {
					exact++
				} else {
					close++
					areaSlack, lengthSlack = slantedSlack(room.floor), 0.08*float64(room.geos.Pieces)
				}
				if math.Abs(got.insetArea-room.geos.InsetArea) > areaSlack || got.insetParts != room.geos.InsetParts {
					t.Errorf("%s: inset %.3f mm² in %d parts, want %.3f in %d", room.name,
						got.insetArea, got.insetParts, room.geos.InsetArea, room.geos.InsetParts)
				}
				if got.rows != room.geos.Rows || got.pieces != room.geos.Pieces ||
					math.Abs(got.pieceLengthMM-room.geos.PieceLength) > lengthSlack {
					t.Errorf("%s: %d rows, %d pieces, %.2f mm; want %d, %d, %.2f", room.name,
						got.rows, got.pieces, got.pieceLengthMM, room.geos.Rows, room.geos.Pieces, room.geos.PieceLength)
				}
				if math.Abs(got.lostArea) > areaSlack {
					t.Errorf("%s: rows differ from the inset by %.4f mm²", room.name, got.lostArea)
				}
			}
			t.Logf("%d axis-parallel rooms exact, %d slanted rooms within tolerance", exact, close)
		})
	}
}

// threeColumns stand on the diagonal of a room, a twelfth of it each.
func threeColumns(room Box) []Box {
	width, depth := (room.X1-room.X0)/12, (room.Y1-room.Y0)/12
	columns := make([]Box, 0, 3)
	for _, twelfth := range []measure.Length{2, 5, 9} {
		x, y := room.X0+twelfth*width, room.Y0+twelfth*depth
		columns = append(columns, Box{x, y, x + width, y + depth})
	}
	return columns
}

func BenchmarkCuts(b *testing.B) {
	var rooms []Polygon
	for _, set := range published.RoomSets {
		for i, room := range planRooms(b, set) {
			if i%2 == 0 {
				rooms = append(rooms, room.floor)
			}
		}
	}
	groups := map[string][]Polygon{}
	for _, room := range rooms {
		if room.AxisParallel() {
			groups["axis-parallel"] = append(groups["axis-parallel"], room)
		} else {
			groups["slanted"] = append(groups["slanted"], room)
		}
	}
	for _, name := range []string{"axis-parallel", "slanted"} {
		rooms := groups[name]
		insets := make([]Region, len(rooms))
		edges := make([][]measure.Length, len(rooms))
		for i, room := range rooms {
			insets[i] = Inset(Region{room}, planGap)
			edges[i] = rowEdges(insets[i].Bounds(), planRow)
		}
		perSecond := func(b *testing.B) { b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "rooms/s") }
		b.Run("inset/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for i := range b.N {
				Inset(Region{rooms[i%len(rooms)]}, planGap)
			}
			perSecond(b)
		})
		b.Run("subtract/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for i := range b.N {
				Subtract(insets[i%len(rooms)], threeColumns(rooms[i%len(rooms)].Bounds())...)
			}
			perSecond(b)
		})
		b.Run("rows/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for i := range b.N {
				Rows(insets[i%len(rooms)], edges[i%len(rooms)])
			}
			perSecond(b)
		})
	}
}
