package book

import (
	"path"
	"strconv"
	"strings"
)

// readWorkbook follows the package from its root to every sheet.
func readWorkbook(p *parcel) (*Book, error) {
	main, err := mainPart(p)
	if err != nil {
		return nil, err
	}
	b := &Book{}
	tabs, err := readTabs(p, main, b)
	if err != nil {
		return nil, err
	}
	links, err := readLinks(p, main)
	if err != nil {
		return nil, err
	}
	r := &sheetReader{book: b}
	if err := r.readStyles(p, links.byType("styles")); err != nil {
		return nil, err
	}
	if err := r.readStrings(p, links.byType("sharedStrings")); err != nil {
		return nil, err
	}
	for _, tab := range tabs {
		link, ok := links[tab.id]
		switch {
		case !ok:
			return nil, damaged(tab.name, "the workbook does not say which part holds this sheet")
		case link.kind == "chartsheet" || link.kind == "dialogsheet" || strings.HasSuffix(link.kind, "acrosheet"):
			continue
		case link.kind != "worksheet" || link.external:
			return nil, damaged(tab.name, "its part is not a sheet")
		}
		sheet, err := r.readSheet(p, link.part, tab)
		if err != nil {
			return nil, err
		}
		b.Sheets = append(b.Sheets, *sheet)
	}
	return b, nil
}

// mainPart finds the workbook's own part, or says what else the package is.
func mainPart(p *parcel) (string, error) {
	switch {
	case p.has("mimetype") && p.has("content.xml"):
		return "", &Refusal{Reason: IsODS}
	case !p.has("_rels/.rels") && !p.has("[Content_Types].xml"):
		return "", &Refusal{Reason: IsOther, Detail: "it is a zip file of other things"}
	}
	links, err := readLinks(p, "")
	if err != nil {
		return "", err
	}
	main := links.byType("officeDocument")
	switch {
	case main == "":
		return "", damaged("_rels/.rels", "it does not name the workbook's part")
	case strings.HasSuffix(partName(main), ".bin"):
		return "", &Refusal{Reason: IsBinary}
	case strings.HasPrefix(partName(main), "word/"), strings.HasPrefix(partName(main), "ppt/"):
		return "", &Refusal{Reason: IsOther, Detail: "it is a text document or a presentation"}
	}
	return main, nil
}

// link is one relationship of a part.
type link struct {
	kind     string // last word of the type: worksheet, styles, ...
	part     string
	external bool
}

type links map[string]link

// byType is the part of the relationship of that kind; "" when there is none.
func (l links) byType(kind string) string {
	part := ""
	for _, link := range l {
		if strings.EqualFold(link.kind, kind) && !link.external && (part == "" || link.part < part) {
			part = link.part
		}
	}
	return part
}

// readLinks reads the relationships of a part; those of the package as a
// whole when from is empty.
func readLinks(p *parcel, from string) (links, error) {
	part := path.Join(path.Dir(from), "_rels", path.Base(from)+".rels")
	if from == "" {
		part = "_rels/.rels"
	}
	found := links{}
	err := p.each(part, func(x *xmlReader) error {
		for {
			switch x.next() {
			case failed:
				return x.err
			case partEnd:
				return nil
			case opened:
				if string(x.name) != "Relationship" {
					continue
				}
				id := x.attr("Id")
				if _, twice := found[id]; twice || id == "" {
					return damaged(part, "the relationship %q stands twice or has no name", id)
				}
				found[id] = link{
					kind:     path.Base(x.attr("Type")),
					part:     target(from, x.attr("Target")),
					external: strings.EqualFold(x.attr("TargetMode"), "External"),
				}
			}
		}
	})
	return found, err
}

// tab is a sheet as the workbook lists it.
type tab struct {
	name, id   string
	visibility Visibility
}

func readTabs(p *parcel, main string, b *Book) ([]tab, error) {
	var tabs []tab
	names := map[string]bool{}
	err := p.each(main, func(x *xmlReader) error {
		for {
			switch x.next() {
			case failed:
				return x.err
			case partEnd:
				return nil
			case opened:
				switch {
				case x.depth() == 1 && string(x.name) != "workbook":
					return damaged(main, "it is not a workbook but a <%s>", x.name)
				case x.depth() == 2 && string(x.name) == "workbookPr":
					b.Date1904 = x.isTrue("date1904")
				case x.depth() == 3 && string(x.name) == "sheet":
					t := tab{name: unescape(x.attr("name")), id: x.prefixedAttr("id"), visibility: visibility(x.attr("state"))}
					if names[strings.ToLower(t.name)] {
						return damaged(t.name, "two sheets have this name")
					}
					names[strings.ToLower(t.name)] = true
					if tabs = append(tabs, t); len(tabs) > maxSheets {
						return tooLarge("", "it has more than %d sheets", maxSheets)
					}
				}
			}
		}
	})
	if err == nil && len(tabs) == 0 {
		err = damaged(main, "the workbook has no sheets")
	}
	return tabs, err
}

