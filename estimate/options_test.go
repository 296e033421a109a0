package estimate

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/job"
)

// withOptions is the small job with two options: another skirting everywhere,
// and a build-up without the underlay in one apartment.
func withOptions() *job.Job {
	j := smallJob()
	floor := j.BuildUps[0]
	skirting := floor.Lines[3].Product
	tall := *skirting
	tall.Code, tall.Price = "SKIRT-120", dec("9.90")
	bare := &job.BuildUp{Name: "Bare", Lines: append(append([]*job.Line(nil), floor.Lines[:1]...), floor.Lines[2:]...)}
	j.Products, j.BuildUps = append(j.Products, &tall), append(j.BuildUps, bare)
	j.Options = []*job.Option{
		{Name: "tall", Swaps: []job.Swap{{Product: skirting, WithProduct: &tall}}},
		{Name: "bare", Swaps: []job.Swap{{BuildUp: floor, WithBuildUp: bare}}},
	}
	j.Apartments[0].Option = "bare"
	return j
}

// An option is worth what the same job costs when its workbook says so from the
// start, and pricing it leaves the job itself as it was.
func TestOptionIsTheJobWrittenSo(t *testing.T) {
	j := withOptions()
	r, problems, err := RunWithOptions(context.Background(), j, nil)
	if err != nil || r == nil {
		t.Fatal(err, problems)
	}
	if diff := cmp.Diff(figures(run(t, smallJob())), figures(r)); diff != "" {
		t.Errorf("the job itself changed:\n%s", diff)
	}
	tall := withOptions()
	tall.BuildUps[0].Lines[3].Product = tall.Products[len(tall.Products)-1]
	bare := withOptions() // apartment 103 as a type of its own
	bare.Apartments[0].Type = "B"
	for _, room := range bare.Rooms {
		own := *room
		own.Type, own.BuildUp = "B", bare.BuildUps[1]
		bare.Rooms = append(bare.Rooms, &own)
	}
	for i, written := range []*job.Job{tall, bare} {
		want := run(t, written)
		got := r.Alternatives[i]
		if diff := cmp.Diff(want.Price.Ladder.Net.String(), got.Ladder.Net.String()); diff != "" {
			t.Errorf("%s: price %s", got.Option.Name, diff)
		}
		if !got.Hours.Equal(want.Hours()) || !got.Packs.Equal(want.Packs()) {
			t.Errorf("%s: %s h, %s packs, want %s and %s", got.Option.Name, got.Hours, got.Packs, want.Hours(), want.Packs())
		}
		if !got.Difference.Equal(want.Price.Ladder.Net.Sub(r.Price.Ladder.Net)) || got.Difference.IsZero() {
			t.Errorf("%s: difference %s", got.Option.Name, got.Difference)
		}
	}
	if r.Alternatives[0].Apartments != 3 || r.Alternatives[1].Apartments != 1 {
		t.Errorf("apartments %d and %d, want 3 and 1", r.Alternatives[0].Apartments, r.Alternatives[1].Apartments)
	}
}

// An option that cannot be counted is an error at its row.
func TestImpossibleOptionIsNamed(t *testing.T) {
	j := withOptions()
	j.Products[len(j.Products)-1].Length = 0
	r, problems, err := RunWithOptions(context.Background(), j, nil)
	if r != nil || err != nil || !problems.HasErrors() || problems[len(problems)-1].At != j.Options[0].Ref {
		t.Errorf("result %v, error %v, problems %v", r != nil, err, problems)
	}
}
