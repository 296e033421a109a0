// Package archive writes the parts of a workbook so that the same workbook is
// always the same bytes: parts by name, entries of the content types sorted,
// one fixed date.
package archive

import (
	"archive/zip"
	"bytes"
	"io"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"time"
)

// contentTypes is the part that a reader looks for first; it stands first.
const contentTypes = "[Content_Types].xml"

// firstDate is the earliest date a zip entry can hold.
var firstDate = time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)

// Writer collects the parts of a package and writes them all when it is
// closed. It is a zip writer as the spreadsheet library wants one.
type Writer struct {
	w     io.Writer
	parts map[string]*bytes.Buffer
}

// New makes a writer of a package to w.
func New(w io.Writer) *Writer {
	return &Writer{w: w, parts: map[string]*bytes.Buffer{}}
}

// Create begins a part; a part created again replaces the first.
func (a *Writer) Create(name string) (io.Writer, error) {
	part := &bytes.Buffer{}
	a.parts[name] = part
	return part, nil
}

// AddFS adds every file of a file system as a part.
func (a *Writer) AddFS(fsys fs.FS) error {
	return fs.WalkDir(fsys, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		content, err := fs.ReadFile(fsys, name)
		if err == nil {
			a.parts[name] = bytes.NewBuffer(content)
		}
		return err
	})
}

// Close writes the package.
func (a *Writer) Close() error {
	out := zip.NewWriter(a.w)
	for _, name := range a.names() {
		content := a.parts[name].Bytes()
		if name == contentTypes {
			content = sortTypes(content)
		}
		if err := write(out, name, content); err != nil {
			return err
		}
	}
	return out.Close()
}

func (a *Writer) names() []string {
	names := make([]string, 0, len(a.parts))
	for name := range a.parts {
		names = append(names, name)
	}
	slices.SortFunc(names, func(x, y string) int {
		switch {
		case x == contentTypes:
			return -1
		case y == contentTypes:
			return 1
		}
		return strings.Compare(x, y)
	})
	return names
}

func write(out *zip.Writer, name string, content []byte) error {
	part, err := out.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: firstDate})
	if err != nil {
		return err
	}
	_, err = part.Write(content)
	return err
}

var typeElement = regexp.MustCompile(`<(?:Default|Override)\b[^>]*>(?:</(?:Default|Override)>)?`)

// sortTypes puts the elements of the content types in order of their text:
// their order has no meaning (ECMA-376 part 2, 10.1.2.2).
func sortTypes(content []byte) []byte {
	elements := typeElement.FindAllString(string(content), -1)
	slices.Sort(elements)
	next := 0
	return typeElement.ReplaceAllFunc(content, func([]byte) []byte {
		next++
		return []byte(elements[next-1])
	})
}
