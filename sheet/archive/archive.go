// Package archive writes the parts of a workbook so that the same workbook is
// always the same bytes: parts by name, entries of the content types sorted,
// one fixed date.
package archive

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"hash"
	"hash/crc32"
	"io"
	"io/fs"
	"path"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"time"

	"github.com/klauspost/compress/flate"
)

// contentTypes is the part that a reader looks for first; it stands first. The
// spreadsheet library writes its entries in no fixed order.
const contentTypes = "[Content_Types].xml"

// firstDate is the earliest date a zip entry can hold.
var firstDate = time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)

// firstDay is that date as a zip entry holds it: month and day of year 0.
const firstDay = 1<<5 | 1

// Writer collects the parts of a package and writes them all when it is closed.
// It is a zip writer as the spreadsheet library wants one; a part ends where the
// next begins. Parts are compressed side by side while the library goes on, with
// so much of them waiting at most.
type Writer struct {
	w       io.Writer
	rows    map[string][][]byte
	parts   []*part
	blocks  chan []byte        // free ones
	packers chan *flate.Writer // free ones
}

// What may wait to be compressed: blocks in all.
const (
	blockSize  = 1 << 16
	mostBlocks = 128
)

// New makes a writer of a package to w.
func New(w io.Writer) *Writer {
	side := runtime.GOMAXPROCS(0)
	a := &Writer{w: w, rows: map[string][][]byte{}, blocks: make(chan []byte, mostBlocks), packers: make(chan *flate.Writer, side)}
	for range mostBlocks {
		a.blocks <- nil
	}
	for range side {
		a.packers <- nil
	}
	return a
}

// Rows gives the rows of a sheet's part: they take the place of those that the
// library writes. It comes before the part.
func (a *Writer) Rows(part string, rows [][]byte) { a.rows[part] = rows }

// part is one part, compressed; the content types stay plain until the end, and
// pictures, which are packed already, as they are.
type part struct {
	archive *Writer
	name    string
	data    bytes.Buffer
	sum     hash.Hash32
	size    uint64
	block   []byte      // filling
	rows    [][]byte    // of a sheet that brings its own
	frame   []byte      // what the library writes of such a sheet
	full    chan []byte // to be compressed; nil when the part is kept as it is
	packed  chan error
}

// Create begins a part.
func (a *Writer) Create(name string) (io.Writer, error) {
	if err := a.endPart(); err != nil {
		return nil, err
	}
	p := &part{archive: a, name: name, sum: crc32.NewIEEE(), rows: a.rows[name]}
	a.parts = append(a.parts, p)
	if p.method() == zip.Deflate {
		p.full, p.packed = make(chan []byte, mostBlocks), make(chan error, 1)
		packer := <-a.packers
		go func() { p.packed <- p.pack(packer) }()
	}
	return p, nil
}

// pack compresses the part's blocks and sets them and the packer free.
func (p *part) pack(packer *flate.Writer) (err error) {
	if packer == nil {
		if packer, err = flate.NewWriter(nil, flate.DefaultCompression); err != nil {
			return err
		}
	}
	packer.Reset(&p.data)
	for block := range p.full {
		p.sum.Write(block)
		_, failed := packer.Write(block)
		err = errors.Join(err, failed)
		p.archive.blocks <- block[:0]
	}
	err = errors.Join(err, packer.Close())
	p.archive.packers <- packer
	return err
}

// method is how a part is kept until the end.
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
	switch {
	case p.rows != nil:
		p.frame = append(p.frame, content...)
	case p.full == nil:
		p.size += uint64(len(content))
		p.sum.Write(content)
		return p.data.Write(content)
	default:
		p.add(content)
	}
	return len(content), nil
}

// add hands content over to be compressed.
func (p *part) add(content []byte) {
	p.size += uint64(len(content))
	for rest := content; len(rest) > 0; {
		if p.block == nil {
			if p.block = <-p.archive.blocks; p.block == nil {
				p.block = make([]byte, 0, blockSize)
			}
		}
		n := min(len(rest), blockSize-len(p.block))
		p.block, rest = append(p.block, rest[:n]...), rest[n:]
		if len(p.block) == blockSize {
			p.full <- p.block
			p.block = nil
		}
	}
}

// sheet writes a sheet that brings its own rows (ECMA-376 part 1, 18.3.1.80
// sheetData).
func (p *part) sheet() error {
	const begin, end = "<sheetData>", "</sheetData>"
	before, after := bytes.Index(p.frame, []byte(begin)), bytes.LastIndex(p.frame, []byte(end))
	if before < 0 || after < before {
		return fmt.Errorf("%s has no place for rows", p.name)
	}
	p.add(p.frame[:before+len(begin)])
	for i, rows := range p.rows {
		p.add(rows)
		p.rows[i] = nil // gives the memory back while the others wait
	}
	p.add(p.frame[after:])
	return nil
}

// endPart ends the part that was begun last.
func (a *Writer) endPart() error {
	if len(a.parts) == 0 {
		return nil
	}
	last := a.parts[len(a.parts)-1]
	if last.full == nil {
		return nil
	}
	defer close(last.full)
	if last.rows != nil {
		if err := last.sheet(); err != nil {
			return err
		}
	}
	if last.block != nil {
		last.full <- last.block
		last.block = nil
	}
	return nil
}

// Close writes the package.
func (a *Writer) Close() error {
	if err := a.endPart(); err != nil {
		return err
	}
	for _, p := range a.parts {
		if p.packed == nil {
			continue
		}
		if err := <-p.packed; err != nil {
			return err
		}
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
