package book

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// token is what next found.
type token uint8

const (
	partEnd token = iota // the root element is closed and nothing follows
	opened               // an element begins: name and attrs are set
	closed               // an element ends: name is set
	chars                // text between tags, entities resolved
	failed               // err is set
)

// attr is one attribute; value is raw, entities not resolved.
type attr struct{ name, value []byte }

// xmlReader is a one-pass reader of the XML in a package: it streams, checks
// that every tag is closed by its own name, and knows no document type, so
// that there are no entities to expand but the five of XML and characters by
// number. Namespace prefixes are dropped: strict and transitional files use
// different namespaces for the same elements. Byte slices are valid until the
// next call.
type xmlReader struct {
	src      io.Reader
	buf      []byte
	pos, end int
	eof      bool
	utf16    bool // the part was converted from UTF-16

	name  []byte
	attrs []attr
	text  []byte
	err   error

	selfClosed bool
	names      []byte // full names of the open elements, joined
	depths     []int  // where each of them begins in names
	begun      bool   // the root element has been opened
	scratch    []byte
}

var errNeedMore = errors.New("tag is not complete in the buffer")

func newXMLReader(src io.Reader) *xmlReader {
	x := &xmlReader{src: src, buf: make([]byte, 64<<10)}
	for x.end < 3 && x.more() {
	}
	head := x.buf[:x.end]
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		x.pos = 3
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		raw := io.MultiReader(bytes.NewReader(bytes.Clone(head)), src)
		decoder := unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM).NewDecoder()
		x.src = transform.NewReader(raw, decoder)
		x.pos, x.end, x.eof, x.utf16 = 0, 0, false, true
	}
	return x
}

// depth is the number of open elements.
func (x *xmlReader) depth() int { return len(x.depths) }

// more reads on behind the bytes not yet used; false at the end or on error.
func (x *xmlReader) more() bool {
	if x.eof || x.err != nil {
		return false
	}
	if x.pos > 0 {
		copy(x.buf, x.buf[x.pos:x.end])
		x.end -= x.pos
		x.pos = 0
	}
	if x.end == len(x.buf) {
		if len(x.buf) >= maxToken {
			x.err = fmt.Errorf("one tag or text is longer than %d bytes", maxToken)
			return false
		}
		x.buf = append(x.buf, make([]byte, len(x.buf))...)
	}
	for range 100 {
		n, err := x.src.Read(x.buf[x.end:])
		x.end += n
		if err == io.EOF {
			x.eof = true
			return n > 0
		}
		if err != nil {
			x.err = err
			return false
		}
		if n > 0 {
			return true
		}
	}
	x.err = io.ErrNoProgress
	return false
}

// next finds the next token.
func (x *xmlReader) next() token {
	if x.selfClosed {
		x.selfClosed = false
		return x.pop()
	}
	for {
		if x.pos == x.end && !x.more() {
			return x.finish()
		}
		if x.buf[x.pos] != '<' {
			if t, ok := x.readText(); ok {
				return t
			}
			continue
		}
		for x.end-x.pos < 3 && x.more() {
		}
		if x.end-x.pos < 3 {
			return x.fail("the text breaks off inside a tag")
		}
		switch x.buf[x.pos+1] {
		case '/':
			return x.readClose()
		case '?':
			if !x.skipInstruction() {
				return failed
			}
		case '!':
			t, done := x.readMarked()
			if done {
				return t
			}
		default:
			return x.readOpen()
		}
	}
}

func (x *xmlReader) fail(format string, args ...any) token {
	if x.err == nil {
		x.err = fmt.Errorf(format, args...)
	}
	return failed
}

func (x *xmlReader) finish() token {
	switch {
	case x.err != nil:
		return failed
	case len(x.depths) > 0:
		return x.fail("the text breaks off: <%s> is not closed", x.names[x.depths[len(x.depths)-1]:])
	case !x.begun:
		return x.fail("there is nothing in it")
	}
	return partEnd
}

