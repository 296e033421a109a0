package subfloor

import (
	"fmt"

	"laybill/estimate/building"
	"laybill/estimate/job"
)

// Matter is what a hold is about.
type Matter int

// The matters, in the order in which they come up.
const (
	Moisture Matter = iota
	Flat
	Drying
	Heating
	WoodMoisture
)

// matters are the words.
var matters = []string{"moisture", "flatness", "drying", "heating", "wood moisture"}

func (m Matter) String() string { return matters[m] }

// Hold is something that must be true before a room is laid, and who decides
// that it is.
type Hold struct {
	Matter  Matter
	Must    string
	Decides string
	Days    int // that it takes at least; 0 where that is not known beforehand
	Source  string
}

// TestDays is how long a moisture test takes: a humidity probe settles for 24
// hours in its hole (ASTM F2170), a plastic sheet lies for 24 hours (common
// practice; 16 hours in ASTM D4263, from memory).
const TestDays = 1

const layersWord = "whoever lays the floor, with the maker's instructions"

// Holds are what holds the laying of the room.
func (r *Room) Holds() []Hold {
	spec := r.Room.Spec
	var all []Hold
	if spec.Subfloor.Mineral() {
		all = append(all, Hold{Moisture, "tested after 48 hours at the conditions of use: " + limitWords(spec) + "; a plastic sheet taped down shows no damp after 24 hours", layersWord, TestDays,
			"ASTM F2170 (count, 48 h, 24 h); plastic sheet: common practice"})
	} else {
		all = append(all, Hold{WoodMoisture, "wood subfloor " + limitWords(spec) + ", and within 4 points of strip, 2 points of planks of 3 in and wider", layersWord, 0, "a floor maker's instructions (12 %); NWFA (4 and 2 points)"})
	}
	if r.Surveyed() {
		all = append(all, Hold{Flat, fmt.Sprintf("straightedge within %s of DIN 18202 table 3 after levelling", spec.Flatness), layersWord, 0, "DIN 18202 table 3"})
	}
	if days := r.DryingDays(); days > 0 {
		all = append(all, Hold{Drying, fmt.Sprintf("compound of up to %s dry, by the data sheet of the bag and a test", r.MostDepth()), layersWord, days, "common practice: a day to 3 mm, then a day a millimetre"})
	}
	if spec.Heated {
		all = append(all, Hold{Heating, "heated up and cooled down once by a written record before laying; surface never above 29 C where people stay, 35 C at the edge", "the firm that built the heating, in writing", 0, "EN 1264 (surface temperatures); heating-up record: common practice"})
	}
	return all
}

// limitWords are the limits of a room's moisture readings.
func limitWords(room *job.Room) string {
	if covering := room.BuildUp.Covering(); covering != nil && covering.Product.MoistureLimit.Sign() > 0 {
		return fmt.Sprintf("at most %s, the limit of %s", covering.Product.MoistureLimit, covering.Product.Code)
	}
	usual := job.UsualMoistureLimit(room.Subfloor, room.Heated)
	if room.Subfloor == job.WoodSubfloor {
		return fmt.Sprintf("at most %s %% by meter", usual.Carbide)
	}
	return fmt.Sprintf("usually at most %s %% by carbide test or %s %% relative humidity", usual.Carbide, usual.Humidity)
}

// HoldPoint is a hold with the rooms that it holds.
type HoldPoint struct {
	Hold
	Rooms []*building.Room
}

// HoldPoints are the holds of all rooms, alike ones as one, in the order of the
// rooms.
func (s *Survey) HoldPoints() []HoldPoint {
	var all []HoldPoint
	at := map[Hold]int{}
	for i := range s.Rooms {
		for _, hold := range s.Rooms[i].Holds() {
			n, known := at[hold]
			if !known {
				n = len(all)
				at[hold] = n
				all = append(all, HoldPoint{Hold: hold})
			}
			all[n].Rooms = append(all[n].Rooms, s.Rooms[i].Room)
		}
	}
	return all
}
