package notes

import (
	"bytes"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/sheet/book"
)

// A workbook that reads can be marked, or is refused with a reason; the copy
// reads, and holds the same cells.
func FuzzCopy(f *testing.F) {
	f.Add(lively(f))
	for _, prefix := range []string{"", "x:"} {
		f.Add(bare(f, prefix, cellsOf, relationOf))
	}
	f.Add(bare(f, "", strictCells, strictOf))
	f.Fuzz(func(t *testing.T, data []byte) {
		before, err := book.OpenBytes(data)
		if err != nil || len(before.Sheets) == 0 {
			return
		}
		problems := faults()
		for i := range problems {
			problems[i].At.Sheet = before.Sheets[0].Name
		}
		var out bytes.Buffer
		var why *Unfit
		if err := Write(&out, before, problems); errors.As(err, &why) {
			return
		} else if err != nil {
			t.Fatal(err)
		}
		after, err := book.OpenBytes(out.Bytes())
		if err != nil {
			t.Fatalf("the copy is not read: %v", err)
		}
		for i := range before.Sheets {
			if diff := cmp.Diff(before.Sheets[i].Rows, after.Sheets[i].Rows, cmp.AllowUnexported(book.Cell{})); diff != "" {
				t.Errorf("%s (-before +after):\n%s", before.Sheets[i].Name, diff)
			}
		}
	})
}
