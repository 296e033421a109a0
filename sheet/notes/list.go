package notes

import (
	"bufio"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
	"unicode/utf8"

	"laybill/estimate/problem"
)

// listName is the name of the sheet that lists the problems.
const listName = "Problems"

// listColumns are the list's columns with their widths in characters.
var listColumns = []struct {
	heading string
	width   int
	text    func(problem.Problem) string
}{
	{"Place", 22, func(p problem.Problem) string { return p.At.String() }},
	{"Severity", 10, func(p problem.Problem) string { return p.Severity.String() }},
	{"Problem", 24, func(p problem.Problem) string { return string(p.Code) }},
	{"Found", 36, func(p problem.Problem) string { return p.Found }},
	{"Expected", 40, func(p problem.Problem) string { return p.Want }},
	{"What to do", 48, func(p problem.Problem) string { return p.Fix }},
	{"See also", 22, seeAlso},
}

// mostAlso is how many further cells of a problem the list names.
const mostAlso = 20

func seeAlso(p problem.Problem) string {
	var places []string
	for i, ref := range p.Also {
		if i == mostAlso {
			places = append(places, fmt.Sprintf("%d more", len(p.Also)-mostAlso))
			break
		}
		places = append(places, ref.String())
	}
	return strings.Join(places, ", ")
}

// addList adds the sheet Problems behind the workbook's sheets, so that what
// counts sheets from the first stays right.
func (c *bookCopy) addList(look look, problems problem.List) error {
	workbook, err := c.parcel.open(c.main)
	if err != nil {
		return err
	}
	all, err := workbook.children()
	if err != nil {
		return err
	}
	sheets, ok := named(all, "sheets")
	if !ok {
		return unfit("it lists no sheets")
	}
	tabs, err := workbook.under(sheets)
	if err != nil {
		return err
	}
	problems = problems[:min(len(problems), mostRows)]
	name, number := freeSheet(tabs)
	part := newPart{
		name:        c.parcel.free(path.Join(path.Dir(c.main), "worksheets/sheet%d.xml")),
		contentType: worksheetType, kind: "worksheet",
		write: func(w io.Writer) error { return writeList(w, c.cellSpace(), look, problems, tabNames(tabs)) },
	}
	ids, err := c.attach(c.main, part)
	if err != nil {
		return err
	}
	workbook.add(sheets, workbook.prefixed(fmt.Sprintf(`<sheet xmlns:r="%s" name="%s" sheetId="%d" r:id="%s"/>`, c.relationSpace(), name, number, ids[0])))
	workbook.defineNames(all, name, len(tabs), len(problems))
	c.parcel.put(c.main, workbook.bytes())
	return nil
}

func tabNames(tabs []element) map[string]bool {
	names := map[string]bool{}
	for _, tab := range tabs {
		names[tab.attr("name", false)] = true
	}
	return names
}

// freeSheet is a name and a number that no sheet has.
func freeSheet(tabs []element) (name string, number int) {
	taken := map[string]bool{}
	for _, tab := range tabs {
		taken[strings.ToLower(tab.attr("name", false))] = true
		if n, err := strconv.Atoi(tab.attr("sheetId", false)); err == nil {
			number = max(number, n)
		}
	}
	name = listName
	for n := 2; taken[strings.ToLower(name)]; n++ {
		name = fmt.Sprintf("%s %d", listName, n)
	}
	return name, number + 1
}

// namesLater are the elements of a workbook behind its defined names (ECMA-376
// part 1, 18.2.27 workbook).
var namesLater = []string{"calcPr", "oleSize", "customWorkbookViews", "pivotCaches", "smartTagPr", "smartTagTypes", "webPublishing", "fileRecoveryPr", "webPublishObjects", "extLst"}

// defineNames defines the names that a filter and a print title need.
func (d *document) defineNames(all []element, sheet string, place, rows int) {
	last := problem.ColumnName(len(listColumns))
	names := fmt.Sprintf(`<definedName name="_xlnm._FilterDatabase" localSheetId="%d" hidden="1">'%s'!$A$1:$%s$%d</definedName>`, place, sheet, last, max(rows, 1)+1) +
		fmt.Sprintf(`<definedName name="_xlnm.Print_Titles" localSheetId="%d">'%s'!$1:$1</definedName>`, place, sheet)
	if list, ok := named(all, "definedNames"); ok {
		d.add(list, d.prefixed(names))
		return
	}
	d.before(all, namesLater, d.prefixed("<definedNames>"+names+"</definedNames>"))
}

