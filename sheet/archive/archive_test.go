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
