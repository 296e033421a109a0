package notes

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/sheet/book"
)

// Whatever stands behind the cells of a sheet: a workbook that reads can be
// marked, or is refused with a reason; the copy reads, and holds the same cells.
func FuzzCopy(f *testing.F) {
	f.Add("", "")
	f.Add("x:", "<x:pageMargins/>")
	f.Add("", `<mergeCells><mergeCell ref="A1:B2"/></mergeCells><conditionalFormatting sqref="A1"><cfRule type="expression" priority="1"><formula>TRUE</formula></cfRule></conditionalFormatting>`)
	f.Add("", `<!-- </sheetData> --><legacyDrawing xmlns:r="r" r:id="rId1"/><tableParts/>`)
	f.Add("y:", `<extLst><ext><![CDATA[</worksheet>]]></ext></extLst>`)
	f.Fuzz(func(t *testing.T, prefix, tail string) {
		if prefix != "" && prefix != "x:" {
			return
		}
		names, sound := parts(t, bare(t, prefix, cellsOf, relationOf))
		sound["xl/rooms.xml"] = strings.Replace(sound["xl/rooms.xml"], "</"+prefix+"worksheet>", tail+"</"+prefix+"worksheet>", 1)
		var files [][2]string
		for _, name := range names {
			files = append(files, [2]string{name, sound[name]})
		}
		before, err := book.OpenBytes(packed(t, files))
		if err != nil {
			return
		}
		var out bytes.Buffer
		var why *Unfit
		if err := Write(&out, before, faults()); errors.As(err, &why) {
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
