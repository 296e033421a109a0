package job

import "time"

// Step is a step of an apartment's programme.
type Step int

// The steps in their order. In a hold point, drying and acclimatisation nobody
// works: time passes.
const (
	Preparation Step = iota
	MoistureTest
	HoldPoint // until the moisture test is read and released
	Levelling
	Drying
	Delivering // of the floor's goods, carried to the rooms
	Acclimatisation
	Underlaying
	Laying
	FixingTrims
	HandingOver
)

// StepWords are the words of the steps.
var StepWords = []string{"preparation", "moisture test", "hold point", "levelling", "drying", "delivery", "acclimatisation",
	"film and underlay", "laying", "trims", "snag and handover"}

func (s Step) String() string { return StepWords[s] }

// UsualAcclimatisation is how many hours planks lie in their rooms before
// laying when their row does not say (common practice).
const UsualAcclimatisation = 48

// WorkSteps are the steps that somebody works in.
var WorkSteps = []Step{Preparation, MoistureTest, Levelling, Delivering, Underlaying, Laying, FixingTrims, HandingOver}

// UsualStep is the step of an operation that names none, by what it is measured
// by.
func (m Measure) UsualStep() Step {
	switch m {
	case OldFloorArea, Fixed:
		return Preparation
	case MoistureTests:
		return MoistureTest
	case AreaDepth, LevelledArea, Grinding, Bags:
		return Levelling
	case Packs, Carried:
		return Delivering
	case FloorArea, Seams:
		return Underlaying
	case Perimeter, SkirtingLength, Runs, Openings, ExpansionProfiles, InsideCorners, OutsideCorners:
		return FixingTrims
	case RoomCount, ApartmentCount:
		return HandingOver
	}
	return Laying
}

// WorkingWeek is the days of the week that are worked.
type WorkingWeek int

// WorkingWeeks are the words of the weeks: the first and the last day worked.
var WorkingWeeks = []string{"Mon-Fri", "Mon-Sat", "Mon-Sun", "Mon-Thu", "Sun-Thu"}

var weeks = []struct{ first, last time.Weekday }{
	{time.Monday, time.Friday}, {time.Monday, time.Saturday}, {time.Monday, time.Sunday}, {time.Monday, time.Thursday}, {time.Sunday, time.Thursday},
}

func (w WorkingWeek) String() string { return WorkingWeeks[w] }

// Has tells whether the weekday is worked.
func (w WorkingWeek) Has(day time.Weekday) bool {
	const days = 7
	week := weeks[w]
	return (day-week.first+days)%days <= (week.last-week.first+days)%days
}
