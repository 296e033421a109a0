// Package templates holds the job workbooks that a user starts from: an empty
// one, and the demo, an invented building of 24 apartments. Both are made from
// the declarations in sheet/table, so their headings are always the reader's.
package templates

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/sheet/form"
	"laybill/sheet/table"
)

// System is a system of units.
type System string

// The systems: millimetres and square metres, or feet, inches and square feet.
const (
	Metric   System = "metric"
	Imperial System = "imperial"
)

// Systems are the systems in the order in which help names them.
var Systems = []System{Metric, Imperial}

// demoFiles is the demo, one file a table under the name of its sheet.
//
//go:embed demo/*.csv
var demoFiles embed.FS

// Blank is the workbook without rows. Its notes show values of the demo as
// examples.
func Blank(system System) form.Fill {
	fill := Demo(system)
	fill.Title = "Laybill job workbook"
	fill.Samples = map[string]form.Row{}
	for key, rows := range fill.Rows {
		if len(rows) > 0 {
			fill.Samples[key] = rows[0]
		}
	}
	fill.Rows = nil
	return fill
}

// Filled is the workbook with the rows of a job that was read.
func Filled(settings job.Settings, rows map[string][]table.Row) form.Fill {
	system := Metric
	if settings.LengthUnit.Imperial() {
		system = Imperial
	}
	fill := Blank(system)
	fill.Title = settings.Name
	fill.LengthUnit, fill.AreaUnit, fill.Rows = settings.LengthUnit, settings.AreaUnit, rows
	return fill
}

// Demo is the invented job, complete.
func Demo(system System) form.Fill {
	rows := map[string][]form.Row{}
	for i := range table.Tables {
		t := &table.Tables[i]
		rows[t.Key] = read(t)
	}
	fill := form.Fill{Title: "Laybill demo: an invented building", LengthUnit: measure.MM, AreaUnit: measure.M2, Rows: rows}
	if system == Imperial {
		fill.LengthUnit, fill.AreaUnit = measure.Ft, measure.Ft2
		toImperial(rows)
	}
	fill.Examples = examples(rows)
	return fill
}

// read reads the demo's rows of a table; none when it has no file. The files
// are part of the program and read by its tests: a broken one is a fault.
func read(t *table.Table) []form.Row {
	file, err := demoFiles.Open("demo/" + t.Sheet + ".csv")
	if err != nil {
		return nil
	}
	defer closing(file)
	records, err := csv.NewReader(file).ReadAll()
	if err != nil || len(records) == 0 {
		panic(fmt.Sprintf("templates: %s: %v", t.Sheet, err))
	}
	keys := columnKeys(t, records[0])
	rows := make([]form.Row, 0, len(records)-1)
	for _, record := range records[1:] {
		row := form.Row{}
		for i, text := range record {
			row[keys[i]] = text
		}
		rows = append(rows, row)
	}
	return rows
}

func closing(file fs.File) { _ = file.Close() }

// columnKeys are the keys of the columns that the headings name.
func columnKeys(t *table.Table, headings []string) []string {
	byHeading := map[string]string{}
	for _, column := range t.Columns {
		byHeading[column.Heading] = column.Key
	}
	keys := make([]string, len(headings))
	for i, heading := range headings {
		key, ok := byHeading[heading]
		if !ok {
			panic(fmt.Sprintf("templates: %s has no column %q", t.Sheet, heading))
		}
		keys[i] = key
	}
	return keys
}

// examples is for each column the first value that stands in it.
func examples(rows map[string][]form.Row) map[string]form.Row {
	found := map[string]form.Row{}
	for i := range table.Tables {
		t := &table.Tables[i]
		found[t.Key] = form.Row{}
		for _, column := range t.Columns {
			found[t.Key][column.Key] = firstValue(rows[t.Key], column.Key)
		}
	}
	return found
}

func firstValue(rows []form.Row, key string) string {
	for _, row := range rows {
		if row[key] != "" {
			return row[key]
		}
	}
	return ""
}
