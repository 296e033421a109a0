package notes

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
)

// element is an element of a part by where its bytes lie. Marks are put
// between bytes, so that everything else stays as it was.
type element struct {
	name       xml.Name // Space is the prefix
	attrs      []xml.Attr
	start      int // of its start tag
	inner      int // behind its start tag
	innerEnd   int // at its end tag
	end        int // behind it
	selfClosed bool
}

// attr is an attribute by its name without prefix; a prefixed one when
// prefixed is asked for.
func (e element) attr(name string, prefixed bool) string {
	for _, a := range e.attrs {
		if a.Name.Local == name && (a.Name.Space != "") == prefixed {
			return a.Value
		}
	}
	return ""
}

// children are the elements from a place on up to the end tag that closes what
// is open there, and where that end tag begins.
func children(data []byte, from int) (found []element, end int, err error) {
	decoder := xml.NewDecoder(bytes.NewReader(data[from:]))
	depth := 0
	for {
		at := from + int(decoder.InputOffset())
		token, err := decoder.RawToken()
		if errors.Is(err, io.EOF) && depth == 0 {
			return found, len(data), nil
		}
		if err != nil {
			return nil, 0, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			if depth == 0 {
				inner := from + int(decoder.InputOffset())
				t = t.Copy()
				found = append(found, element{name: t.Name, attrs: t.Attr, start: at, inner: inner, selfClosed: bytes.HasSuffix(data[at:inner], []byte("/>"))})
			}
			depth++
		case xml.EndElement:
			if depth--; depth < 0 {
				return found, at, nil
			}
			if depth == 0 {
				last := &found[len(found)-1]
				last.innerEnd, last.end = at, from+int(decoder.InputOffset())
			}
		}
	}
}

// document is a part of XML that is being marked.
type document struct {
	name   string
	data   []byte
	root   element
	edits  []edit
	strict bool // of the strict kind, which has namespaces of its own
}

// edit puts a text in the place of the bytes from at to end.
type edit struct {
	at, end int
	text    string
}

// open reads a part's root.
func (p *parcel) open(name string) (*document, error) {
	data, err := p.read(name)
	if err != nil {
		return nil, err
	}
	roots, _, err := children(data, 0)
	if err != nil || len(roots) != 1 {
		return nil, unfit("its part %s is not one element of XML (%v)", name, err)
	}
	return newDocument(name, data, roots[0]), nil
}

func newDocument(name string, data []byte, root element) *document {
	d := &document{name: name, data: data, root: root}
	for _, a := range root.attrs {
		d.strict = d.strict || strings.HasPrefix(a.Value, strictSpaces)
	}
	return d
}

// children are the elements under the root.
func (d *document) children() ([]element, error) {
	return d.under(d.root)
}

func (d *document) under(e element) ([]element, error) {
	if e.selfClosed {
		return nil, nil
	}
	found, _, err := children(d.data[:e.innerEnd], e.inner)
	if err != nil {
		return nil, unfit("its part %s: %v", d.name, err)
	}
	return found, nil
}

// tag is an element's name with the prefix of the part's root.
func (d *document) tag(name string) string {
	if d.root.name.Space == "" {
		return name
	}
	return d.root.name.Space + ":" + name
}

// startOrEndTag finds where the names of unprefixed elements begin.
var startOrEndTag = regexp.MustCompile(`<(/?)(\w)`)

// prefixed gives the elements of a text the prefix of the part's root.
func (d *document) prefixed(text string) string {
	if d.root.name.Space == "" {
		return text
	}
	return startOrEndTag.ReplaceAllString(text, "<${1}"+d.root.name.Space+":$2")
}

// insert puts a text at a place. Texts at one place stand in the order they
// come.
func (d *document) insert(at int, text string) { d.replace(at, at, text) }

func (d *document) replace(at, end int, text string) { d.edits = append(d.edits, edit{at, end, text}) }

// add puts a text at the end of what stands under an element.
func (d *document) add(e element, text string) {
	if !e.selfClosed {
		d.insert(e.innerEnd, text)
		return
	}
	full := e.name.Local
	if e.name.Space != "" {
		full = e.name.Space + ":" + full
	}
	d.replace(e.inner-len("/>"), e.inner, ">"+text+"</"+full+">")
}

// bytes is the part with the texts in place.
func (d *document) bytes() []byte {
	slices.SortStableFunc(d.edits, func(a, b edit) int { return a.at - b.at })
	var out bytes.Buffer
	from := 0
	for _, e := range d.edits {
		out.Write(d.data[from:e.at])
		out.WriteString(e.text)
		from = e.end
	}
	out.Write(d.data[from:])
	return out.Bytes()
}

// before inserts a text ahead of the first of the elements that the standard
// puts behind it; at the end when there is none.
func (d *document) before(all []element, later []string, text string) {
	for _, e := range all {
		if slices.Contains(later, e.name.Local) {
			d.insert(e.start, text)
			return
		}
	}
	d.add(d.root, text)
}

func named(all []element, name string) (element, bool) {
	i := slices.IndexFunc(all, func(e element) bool { return e.name.Local == name })
	if i < 0 {
		return element{}, false
	}
	return all[i], true
}

// countMark finds an element's count, which programs check against its
// children.
var countMark = regexp.MustCompile(`\bcount\s*=\s*["'](\d+)["']`)

// addCounted adds n elements to a list that says how many it holds, and
// returns the place of the first of the new ones in it.
func (d *document) addCounted(list element, n int, texts string) (first int, err error) {
	held, err := d.under(list)
	if err != nil {
		return 0, err
	}
	d.add(list, texts)
	startTag := d.data[list.start:list.inner]
	if at := countMark.FindSubmatchIndex(startTag); at != nil {
		d.replace(list.start+at[2], list.start+at[3], fmt.Sprint(len(held)+n))
	}
	return len(held), nil
}

// escape is a text as it stands in an element or attribute. The spreadsheet's
// own escape, _x0041_, is kept from acting.
func escape(text string) string {
	var out strings.Builder
	_ = xml.EscapeText(&out, []byte(ownEscape.ReplaceAllString(text, "_x005F$0")))
	return out.String()
}

// ownEscape is how workbooks write characters that XML cannot hold (ECMA-376
// part 1, 22.9.2.19 ST_Xstring).
var ownEscape = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)