// writeList writes the sheet: a frozen row of headings with a filter, and a row
// a problem, whose place leads to its cell.
func writeList(w io.Writer, space string, look look, problems problem.List, tabs map[string]bool) error {
	s := bufio.NewWriter(w)
	last := fmt.Sprintf("%s%d", problem.ColumnName(len(listColumns)), max(len(problems), 1)+1)
	fmt.Fprintf(s, xmlHead+`<worksheet xmlns="%s"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><dimension ref="A1:%s"/>`, space, last)
	s.WriteString(`<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft" activeCell="A2" sqref="A2"/></sheetView></sheetViews><cols>`)
	for i, column := range listColumns {
		fmt.Fprintf(s, `<col min="%d" max="%d" width="%d" customWidth="1"/>`, i+1, i+1, column.width)
	}
	s.WriteString(`</cols><sheetData><row r="1">`)
	for i, column := range listColumns {
		textCell(s, cell{1, i + 1}, look.heading, column.heading)
	}
	s.WriteString(`</row>`)
	for i, p := range problems {
		listRow(s, i+2, look, p, i < mostLinks && tabs[p.At.Sheet])
	}
	if len(problems) == 0 {
		s.WriteString(`<row r="2">`)
		textCell(s, cell{2, 1}, look.text, "No problems were found.")
		s.WriteString(`</row>`)
	}
	fmt.Fprintf(s, `</sheetData><autoFilter ref="A1:%s"/>`, last)
	writeLinks(s, problems, tabs)
	s.WriteString(`<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/><pageSetup orientation="landscape" fitToHeight="0"/><headerFooter><oddFooter>&amp;L&amp;A&amp;RPage &amp;P of &amp;N</oddFooter></headerFooter></worksheet>`)
	return s.Flush()
}

func listRow(s *bufio.Writer, row int, look look, p problem.Problem, linked bool) {
	lines := 1
	for _, column := range listColumns {
		lines = max(lines, 1+utf8.RuneCountInString(shortened(column.text(p)))*11/10/column.width)
	}
	fmt.Fprintf(s, `<row r="%d" ht="%d" customHeight="1">`, row, min(lines*lineHeight, tallestRow))
	for i, column := range listColumns {
		style := look.text
		if i == 0 && linked {
			style = look.link
		}
		if text := column.text(p); text != "" {
			textCell(s, cell{row, i + 1}, style, text)
		}
	}
	s.WriteString(`</row>`)
}

// A sheet holds so many links, and so many rows with the heading's; spreadsheet
// programs mend a file that has more by taking some out.
const (
	mostLinks = 65_530
	mostRows  = 1_048_575
)

// writeLinks leads from each place to its cell, where the sheet is there.
func writeLinks(s *bufio.Writer, problems problem.List, tabs map[string]bool) {
	linked := 0
	for i, p := range problems[:min(len(problems), mostLinks)] {
		if !tabs[p.At.Sheet] {
			continue
		}
		if linked++; linked == 1 {
			s.WriteString(`<hyperlinks>`)
		}
		to := problem.Ref{Sheet: p.At.Sheet, Row: max(p.At.Row, 1), Col: max(p.At.Col, 1)}
		fmt.Fprintf(s, `<hyperlink ref="A%d" location="%s" display="%s"/>`, i+2, escape(to.String()), escape(p.At.String()))
	}
	if linked > 0 {
		s.WriteString(`</hyperlinks>`)
	}
}

// The height of a line and the most a row can have, in points. Programs do not
// all make a row as high as its wrapped text.
const (
	lineHeight = 15
	tallestRow = 400
)

// longestText keeps a cell or a note within what programs show; a cell holds
// 32,767 characters.
const longestText = 1000

func shortened(text string) string {
	if runes := []rune(text); len(runes) > longestText {
		return string(runes[:longestText]) + "…"
	}
	return text
}

func textCell(s *bufio.Writer, at cell, style int, text string) {
	fmt.Fprintf(s, `<c r="%s" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, at, style, escape(shortened(text)))
}
