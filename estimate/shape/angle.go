package shape

// Angle is a turn anticlockwise from the x axis in thousandths of a degree.
type Angle int64

// Turns of whole quarters.
const (
	QuarterTurn Angle = 90_000
	FullTurn          = 4 * QuarterTurn
)
