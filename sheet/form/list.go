package form

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"laybill/estimate/problem"
	"laybill/sheet/table"
)

// The directions and walls that their drop-down lists offer; other values, such
// as degrees or the number of a leg, may be typed. A comma would part an item,
// so none holds one.
var (
	directions = []string{"along length", "along width", "toward light: N", "toward light: E", "toward light: S", "toward light: W", "auto"}
	walls      = []string{"N", "E", "S", "W"}
	yesNo      = []string{"yes", "no"}
)

// listed is the words that cells of a kind choose from; closed tells whether
// nothing else may stand there.
func listed(kind table.Kind, choices []string) (words []string, closed bool) {
	switch kind {
	case table.Choice:
		return choices, true
	case table.YesNo:
		return yesNo, true
	case table.Direction:
		return directions, false
	case table.Wall:
		return walls, false
	}
	return nil, false
}

// dropDown gives the cells of a column their list.
func (b *builder) dropDown(t *table.Table, c table.Column, col, last int) {
	cells := cellName(firstRow, col) + ":" + cellName(last, col)
	if c.Kind == table.Reference {
		b.codeList(t, c, col, cells)
		return
	}
	words, closed := listed(c.Kind, c.Choices)
	b.wordList(t.Sheet, cells, c.Heading, words, closed)
}

// longestList is how many characters a list in a cell's rule may have (ECMA-376
// part 1, 18.3.1.32). Of all lists only that of the measures is longer.
const longestList = 255

func (b *builder) wordList(sheet, cells, heading string, words []string, closed bool) {
	if len(words) == 0 {
		return
	}
	list := excelize.NewDataValidation(true)
	list.SetSqref(cells)
	if len(strings.Join(words, ",")) > longestList {
		list.SetSqrefDropList(b.measureWords)
	} else {
		b.do(list.SetDropList(words))
	}
	if closed {
		list.SetError(excelize.DataValidationErrorStyleStop, heading, "Choose one of the words in the list.")
	}
	b.do(b.file.AddDataValidation(sheet, list))
}

// codeList offers the codes of the table the column refers to. Codes may be
// typed before their row is there, so an unknown one only raises a question.
// A list can show one range only: a column that refers to two tables has no
// list, but asks the same question.
func (b *builder) codeList(t *table.Table, c table.Column, col int, cells string) {
	ranges := b.codeRanges(c)
	list := excelize.NewDataValidation(true)
	list.SetSqref(cells)
	if len(ranges) == 1 {
		list.SetSqrefDropList(ranges[0])
	} else {
		list.Type = "custom"
		list.Formula1 = countedIn(ranges, cellName(firstRow, col))
	}
	list.SetError(excelize.DataValidationErrorStyleWarning, c.Heading,
		"This is not on the sheet "+strings.Join(referredSheets(c), " or ")+" yet. Keep it?")
	b.do(b.file.AddDataValidation(t.Sheet, list))
}

// codeRanges are the cells that hold the codes a column may name.
func (b *builder) codeRanges(c table.Column) []string {
	var ranges []string
	for _, key := range strings.Split(c.Refers, "|") {
		t := table.ByKey(key)
		last := firstRow + len(b.fill.rows(t)) - 1 + spareRows
		column := problem.ColumnName(nameColumn(t))
		ranges = append(ranges, fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(t.Sheet), column, firstRow, column, last))
	}
	return ranges
}

// nameColumn is the column, from 1, that other tables refer to: the first that
// holds names.
func nameColumn(t *table.Table) int {
	for i, c := range t.Columns {
		if c.Kind == table.Name {
			return i + 1
		}
	}
	panic("form: table " + t.Key + " has no names to refer to")
}

func countedIn(ranges []string, cell string) string {
	var counts []string
	for _, r := range ranges {
		counts = append(counts, fmt.Sprintf("COUNTIF(%s,%s)", r, cell))
	}
	return strings.Join(counts, "+") + ">0"
}

// settingLists gives the Value cells of the Job sheet their lists.
func (b *builder) settingLists(sheet string) {
	job := table.ByKey("job")
	for col, column := range job.Columns {
		if column.Kind != table.Value {
			continue
		}
		for i, setting := range table.Settings {
			words, closed := listed(setting.Kind, setting.Choices)
			b.wordList(sheet, cellName(firstRow+i, col+1), setting.Name, words, closed)
		}
	}
}
