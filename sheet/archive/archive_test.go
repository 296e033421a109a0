package archive

import (
	"archive/zip"
	"bytes"
	"io"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestOneOrderWhateverTheOrderOfWriting(t *testing.T) {
	parts := map[string]string{
		"xl/workbook.xml":     "<workbook/>",
		"[Content_Types].xml": `<Types><Override PartName="/b"></Override><Default Extension="xml"/><Override PartName="/a"></Override></Types>`,
		"_rels/.rels":         "<Relationships/>",
	}
	first := packed(t, parts, "xl/workbook.xml", "[Content_Types].xml", "_rels/.rels")
	second := packed(t, parts, "_rels/.rels", "xl/workbook.xml", "[Content_Types].xml")
	if !bytes.Equal(first, second) {
		t.Error("the order of writing changes the bytes")
	}

	read, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, part := range read.File {
		names = append(names, part.Name)
		if got := part.Modified.UTC(); !got.Equal(firstDate) {
			t.Errorf("%s is dated %s, want %s", part.Name, got, firstDate)
		}
	}
	if diff := cmp.Diff([]string{"[Content_Types].xml", "_rels/.rels", "xl/workbook.xml"}, names); diff != "" {
		t.Error(diff)
	}
	types, err := read.File[0].Open()
	if err != nil {
		t.Fatal(err)
	}
	got, err := io.ReadAll(types)
	if err != nil {
		t.Fatal(err)
	}
	want := `<Types><Default Extension="xml"/><Override PartName="/a"></Override><Override PartName="/b"></Override></Types>`
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Error(diff)
	}
}

func packed(t *testing.T, parts map[string]string, order ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := New(&out)
	for _, name := range order {
		part, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(part, parts[name]); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// A sheet gets the rows that are given for it, and nothing else of it changes.
func TestRows(t *testing.T) {
	var out bytes.Buffer
	w := New(&out)
	w.Rows("sheet1.xml", [][]byte{[]byte(`<row r="1"/>`), []byte(`<row r="2"/>`)})
	for _, name := range []string{"sheet1.xml", "sheet2.xml"} {
		part, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, piece := range []string{"<a/><sheet", `Data><row r="9"/></sheetData><b/>`} {
			if _, err := io.WriteString(part, piece); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	read, err := zip.NewReader(bytes.NewReader(out.Bytes()), int64(out.Len()))
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"sheet1.xml": `<a/><sheetData><row r="1"/><row r="2"/></sheetData><b/>`,
		"sheet2.xml": `<a/><sheetData><row r="9"/></sheetData><b/>`,
	} {
		part, err := read.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(part) // which checks size and checksum
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, string(got)); diff != "" {
			t.Error(name, diff)
		}
	}
}

func TestNoPlaceForRows(t *testing.T) {
	w := New(io.Discard)
	w.Rows("sheet1.xml", [][]byte{nil})
	part, err := w.Create("sheet1.xml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.WriteString(part, "<sheetData/>"); err != nil {
		t.Fatal(err)
	}
	if w.Close() == nil {
		t.Error("a sheet without a place for its rows is written")
	}
}