// readText takes a run of text up to the next tag; ok is false for white
// space outside the root element, which is no token.
func (x *xmlReader) readText() (t token, ok bool) {
	from := 0
	var n int
	for {
		i := bytes.IndexByte(x.buf[x.pos+from:x.end], '<')
		if i >= 0 {
			n = from + i
			break
		}
		from = x.end - x.pos
		if !x.more() {
			if x.err != nil {
				return failed, true
			}
			n = x.end - x.pos
			break
		}
	}
	raw := x.buf[x.pos : x.pos+n]
	x.pos += n
	if len(x.depths) == 0 {
		if len(bytes.TrimSpace(raw)) > 0 {
			return x.fail("text stands outside the root element"), true
		}
		return chars, false
	}
	text, err := x.resolve(raw)
	if err != nil {
		return x.fail("%w", err), true
	}
	x.text = text
	return chars, true
}

// skipInstruction passes over <?...?>, checking a declared encoding.
func (x *xmlReader) skipInstruction() bool {
	body, ok := x.upTo("?>")
	if !ok {
		return false
	}
	if !bytes.HasPrefix(body, []byte("<?xml ")) {
		return true
	}
	_, rest, found := bytes.Cut(body, []byte("encoding"))
	rest = bytes.TrimLeft(rest, " \t\r\n=")
	if !found || len(rest) < 2 {
		return true
	}
	name, _, _ := bytes.Cut(rest[1:], rest[:1])
	switch string(bytes.ToLower(name)) {
	case "utf-8", "utf8", "us-ascii", "ascii":
		return true
	case "utf-16", "utf-16le", "utf-16be":
		if x.utf16 {
			return true
		}
	}
	x.fail("its encoding is %q, where UTF-8 is expected", name)
	return false
}

// readMarked passes over comments, gives CDATA as text and refuses document
// types; done is false after a comment.
func (x *xmlReader) readMarked() (t token, done bool) {
	for x.end-x.pos < len("<![CDATA[") && x.more() {
	}
	head := x.buf[x.pos:x.end]
	switch {
	case bytes.HasPrefix(head, []byte("<!--")):
		_, ok := x.upTo("-->")
		return failed, !ok
	case bytes.HasPrefix(head, []byte("<![CDATA[")) && len(x.depths) > 0:
		body, ok := x.upTo("]]>")
		if !ok {
			return failed, true
		}
		x.text = body[len("<![CDATA[") : len(body)-len("]]>")]
		if !utf8.Valid(x.text) {
			return x.fail("text is not UTF-8"), true
		}
		return chars, true
	}
	return x.fail("it has a document type or other declaration, which is not accepted"), true
}

// upTo takes everything through the mark.
func (x *xmlReader) upTo(mark string) ([]byte, bool) {
	from := 0
	for {
		i := bytes.Index(x.buf[x.pos+from:x.end], []byte(mark))
		if i >= 0 {
			n := from + i + len(mark)
			body := x.buf[x.pos : x.pos+n]
			x.pos += n
			return body, true
		}
		from = max(0, x.end-x.pos-len(mark))
		if !x.more() {
			x.fail("the text breaks off inside a tag")
			return nil, false
		}
	}
}

func (x *xmlReader) readClose() token {
	from := 0
	for {
		i := bytes.IndexByte(x.buf[x.pos+from:x.end], '>')
		if i < 0 {
			from = x.end - x.pos
			if !x.more() {
				return x.fail("the text breaks off inside a tag")
			}
			continue
		}
		name := x.buf[x.pos+2 : x.pos+from+i]
		x.pos += from + i + 1
		for len(name) > 0 && isSpace(name[len(name)-1]) {
			name = name[:len(name)-1]
		}
		if len(x.depths) == 0 {
			return x.fail("</%s> closes nothing", name)
		}
		if want := x.names[x.depths[len(x.depths)-1]:]; !bytes.Equal(name, want) {
			return x.fail("<%s> is closed by </%s>", want, name)
		}
		return x.pop()
	}
}

