package form

import (
	"encoding/csv"
	"io"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/sheet/table"
)

// WriteCSV writes one table of the fill as a CSV file: its headings and rows. A
// folder of such files, each named after its table's sheet, is read as the
// workbook would be.
func WriteCSV(w io.Writer, fill Fill, t *table.Table) error {
	records := make([][]string, 1, 1+len(fill.Rows[t.Key]))
	for _, column := range t.Columns {
		records[0] = append(records[0], column.Heading)
	}
	for _, row := range fill.rows(t) {
		var record []string
		for _, column := range t.Columns {
			record = append(record, field(kindOf(t, column, row), row[column.Key]))
		}
		records = append(records, record)
	}
	return csv.NewWriter(w).WriteAll(records)
}

// field is a cell in a CSV file: a plain number where the kind takes one, else
// the text, with an apostrophe before what a spreadsheet would take for a
// formula.
func field(kind table.Kind, text string) string {
	if formatOf(kind) != textFormat && kind != table.Date {
		if number, err := decimal.NewFromString(text); err == nil {
			return number.String()
		}
	}
	if start := strings.TrimLeft(text, "'"); start != "" && strings.ContainsAny(start[:1], "=+-@") {
		return "'" + text
	}
	return text
}
