package building

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// words writes runs as wall, length and ends: "1 2000 outside-inside".
func words(runs []Run) []string {
	var all []string
	for _, run := range runs {
		text := fmt.Sprintf("%d %d %s-%s", run.Wall, int64(run.Length/measure.Millimetre), run.Left.At.word(), run.Right.At.word())
		if run.Return {
			text += " return"
		}
		all = append(all, text)
	}
	return all
}

func (c Corner) word() string { return []string{"butted", "inside", "outside"}[c] }

// The L-shaped room of lRoom: all corners are inside but the one at 3.5, 2.6,
// where walls 3 and 4 meet. Facing a wall, the walk comes from the right.
func TestEndsOfRuns(t *testing.T) {
	room := build(lRoom(), &job.Apartment{Name: "1", Type: "A"}).Rooms[0]
	// Wall 6 ends in a door at the corner with wall 1, so the first run of wall 1
	// is butted there.
	want := []string{
		"1 500 butted-butted", "1 1000 butted-butted", "1 2000 inside-butted", "2 2600 inside-inside",
		"3 2500 outside-inside", "4 2200 inside-outside", "5 3500 inside-inside", "6 3900 butted-inside",
	}
	if diff := cmp.Diff(want, words(room.Runs)); diff != "" {
		t.Errorf("runs (-want +got):\n%s", diff)
	}
}

// An opening of 1.6 m whose wall is 120 mm deep: the skirting turns into both
// sides, round two outside corners.
func TestReturnsAtAnOpening(t *testing.T) {
	spec := lRoom()
	spec.Openings = []job.Opening{{Wall: 0, From: mm(2400), Width: mm(1600), Return: mm(120)}}
	room := build(spec, &job.Apartment{Name: "1", Type: "A"}).Rooms[0]
	want := []string{"1 2400 outside-inside", "1 120 butted-outside return", "1 120 outside-butted return", "1 2000 inside-outside"}
	if diff := cmp.Diff(want, words(room.Skirting)[:4]); diff != "" {
		t.Errorf("runs (-want +got):\n%s", diff)
	}
	if len(room.Runs) != len(room.Skirting)-2 {
		t.Errorf("%d runs and %d of skirting, want the returns on top", len(room.Runs), len(room.Skirting))
	}
}

// A corner of 135 degrees, as of a bay: a turn of 45, half of it 22.5 degrees
// (common practice: the angle a mitre saw is set to).
func TestTurnOfASlantedCorner(t *testing.T) {
	spec := lRoom()
	spec.Openings = nil
	spec.Outline = shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: mm(4000), Y: 0}, {X: mm(4000), Y: mm(2000)}, {X: mm(3000), Y: mm(3000)}, {X: 0, Y: mm(3000)}}}
	room := build(spec, &job.Apartment{Name: "1", Type: "A"}).Rooms[0]
	for i, want := range []float64{45, 45, 22.5, 22.5, 45} {
		if got := room.Runs[i].Right.Turn.Half(); math.Abs(got-want) > 1e-4 || room.Runs[i].Right.At != InsideCorner {
			t.Errorf("the right end of wall %d turns by 2 x %g degrees, want 2 x %g inside", i+1, got, want)
		}
	}
}

// A door 500 from the corner of the south wall of 6000 is 4600 from it in the
// mirror: 6000 - 500 - 900.
func TestOpeningsOfMirroredRooms(t *testing.T) {
	b := build(lRoom(), &job.Apartment{Name: "1", Type: "A"}, &job.Apartment{Name: "2", Type: "A", Mirrored: true})
	if plain, mirrored := b.Rooms[0].Openings[0].From, b.Rooms[1].Openings[0].From; plain != mm(500) || mirrored != mm(4600) {
		t.Errorf("the door is %s from the corner and %s mirrored, want 500 mm and 4600 mm", plain, mirrored)
	}
}

// Mirrored, left and right change places and nothing else does.
func TestMirroredRunsChangeHands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := lRoom()
		spec.Openings = nil
		for _, wall := range []struct{ index, length int }{{0, 6000}, {4, 3500}, {5, 4800}} {
			if rapid.Bool().Draw(t, "opening") {
				from := rapid.IntRange(0, wall.length-800).Draw(t, "from")
				spec.Openings = append(spec.Openings, job.Opening{Wall: wall.index, From: mm(int64(from)), Width: mm(800), Return: mm(int64(rapid.SampledFrom([]int{0, 90}).Draw(t, "return")))})
			}
		}
		b := build(spec, &job.Apartment{Name: "1", Type: "A"}, &job.Apartment{Name: "2", Type: "A", Mirrored: true})
		count := map[string]int{}
		for _, run := range b.Rooms[0].Skirting {
			count[fmt.Sprint(run.Length, run.Return, run.Left, run.Right)]++
		}
		for _, run := range b.Rooms[1].Skirting {
			count[fmt.Sprint(run.Length, run.Return, run.Right, run.Left)]--
		}
		for run, n := range count {
			if n != 0 {
				t.Fatalf("%s is %+d times more in the room than in its mirror image\n%s\n%s", run, n, strings.Join(words(b.Rooms[0].Skirting), "\n"), strings.Join(words(b.Rooms[1].Skirting), "\n"))
			}
		}
	})
}