func (x *xmlReader) pop() token {
	last := len(x.depths) - 1
	x.name = local(x.names[x.depths[last]:])
	x.names = x.names[:x.depths[last]]
	x.depths = x.depths[:last]
	return closed
}

func (x *xmlReader) readOpen() token {
	for {
		n, full, err := x.parseOpen(x.buf[x.pos:x.end])
		if err == errNeedMore {
			if x.more() {
				continue
			}
			return x.fail("the text breaks off inside a tag")
		}
		if err != nil {
			return x.fail("%w", err)
		}
		if len(x.depths) == 0 && x.begun {
			return x.fail("<%s> stands after the end of the root element", full)
		}
		if len(x.depths) >= maxDepth {
			return x.fail("elements are nested deeper than %d", maxDepth)
		}
		x.begun = true
		x.depths = append(x.depths, len(x.names))
		x.names = append(x.names, full...)
		x.name = local(full)
		x.pos += n
		return opened
	}
}

// parseOpen reads <name attr="value" ...> or .../> from the start of b and
// returns its length and the element's full name.
func (x *xmlReader) parseOpen(b []byte) (n int, full []byte, err error) {
	i := 1
	for i < len(b) && isNameByte(b[i]) {
		i++
	}
	if i == len(b) {
		return 0, nil, errNeedMore
	}
	if first := b[1]; i == 1 || first <= '9' {
		return 0, nil, fmt.Errorf("a stray < stands in the text")
	}
	full = b[1:i]
	x.attrs = x.attrs[:0]
	x.selfClosed = false
	for {
		spaced := false
		for i < len(b) && isSpace(b[i]) {
			spaced = true
			i++
		}
		if i >= len(b) {
			return 0, nil, errNeedMore
		}
		switch {
		case b[i] == '>':
			return i + 1, full, nil
		case b[i] == '/':
			if i+1 >= len(b) {
				return 0, nil, errNeedMore
			}
			if b[i+1] != '>' {
				return 0, nil, fmt.Errorf("<%s> has a stray /", full)
			}
			x.selfClosed = true
			return i + 2, full, nil
		case !spaced:
			return 0, nil, fmt.Errorf("<%s> is malformed", full)
		}
		if i, err = x.parseAttr(b, i, full); err != nil {
			return 0, nil, err
		}
	}
}

// parseAttr reads one attribute at b[i] and returns where it ends.
func (x *xmlReader) parseAttr(b []byte, i int, element []byte) (int, error) {
	start := i
	for i < len(b) && isNameByte(b[i]) {
		i++
	}
	name := b[start:i]
	for i < len(b) && isSpace(b[i]) {
		i++
	}
	if i >= len(b) {
		return 0, errNeedMore
	}
	if len(name) == 0 || b[i] != '=' {
		return 0, fmt.Errorf("<%s> is malformed", element)
	}
	i++
	for i < len(b) && isSpace(b[i]) {
		i++
	}
	if i >= len(b) {
		return 0, errNeedMore
	}
	quote := b[i]
	if quote != '"' && quote != '\'' {
		return 0, fmt.Errorf("<%s> has an attribute without quotes", element)
	}
	i++
	length := bytes.IndexByte(b[i:], quote)
	if length < 0 {
		return 0, errNeedMore
	}
	value := b[i : i+length]
	if bytes.IndexByte(value, '<') >= 0 {
		return 0, fmt.Errorf("<%s> has a stray < in an attribute", element)
	}
	for _, other := range x.attrs {
		if bytes.Equal(other.name, name) {
			return 0, fmt.Errorf("<%s> has the attribute %s twice", element, name)
		}
	}
	if len(x.attrs) >= 256 {
		return 0, fmt.Errorf("<%s> has too many attributes", element)
	}
	x.attrs = append(x.attrs, attr{name, value})
	return i + length + 1, nil
}

