package cmd

import (
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/published"
)

// longerThan tells a room longer than a usual click plank may run: 8 m (makers'
// guidance, from memory).
func longerThan(r published.Room, mm int) bool {
	low, high := r.Outer[0], r.Outer[0]
	for _, c := range r.Outer {
		low = [2]int{min(low[0], c[0]), min(low[1], c[1])}
		high = [2]int{max(high[0], c[0]), max(high[1], c[1])}
	}
	return high[0]-low[0] > mm || high[1]-low[1] > mm
}

// TestLongRealRoomsAreDividedAndProven takes rooms of the open plans that are
// longer than 8 m through the whole line: each is laid in fields, and the proof
// finds no fault in any of them. One room in four keeps the test short.
func TestLongRealRoomsAreDividedAndProven(t *testing.T) {
	const longest = 8000
	var long []published.Room
	found := 0
	for _, room := range readRealRooms(t, "") {
		if longerThan(room, longest) {
			if found++; found%4 == 0 {
				long = append(long, room)
			}
		}
	}
	fill := realJob(t, long)
	for _, row := range fill.Rows["products"] {
		if row["kind"] == "plank" {
			row["longest"] = "8000" // the demo's build-up has the profile
		}
	}
	r := priceFill(t, fill)
	proveResult(t, r)
	fields := 0
	var profiles measure.Length
	for _, room := range r.Building.Rooms {
		if fields += len(room.Fields); len(room.Fields) < 2 {
			t.Errorf("%s is laid in one piece", room.Spec.Name)
		}
		profiles += room.ProfileLength()
	}
	t.Logf("%d rooms in %d fields, %s m of profiles", len(r.Building.Rooms), fields, profiles.Decimal(measure.M))
	report(t, r)
}
