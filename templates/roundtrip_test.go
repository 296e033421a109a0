package templates

import (
	"bytes"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/form"
	"laybill/sheet/in"
	"laybill/sheet/table"
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

// The way through every form of a job: the workbook, a folder of CSV files, a
// workbook again.
func TestRoundTrip(t *testing.T) {
	for _, system := range Systems {
		first, err := book.OpenBytes(written(t, Demo(system)))
		if err != nil {
			t.Fatal(err)
		}
		job1, _ := in.Read(first)
		second, err := book.OpenFolder(folderOf(t, Filled(job1.Settings, in.Texts(first))))
		if err != nil {
			t.Fatal(err)
		}
		job2, problems := in.Read(second)
		for _, p := range problems {
			t.Errorf("%s, as CSV files: %s", system, p.Summary())
		}
		if diff := cmp.Diff(job1, job2, sameJob); diff != "" {
			t.Fatalf("%s: the CSV files are another job (-workbook +files):\n%s", system, diff)
		}
		job3, problems := readBack(t, Filled(job2.Settings, in.Texts(second)))
		for _, p := range problems {
			t.Errorf("%s, as a workbook again: %s", system, p.Summary())
		}
		if diff := cmp.Diff(job1, job3, sameJob); diff != "" {
			t.Fatalf("%s: the second workbook is another job (-first +second):\n%s", system, diff)
		}
	}
}

// folderOf is the fill as a folder of CSV files.
func folderOf(t *testing.T, fill form.Fill) fs.FS {
	t.Helper()
	folder := fstest.MapFS{}
	for i := range table.Tables {
		var file bytes.Buffer
		if err := form.WriteCSV(&file, fill, &table.Tables[i]); err != nil {
			t.Fatal(err)
		}
		folder[table.Tables[i].Sheet+".csv"] = &fstest.MapFile{Data: file.Bytes()}
	}
	return folder
}

// Texts that a spreadsheet would take for formulas come back as they were, and
// stand behind an apostrophe in the files.
func TestTextsThatLookLikeFormulas(t *testing.T) {
	texts := []string{"=1+1", "+49 170", "-draft-", "@home", "'=quoted", "''-twice", "'t Hof", "a,b;c\t\"d\"", "007", " 12 "}
	for _, text := range texts {
		fill := Demo(Metric)
		fill.Rows["apartments"][0]["phase"] = text
		folder := folderOf(t, fill)
		file, err := fs.ReadFile(folder, "Apartments.csv")
		if err != nil {
			t.Fatal(err)
		}
		if strings.ContainsAny(text[:1], "=+-@") && !bytes.Contains(file, []byte(",'"+text+",")) {
			t.Errorf("%q stands without an apostrophe", text)
		}
		b, err := book.OpenFolder(folder)
		if err != nil {
			t.Fatal(err)
		}
		read, _ := in.Read(b)
		if got := read.Apartments[0].Phase; got != strings.TrimSpace(text) {
			t.Errorf("%q came back as %q", text, got)
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
