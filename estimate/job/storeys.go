package job

import (
	"fmt"
	"strconv"
	"strings"

	"laybill/estimate/problem"
)

// mostStoreys is the most that goods are carried up or down in any building.
const mostStoreys = 200

// Storeys is how many storeys goods are carried from the entrance to the
// apartment, up or down: its floor less the entrance floor. In a lift they are
// handled once, however far they ride. ok is false when the floor is neither a
// whole number nor the ground floor.
func (s *Settings) Storeys(a *Apartment) (storeys int, ok bool) {
	floor, ok := s.floorNumber(a.Floor)
	storeys = max(floor-s.EntranceFloor, s.EntranceFloor-floor)
	if s.Lift {
		storeys = min(storeys, 1)
	}
	return storeys, ok && storeys <= mostStoreys
}

// floorNumber reads a floor: G and ground are the entrance floor.
func (s *Settings) floorNumber(text string) (int, bool) {
	switch text = strings.ToLower(strings.TrimSpace(text)); text {
	case "g", "ground":
		return s.EntranceFloor, true
	}
	n, err := strconv.Atoi(text)
	return n, err == nil && n >= -mostStoreys && n <= mostStoreys
}

// checkStoreys finds apartments that goods are carried to by the storey and whose
// floor is no number.
func checkStoreys(j *Job) []Finding {
	var found []Finding
	for _, a := range j.Apartments {
		line := carriedTo(j, a)
		if _, ok := j.Settings.Storeys(a); ok || line == nil {
			continue
		}
		f := Finding{Cells: append(cells(a.Ref, "floor"), cells(line.Ref, "measure")...), Needs: settingCells("entrancefloor"), Problem: problem.Problem{Code: problem.FloorUnreadable,
			Found: fmt.Sprintf("%s on floor %q, which %s is counted by", a.Name, a.Floor, line.Code()), Want: "a whole number, or ground", Fix: "write the number of the floor"}}
		if a.Name == "" {
			f.Cells, f.Found, f.Fix = cells(line.Ref, "measure"), "work by storeys in a job without apartments", "list the apartments with their floors, or choose another measure"
		}
		found = append(found, f)
	}
	return found
}

// carriedTo is the first line of the apartment's rooms that is measured by what
// is carried, as they are or with an option that holds there; nil when none is.
func carriedTo(j *Job, a *Apartment) *Line {
	for _, room := range j.Rooms {
		if room.Type != a.Type {
			continue
		}
		for _, buildUp := range append([]*BuildUp{room.BuildUp}, optionalBuildUps(j, a, room.BuildUp)...) {
			if line := buildUp.lineBy(Carried); line != nil {
				return line
			}
		}
	}
	return nil
}

// optionalBuildUps are those that options may put in the place of one in an
// apartment.
func optionalBuildUps(j *Job, a *Apartment, of *BuildUp) []*BuildUp {
	var others []*BuildUp
	for _, option := range j.Options {
		if a.Option != option.Name && len(option.InApartments(j)) > 0 {
			continue
		}
		for _, swap := range option.Swaps {
			if swap.BuildUp == of {
				others = append(others, swap.WithBuildUp)
			}
		}
	}
	return others
}

// lineBy is the build-up's first line by a measure; nil when it has none.
func (b *BuildUp) lineBy(m Measure) *Line {
	if b == nil {
		return nil
	}
	for _, line := range b.Lines {
		if line.Measure == m {
			return line
		}
	}
	return nil
}
