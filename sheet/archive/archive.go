// Package archive writes the parts of a workbook so that the same workbook is
// always the same bytes: parts by name, entries of the content types sorted,
// one fixed date.
package archive

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"hash"
	"hash/crc32"
	"io"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"time"
)

// contentTypes is the part that a reader looks for first; it stands first. The
// spreadsheet library writes its entries in no fixed order.
const contentTypes = "[Content_Types].xml"

// firstDate is the earliest date a zip entry can hold.
var firstDate = time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)

// firstDay is that date as a zip entry holds it: month and day of year 0.
const firstDay = 1<<5 | 1

// Writer collects the parts of a package, compressed as they come, and writes
// them all when it is closed. It is a zip writer as the spreadsheet library
// wants one; a part ends where the next begins.
type Writer struct {
	w      io.Writer
	parts  []*part
	packer *flate.Writer // of the part that is being written
}

// New makes a writer of a package to w.
func New(w io.Writer) *Writer { return &Writer{w: w} }

// part is one part, compressed; the content types stay plain until the end.
type part struct {
	name   string
	data   bytes.Buffer
	packer *flate.Writer // nil when the part is not compressed or has ended
	sum    hash.Hash32
	size   uint64
}

// Create begins a part.
func (a *Writer) Create(name string) (io.Writer, error) {
	if err := a.endPart(); err != nil {
		return nil, err
	}
	p := &part{name: name, sum: crc32.NewIEEE()}
	if p.method() == zip.Deflate {
		if err := a.pack(p); err != nil {
			return nil, err
		}
	}
	a.parts = append(a.parts, p)
	return p, nil
}

// pack begins to compress a part; one packer serves all parts, one after another.
func (a *Writer) pack(p *part) error {
	if a.packer == nil {
		packer, err := flate.NewWriter(nil, flate.DefaultCompression)
		if err != nil {
			return err
		}
		a.packer = packer
	}
	a.packer.Reset(&p.data)
	p.packer = a.packer
	return nil
}

// method is how a part is kept: the content types until they are sorted and
// pictures, which are packed already, as they are.
func (p *part) method() uint16 {
	if p.name == contentTypes || path.Ext(p.name) == ".png" {
		return zip.Store
	}
	return zip.Deflate
}

// AddFS is part of what the library asks of a zip writer; it never calls it.
func (a *Writer) AddFS(fs.FS) error { return errors.ErrUnsupported }

// Write adds to the part.
func (p *part) Write(content []byte) (int, error) {
	p.size += uint64(len(content))
	p.sum.Write(content)
	if p.packer == nil {
		return p.data.Write(content)
	}
	return p.packer.Write(content)
}

// endPart ends the part that was begun last.
func (a *Writer) endPart() error {
	if len(a.parts) == 0 {
		return nil
	}
	last := a.parts[len(a.parts)-1]
	if last.packer == nil {
		return nil
	}
	err := last.packer.Close()
	last.packer = nil
	return err
}

// Close writes the package.
func (a *Writer) Close() error {
	if err := a.endPart(); err != nil {
		return err
	}
	slices.SortFunc(a.parts, func(x, y *part) int { return strings.Compare(x.place(), y.place()) })
	out := zip.NewWriter(a.w)
	for _, p := range a.parts {
		if err := p.writeTo(out); err != nil {
			return err
		}
	}
	return out.Close()
}

// place sorts the part among the others: the content types before all.
func (p *part) place() string {
	if p.name == contentTypes {
		return ""
	}
	return p.name
}

func (p *part) writeTo(out *zip.Writer) error {
	header := &zip.FileHeader{Name: p.name, Method: p.method(), Modified: firstDate}
	if p.name == contentTypes {
		header.Method = zip.Deflate
		entry, err := out.CreateHeader(header)
		if err == nil {
			_, err = entry.Write(sortTypes(p.data.Bytes()))
		}
		return err
	}
	header.ModifiedDate = firstDay //lint:ignore SA1019 a raw entry takes its date from here alone
	header.CRC32, header.CompressedSize64, header.UncompressedSize64 = p.sum.Sum32(), uint64(p.data.Len()), p.size
	entry, err := out.CreateRaw(header)
	if err == nil {
		_, err = p.data.WriteTo(entry)
	}
	return err
}

// typeElement is one entry of the content types, closed in either way. None
// holds another.
var typeElement = regexp.MustCompile(`<(?:Default|Override)\b[^>]*>(?:</(?:Default|Override)>)?`)

// sortTypes puts the elements of the content types in order of their text:
// their order has no meaning (ECMA-376 part 2, 10.1.2.2).
func sortTypes(content []byte) []byte {
	elements := typeElement.FindAll(content, -1)
	sorted := slices.Clone(elements)
	slices.SortFunc(sorted, bytes.Compare)
	next := 0
	return typeElement.ReplaceAllFunc(content, func([]byte) []byte {
		next++
		return sorted[next-1]
	})
}
