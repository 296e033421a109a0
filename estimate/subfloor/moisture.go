package subfloor

import (
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// Test is the moisture tests of one place: a room, an apartment, a floor or the
// job.
type Test struct {
	Place     string
	Apartment *job.Apartment // of a room or an apartment, else nil
	Room      *building.Room // of a room, else nil
	Rooms     []*building.Room
	Area      measure.Area // of their mineral subfloors
	Count     int
}

// TestCount is how many moisture tests an area of mineral subfloor needs: three
// for the first 1000 ft2 and one for each further 1000 ft2 that is started
// (ASTM F2170 and F1869: at least one for each additional 1000 ft2, read so that
// a started thousand counts). None for no area.
func TestCount(area measure.Area) int {
	const thousand = 1000 * measure.SquareFoot
	switch {
	case area <= 0:
		return 0
	case area <= thousand:
		return 3
	}
	return 3 + int((area-1)/thousand)
}

// tests counts the moisture tests of the building's mineral subfloors, place by
// place in the order of the rooms.
func tests(per job.Level, b *building.Building) []Test {
	var all []Test
	at := map[string]int{}
	for _, room := range b.Rooms {
		if !room.Spec.Subfloor.Mineral() {
			continue
		}
		place := room.Place(per)
		i, known := at[place]
		if !known {
			i = len(all)
			at[place] = i
			all = append(all, Test{Place: place})
			switch per {
			case job.LevelRoom:
				all[i].Apartment, all[i].Room = room.Apartment, room
			case job.LevelApartment:
				all[i].Apartment = room.Apartment
			}
		}
		all[i].Rooms = append(all[i].Rooms, room)
		all[i].Area += room.Area
	}
	for i := range all {
		all[i].Count = TestCount(all[i].Area)
	}
	return all
}
