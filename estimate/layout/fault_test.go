package layout

import (
	"math/rand/v2"
	"slices"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// Every kind of planted fault must be found, else the checks above prove little.
func TestCheckerFindsPlantedFaults(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	p := poolOf(trialPlanks[0], trialRules, cornerRoom(r))
	faults := map[string]func(*Layout){
		"piece missing":       func(l *Layout) { l.Pieces = slices.Delete(l.Pieces, 4, 5) },
		"piece twice":         func(l *Layout) { l.Pieces = slices.Insert(l.Pieces, 5, l.Pieces[4]) },
		"joint moved 1 mm":    func(l *Layout) { moveJoint(l, mm) },
		"piece 1 mm into gap": func(l *Layout) { l.Pieces[0].At[0].X -= mm; l.Pieces[0].At[3].X -= mm },
		"wrong end of plank": func(l *Layout) {
			in := &l.Pieces[starterOf(l)].In
			*in = shape.Box{Y0: in.Y0, X1: in.X1 - in.X0, Y1: in.Y1}
		},
		"cut from another plank": func(l *Layout) { l.Pieces[1].Stock = l.Pieces[2].Stock },
		"row turned round":       func(l *Layout) { turnRow(l, 3) },
		"row ripped from the wrong edge": func(l *Layout) {
			for i := range l.Pieces {
				if in := &l.Pieces[i].In; in.Y1-in.Y0 < p.Plank.Width {
					*in = shape.Box{X0: in.X0, X1: in.X1, Y0: p.Plank.Width - in.Y1, Y1: p.Plank.Width - in.Y0}
				}
			}
		},
		"planks counted short": func(l *Layout) { l.Planks-- },
	}
	for name, plant := range faults {
		plan := mustLay(t, Lay, p)
		if found := faultsOf(p, plan); len(found) > 0 {
			t.Fatalf("sound plan: %s", found[0])
		}
		plant(&plan.Layouts[0])
		if len(faultsOf(p, plan)) == 0 {
			t.Errorf("%s: not found", name)
		}
	}
}

// starterOf is the first piece cut short from the right end of its plank.
func starterOf(l *Layout) int {
	return slices.IndexFunc(l.Pieces, func(p Piece) bool { return p.In.X0 > 0 })
}

func moveJoint(l *Layout, by measure.Length) {
	a, b := &l.Pieces[0], &l.Pieces[1]
	a.At, b.At = slices.Clone(a.At), slices.Clone(b.At)
	a.At[1].X += by
	a.At[2].X += by
	b.At[0].X += by
	b.At[3].X += by
	a.In.X0 -= by
	b.In.X0 += by
}

// turnRow lays a row the other way round without turning its planks.
func turnRow(l *Layout, row int) {
	var at []int
	for i := range l.Pieces {
		if l.Pieces[i].Row == row {
			at = append(at, i)
		}
	}
	first, last := l.Pieces[at[0]].At.Bounds(), l.Pieces[at[len(at)-1]].At.Bounds()
	for _, i := range at {
		box := l.Pieces[i].At.Bounds()
		box.X0, box.X1 = first.X0+last.X1-box.X1, first.X0+last.X1-box.X0
		l.Pieces[i].At = shape.Rectangle(box).Outer
	}
	for k := range len(at) / 2 {
		a, b := &l.Pieces[at[k]], &l.Pieces[at[len(at)-1-k]]
		*a, *b = *b, *a
		a.Seq, b.Seq = b.Seq, a.Seq
	}
}