// raw is an attribute's value without its entities resolved; nil when the
// element has no such attribute. The name is without prefix.
func (x *xmlReader) raw(name string) []byte {
	for _, a := range x.attrs {
		if string(a.name) == name {
			return a.value
		}
	}
	return nil
}

// attr is an attribute's value; "" when the element has no such attribute.
func (x *xmlReader) attr(name string) string { return x.resolved(x.raw(name)) }

// prefixedAttr is the value of an attribute that has a namespace prefix, such
// as r:id.
func (x *xmlReader) prefixedAttr(name string) string {
	for _, a := range x.attrs {
		if string(local(a.name)) == name && len(a.name) > len(name) {
			return x.resolved(a.value)
		}
	}
	return ""
}

func (x *xmlReader) resolved(raw []byte) string {
	value, err := x.resolve(raw)
	if err != nil {
		x.fail("%w", err)
		return ""
	}
	return string(value)
}

// isTrue tells whether an attribute is set: xsd:boolean, or on.
func (x *xmlReader) isTrue(name string) bool {
	switch string(x.raw(name)) {
	case "1", "true", "on":
		return true
	}
	return false
}

// skip passes over the rest of the element that was just opened.
func (x *xmlReader) skip() bool {
	for depth := len(x.depths); ; {
		switch x.next() {
		case failed:
			return false
		case closed:
			if len(x.depths) < depth {
				return true
			}
		}
	}
}

// resolve replaces entities and line ends of XML text. The result is valid
// until the next call.
func (x *xmlReader) resolve(raw []byte) ([]byte, error) {
	if !utf8.Valid(raw) {
		return nil, errors.New("text is not UTF-8")
	}
	if bytes.IndexByte(raw, '&') < 0 && bytes.IndexByte(raw, '\r') < 0 {
		return raw, nil
	}
	out := x.scratch[:0]
	for i := 0; i < len(raw); {
		switch raw[i] {
		case '\r':
			out = append(out, '\n')
			i++
			if i < len(raw) && raw[i] == '\n' {
				i++
			}
		case '&':
			end := bytes.IndexByte(raw[i:min(len(raw), i+12)], ';')
			if end < 0 {
				return nil, errors.New("a stray & stands in the text")
			}
			r, ok := entity(raw[i+1 : i+end])
			if !ok {
				return nil, fmt.Errorf("the entity %s is not known", raw[i:i+end+1])
			}
			out = utf8.AppendRune(out, r)
			i += end + 1
		default:
			out = append(out, raw[i])
			i++
		}
	}
	x.scratch = out
	return out, nil
}

func entity(name []byte) (rune, bool) {
	switch string(name) {
	case "lt":
		return '<', true
	case "gt":
		return '>', true
	case "amp":
		return '&', true
	case "quot":
		return '"', true
	case "apos":
		return '\'', true
	}
	digits, isNumber := bytes.CutPrefix(name, []byte("#"))
	base := 10
	if hex, ok := bytes.CutPrefix(digits, []byte("x")); ok {
		digits, base = hex, 16
	}
	n, err := strconv.ParseUint(string(digits), base, 32)
	r := rune(n)
	ok := isNumber && err == nil && n <= utf8.MaxRune && utf8.ValidRune(r) &&
		(n >= 0x20 || n == '\t' || n == '\n' || n == '\r') && n != 0xFFFE && n != 0xFFFF
	return r, ok
}

func local(name []byte) []byte {
	if i := bytes.IndexByte(name, ':'); i >= 0 {
		return name[i+1:]
	}
	return name
}

func isSpace(b byte) bool { return b == ' ' || b == '\n' || b == '\t' || b == '\r' }

func isNameByte(b byte) bool {
	return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9' ||
		b == '_' || b == ':' || b == '-' || b == '.' || b >= 0x80
}
