package published

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"strconv"
	"testing"
)

// RoomSets are the open plans of real buildings: residential (Archilyse),
// commercial (OpenStudio models) and the spaces of nine IFC files. The README
// beside them names sources and licences.
var RoomSets = []string{"residential", "commercial", "ifc_rooms"}

// Outline is the corners of a ring in millimetres.
type Outline [][2]int

// Room is a room of a real plan.
type Room struct {
	ID, Building, Plan, Kind string
	Unit                     *int // its apartment on the plan; nil for common rooms
	Outer                    Outline
	Holes                    []Outline
	Simple                   Outline // the tidied outline, without columns
	Doors                    []Door
	DoubleArea               int64 `json:"area2_mm2"` // mm2
}

// Door is a doorway of a room: width, depth of the wall, and its ends, in
// millimetres.
type Door struct {
	ID, W, T int
	A, B     [2]int
}

// Rooms are the rooms of one set.
func Rooms(t testing.TB, set string) []Room {
	t.Helper()
	var rooms []Room
	lines := bufio.NewScanner(Open(t, "benchmarks", "rooms", set+".jsonl"))
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		var room Room
		if err := json.Unmarshal(lines.Bytes(), &room); err != nil {
			t.Fatal(err)
		}
		rooms = append(rooms, room)
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return rooms
}

// Measured is what GEOS 3.11 computed for an outline.
type Measured struct {
	DoubleArea  int64   // mm2
	InsetArea   float64 // mm2, after a mitred gap of 12 mm
	InsetParts  int
	Rows        int     // strips 190 mm high from the inset's lowest y
	Pieces      int     // with an area over 1 mm2
	PieceLength float64 // mm, of all
}

// RoomsMeasured is what GEOS computed for the rooms of a set, by ID: as drawn
// and tidied.
func RoomsMeasured(t testing.TB, set string) map[string][2]Measured {
	t.Helper()
	records, err := csv.NewReader(Open(t, "benchmarks", "rooms", set+"_reference.csv")).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][2]Measured{}
	for _, record := range records[1:] {
		all[record[0]] = [2]Measured{measured(t, record[1:7]), measured(t, record[7:13])}
	}
	return all
}

func measured(t testing.TB, values []string) Measured {
	t.Helper()
	numbers := make([]float64, len(values))
	for i, value := range values {
		number, err := strconv.ParseFloat(value, 64)
		if err != nil {
			t.Fatal(err)
		}
		numbers[i] = number
	}
	return Measured{int64(numbers[0]), numbers[1], int(numbers[2]), int(numbers[3]), int(numbers[4]), numbers[5]}
}
