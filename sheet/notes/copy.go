package notes

import (
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// The namespaces of a workbook's parts: those of files as most programs write
// them, and those of the strict kind (ECMA-376 parts 4 and 1).
const (
	strictSpaces = "http://purl.oclc.org/ooxml/"
	relationOf   = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	strictOf     = "http://purl.oclc.org/ooxml/officeDocument/relationships"
	cellsOf      = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	strictCells  = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	packageOf    = "http://schemas.openxmlformats.org/package/2006/relationships"

	workbookType  = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
	worksheetType = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
	stylesType    = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"
	commentsType  = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
	drawingType   = "application/vnd.openxmlformats-officedocument.vmlDrawing"
)

const xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// bookCopy is the copy on its way.
type bookCopy struct {
	parcel *parcel
	main   string // the workbook's own part
	strict bool
}

// relation is one relationship of a part: what kind of part, by the last word
// of its type, stands where.
type relation struct{ id, kind, part string }

// relations are the relationships of a part; none when it has no part of them.
func (p *parcel) relations(of string) ([]relation, error) {
	if !p.has(linksName(of)) {
		return nil, nil
	}
	d, err := p.open(linksName(of))
	if err != nil {
		return nil, err
	}
	all, err := d.children()
	if err != nil {
		return nil, err
	}
	var found []relation
	for _, e := range all {
		to := strings.ReplaceAll(e.attr("Target", false), `\`, "/")
		if !strings.HasPrefix(to, "/") {
			to = path.Join(path.Dir(of), to)
		}
		found = append(found, relation{e.attr("Id", false), path.Base(e.attr("Type", false)), strings.TrimPrefix(path.Clean(to), "/")})
	}
	return found, nil
}

func ofKind(all []relation, kind string) string {
	for _, r := range all {
		if strings.EqualFold(r.kind, kind) {
			return r.part
		}
	}
	return ""
}

func openCopy(p *parcel) (*bookCopy, error) {
	roots, err := p.relations("")
	if err != nil {
		return nil, err
	}
	c := &bookCopy{parcel: p, main: ofKind(roots, "officeDocument")}
	workbook, err := p.open(c.main)
	if err != nil {
		return nil, err
	}
	c.strict = workbook.strict
	return c, c.isPlain()
}

// isPlain makes sure that the copy may end in .xlsx: the spreadsheet program
// opens no workbook whose name says other than what it holds.
func (c *bookCopy) isPlain() error {
	types, err := c.parcel.open("[Content_Types].xml")
	if err != nil {
		return err
	}
	all, err := types.children()
	if err != nil {
		return err
	}
	for _, e := range all {
		if folded(e.attr("PartName", false)) == folded(c.main) && e.attr("ContentType", false) != workbookType {
			return unfit("it holds macros or is a template; save it as a plain workbook (.xlsx) first")
		}
	}
	return nil
}

// newPart is a part to add, with what is said of it where parts are listed.
type newPart struct {
	name, contentType string
	kind              string // of its relationship
	data              []byte
	write             func(io.Writer) error // in place of data, for a part that may be large
}

// attach adds parts and relates another part to them. The ids of the new
// relationships are returned in their order.
func (c *bookCopy) attach(to string, parts ...newPart) ([]string, error) {
	known, err := c.parcel.relations(to)
	if err != nil {
		return nil, err
	}
	taken := map[string]bool{}
	for _, r := range known {
		taken[strings.ToLower(r.id)] = true
	}
	var ids []string
	var entries strings.Builder
	for n := 1; len(ids) < len(parts); n++ {
		id := "rId" + strconv.Itoa(n)
		if taken[strings.ToLower(id)] {
			continue
		}
		part := parts[len(ids)]
		ids = append(ids, id)
		fmt.Fprintf(&entries, `<Relationship Id="%s" Type="%s/%s" Target="/%s"/>`, id, c.relationSpace(), part.kind, part.name)
		c.parcel.put(part.name, part.data)
		c.parcel.writers[folded(part.name)] = part.write
	}
	if err := c.declare(parts); err != nil {
		return nil, err
	}
	return ids, c.relate(to, entries.String())
}

func (c *bookCopy) relate(to, entries string) error {
	name := linksName(to)
	if !c.parcel.has(name) {
		c.parcel.put(name, []byte(xmlHead+`<Relationships xmlns="`+packageOf+`">`+entries+`</Relationships>`))
		return nil
	}
	links, err := c.parcel.open(name)
	if err != nil {
		return err
	}
	links.add(links.root, links.prefixed(entries))
	c.parcel.put(name, links.bytes())
	return nil
}

// declare says in the package's list of types what the new parts are.
// Drawings of notes are known by the end of their name.
func (c *bookCopy) declare(parts []newPart) error {
	types, err := c.parcel.open("[Content_Types].xml")
	if err != nil {
		return err
	}
	all, err := types.children()
	if err != nil {
		return err
	}
	knowsDrawings := false
	for _, e := range all {
		knowsDrawings = knowsDrawings || strings.EqualFold(e.attr("Extension", false), "vml")
	}
	var entries strings.Builder
	for _, part := range parts {
		switch {
		case part.contentType != drawingType:
			fmt.Fprintf(&entries, `<Override PartName="/%s" ContentType="%s"/>`, part.name, part.contentType)
		case !knowsDrawings:
			fmt.Fprintf(&entries, `<Default Extension="vml" ContentType="%s"/>`, drawingType)
			knowsDrawings = true
		}
	}
	if entries.Len() > 0 {
		types.add(types.root, types.prefixed(entries.String()))
	}
	c.parcel.put("[Content_Types].xml", types.bytes())
	return nil
}

// look is the styles that the marks use, by their number in the workbook.
type look struct {
	tint                int // conditional format of a bad cell
	heading, text, link int // cells of the list
}

// Styles of the marks. The tint is a light ground with slanting lines and a
// frame, so that it shows on a black and white print as well.
const (
	fontsAdded  = `<font><b/><sz val="11"/><name val="Calibri"/><family val="2"/></font><font><u/><sz val="11"/><name val="Calibri"/><family val="2"/></font>`
	fillsAdded  = `<fill><patternFill patternType="solid"><fgColor rgb="FFE7E6E6"/><bgColor indexed="64"/></patternFill></fill>`
	borderAdded = `<border><left/><right/><top/><bottom style="medium"><color rgb="FF000000"/></bottom><diagonal/></border>`
	tintAdded   = `<dxf><fill><patternFill patternType="lightUp"><fgColor rgb="FF7F7F7F"/><bgColor rgb="FFFFF2CC"/></patternFill></fill>` +
		`<border><left style="thin"><color rgb="FF000000"/></left><right style="thin"><color rgb="FF000000"/></right><top style="thin"><color rgb="FF000000"/></top><bottom style="thin"><color rgb="FF000000"/></bottom></border></dxf>`
	cellAdded = `<xf numFmtId="0" fontId="%d" fillId="%d" borderId="%d" xfId="0" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1"><alignment vertical="top" wrapText="1"/></xf>`

	plainStyles = xmlHead + `<styleSheet xmlns="%s"><fonts count="1"><font><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
		`<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs></styleSheet>`
)

// addStyles adds the styles of the marks behind those of the workbook, whose
// numbers stay.
func (c *bookCopy) addStyles() (look, error) {
	links, err := c.parcel.relations(c.main)
	if err != nil {
		return look{}, err
	}
	name := ofKind(links, "styles")
	if name == "" {
		name = c.parcel.free(path.Join(path.Dir(c.main), "styles%d.xml"))
		if _, err := c.attach(c.main, newPart{name: name, contentType: stylesType, kind: "styles", data: fmt.Appendf(nil, plainStyles, c.cellSpace())}); err != nil {
			return look{}, err
		}
	}
	d, err := c.parcel.open(name)
	if err != nil {
		return look{}, err
	}
	s := &styleSheet{document: d}
	if s.all, err = d.children(); err != nil {
		return look{}, err
	}
	font := s.add("fonts", 2, fontsAdded)
	fill := s.add("fills", 1, fillsAdded)
	border := s.add("borders", 1, borderAdded)
	xf := s.add("cellXfs", 3, fmt.Sprintf(cellAdded, font, fill, border)+fmt.Sprintf(cellAdded, 0, 0, 0)+fmt.Sprintf(cellAdded, font+1, 0, 0))
	tint := s.add("dxfs", 1, tintAdded)
	c.parcel.put(name, d.bytes())
	return look{tint: tint, heading: xf, text: xf + 1, link: xf + 2}, s.err
}

func (c *bookCopy) relationSpace() string {
	if c.strict {
		return strictOf
	}
	return relationOf
}

func (c *bookCopy) cellSpace() string {
	if c.strict {
		return strictCells
	}
	return cellsOf
}

// behindFormats is what follows the conditional formats in the part of styles
// (ECMA-376 part 1, 18.8.39 styleSheet).
var behindFormats = []string{"tableStyles", "colors", "extLst"}

// styleSheet is the part of styles; the first error is kept.
type styleSheet struct {
	*document
	all []element
	err error
}

// add adds to one of the lists and returns the number of the first of what was
// added. A list of conditional formats is made where there is none; without
// the others no cell has a look.
func (s *styleSheet) add(list string, n int, texts string) int {
	texts = s.prefixed(texts)
	there, ok := named(s.all, list)
	switch {
	case !ok && list == "dxfs":
		s.before(s.all, behindFormats, s.prefixed(fmt.Sprintf(`<dxfs count="%d">`, n))+texts+s.prefixed(`</dxfs>`))
		return 0
	case !ok:
		s.err = unfit("its styles are not complete; open it and save it again")
		return 0
	}
	first, err := s.addCounted(there, n, texts)
	if err != nil {
		s.err = err
	}
	return first
}
