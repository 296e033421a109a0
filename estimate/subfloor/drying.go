package subfloor

import "laybill/estimate/measure"

// Wet is what was poured and has to dry before a floor is laid on it.
type Wet int

// The kinds of what is poured.
const (
	LevellingCompound Wet = iota
	CementScreed
	CalciumSulfateScreed
)

// DryingDays is how many whole days a layer of a depth takes to dry under good
// conditions (20 C, 60 % relative humidity) before a floor is laid on it; a
// started millimetre counts. Only a moisture test shows that it is dry.
//
//   - Levelling compound: a day up to 3 mm and a day for each further millimetre
//     (common practice; the bag's data sheet rules).
//   - Cement screed: a day a millimetre up to 50 mm, two days for each further one
//     (BS 8204 as a trade magazine for stone gives it: 65 mm take 80 days).
//   - Calcium sulfate screed: a day a millimetre up to 40 mm, two days for each
//     further one (a screed firm's guide: 75 mm take 110 days).
func DryingDays(what Wet, depth measure.Length) int {
	started := int((depth + measure.Millimetre - 1) / measure.Millimetre)
	switch {
	case started <= 0:
		return 0
	case what == LevellingCompound:
		return 1 + max(0, started-3)
	case what == CementScreed:
		return started + max(0, started-50)
	}
	return started + max(0, started-40)
}
