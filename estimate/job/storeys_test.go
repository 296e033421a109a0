package job

import "testing"

// A building of floors -1, ground, 1 and 2, as numbered with the ground floor at 0
// and at 1 (common practice in Europe and in America). A lift is loaded once.
func TestStoreys(t *testing.T) {
	for _, c := range []struct {
		floor    string
		entrance int
		lift     bool
		storeys  int
		ok       bool
	}{
		{"2", 0, false, 2, true}, {"0", 0, false, 0, true}, {"G", 0, false, 0, true}, {" Ground ", 0, false, 0, true}, {"-1", 0, false, 1, true},
		{"3", 1, false, 2, true}, {"1", 1, false, 0, true}, {"ground", 1, false, 0, true},
		{"12", 0, true, 1, true}, {"0", 0, true, 0, true}, {"-2", 0, true, 1, true},
		{"mezzanine", 0, false, 0, false}, {"", 0, false, 0, false}, {"2.5", 0, false, 0, false}, {"2026", 0, false, 0, false},
	} {
		s := Settings{EntranceFloor: c.entrance, Lift: c.lift}
		if storeys, ok := s.Storeys(&Apartment{Floor: c.floor}); ok != c.ok || ok && storeys != c.storeys {
			t.Errorf("floor %q, entrance %d, lift %v: %d storeys, %v; want %d, %v", c.floor, c.entrance, c.lift, storeys, ok, c.storeys, c.ok)
		}
	}
}

// A floor matters only where something is carried by it: in the rooms as they are,
// or with an option that holds in the apartment.
func TestFloorsAreReadWhereCarryingCounts(t *testing.T) {
	carried := &BuildUp{Name: "By storey", Lines: []*Line{{Operation: &Operation{Code: "STAIRS"}, Measure: Carried}}}
	plain := &BuildUp{Name: "Plain"}
	option := &Option{Name: "Upstairs", Swaps: []Swap{{BuildUp: plain, WithBuildUp: carried}}}
	for _, c := range []struct {
		name    string
		buildUp *BuildUp
		options []*Option
		other   string // option of another apartment
		want    int
	}{
		{"not counted", plain, nil, "", 0}, {"counted", carried, nil, "", 1},
		{"by an option of the job", plain, []*Option{option}, "", 1}, {"by an option of another apartment", plain, []*Option{option}, "Upstairs", 0},
	} {
		j := &Job{Options: c.options, Rooms: []*Room{{Type: "A", BuildUp: c.buildUp}, {Type: "B", BuildUp: plain}},
			Apartments: []*Apartment{{Name: "1", Type: "A", Floor: "attic"}, {Name: "2", Type: "B", Floor: "1", Option: c.other}, {Name: "3", Type: "A", Floor: "3"}}}
		if found := checkStoreys(j); len(found) != c.want {
			t.Errorf("%s: %d findings, want %d: %v", c.name, len(found), c.want, found)
		}
	}
}
