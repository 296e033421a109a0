package out_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var (
	chartTitle  = regexp.MustCompile(`<a:t>([^<]*)</a:t>`)
	chartRanges = regexp.MustCompile(`<f>&#39;Summary&#39;!\$([A-Z])\$(\d+)(?::\$[A-Z]\$(\d+))?</f>`)
)

// The owner's summary shows the way from cost to price, what the cost is made of
// and the margin of each apartment type. Each chart is named by a cell, since a
// name in plain text is no reference (ECMA-376 part 1, 21.2.2.65, from memory), and has its
// names and values from the rows below the headings that say so.
func TestChartsOfTheSummary(t *testing.T) {
	workbook := write(t, run(t, demoJob(t)))
	f := open(t, workbook)
	cell := func(column, row string) string {
		value, err := f.GetCellValue("Summary", column+row)
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
	shown := map[string][]string{}
	for name, part := range partsOf(t, workbook) {
		if !strings.HasPrefix(name, "xl/charts/chart") || !strings.Contains(part, "Summary") {
			continue
		}
		ranges := chartRanges.FindAllStringSubmatch(part, -1)
		if len(ranges) != 3 || ranges[0][3] != "" {
			t.Fatalf("%s: name, names and values at %v", name, ranges)
		}
		heading, names, values := ranges[0], ranges[1], ranges[2]
		if !slices.Equal(names[2:], values[2:]) {
			t.Errorf("%s: names from %s, values from %s", name, names[0], values[0])
		}
		if above, err := strconv.Atoi(names[2]); err != nil || heading[2] != strconv.Itoa(above-1) {
			t.Errorf("%s: rows from %s, the heading in row %s", name, names[2], heading[2])
		}
		shown[chartTitle.FindStringSubmatch(part)[1]] = []string{cell(heading[1], heading[2]), cell(names[1], names[2]), cell(names[1], names[3])}
	}
	if diff := cmp.Diff(map[string][]string{
		"From cost to price":                      {"From cost to price", "Material", "Price before VAT"},
		"What the cost is made of":                {"What the cost is made of", "Material: plank", "Overhead"},
		"Margin by apartment type: profit in GBP": {"Profit", "A", "Repairs"},
		"Price per m2 by apartment type":          {"Price per m2", "A", "Repairs"},
	}, shown); diff != "" {
		t.Error(diff)
	}
}
