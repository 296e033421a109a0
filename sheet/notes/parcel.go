package notes

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"
)

// mostBytes is how large a part that takes marks may be, unpacked.
const mostBytes = 512 << 20

// parcel is the package of a workbook with the parts that were changed or
// added.
type parcel struct {
	archive *zip.Reader
	names   map[string]*zip.File             // by the name as parts are compared
	changed map[string][]byte                // by the same name
	added   []string                         // names of new parts, as written, in the order they came
	writers map[string]func(io.Writer) error // of new parts that are written as they come
}

func openParcel(r io.ReaderAt, size int64) (*parcel, error) {
	archive, err := zip.NewReader(r, size)
	if err != nil {
		return nil, unfit("its directory of parts cannot be read")
	}
	p := &parcel{archive: archive, names: map[string]*zip.File{}, changed: map[string][]byte{}, writers: map[string]func(io.Writer) error{}}
	for _, f := range archive.File {
		name := folded(f.Name)
		if strings.HasPrefix(name, "_xmlsignatures/") {
			return nil, unfit("it is signed, and a copy with notes would break the signature; save it without one first")
		}
		p.names[name] = f
	}
	return p, nil
}

// folded is a part's name as names are compared: without capitals, with plain
// slashes (ECMA-376 part 2, 6.2.2.3).
func folded(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

func (p *parcel) has(name string) bool {
	_, changed := p.changed[folded(name)]
	return changed || p.names[folded(name)] != nil
}

// read is the bytes of a part, as changed so far.
func (p *parcel) read(name string) ([]byte, error) {
	if data, changed := p.changed[folded(name)]; changed {
		return data, nil
	}
	f := p.names[folded(name)]
	if f == nil {
		return nil, unfit("its part %s is missing", name)
	}
	body, err := f.Open()
	if err != nil {
		return nil, unfit("its part %s cannot be read: %v", name, err)
	}
	defer func() { _ = body.Close() }()
	data, err := io.ReadAll(io.LimitReader(body, mostBytes+1))
	switch {
	case err != nil:
		return nil, unfit("its part %s cannot be read: %v", name, err)
	case len(data) > mostBytes:
		return nil, unfit("its part %s is too large", name)
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		return nil, unfit("its part %s is in UTF-16; open it and save it again", name)
	}
	return data, nil
}

// put changes a part, or adds one.
func (p *parcel) put(name string, data []byte) {
	key := folded(name)
	if !p.has(name) {
		p.added = append(p.added, name)
	}
	p.changed[key] = data
}

// free is the first name of a numbered kind that no part has; the pattern has
// %d for the number.
func (p *parcel) free(pattern string) string {
	for n := 1; ; n++ {
		if name := fmt.Sprintf(pattern, n); !p.has(name) {
			return name
		}
	}
}

// writeTo writes the package: its parts in their order, those that did not
// change as they are packed, then the new ones.
func (p *parcel) writeTo(w io.Writer) error {
	out := zip.NewWriter(w)
	if err := out.SetComment(p.archive.Comment); err != nil {
		return err
	}
	for _, f := range p.archive.File {
		if err := p.writePart(out, f); err != nil {
			return err
		}
	}
	for _, name := range p.added {
		if err := p.writeNew(out, name); err != nil {
			return err
		}
	}
	return out.Close()
}

func (p *parcel) writePart(out *zip.Writer, f *zip.File) error {
	data, changed := p.changed[folded(f.Name)]
	if !changed {
		return out.Copy(f)
	}
	return pack(out, &zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: f.Modified, ExternalAttrs: f.ExternalAttrs}, data)
}

func (p *parcel) writeNew(out *zip.Writer, name string) error {
	header := &zip.FileHeader{Name: name, Method: zip.Deflate}
	write := p.writers[folded(name)]
	if write == nil {
		return pack(out, header, p.changed[folded(name)])
	}
	entry, err := out.CreateHeader(header)
	if err != nil {
		return err
	}
	return write(entry)
}

func pack(out *zip.Writer, header *zip.FileHeader, data []byte) error {
	entry, err := out.CreateHeader(header)
	if err == nil {
		_, err = entry.Write(data)
	}
	return err
}

// linksName is the part that holds the relationships of a part; of the package
// for "".
func linksName(part string) string {
	if part == "" {
		return "_rels/.rels"
	}
	return path.Join(path.Dir(part), "_rels", path.Base(part)+".rels")
}
