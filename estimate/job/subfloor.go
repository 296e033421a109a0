package job

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// Subfloor is what a floor is laid on.
type Subfloor int

// The kinds of subfloor. Heated floors are mineral ones that the room says are
// heated.
const (
	NotSaid Subfloor = iota
	CementScreed
	CalciumSulfate
	Concrete
	WoodSubfloor
)

// Subfloors are the words of the kinds.
var Subfloors = []string{"not said", "cement screed", "calcium sulfate screed", "concrete", "wood"}

func (s Subfloor) String() string { return Subfloors[s] }

// Mineral tells whether the subfloor holds water of its own making, so that it
// is tested before laying. One that nobody named counts as mineral.
func (s Subfloor) Mineral() bool { return s != WoodSubfloor }

// FlatnessGroup is a group of DIN 18202 table 3: how far a surface may be off a
// straightedge.
type FlatnessGroup int

// The groups for floors. Group 3 is for finished floors and for screeds that
// take coverings, group 4 the same with raised requirements.
const (
	Group1 FlatnessGroup = iota
	Group2
	Group3
	Group4
)

// FlatnessGroups are the words of the groups.
var FlatnessGroups = []string{"group 1", "group 2", "group 3", "group 4"}

func (g FlatnessGroup) String() string { return FlatnessGroups[g] }

// LevelPlane is what a surveyed floor is levelled to.
type LevelPlane int

// A Horizontal plane is what compound flows to by itself; a Tilted one follows
// the fall of the floor as far as its flatness group allows.
const (
	Horizontal LevelPlane = iota
	Tilted
)

// LevelPlanes are the words of the planes.
var LevelPlanes = []string{"horizontal", "tilted"}

func (p LevelPlane) String() string { return LevelPlanes[p] }

// Reading is a level reading of a room: the height of the subfloor at a place,
// above any datum that is the same for the whole room.
type Reading struct {
	Ref       problem.Ref
	Apartment string      // "": of the room in every apartment of its type that has no readings of its own
	At        shape.Point // of an apartment: as built there; else as drawn for the type
	Height    measure.Length
}

// ReadingsIn are the room's readings in an apartment; own tells that they were
// taken there and not for the type.
func (r *Room) ReadingsIn(apartment string) (readings []Reading, own bool) {
	var typical []Reading
	for _, reading := range r.Readings {
		switch {
		case reading.Apartment == "":
			typical = append(typical, reading)
		case reading.Apartment == apartment:
			readings = append(readings, reading)
		}
	}
	if len(readings) > 0 {
		return readings, true
	}
	return typical, false
}

// MostReadings of one room in one apartment; more are a scan, not a survey.
const MostReadings = 300

// checkReadings finds readings that lie off their floor or make no surface.
func checkReadings(j *Job) []Finding {
	mirrored := map[string]bool{}
	for _, a := range j.Apartments {
		mirrored[a.Name] = a.Mirrored
	}
	var found []Finding
	for _, room := range j.Rooms {
		if len(room.Outline.Outer) == 0 || len(room.Readings) == 0 {
			continue
		}
		if room.LevelBy > 0 {
			found = append(found, Finding{Cells: cells(room.Ref, "level"), Cause: "level by", Problem: problem.Problem{Code: problem.LevelTwice, Room: room.Name,
				Found: fmt.Sprintf("Level by %s in %s, which has level readings", room.LevelBy, room.Name), Want: "a depth or readings", Fix: "leave Level by empty where Levels has readings"}})
		}
		for _, survey := range room.surveys() {
			walls := room.Outline
			if survey[0].Apartment != "" && mirrored[survey[0].Apartment] {
				bounds := walls.Bounds()
				walls = walls.Mirror(bounds.X0 + bounds.X1)
			}
			found = append(found, checkSurvey(room, survey, walls)...)
		}
	}
	return found
}

// surveys are the room's readings, those of the type first and then each
// apartment's, in the order of the table.
func (r *Room) surveys() [][]Reading {
	var all [][]Reading
	at := map[string]int{}
	for _, reading := range r.Readings {
		i, known := at[reading.Apartment]
		if !known {
			i = len(all)
			at[reading.Apartment] = i
			all = append(all, nil)
		}
		all[i] = append(all[i], reading)
	}
	return all
}

func checkSurvey(room *Room, survey []Reading, walls shape.Polygon) []Finding {
	var found []Finding
	seen := map[shape.Point]problem.Ref{}
	unfit := func(at problem.Ref, text, want string) {
		found = append(found, Finding{Cells: cells(at, "x", "y"), Problem: problem.Problem{Code: problem.LevelsUnfit, Room: room.Name, Apartment: survey[0].Apartment,
			Found: text, Want: want, Fix: "correct the place, add the missing readings, or delete the row"}})
	}
	for _, reading := range survey {
		if !walls.Contains(reading.At) {
			unfit(reading.Ref, fmt.Sprintf("a reading at %s, %s, outside %s", reading.At.X, reading.At.Y, room.Name), "a place on the floor, from the corner at 0,0")
			continue
		}
		if _, twice := seen[reading.At]; twice {
			unfit(reading.Ref, fmt.Sprintf("a second reading at %s, %s in %s", reading.At.X, reading.At.Y, room.Name), "one reading a place")
		}
		seen[reading.At] = reading.Ref
	}
	switch {
	case len(found) > 0:
	case len(survey) > MostReadings:
		unfit(survey[MostReadings].Ref, fmt.Sprintf("%d readings in %s", len(survey), room.Name), fmt.Sprintf("at most %d readings in a room", MostReadings))
	case inOneLine(survey):
		unfit(survey[0].Ref, fmt.Sprintf("%d readings in one line in %s", len(survey), room.Name), "three readings or more that are not in one line")
	}
	return found
}

// inOneLine tells whether the readings span no surface.
func inOneLine(survey []Reading) bool {
	a := survey[0].At
	for i := range survey {
		for k := range survey[:i] {
			b, c := survey[i].At, survey[k].At
			if int64(b.X-a.X)*int64(c.Y-a.Y) != int64(b.Y-a.Y)*int64(c.X-a.X) {
				return false
			}
		}
	}
	return true
}

// MoistureLimit is the most that a reading in a room may be, in words.
type MoistureLimit struct {
	Carbide  decimal.Decimal // per cent by carbide test; of wood, per cent by meter
	Humidity decimal.Decimal // per cent relative humidity; 0: not used
}

// UsualMoistureLimit is the limit for a subfloor where the product's row gives
// none. Sources: cement screed 2.0 CM %, heated 1.8; calcium sulfate screed 0.5,
// heated 0.3 (maker's guide to screeds, and the European resilient floor makers'
// notes on installation); slab relative humidity from 75 % (makers of coverings,
// typical); wood subfloor 12 % by meter (a floor maker's instructions).
func UsualMoistureLimit(s Subfloor, heated bool) MoistureLimit {
	switch {
	case s == WoodSubfloor:
		return MoistureLimit{Carbide: decimal.NewFromInt(12)}
	case s == CalciumSulfate && heated:
		return MoistureLimit{decimal.New(3, -1), decimal.NewFromInt(75)}
	case s == CalciumSulfate:
		return MoistureLimit{decimal.New(5, -1), decimal.NewFromInt(75)}
	case heated:
		return MoistureLimit{decimal.New(18, -1), decimal.NewFromInt(75)}
	}
	return MoistureLimit{decimal.New(20, -1), decimal.NewFromInt(75)}
}
