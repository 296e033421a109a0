package notes

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// author signs the notes.
const author = "Laybill"

// run is a stretch of a note's text.
func run(text string, bold bool) string {
	weight := ""
	if bold {
		weight = "<b/>"
	}
	return fmt.Sprintf(`<r><rPr>%s<sz val="9"/><rFont val="Calibri"/><family val="2"/></rPr><t xml:space="preserve">%s</t></r>`, weight, escape(text))
}

// runs is a note's text: each problem's title in bold, then what to say of it.
func runs(said []remark) string {
	var text strings.Builder
	for i, p := range said {
		if i > 0 {
			text.WriteString(run("\n\n", false))
		}
		text.WriteString(run(p.title(), true))
		text.WriteString(run(p.text(), false))
	}
	return text.String()
}

func comment(at cell, author int, said []remark) string {
	return fmt.Sprintf(`<comment ref="%s" authorId="%d"><text>%s</text></comment>`, at, author, runs(said))
}

// newNotes is a part of notes for a sheet that has none.
func newNotes(space string, cells []cell, said map[cell][]remark) []byte {
	var text bytes.Buffer
	fmt.Fprintf(&text, xmlHead+`<comments xmlns="%s"><authors><author>%s</author></authors><commentList>`, space, author)
	for _, at := range cells {
		text.WriteString(comment(at, 0, said[at]))
	}
	text.WriteString(`</commentList></comments>`)
	return text.Bytes()
}

// addNotes adds to a sheet's notes, and returns the cells that had none. Where
// a person's note stands, ours goes behind its text; a conversation, which
// newer programs keep elsewhere, is left alone.
func (c *bookCopy) addNotes(part string, cells []cell, said map[cell][]remark) (fresh []cell, err error) {
	d, err := c.parcel.open(part)
	if err != nil {
		return nil, err
	}
	all, err := d.children()
	if err != nil {
		return nil, err
	}
	authors, hasAuthors := named(all, "authors")
	list, hasList := named(all, "commentList")
	if !hasAuthors || !hasList {
		return nil, unfit("its part %s is not a list of notes", part)
	}
	known, err := d.under(authors)
	if err != nil {
		return nil, err
	}
	there, err := d.under(list)
	if err != nil {
		return nil, err
	}
	byCell := map[string]element{}
	for _, e := range there {
		byCell[strings.ToUpper(strings.ReplaceAll(e.attr("ref", false), "$", ""))] = e
	}
	var added strings.Builder
	for _, at := range cells {
		old, noted := byCell[at.String()]
		if !noted {
			added.WriteString(comment(at, len(known), said[at]))
			fresh = append(fresh, at)
		} else if !d.isConversation(old, known) {
			d.append(old, d.prefixed(run("\n\n", false)+runs(said[at])))
		}
	}
	if added.Len() > 0 {
		d.add(authors, d.prefixed("<author>"+author+"</author>"))
		d.add(list, d.prefixed(added.String()))
	}
	c.parcel.put(part, d.bytes())
	return fresh, nil
}

// isConversation tells a note that stands in for a conversation: its author is
// named tc= and an id.
func (d *document) isConversation(note element, authors []element) bool {
	n, err := strconv.Atoi(note.attr("authorId", false))
	if err != nil || n < 0 || n >= len(authors) || authors[n].selfClosed {
		return false
	}
	return bytes.HasPrefix(d.data[authors[n].inner:authors[n].innerEnd], []byte("tc="))
}

// append puts runs behind the text of a note, ahead of what belongs to its
// pronunciation.
func (d *document) append(note element, runs string) {
	parts, err := d.under(note)
	text, ok := named(parts, "text")
	if err != nil || !ok {
		return
	}
	inside, err := d.under(text)
	if err != nil {
		return
	}
	for _, e := range inside {
		if e.name.Local == "rPh" || e.name.Local == "phoneticPr" {
			d.insert(e.start, runs)
			return
		}
	}
	d.add(text, runs)
}

// Boxes of notes are drawn in VML, as spreadsheets keep them to this day
// (ECMA-376 part 4, 19.1 and 19.4).
const (
	boxesHead = `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">`
	boxType   = `<v:shapetype xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`
	box       = `<v:shape xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel" id="_x0000_s%d" type="#_x0000_t202" style="position:absolute;margin-left:60pt;margin-top:2pt;width:240pt;height:%dpt;z-index:%d;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto"><v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox><x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>%d, 12, %d, 2, %d, 12, %d, 2</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>%d</x:Row><x:Column>%d</x:Column></x:ClientData></v:shape>`

	boxesABlock = 1024 // numbers of shapes are given out in blocks of so many
	lastColumn  = 16_383
	lastRow     = 1_048_575
)

// boxes draws the boxes of notes, numbered from first on.
func boxes(first int, cells []cell, said map[cell][]remark) string {
	const charactersALine, columns, points = 48, 4, 12
	var text strings.Builder
	for i, at := range cells {
		lines := 1
		for _, p := range said[at] {
			lines += 2
			for _, line := range strings.Split(p.text(), "\n") {
				lines += 1 + utf8.RuneCountInString(line)/charactersALine
			}
		}
		left, top := min(at.col, lastColumn-columns), min(max(at.row-2, 0), lastRow-lines)
		fmt.Fprintf(&text, box, first+i, lines*points, i+1, left, top, left+columns, top+lines, at.row-1, at.col-1)
	}
	return text.String()
}

// newBoxes is a drawing of notes for a sheet that has none.
func newBoxes(cells []cell, said map[cell][]remark) []byte {
	blocks := "1"
	for n := 2; n <= 1+(len(cells)+1)/boxesABlock; n++ {
		blocks += "," + strconv.Itoa(n)
	}
	return []byte(boxesHead + `<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="` + blocks + `"/></o:shapelayout>` + boxType +
		boxes(boxesABlock+1, cells, said) + `</xml>`)
}

// shapeNumber finds the numbers of shapes.
var shapeNumber = regexp.MustCompile(`_x0000_s(\d+)`)

// addBoxes adds boxes to a sheet's drawing of notes. Its XML is not always
// well formed, so it is only looked through for its end.
func (c *bookCopy) addBoxes(part string, cells []cell, said map[cell][]remark) error {
	if len(cells) == 0 {
		return nil
	}
	data, err := c.parcel.read(part)
	if err != nil {
		return err
	}
	end := bytes.LastIndex(data, []byte("</xml>"))
	if end < 0 {
		return unfit("its part %s is not a drawing of notes", part)
	}
	last := boxesABlock
	for _, number := range shapeNumber.FindAllSubmatch(data, -1) {
		if n, err := strconv.Atoi(string(number[1])); err == nil {
			last = max(last, n)
		}
	}
	added := boxes(last+1, cells, said)
	if !bytes.Contains(data, []byte(`id="_x0000_t202"`)) {
		added = boxType + added
	}
	c.parcel.put(part, []byte(string(data[:end])+added+string(data[end:])))
	return nil
}
