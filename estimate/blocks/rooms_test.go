package blocks

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"laybill/estimate/layout"
	"laybill/estimate/measure"
	"laybill/estimate/published"
	"laybill/estimate/shape"
)

const mm = measure.Millimetre

// Usual blocks (common practice) and rules of the trial that the goals of plank
// floors come from.
var (
	trialBlock = layout.Plank{Length: 600 * mm, Width: 100 * mm}
	trialRules = layout.Rules{Gap: 12 * mm, Kerf: 3 * mm, LeastRow: 50 * mm}
	styles     = []Style{{Pattern: Herringbone}, {Pattern: DoubleHerringbone}, {Pattern: Chevron, Angle: 45_000}, {Pattern: Chevron, Angle: 60_000}}
)

func (s Style) String() string {
	words := [...]string{"none", "herringbone", "double herringbone", "chevron"}[s.Pattern]
	if s.Pattern == Chevron {
		words += fmt.Sprintf(" %d", s.Angle/1000)
	}
	return words
}

func lengthBetween(r *rand.Rand, lo, hi int64) measure.Length {
	return measure.Length(lo+r.Int64N(hi-lo+1)) * mm
}

// rectangleRoom is 2 to 7 m a side, cornerRoom the same less a notch of at least
// half a metre each way: the rooms of the plank trial.
func rectangleRoom(r *rand.Rand) shape.Region {
	return shape.Region{shape.Rectangle(shape.Box{X1: lengthBetween(r, 2000, 7000), Y1: lengthBetween(r, 2000, 7000)})}
}

func cornerRoom(r *rand.Rand) shape.Region {
	x, y := lengthBetween(r, 2000, 7000), lengthBetween(r, 2000, 7000)
	dx, dy := lengthBetween(r, 500, int64(x/mm)-500), lengthBetween(r, 500, int64(y/mm)-500)
	return shape.Region{{Outer: shape.Ring{{X: 0, Y: 0}, {X: x, Y: 0}, {X: x, Y: y - dy}, {X: x - dx, Y: y - dy}, {X: x - dx, Y: y}, {X: 0, Y: y}}}}
}

// columnRoom has a column that stands in it and a slanted wall.
func columnRoom(r *rand.Rand) shape.Region {
	x, y := lengthBetween(r, 1200, 3000), lengthBetween(r, 1200, 3000)
	room := shape.Region{{Outer: shape.Ring{{X: 0, Y: 0}, {X: x, Y: 0}, {X: x + lengthBetween(r, -700, 700), Y: y}, {X: 0, Y: y}}}}
	at := shape.Point{X: lengthBetween(r, 50, 700), Y: lengthBetween(r, 50, 700)}
	return shape.Subtract(room, shape.Box{X0: at.X, Y0: at.Y, X1: at.X + lengthBetween(r, 40, 400), Y1: at.Y + lengthBetween(r, 40, 400)})
}

func poolOf(rooms ...shape.Region) layout.Pool {
	p := layout.Pool{Plank: trialBlock, Rules: trialRules, PiecesPerPack: 1}
	for i, room := range rooms {
		p.Rooms = append(p.Rooms, layout.Room{ID: fmt.Sprint("room ", i), Floor: room})
	}
	return p
}

func mustLay(t testing.TB, style Style, p layout.Pool) layout.Plan {
	t.Helper()
	plan, err := Lay(context.Background(), style, p)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// planRooms are the rooms of real plans of an open set.
func planRooms(t testing.TB, set string) []shape.Region {
	t.Helper()
	var rooms []shape.Region
	for _, plan := range published.Rooms(t, set) {
		polygon := shape.Polygon{Outer: ringOf(plan.Outer)}
		for _, hole := range plan.Holes {
			polygon.Holes = append(polygon.Holes, ringOf(hole))
		}
		rooms = append(rooms, shape.Region{shape.Normalise(polygon)})
	}
	return rooms
}

func ringOf(corners [][2]int) shape.Ring {
	var ring shape.Ring
	for _, c := range corners {
		ring = append(ring, shape.Point{X: measure.Length(c[0]) * mm, Y: measure.Length(c[1]) * mm})
	}
	return ring
}
