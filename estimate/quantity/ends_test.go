package quantity

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

func skirting(cut job.CornerCut) *job.Product {
	return &job.Product{Code: "SKIRT", Kind: job.Trim, SoldBy: job.PerPiece, Length: mm(2400), Thickness: mm(18), CornerCut: cut, Scribing: mm(5)}
}

// cutList writes what is to be cut: wall, length, left and right end.
func cutList(j *job.Job, b *building.Building) []string {
	letters := [...]string{SquareCut: "S", InsideMitre: "I", OutsideMitre: "O", ScribedCut: "C"}
	var list []string
	for _, piece := range take(j, b).Lengths {
		list = append(list, fmt.Sprintf("%d: %s %d %s", piece.Wall, letters[piece.Ends[0].Cut], int64(piece.Length/measure.Millimetre), letters[piece.Ends[1].Cut]))
	}
	return list
}

// pier is the outline of a room of 5.0 x 4.0 m with a pier of 1.0 x 0.6 m in its
// north-east corner.
func pier() shape.Polygon {
	return shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(5000), Y: 0}, {X: mm(5000), Y: mm(3400)}, {X: mm(4000), Y: mm(3400)}, {X: mm(4000), Y: mm(4000)}, {X: 0, Y: mm(4000)}}}
}

// A room of 5.0 x 4.0 m with a pier of 1.0 x 0.6 m in its north-east corner,
// skirting 18 mm thick. Walls: 1 S 5.0, 2 E 3.4, 3 N 1.0, 4 E 0.6, 5 N 4.0,
// 6 W 4.0; the corner of 3 and 4 is an outside one. A door of 900 mm in wall 1.
// An outside mitre of a square corner reaches its thickness beyond the wall
// (geometry: 18 x tan 45); an inside mitre is longest at the wall. Scribed, the
// left end of a piece takes 5 mm at an inside corner, and the right end is square.
func TestEndsAndAllowances(t *testing.T) {
	outline := pier()
	for _, c := range []struct {
		cut  job.CornerCut
		want []string
	}{
		{job.Squared, []string{"1: S 1500 S", "1: S 2600 S", "2: S 3400 S", "3: S 1000 S", "4: S 600 S", "5: S 4000 S", "6: S 4000 S"}},
		{job.Mitred, []string{"1: S 1500 I", "1: I 2600 S", "2: I 3400 I", "3: O 1018 I", "4: I 618 O", "5: I 4000 I", "6: I 4000 I"}},
		{job.Scribed, []string{"1: S 1500 S", "1: C 2605 S", "2: C 3405 S", "3: O 1018 S", "4: C 623 O", "5: C 4005 S", "6: C 4005 S"}},
	} {
		j, _ := room(outline, &job.Line{Product: skirting(c.cut), Measure: job.SkirtingLength})
		j.Rooms[0].Openings = []job.Opening{{Wall: 0, From: mm(1500), Width: mm(900)}}
		b := building.Build(j)
		if diff := cmp.Diff(c.want, cutList(j, b)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.cut, diff)
		}
		// The quantity stays the wall: 18.0 m less 0.9 m.
		if got := take(j, b).Lines[0].Quantity.String(); got != "17.1" {
			t.Errorf("%s: %s m of skirting, want 17.1 m", c.cut, got)
		}
	}
}

// A gap of 1200 mm in a wall of 5000, 130 mm deep on the room's side: the runs and
// the returns meet in outside mitres, and the returns end square.
func TestReturnsAreMitredRoundTheOpening(t *testing.T) {
	j, _ := room(rectangle(5000, 4000), &job.Line{Product: skirting(job.Mitred), Measure: job.SkirtingLength})
	j.Rooms[0].Openings = []job.Opening{{Wall: 0, From: mm(1500), Width: mm(1200), Return: mm(130)}}
	want := []string{"1: O 1518 I", "1: S 148 O", "1: O 148 S", "1: I 2318 O"}
	if diff := cmp.Diff(want, cutList(j, building.Build(j))[:4]); diff != "" {
		t.Errorf("pieces (-want +got):\n%s", diff)
	}
}

