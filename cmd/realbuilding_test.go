package cmd

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/proof"
	"laybill/estimate/published"
	"laybill/sheet/book"
	"laybill/sheet/exchange"
	"laybill/sheet/form"
	"laybill/sheet/in"
	"laybill/templates"
)

// The building of the data set whose apartments are numbered.
const realBuilding = "s1439-b2656"

// readRealRooms reads the rooms of a building, or of all of them for "".
func readRealRooms(t testing.TB, building string) []published.Room {
	t.Helper()
	rooms := published.Rooms(t, "residential")
	return slices.DeleteFunc(rooms, func(r published.Room) bool { return building != "" && r.Building != building })
}

// realJob is a job workbook of the building: every room with its corners as
// drawn, its doors in the walls they stand in, and the demo's products, prices
// and work.
func realJob(t testing.TB, rooms []published.Room) form.Fill {
	t.Helper()
	fill := templates.Demo(templates.Metric)
	fill.LengthUnit = measure.MM
	keep := fill.Rows
	fill.Rows = map[string][]form.Row{}
	for _, key := range []string{"job", "suppliers", "products", "buildups", "operations", "trades", "extras"} {
		for _, row := range keep[key] {
			if row["lengthof"] == "" { // one stock length of skirting is enough here
				fill.Rows[key] = append(fill.Rows[key], row)
			}
		}
	}
	apartments := map[string]bool{}
	for _, room := range rooms {
		flat := room.Plan + " common"
		if room.Unit != nil {
			flat = fmt.Sprintf("%s-%02d", room.Plan, *room.Unit)
		}
		if !apartments[flat] {
			apartments[flat] = true
			fill.Rows["apartments"] = append(fill.Rows["apartments"], form.Row{"apartment": flat, "type": flat, "floor": room.Plan})
		}
		name := room.ID + " " + room.Kind
		fill.Rows["rooms"] = append(fill.Rows["rooms"], form.Row{"type": flat, "room": name, "buildup": "Oak click", "direction": "auto"})
		addCorners(&fill, flat, name, room)
		addDoors(&fill, flat, name, room)
	}
	return fill
}

// addCorners writes the rings from the outline's own lower left corner.
func addCorners(fill *form.Fill, flat, name string, room published.Room) {
	for i, ring := range append([]published.Outline{room.Outer}, room.Holes...) {
		for _, corner := range walked(room, ring) {
			fill.Rows["corners"] = append(fill.Rows["corners"], form.Row{"type": flat, "room": name, "ring": strconv.Itoa(i + 1),
				"x": strconv.Itoa(corner[0]), "y": strconv.Itoa(corner[1])})
		}
	}
}

// walked is a ring anticlockwise. The data's y runs downwards, so it is turned
// over, as a plan is read.
func walked(room published.Room, ring published.Outline) published.Outline {
	corners := make([][2]int, len(ring))
	for i, c := range ring {
		x, y := placed(room, c)
		corners[i] = [2]int{x, y}
	}
	if doubleArea(corners) < 0 {
		slices.Reverse(corners)
	}
	return corners
}

// placed is a corner from the lower left of the room's bounding box, y upwards.
func placed(room published.Room, corner [2]int) (x, y int) {
	left, bottom := room.Outer[0][0], room.Outer[0][1]
	for _, c := range room.Outer {
		left, bottom = min(left, c[0]), max(bottom, c[1])
	}
	return corner[0] - left, bottom - corner[1]
}

// addDoors writes the doors that lie in a leg of the outline, within 40 mm. The
// data draws some doors over one another; the first of them counts.
func addDoors(fill *form.Fill, flat, name string, room published.Room) {
	walls := outlineWalls(room)
	taken := map[int][][2]int{}
	for _, door := range room.Doors {
		ax, ay := placed(room, door.A)
		bx, by := placed(room, door.B)
		for number, wall := range walls {
			from, width, ok := wall.within(ax, ay, bx, by)
			if !ok || overlaps(taken[number], from, width) {
				continue
			}
			taken[number] = append(taken[number], [2]int{from, from + width})
			row := form.Row{"type": flat, "room": name, "wall": strconv.Itoa(number + 1), "from": strconv.Itoa(from), "width": strconv.Itoa(width), "depth": strconv.Itoa(door.T)}
			fill.Rows["openings"] = append(fill.Rows["openings"], row)
			break
		}
	}
}

func overlaps(spans [][2]int, from, width int) bool {
	for _, span := range spans {
		if from < span[1] && span[0] < from+width {
			return true
		}
	}
	return false
}

// axisWall is an axis-parallel leg of an outline.
type axisWall struct{ x0, y0, x1, y1 int }

// outlineWalls are the legs of the outline anticlockwise from the corner nearest
// 0,0, which is how the workbook numbers them.
func outlineWalls(room published.Room) []axisWall {
	corners := walked(room, room.Outer)
	first := 0
	for i, c := range corners {
		if before(c, corners[first]) {
			first = i
		}
	}
	walls := make([]axisWall, len(corners))
	for i := range corners {
		a, b := corners[(first+i)%len(corners)], corners[(first+i+1)%len(corners)]
		walls[i] = axisWall{a[0], a[1], b[0], b[1]}
	}
	return walls
}