func visibility(state string) Visibility {
	switch state {
	case "hidden":
		return Hidden
	case "veryHidden":
		return VeryHidden
	}
	return Visible
}

// readStyles reads which number format each cell style has. A workbook
// without styles shows every number as it is.
func (r *sheetReader) readStyles(p *parcel, part string) error {
	r.book.formats = []Format{{}}
	if part == "" {
		return nil
	}
	r.styled = true
	own := map[int]Format{}
	known := map[Format]uint16{{}: 0}
	return p.each(part, func(x *xmlReader) error {
		inCells := false
		for {
			switch x.next() {
			case failed:
				return x.err
			case partEnd:
				return nil
			case opened:
				switch name := string(x.name); {
				case x.depth() == 2:
					inCells = name == "cellXfs"
				case x.depth() == 3 && name == "numFmt":
					id, err := strconv.Atoi(x.attr("numFmtId"))
					if err != nil || len(own) >= maxStyles {
						return damaged(part, "a number format cannot be read")
					}
					own[id] = parseFormat(x.attr("formatCode"))
				case x.depth() == 3 && inCells && name == "xf":
					if err := r.addStyle(x, own, known); err != nil {
						return damaged(part, "%v", err)
					}
				}
			}
		}
	})
}

// addStyle adds one cell style; equal formats share an index.
func (r *sheetReader) addStyle(x *xmlReader, own map[int]Format, known map[Format]uint16) error {
	if len(r.styles) >= maxStyles {
		return strconv.ErrRange
	}
	id := 0
	if raw := x.raw("numFmtId"); raw != nil {
		var err error
		if id, err = strconv.Atoi(string(raw)); err != nil {
			return err
		}
	}
	format, ok := own[id]
	if !ok {
		format = builtIn(id)
	}
	index, ok := known[format]
	if !ok {
		index = uint16(len(r.book.formats))
		known[format] = index
		r.book.formats = append(r.book.formats, format)
	}
	r.styles = append(r.styles, index)
	return nil
}

// readStrings reads the table of shared strings.
func (r *sheetReader) readStrings(p *parcel, part string) error {
	if part == "" {
		return nil
	}
	return p.each(part, func(x *xmlReader) error {
		for {
			switch x.next() {
			case failed:
				return x.err
			case partEnd:
				return nil
			case opened:
				if x.depth() == 1 && string(x.name) != "sst" {
					return damaged(part, "it is not a table of texts but a <%s>", x.name)
				}
				if x.depth() != 2 || string(x.name) != "si" {
					continue
				}
				text, ok := r.readRichText(x)
				if !ok {
					return x.err
				}
				if r.strings = append(r.strings, text); len(r.strings) > maxStrings {
					return tooLarge(part, "it has more than %d texts", maxStrings)
				}
				if r.texts.size > maxText {
					return tooLarge(part, "its texts are longer than %d MB", maxText>>20)
				}
			}
		}
	})
}

// readRichText joins the runs of the text element just opened, leaving out
// phonetic readings; ok is false when the XML fails.
func (r *sheetReader) readRichText(x *xmlReader) (text string, ok bool) {
	r.joined = r.joined[:0]
	depth, inText := x.depth(), false
	for {
		switch x.next() {
		case failed, partEnd:
			return "", false
		case opened:
			switch string(x.name) {
			case "t":
				inText = true
			case "rPh", "phoneticPr", "rPr":
				if !x.skip() {
					return "", false
				}
			}
		case chars:
			if inText {
				r.joined = append(r.joined, x.text...)
			}
		case closed:
			inText = false
			if x.depth() < depth {
				return r.texts.keep(unescapeBytes(r.joined)), true
			}
		}
	}
}

// unescape turns _xHHHH_ into the character it stands for (ECMA-376 part 1,
// 22.4.2.4 ST_Xstring).
func unescape(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	return string(unescapeBytes([]byte(s)))
}

func unescapeBytes(s []byte) []byte {
	if !strings.Contains(string(s), "_x") {
		return s
	}
	var out []byte
	for i := 0; i < len(s); i++ {
		if i+7 <= len(s) && s[i] == '_' && s[i+1] == 'x' && s[i+6] == '_' {
			if n, err := strconv.ParseUint(string(s[i+2:i+6]), 16, 16); err == nil {
				out = append(out, string(rune(n))...)
				i += 6
				continue
			}
		}
		out = append(out, s[i])
	}
	return out
}