// Gripper rods go along the walls less the openings, with skirting or without,
// and not into openings: 18.0 m of walls less 1.2 m.
func TestRodsFollowTheRuns(t *testing.T) {
	rods := &job.Product{Code: "ROD", Kind: job.Trim, SoldBy: job.PerPack, PiecesPerPack: 50, Length: mm(1520), LeastEnd: mm(100)}
	j, _ := room(rectangle(5000, 4000), &job.Line{Product: rods, Measure: job.Runs})
	j.Rooms[0].Skirting = false
	j.Rooms[0].Openings = []job.Opening{{Wall: 0, From: mm(1500), Width: mm(1200), Return: mm(130)}}
	takeoff := take(j, building.Build(j))
	var total measure.Length
	for _, piece := range takeoff.Lengths {
		total += piece.Length
	}
	if total != mm(16800) || takeoff.Lines[0].Quantity.String() != "16.8" {
		t.Errorf("%s of rods, stated %s m, want 16.8 m", total, takeoff.Lines[0].Quantity)
	}
}

// Thirteen steps of 870 mm take thirteen nosings of 870 mm, each in one piece.
func TestNosingsAreAsWideAsTheSteps(t *testing.T) {
	nosing := &job.Product{Code: "NOSE", Kind: job.Trim, SoldBy: job.PerPiece, Length: mm(2700)}
	j, _ := room(rectangle(3600, 900), &job.Line{Product: nosing, Measure: job.Steps})
	j.Rooms[0].Steps, j.Rooms[0].StepWidth = 13, mm(870)
	lengths := take(j, building.Build(j)).Lengths
	if len(lengths) != 13 || lengths[12].Length != mm(870) || !lengths[12].Whole {
		t.Errorf("%d nosings, the last %+v, want 13 of 870 mm in one piece", len(lengths), lengths[len(lengths)-1])
	}
}

// Once round a room with square corners: every outside mitre adds a thickness
// on both of its pieces, so the pieces add up to the walls and twice the
// thickness for every outside corner; seen from the room, the face of the
// skirting then closes (geometry).
func TestFacesCloseRoundOutsideCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, from, to int64) measure.Length { return mm(rapid.Int64Range(from, to).Draw(t, name)) }
		l, w := size("length", 2000, 8000), size("width", 2000, 8000)
		a, c := size("pier along", 300, 1500), size("pier out", 100, 1500)
		outline := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l, Y: w - c}, {X: l - a, Y: w - c}, {X: l - a, Y: w}, {X: 0, Y: w}}}
		product := skirting(job.Mitred)
		product.Thickness = size("thickness", 9, 30)
		j, b := room(outline, &job.Line{Product: product, Measure: job.SkirtingLength})
		var total measure.Length
		for _, piece := range take(j, b).Lengths {
			total += piece.Length
		}
		if want := b.Rooms[0].Perimeter + 2*product.Thickness; total != want {
			t.Fatalf("%s, want %s", total, want)
		}
	})
}

// An outside corner of 45 degrees, as of a bay seen from inside the wall: 18 mm x
// tan 22.5 degrees = 7.456 mm on each piece.
func TestAllowanceFollowsTheAngle(t *testing.T) {
	outline := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(3000), Y: 0}, {X: mm(4000), Y: mm(-1000)}, {X: mm(7000), Y: mm(-1000)}, {X: mm(7000), Y: mm(3000)}, {X: 0, Y: mm(3000)}}}
	j, b := room(outline, &job.Line{Product: skirting(job.Mitred), Measure: job.SkirtingLength})
	found := false
	for _, piece := range take(j, b).Lengths {
		for _, end := range piece.Ends {
			if end.Cut != OutsideMitre {
				continue
			}
			found = true
			added := float64(piece.Length-piece.Run) / float64(measure.Millimetre)
			if want := 18 * math.Tan(math.Pi/8); math.Abs(added-want) > 0.5/320 {
				t.Errorf("an outside mitre of 22.5 degrees adds %g mm, want %g", added, want)
			}
		}
	}
	if !found {
		t.Error("no outside mitre")
	}
}