// before orders corners by their way to 0,0, then the lower, then the left one.
func before(a, b [2]int) bool {
	way := func(c [2]int) int { return c[0]*c[0] + c[1]*c[1] }
	return cmp.Or(cmp.Compare(way(a), way(b)), cmp.Compare(a[1], b[1]), cmp.Compare(a[0], b[0])) < 0
}

func doubleArea(corners [][2]int) int {
	sum := 0
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		sum += a[0]*b[1] - b[0]*a[1]
	}
	return sum
}

// within tells whether the opening a-b lies in the wall, and where.
func (w axisWall) within(ax, ay, bx, by int) (from, width int, ok bool) {
	const near = 40
	off := func(a, b int) bool { return a-b > near || b-a > near }
	along := func(w0, w1, a, b int) (int, int, bool) {
		length, start, end := w1-w0, a-w0, b-w0
		if length < 0 {
			length, start, end = -length, -start, -end
		}
		start, end = min(start, end), max(start, end)
		return max(start, 0), end - max(start, 0), start >= -near && end <= length && end > max(start, 0)
	}
	switch {
	case w.y0 == w.y1 && !off(ay, w.y0) && !off(by, w.y0):
		return along(w.x0, w.x1, ax, bx)
	case w.x0 == w.x1 && !off(ax, w.x0) && !off(bx, w.x0):
		return along(w.y0, w.y1, ay, by)
	}
	return 0, 0, false
}

// TestRealBuildingIsPricedAndProven takes a real building through the whole
// line: workbook, layout, orders, price, result file, proof.
func TestRealBuildingIsPricedAndProven(t *testing.T) {
	rooms := readRealRooms(t, realBuilding)
	r := priceFill(t, realJob(t, rooms))
	if got := len(r.Building.Rooms); got != len(rooms) {
		t.Errorf("%d rooms are priced, the building has %d", got, len(rooms))
	}
	proveResult(t, r)
	compareAreas(t, r, rooms)
	report(t, r)
}

// priceFill writes the workbook, reads it and runs the job.
func priceFill(t testing.TB, fill form.Fill) *estimate.Result {
	t.Helper()
	var workbook bytes.Buffer
	if err := form.Write(&workbook, fill); err != nil {
		t.Fatal(err)
	}
	b, err := book.OpenBytes(workbook.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	j, problems := in.Read(b)
	for _, p := range problems {
		if p.Severity == problem.Error {
			t.Fatalf("%s: %s", p.Summary(), p.Want)
		}
	}
	r, problems, err := estimate.Run(context.Background(), j, nil)
	if err != nil || r == nil {
		t.Fatalf("run: %v %v", err, problems)
	}
	return r
}

func proveResult(t testing.TB, r *estimate.Result) {
	t.Helper()
	var file bytes.Buffer
	if err := exchange.WriteResult(&file, r); err != nil {
		t.Fatal(err)
	}
	report, err := proof.Check(&file)
	if err != nil {
		t.Fatal(err)
	}
	for _, claim := range report.Claims {
		if !claim.OK {
			t.Errorf("%s: %s is not %s at %s: %s", claim.Name, claim.Left, claim.Right, claim.Place, claim.Detail)
		}
	}
}

// compareAreas holds every room's net area against the data's exact one.
func compareAreas(t *testing.T, r *estimate.Result, rooms []published.Room) {
	t.Helper()
	want := map[string]int64{}
	for _, room := range rooms {
		want[room.ID+" "+room.Kind] = room.DoubleArea
	}
	for _, room := range r.Building.Rooms {
		exact := decimal.New(want[room.Spec.Name], -6).Div(decimal.NewFromInt(2))
		if got := room.Area.Decimal(measure.M2, 7); !got.Equal(exact) {
			t.Errorf("%s has %s m2, the data %s m2", room.Spec.Name, got, exact)
		}
	}
}

// report logs the building's figures: go test -v -run RealBuilding ./cmd
func report(t *testing.T, r *estimate.Result) {
	var net, laid, bought measure.Area
	planks, byEye, short := 0, 0, 0
	for i := range r.Floors {
		plan := r.Floors[i].Plan
		planks, byEye, short = planks+plan.Planks, byEye+plan.ByEye, short+len(plan.Shortfalls)
		bought += measure.Area(plan.Planks) * r.Floors[i].Product.Length.Times(r.Floors[i].Product.Width)
		for slot := range plan.Layouts {
			laid += plan.Layouts[slot].Area()
		}
	}
	for _, room := range r.Building.Rooms {
		net += room.Area
	}
	packs := decimal.Zero
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			if line.Product == r.Floors[0].Product {
				packs = line.Quantity
			}
		}
	}
	waste := fmt.Sprintf("%.2f", 100*(float64(bought)/float64(laid)-1))
	t.Logf("%d rooms in %d apartments, net %s m2, laid %s m2, %d planks (by eye %d), waste %s %%, %s packs with spares, %d rules not kept",
		len(r.Building.Rooms), len(r.Job.Apartments), net.Decimal(measure.M2, 2), laid.Decimal(measure.M2, 2), planks, byEye, waste, packs, short)
}
