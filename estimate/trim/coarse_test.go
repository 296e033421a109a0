package trim

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// What a pattern comes to in the rows of the nodes is worth, at any prices, what
// its pieces are worth at the prices on the straight lines between the nodes: the
// definition of linear interpolation.
func TestNodesKeepWorth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		task := &task{}
		size := 1
		for range rapid.IntRange(2, 12).Draw(t, "sizes") {
			size += rapid.IntRange(1, 30).Draw(t, "step")
			task.sizes = append([]int{size}, task.sizes...)
		}
		last := len(task.sizes) - 1
		at := []int{0}
		for i := 1; i < last; i++ {
			if rapid.Bool().Draw(t, "node") {
				at = append(at, i)
			}
		}
		at = append(at, last)
		n := newNodes(task, at)
		y := make([]float64, len(at))
		for k := range y {
			y[k] = float64(rapid.IntRange(0, 1000).Draw(t, "price"))
		}
		var cuts []cut
		pieces := make([]int, len(task.sizes))
		want := 0.0
		for i, s := range task.sizes {
			pieces[i] = rapid.IntRange(0, 3).Draw(t, "pieces")
			if pieces[i] > 0 {
				cuts = append(cuts, cut{i, pieces[i]})
			}
			k := 0
			for k+2 < len(at) && at[k+1] <= i {
				k++
			}
			long, short := task.sizes[at[k]], task.sizes[at[k+1]]
			want += float64(pieces[i]) * (y[k+1] + (y[k]-y[k+1])*float64(s-short)/float64(long-short))
		}
		got, spread := 0.0, 0.0
		for k, r := range n.entries(cuts).row {
			got += n.entries(cuts).value[k] * y[r]
		}
		for k, x := range n.spread(pieces) {
			spread += x * y[k]
		}
		if diff := max(got, spread, want) - min(got, spread, want); diff > 1e-6 {
			t.Fatalf("entries worth %g, rows worth %g, want %g", got, spread, want)
		}
	})
}

// Worked by hand: for 60 + 40 on a bar of 100 there are 61, 58, 42 and 37 left. 58 and
// 42 fill the bar; the longest that are no longer, 58 and 37, leave 5.
func TestNearFillsTheBar(t *testing.T) {
	task := &task{sizes: []int{61, 60, 58, 42, 40, 37}, bars: []bar{{size: 100, price: 1}}}
	n := need{pieces: []int{1, 0, 1, 1, 0, 1}, bars: []int{unlimited}}
	f := newFiller(task)
	if got, want := f.near(n, 0, []cut{{1, 1}, {4, 1}}), []cut{{2, 1}, {3, 1}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	// One piece is not cut twice: 42 + 42 would fill 84, there is one.
	task.bars[0].size = 84
	if got, want := f.near(n, 0, []cut{{4, 2}}), []cut{{3, 1}, {5, 1}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// The second of three sizes is all cut and the first kind of bars used up: what is
// left has pieces and bars of its own numbers, which translate gives back.
func TestRestKeepsItsPlace(t *testing.T) {
	task := &task{sizes: []int{50, 40, 30}, bars: []bar{{size: 90, price: 0, limit: 2}, {size: 80, price: 5}, {size: 60, price: 4, limit: 3}}}
	r := task.rest(need{pieces: []int{1, 0, 2}, bars: []int{0, unlimited, 1}})
	if want := []bar{{size: 80, price: 5}, {size: 60, price: 4, limit: 1}}; !reflect.DeepEqual(r.task.bars, want) {
		t.Errorf("bars %v, want %v", r.task.bars, want)
	}
	if !reflect.DeepEqual(r.task.sizes, []int{50, 30}) || !reflect.DeepEqual(r.task.demand, []int{1, 2}) {
		t.Errorf("sizes %v, demand %v", r.task.sizes, r.task.demand)
	}
	got := r.translate(cutting{{0, []cut{{0, 1}, {1, 1}}, 1}, {1, []cut{{1, 1}}, 1}})
	if want := (cutting{{1, []cut{{0, 1}, {2, 1}}, 1}, {2, []cut{{2, 1}}, 1}}); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// With rows for some sizes only, bounds stay below the certified optima of the
// trim jobs with remnants, plans are complete, and both are near.
func TestCoarseAgainstCertifiedOptima(t *testing.T) {
	for _, in := range trimJobs(t) {
		if in.set != "remnant-m-5" {
			continue
		}
		f := fold(in.order)
		crew := f.task.firstFit()
		s := state{f.task, crew, 0, []weighing{f.task.byLength()}}
		s.coarsely(crew)
		p := f.plan(in.order, s.best)
		p.GreedyCost, p.LowerBound, p.Proven = crew.setups.cost(f.task), s.bound, p.Cost == s.bound
		p.Certificate = f.certificate(in.order, s.proofs)
		if wrong := judge(in, p); wrong != "" {
			t.Errorf("%s: %s", in.name, wrong)
		}
		if wrong := misweighed(in.order, *p.Certificate); wrong != "" {
			t.Errorf("%s: %s", in.name, wrong)
		}
		if 200*(in.optimum-p.LowerBound) > in.optimum || 50*(p.Cost-in.optimum) > in.optimum {
			t.Errorf("%s: bound %d, cost %d, best known %d", in.name, p.LowerBound, p.Cost, in.optimum)
		}
		t.Logf("%s: bound %d, cost %d, best known %d", in.name, p.LowerBound, p.Cost, in.optimum)
	}
}
