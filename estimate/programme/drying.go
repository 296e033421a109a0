package programme

import "laybill/estimate/measure"

// dryingStep is the depth of compound that dries in a day.
const dryingStep = 3 * measure.Millimetre

// DryingDays is how many days of 24 hours levelling compound of the depth dries
// before a covering goes on it: one for every 3 mm begun (from memory; confirm
// with the maker's instructions).
func DryingDays(depth measure.Length) int {
	return int((depth + dryingStep - 1) / dryingStep)
}
