package notes

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// sheetOrder is the order of what follows the cells in a sheet's part
// (ECMA-376 part 1, 18.3.1.99 worksheet). Controls of newer programs stand in
// an element of alternatives.
var sheetOrder = []string{"sheetCalcPr", "sheetProtection", "protectedRanges", "scenarios", "autoFilter", "sortState", "dataConsolidate",
	"customSheetViews", "mergeCells", "phoneticPr", "conditionalFormatting", "dataValidations", "hyperlinks", "printOptions", "pageMargins",
	"pageSetup", "headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches", "ignoredErrors", "smartTags", "drawing",
	"legacyDrawing", "legacyDrawingHF", "drawingHF", "picture", "oleObjects", "controls", "AlternateContent", "webPublishItems", "tableParts", "extLst"}

// behind is the elements of a sheet that follow one of them.
func behind(name string) []string { return sheetOrder[slices.Index(sheetOrder, name)+1:] }

// mark puts the marks of one sheet into the copy.
func (c *bookCopy) mark(m *marks, look look) error {
	part, err := c.partOf(m.sheet)
	if err != nil {
		return err
	}
	d, tail, err := c.openSheet(part)
	if err != nil {
		return err
	}
	d.tint(tail, inOrder(m.tinted), look.tint)
	if err := c.note(d, tail, m); err != nil {
		return err
	}
	c.parcel.put(part, d.bytes())
	return nil
}

// partOf is the part that holds a sheet.
func (c *bookCopy) partOf(sheet string) (string, error) {
	workbook, err := c.parcel.open(c.main)
	if err != nil {
		return "", err
	}
	all, err := workbook.children()
	if err != nil {
		return "", err
	}
	list, _ := named(all, "sheets")
	tabs, err := workbook.under(list)
	if err != nil {
		return "", err
	}
	links, err := c.parcel.relations(c.main)
	if err != nil {
		return "", err
	}
	for _, tab := range tabs {
		if tab.attr("name", false) != sheet {
			continue
		}
		for _, link := range links {
			if link.id == tab.attr("id", true) {
				return link.part, nil
			}
		}
	}
	return "", unfit("the part of its sheet %s is not found", sheet)
}

// openSheet opens a sheet's part and finds what follows its cells. The cells,
// which may be millions, are passed over.
func (c *bookCopy) openSheet(name string) (*document, []element, error) {
	data, err := c.parcel.read(name)
	if err != nil {
		return nil, nil, err
	}
	root, err := firstElement(data)
	if err != nil {
		return nil, nil, unfit("its part %s: %v", name, err)
	}
	d := newDocument(name, data, root)
	tag := d.tag("sheetData")
	cellsEnd := max(bytes.LastIndex(data, []byte("</"+tag+">"))+len(tag)+3, bytes.LastIndex(data, []byte("<"+tag+"/>"))+len(tag)+3)
	if cellsEnd < root.inner {
		return nil, nil, unfit("its part %s has no cells' end", name)
	}
	tail, end, err := children(data, cellsEnd)
	if err != nil {
		return nil, nil, unfit("its part %s: %v", name, err)
	}
	d.root.innerEnd, d.root.end = end, len(data)
	return d, tail, nil
}

func firstElement(data []byte) (element, error) {
	decoder := xml.NewDecoder(bytes.NewReader(data))
	for {
		at := int(decoder.InputOffset())
		token, err := decoder.RawToken()
		if err != nil {
			return element{}, err
		}
		if t, ok := token.(xml.StartElement); ok {
			return element{name: t.Name, attrs: t.Copy().Attr, start: at, inner: int(decoder.InputOffset())}, nil
		}
	}
}

// mostInOne is how many cells one conditional format names.
const mostInOne = 500

// rulePriority finds the places of a sheet's other conditional formats.
var rulePriority = regexp.MustCompile(`<(?:\w+:)?cfRule\b[^>]*?\bpriority="(\d+)"`)

// tint marks cells by conditional formats ahead of the sheet's own, which move
// back by as many places.
func (d *document) tint(tail []element, cells []cell, format int) {
	rules := 0
	var text strings.Builder
	for block := range slices.Chunk(cells, mostInOne) {
		rules++
		names := make([]string, len(block))
		for i, at := range block {
			names[i] = at.String()
		}
		fmt.Fprintf(&text, `<conditionalFormatting sqref="%s"><cfRule type="expression" dxfId="%d" priority="%d"><formula>TRUE</formula></cfRule></conditionalFormatting>`,
			strings.Join(names, " "), format, rules)
	}
	if rules == 0 {
		return
	}
	from := d.root.innerEnd
	if len(tail) > 0 {
		from = tail[0].start
	}
	for _, at := range rulePriority.FindAllSubmatchIndex(d.data[from:], -1) {
		if place, err := strconv.Atoi(string(d.data[from+at[2] : from+at[3]])); err == nil {
			d.replace(from+at[2], from+at[3], strconv.Itoa(place+rules))
		}
	}
	d.before(tail, behind("conditionalFormatting"), d.prefixed(text.String()))
}

// mostNotes is how many cells of a sheet get a note; the sheet Problems lists
// all.
const mostNotes = 2000

// note puts the notes of a sheet into its part of notes and their boxes into
// its drawing of notes; either is made where there is none.
func (c *bookCopy) note(d *document, tail []element, m *marks) error {
	cells := inOrder(m.notes)
	cells = cells[:min(len(cells), mostNotes)]
	links, err := c.parcel.relations(d.name)
	if err != nil {
		return err
	}
	fresh := cells
	notes := ofKind(links, "comments")
	if notes != "" {
		if fresh, err = c.addNotes(notes, cells, m.notes); err != nil {
			return err
		}
	}
	drawing, hasDrawing := named(tail, "legacyDrawing")
	if hasDrawing {
		for _, link := range links {
			if link.id == drawing.attr("id", true) {
				if err := c.addBoxes(link.part, fresh, m.notes); err != nil {
					return err
				}
			}
		}
	}
	var parts []newPart
	if notes == "" {
		name := c.parcel.free(path.Join(path.Dir(c.main), "comments%d.xml"))
		parts = append(parts, newPart{name: name, contentType: commentsType, kind: "comments", data: newNotes(c.cellSpace(), cells, m.notes)})
	}
	if !hasDrawing {
		name := c.parcel.free(path.Join(path.Dir(c.main), "drawings/vmlDrawing%d.vml"))
		parts = append(parts, newPart{name: name, contentType: drawingType, kind: "vmlDrawing", data: newBoxes(fresh, m.notes)})
	}
	if len(parts) == 0 {
		return nil
	}
	ids, err := c.attach(d.name, parts...)
	if err != nil || hasDrawing {
		return err
	}
	d.before(tail, behind("legacyDrawing"), d.prefixed(fmt.Sprintf(`<legacyDrawing xmlns:r="%s" r:id="%s"/>`, c.relationSpace(), ids[len(ids)-1])))
	return nil
}
