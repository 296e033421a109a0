package layout

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/published"
	"laybill/estimate/shape"
)

const mm = measure.Millimetre

// Rules and planks of the trial the goals come from (common practice).
var (
	trialRules  = Rules{Gap: 12 * mm, Kerf: 3 * mm, LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm, LineUp: 50 * mm}
	trialPlanks = []Plank{{1285 * mm, 192 * mm}, {1380 * mm, 193 * mm}, {1220 * mm, 180 * mm}, {1845 * mm, 190 * mm}}
	perPack     = []int{8, 8, 10, 6}
)

func lengthBetween(r *rand.Rand, lo, hi int64) measure.Length {
	return measure.Length(lo+r.Int64N(hi-lo+1)) * mm
}

// rectangleRoom is a room of the trial: 2 to 7 m a side, whole millimetres, laid
// along the longer side.
func rectangleRoom(r *rand.Rand) Room {
	return roomOf(shape.Rectangle(shape.Box{X1: lengthBetween(r, 2000, 7000), Y1: lengthBetween(r, 2000, 7000)}))
}

// cornerRoom is an L: a rectangle less a notch of at least half a metre each way.
func cornerRoom(r *rand.Rand) Room {
	x, y := lengthBetween(r, 2000, 7000), lengthBetween(r, 2000, 7000)
	dx := lengthBetween(r, 500, int64(x/mm)-500)
	dy := lengthBetween(r, 500, int64(y/mm)-500)
	ring := shape.Ring{{X: 0, Y: 0}, {X: x, Y: 0}, {X: x, Y: y - dy}, {X: x - dx, Y: y - dy}, {X: x - dx, Y: y}, {X: 0, Y: y}}
	room := roomOf(shape.Polygon{Outer: ring})
	if r.IntN(2) == 1 {
		room = roomOf(room.Floor[0].Mirror(0))
	}
	return room
}

func roomOf(p shape.Polygon) Room { return Room{ID: "room", Floor: shape.Region{p}} }

// columnRoom is a rectangle with columns standing in it.
func columnRoom(r *rand.Rand) Room {
	x, y := lengthBetween(r, 2000, 7000), lengthBetween(r, 2000, 7000)
	floor := shape.Region{shape.Rectangle(shape.Box{X1: x, Y1: y})}
	var boxes []shape.Box
	for range 1 + r.IntN(3) {
		b := shape.Box{X0: lengthBetween(r, 0, int64(x/mm)-100), Y0: lengthBetween(r, 0, int64(y/mm)-100)}
		b.X1, b.Y1 = b.X0+lengthBetween(r, 50, 1500), b.Y0+lengthBetween(r, 50, 1500)
		boxes = append(boxes, b)
	}
	return Room{ID: "room", Floor: shape.Subtract(floor, boxes...)}
}

func poolOf(plank Plank, rules Rules, rooms ...Room) Pool {
	p := Pool{Plank: plank, Rules: rules, PiecesPerPack: 8, Seed: 1}
	for i, room := range rooms {
		room.ID = fmt.Sprintf("room %03d", i)
		p.Rooms = append(p.Rooms, room)
	}
	return p
}

// apartmentRooms are five rooms, two in five of them L-shaped.
func apartmentRooms(r *rand.Rand) []Room {
	rooms := make([]Room, 5)
	for i := range rooms {
		if r.IntN(5) < 2 {
			rooms[i] = cornerRoom(r)
		} else {
			rooms[i] = rectangleRoom(r)
		}
	}
	return rooms
}

type method func(context.Context, Pool) (Plan, error)

func mustLay(t testing.TB, lay method, p Pool) Plan {
	t.Helper()
	plan, err := lay(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	if len(plan.Layouts) != len(p.Rooms) {
		t.Fatalf("%d layouts of %d rooms", len(plan.Layouts), len(p.Rooms))
	}
	for i := range plan.Layouts {
		if plan.Layouts[i].Room != p.Rooms[i].ID {
			t.Fatalf("layout %d is of room %q, want %q", i, plan.Layouts[i].Room, p.Rooms[i].ID)
		}
	}
	return plan
}

// planRooms are the rooms of real plans of one open set. simple takes the tidied
// outline.
func planRooms(t testing.TB, set string, simple bool) []Room {
	t.Helper()
	var rooms []Room
	for _, plan := range published.Rooms(t, set) {
		polygon := shape.Polygon{Outer: ringOf(plan.Outer)}
		for _, hole := range plan.Holes {
			polygon.Holes = append(polygon.Holes, ringOf(hole))
		}
		if simple {
			polygon = shape.Polygon{Outer: ringOf(plan.Simple)}
		}
		rooms = append(rooms, Room{ID: plan.ID, Floor: shape.Region{shape.Normalise(polygon)}})
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
