package in

import (
	"regexp"
	"strings"
	"unicode"

	"laybill/sheet/book"
	"laybill/sheet/table"
)

// Texts is every table of a workbook in writing: what a person would type into
// a new workbook to say the same. Units of headings and of number formats stand
// in the cells, formulas by their values; totals, blank rows and columns that
// belong to no table are left out. It is meant for a workbook that reads
// without errors.
func Texts(b *book.Book) map[string][]table.Row {
	r := newReader(b)
	defer r.calculator.close()
	r.findTables()
	texts := map[string][]table.Row{}
	for i := range table.Tables {
		t := &table.Tables[i]
		r.each(t.Key, func(row row) {
			if written := row.texts(); t.Key != "job" {
				texts[t.Key] = append(texts[t.Key], written)
			} else if setting, unit := settingNamed(written["setting"]); setting != nil {
				cell, _ := row.cell("value")
				texts[t.Key] = append(texts[t.Key], table.Row{"setting": setting.Name, "value": r.written(cell, setting.Kind, unit)})
			}
		})
	}
	return texts
}

func (r row) texts() table.Row {
	texts := table.Row{}
	for i := range r.part.table.Columns {
		column := &r.part.table.Columns[i]
		if cell, found := r.cell(column.Key); found && cell.Kind != book.Empty {
			texts[column.Key] = r.written(cell, column.Kind, r.part.units[column.Key])
		}
	}
	return texts
}

// written is a cell as a person would write it where its heading names no unit.
func (r *reader) written(cell book.Cell, kind table.Kind, unit headingUnit) string {
	text, _ := asText(input{text: r.book.Shown(cell)})
	switch {
	case unit.hasLength && kind == table.Legs:
		return legsWith(unit.length.String(), text)
	case text == "" || !r.isBare(cell):
	case unit.hasLength && isLength(kind):
		text += " " + unit.length.String()
	case unit.hasArea && kind == table.Area:
		text += " " + unit.area.String()
	}
	return text
}

// plainNumber finds the numbers of an outline.
var plainNumber = regexp.MustCompile(`\d+(?:[.,]\d+)?`)

// legsWith is an outline with a unit behind the numbers that have none: those
// before the next leg or the end.
func legsWith(unit, text string) string {
	var out strings.Builder
	from := 0
	for _, at := range plainNumber.FindAllStringIndex(text, -1) {
		out.WriteString(text[from:at[1]])
		from = at[1]
		if next := strings.TrimSpace(text[from:]); next == "" || strings.ContainsRune(",;nesw", unicode.ToLower(rune(next[0]))) {
			out.WriteString(" " + unit)
		}
	}
	return out.String() + text[from:]
}
