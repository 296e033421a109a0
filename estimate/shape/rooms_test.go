package shape

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"laybill/estimate/measure"
)

// roomSets are open plans of real buildings, benchmarks/rooms: residential
// (Archilyse), commercial (OpenStudio models) and the spaces of nine IFC files.
var roomSets = []string{"residential", "commercial", "ifc_rooms"}

// planRoom is a room of a real plan with the values that GEOS 3.11 computed.
type planRoom struct {
	name          string
	floor         Polygon
	doubleArea    int64   // mm²
	insetArea     float64 // mm², after a gap of 12 mm
	insetParts    int
	rows          int // strips 190 mm high from the inset's lowest y
	pieces        int // with an area over 1 mm²
	pieceLengthMM float64
}

// openShared opens a file of the open data, which stands beside the repository
// or where LAYBILL_SHARED says.
func openShared(t testing.TB, name ...string) *os.File {
	t.Helper()
	shared := os.Getenv("LAYBILL_SHARED")
	if shared == "" {
		shared = filepath.Join("..", "..", "..", "shared")
	}
	file, err := os.Open(filepath.Join(append([]string{shared}, name...)...))
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("open data missing: %v", err)
		}
		t.Skipf("open data not here: %v", err)
	}
	t.Cleanup(func() { file.Close() })
	return file
}

// planRooms reads one set: every room with its outline as drawn, then every
// room with the tidied outline of a plan without columns.
func planRooms(t testing.TB, set string) []planRoom {
	t.Helper()
	records, err := csv.NewReader(openShared(t, "benchmarks", "rooms", set+"_reference.csv")).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	references := map[string][]string{}
	for _, record := range records[1:] {
		references[record[0]] = record[1:]
	}
	var rooms []planRoom
	lines := bufio.NewScanner(openShared(t, "benchmarks", "rooms", set+".jsonl"))
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		var drawn struct {
			ID     string
			Outer  [][2]int64
			Holes  [][][2]int64
			Simple [][2]int64
		}
		if err := json.Unmarshal(lines.Bytes(), &drawn); err != nil {
			t.Fatal(err)
		}
		reference := references[drawn.ID]
		if reference == nil {
			t.Fatalf("%s has no reference values", drawn.ID)
		}
		floor := Polygon{Outer: ringOfMillimetres(drawn.Outer)}
		for _, hole := range drawn.Holes {
			floor.Holes = append(floor.Holes, ringOfMillimetres(hole))
		}
		simple := Polygon{Outer: ringOfMillimetres(drawn.Simple)}
		rooms = append(rooms,
			withReference(t, drawn.ID, floor, reference[:6]),
			withReference(t, drawn.ID+" simple", simple, reference[6:]))
	}
	if lines.Err() != nil {
		t.Fatal(lines.Err())
	}
	return rooms
}

func ringOfMillimetres(corners [][2]int64) Ring {
	ring := make(Ring, len(corners))
	for i, c := range corners {
		ring[i] = Point{measure.Length(c[0]) * measure.Millimetre, measure.Length(c[1]) * measure.Millimetre}
	}
	return ring
}

func withReference(t testing.TB, name string, floor Polygon, values []string) planRoom {
	t.Helper()
	numbers := make([]float64, len(values))
	for i, value := range values {
		number, err := strconv.ParseFloat(value, 64)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		numbers[i] = number
	}
	return planRoom{name, Normalise(floor), int64(numbers[0]), numbers[1], int(numbers[2]), int(numbers[3]), int(numbers[4]), numbers[5]}
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
	for _, set := range roomSets {
		t.Run(set, func(t *testing.T) {
			exact, close := 0, 0
			for _, room := range planRooms(t, set) {
				if got := room.floor.DoubleArea(); got != room.doubleArea*int64(measure.SquareMillimetre) {
					t.Errorf("%s: doubled area %d, want %d mm²", room.name, got, room.doubleArea)
				}
				got := lay(room.floor)
				areaSlack, lengthSlack := 0.0006, 0.006
				if room.floor.AxisParallel() {
					exact++
				} else {
					close++
					areaSlack, lengthSlack = slantedSlack(room.floor), 0.08*float64(room.pieces)
				}
				if math.Abs(got.insetArea-room.insetArea) > areaSlack || got.insetParts != room.insetParts {
					t.Errorf("%s: inset %.3f mm² in %d parts, want %.3f in %d", room.name,
						got.insetArea, got.insetParts, room.insetArea, room.insetParts)
				}
				if got.rows != room.rows || got.pieces != room.pieces ||
					math.Abs(got.pieceLengthMM-room.pieceLengthMM) > lengthSlack {
					t.Errorf("%s: %d rows, %d pieces, %.2f mm; want %d, %d, %.2f", room.name,
						got.rows, got.pieces, got.pieceLengthMM, room.rows, room.pieces, room.pieceLengthMM)
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
	for _, set := range roomSets {
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
