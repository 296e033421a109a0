package templates

import (
	"io/fs"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/form"
	"laybill/sheet/in"
)

func readBack(t *testing.T, fill form.Fill) (*job.Job, problem.List) {
	t.Helper()
	b, err := book.OpenBytes(written(t, fill))
	if err != nil {
		t.Fatal(err)
	}
	return in.Read(b)
}

// sameJob compares what jobs say, not where it stands: a folder of CSV files
// has no line above the headings.
var sameJob = cmp.Options{cmpopts.IgnoreTypes(problem.Ref{}), cmpopts.IgnoreFields(job.Job{}, "Sheets")}

func TestDemoReadsWithoutProblems(t *testing.T) {
	for _, system := range Systems {
		read, problems := readBack(t, Demo(system))
		for _, p := range problems {
			t.Errorf("%s: %s", system, p.Summary())
		}
		if got := len(read.Apartments); got != 24 {
			t.Errorf("%s: %d apartments, want 24", system, got)
		}
	}
}

// The demo's files are a job as they stand; the workbook made of them is the
// same job, each time.
func TestDemoWorkbookIsItsFiles(t *testing.T) {
	folder, err := fs.Sub(demoFiles, "demo")
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	files, problems := in.Read(b)
	for _, p := range problems {
		t.Error(p.Summary())
	}
	for range 2 {
		workbook, _ := readBack(t, Demo(Metric))
		if diff := cmp.Diff(files, workbook, sameJob); diff != "" {
			t.Fatalf("the workbook is another job (-files +workbook):\n%s", diff)
		}
	}
}

// A blank workbook lacks exactly what must be filled in.
func TestBlankLacksOnlyWhatIsRequired(t *testing.T) {
	for _, system := range Systems {
		_, problems := readBack(t, Blank(system))
		counts := map[problem.Code]int{}
		for _, p := range problems {
			counts[p.Code]++
		}
		// Job name and Currency; Products, Build-ups and Rooms.
		want := map[problem.Code]int{problem.CellMissing: 2, problem.TableEmpty: 3}
		if diff := cmp.Diff(want, counts); diff != "" {
			t.Errorf("%s (-want +got):\n%s", system, diff)
		}
	}
}
