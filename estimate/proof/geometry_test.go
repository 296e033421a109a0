package proof

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

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

// planRoom is a room of a real plan with what GEOS 3.11 computed for it.
type planRoom struct {
	id         string
	room       roomEntry
	doubleArea float64 // mm2
	insetArea  float64 // mm2, after a mitred gap of 12 mm
}

// roomSets are open plans of real buildings: residential (Archilyse),
// commercial (OpenStudio models), spaces of nine IFC files.
var roomSets = []string{"residential", "commercial", "ifc_rooms"}

// planRooms reads a set of rooms with their reference values.
func planRooms(t testing.TB, set string) []planRoom {
	t.Helper()
	records, err := csv.NewReader(openShared(t, "benchmarks", "rooms", set+"_reference.csv")).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	references := map[string][]string{}
	for _, record := range records[1:] {
		references[record[0]] = record
	}
	var rooms []planRoom
	lines := bufio.NewScanner(openShared(t, "benchmarks", "rooms", set+".jsonl"))
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		var drawn struct {
			ID     string `json:"id"`
			Outer  ring   `json:"outer"`
			Holes  []ring `json:"holes"`
			Simple ring   `json:"simple"`
		}
		if err := json.Unmarshal(lines.Bytes(), &drawn); err != nil {
			t.Fatal(err)
		}
		reference := references[drawn.ID]
		value := func(column int) float64 {
			v, err := strconv.ParseFloat(reference[column], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		rooms = append(rooms,
			planRoom{drawn.ID, roomEntry{Outline: drawn.Outer, Holes: drawn.Holes}, value(1), value(2)},
			planRoom{drawn.ID + " tidied", roomEntry{Outline: drawn.Simple}, value(7), value(8)})
	}
	return rooms
}

// TestInsetOfRealRooms compares floor and floor inside a gap of 12 mm with the
// values of GEOS 3.11: exactly for axis-parallel rooms, to a part in a million
// of the area or 1 mm2 for slanted ones.
func TestInsetOfRealRooms(t *testing.T) {
	for _, set := range roomSets {
		t.Run(set, func(t *testing.T) {
			for _, plan := range planRooms(t, set) {
				g := plan.room.whole().ground(0)
				w := sweep{}
				w.addGround(g)
				for _, strip := range g.margins(12 * unit) {
					w.add(innerStrip, strip)
				}
				steps := sweepSteps
				found, ok := w.measure(&steps)
				if !ok {
					t.Fatalf("%s: too intricate", plan.id)
				}
				if got, want := found.ground/unit/unit*2, plan.doubleArea; math.Abs(got-want) > want*1e-12 {
					t.Errorf("%s: doubled area %.6f mm2, want %.0f", plan.id, got, want)
				}
				allowed := 0.001
				if g.slanted {
					allowed = math.Max(1, plan.insetArea*1e-6)
				}
				if got, want := found.inner/unit/unit, plan.insetArea; math.Abs(got-want) > allowed {
					t.Errorf("%s: floor inside the gap %.3f mm2, want %.3f", plan.id, got, want)
				}
			}
		})
	}
}
