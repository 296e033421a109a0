package shape

// Angle is a turn anticlockwise from the x axis in thousandths of a degree.
type Angle int64

// Turns of whole quarters.
const (
	QuarterTurn Angle = 90_000
	FullTurn          = 4 * QuarterTurn
)

// Normal is the same turn in [0, 360) degrees.
func (a Angle) Normal() Angle { return ((a % FullTurn) + FullTurn) % FullTurn }
