package book

import (
	"archive/zip"
	"compress/flate"
	"errors"
	"io"
	"path"
	"strings"
)

// parcel is the zip package of a workbook. Part names are compared without
// capitals, as the package standard asks (ECMA-376 part 2, 6.2.2.3).
type parcel struct {
	parts map[string]*zip.File
	read  uint64 // bytes of the parts read so far, inflated
}

// openParcel reads the package's directory and checks it against the limits.
func openParcel(r io.ReaderAt, size int64) (*parcel, error) {
	budget := &budgetReader{r: r, left: maxDirectory}
	archive, err := zip.NewReader(budget, size)
	if budget.left < 0 {
		return nil, tooLarge("", "its directory of parts is longer than %d MB", maxDirectory>>20)
	}
	if err != nil {
		return nil, &Refusal{Reason: IsDamaged, Detail: "its directory of parts cannot be read; the file may be cut short", Err: err}
	}
	budget.open = true
	if len(archive.File) > maxEntries {
		return nil, tooLarge("", "it has %d parts, more than %d", len(archive.File), maxEntries)
	}
	p := &parcel{parts: make(map[string]*zip.File, len(archive.File))}
	for _, f := range archive.File {
		name := partName(f.Name)
		if strings.HasSuffix(name, "/") {
			continue
		}
		if p.parts[name] != nil {
			return nil, damaged(f.Name, "the part is in the package twice")
		}
		p.parts[name] = f
	}
	return p, nil
}

func partName(name string) string {
	name = strings.ReplaceAll(name, `\`, "/")
	return strings.ToLower(strings.TrimPrefix(name, "/"))
}

// has tells whether a part is in the package.
func (p *parcel) has(name string) bool { return p.parts[partName(name)] != nil }

// open begins to read a part, within the limits.
func (p *parcel) open(name string) (io.ReadCloser, error) {
	f := p.parts[partName(name)]
	if f == nil {
		return nil, damaged(name, "the part is missing")
	}
	size := f.UncompressedSize64
	switch {
	case f.Flags&1 != 0:
		return nil, &Refusal{Reason: IsEncrypted, Sheet: name}
	case size > maxPart:
		return nil, tooLarge(name, "it would be %d MB unpacked, more than %d MB", size>>20, maxPart>>20)
	case size > ratioFrom && size/maxRatio > f.CompressedSize64:
		return nil, tooLarge(name, "it is packed more than %d times, as no real workbook is", maxRatio)
	}
	if p.read += size; p.read > maxTotal {
		return nil, tooLarge(name, "the workbook would be more than %d MB unpacked", maxTotal>>20)
	}
	body, err := f.Open()
	if err != nil {
		return nil, partError(name, err)
	}
	return body, nil
}

// each opens a part as XML and hands it to walk; every fault of the package
// or the XML becomes a Refusal that names the part.
func (p *parcel) each(name string, walk func(*xmlReader) error) error {
	body, err := p.open(name)
	if err != nil {
		return err
	}
	defer body.Close()
	x := newXMLReader(body)
	err = walk(x)
	var refusal *Refusal
	switch {
	case errors.As(err, &refusal):
		return refusal
	case x.err != nil:
		return partError(name, x.err)
	case err != nil:
		return partError(name, err)
	}
	return nil
}

func partError(name string, err error) *Refusal {
	var refusal *Refusal
	if errors.As(err, &refusal) {
		return refusal
	}
	var corrupt flate.CorruptInputError
	detail := err.Error()
	switch {
	case errors.Is(err, zip.ErrChecksum):
		detail = "its checksum is wrong: bytes of it were changed"
	case errors.Is(err, zip.ErrAlgorithm):
		detail = "it is packed in an unknown way"
	case errors.As(err, &corrupt), errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, zip.ErrFormat):
		detail = "its packed bytes are damaged or cut short"
	}
	return &Refusal{Reason: IsDamaged, Sheet: name, Detail: detail, Err: err}
}

// target resolves a relationship's target against the part that holds it.
func target(from, to string) string {
	to = strings.ReplaceAll(to, `\`, "/")
	if strings.HasPrefix(to, "/") {
		return path.Clean(to[1:])
	}
	return path.Clean(path.Join(path.Dir(from), to))
}

// budgetReader bounds how much of the file is read before it is opened up.
type budgetReader struct {
	r    io.ReaderAt
	left int64
	open bool
}

func (b *budgetReader) ReadAt(p []byte, off int64) (int, error) {
	if !b.open {
		if b.left -= int64(len(p)); b.left < 0 {
			return 0, errors.New("the directory is too long")
		}
	}
	return b.r.ReadAt(p, off)
}
