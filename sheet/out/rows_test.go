package out

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/quantity"
)

// What the spreadsheet library reads in our rows is what it reads in those that
// it writes itself.
func TestRowsBesideTheLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.SampledFrom([]string{"_x0045_", "_x005F_", "_x", "005F", "_", " ", "\n", "<", ">", "&", "'", `"`, "A", "é", "床", "😀"})
		words := rapid.OneOf(rapid.Map(rapid.SliceOf(part), func(parts []string) string { return strings.Join(parts, "") }), rapid.String())
		drawn := rapid.Custom(func(t *rapid.T) cell {
			var c cell
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				c = text(words.Draw(t, "words"))
			case 1:
				c = number(decimal.New(rapid.Int64Range(-1e14, 1e14).Draw(t, "digits"), int32(-rapid.IntRange(0, 6).Draw(t, "places"))), "0.00")
			case 2:
				c = count(rapid.Int().Draw(t, "count"))
			}
			c.style.bold = rapid.Bool().Draw(t, "bold")
			if rapid.Bool().Draw(t, "formula") {
				c = c.from(`IF("<&">A1,` + rapid.StringMatching(`[A-Z][1-9]`).Draw(t, "cell") + `,"")`)
			}
			return c
		})
		rows := rapid.SliceOfN(rapid.SliceOfN(drawn, 1, 30), 1, 3).Draw(t, "rows")
		if diff := cmp.Diff(seen(t, byTheLibrary(t, rows), rows), seen(t, byUs(t, rows), rows)); diff != "" {
			t.Fatal(diff)
		}
	})
}

const onlySheet = "Rows"

func byUs(t *rapid.T, rows [][]cell) []byte {
	b := newBook(&estimate.Result{Job: &job.Job{}, Building: &building.Building{}, Takeoff: &quantity.Takeoff{}})
	defer func() { _ = b.file.Close() }()
	s := b.open(b.add(onlySheet), page{})
	for i, row := range rows {
		s.putHigh(float64(i)*7.5, row...)
	}
	s.close()
	var out bytes.Buffer
	if err := b.write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func byTheLibrary(t *rapid.T, rows [][]cell) []byte {
	b := newBook(&estimate.Result{Job: &job.Job{}, Building: &building.Building{}, Takeoff: &quantity.Takeoff{}})
	defer func() { _ = b.file.Close() }()
	s := b.open(b.add(onlySheet), page{})
	for i, row := range rows {
		values := make([]any, len(row))
		for x, c := range row {
			values[x] = excelize.Cell{StyleID: b.styleID(c.style), Formula: c.formula, Value: c.value}
		}
		b.keep(s.w.SetRow(address(1, i+1), values, excelize.RowOpts{Height: float64(i) * 7.5}))
	}
	s.close()
	clear(b.rows) // the package keeps the rows that the library writes
	var out bytes.Buffer
	if err := b.file.Write(&out); err != nil || b.err != nil {
		t.Fatal(err, b.err)
	}
	return out.Bytes()
}

// seen is what the library reads: type, raw value, formula, bold of each cell,
// and the heights of the rows.
func seen(t *rapid.T, content []byte, rows [][]cell) []string {
	file, err := excelize.OpenReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = file.Close() }()
	var all []string
	for y, row := range rows {
		height, err := file.GetRowHeight(onlySheet, y+1)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, fmt.Sprint(height))
		for x := range row {
			at := address(x+1, y+1)
			kind, err1 := file.GetCellType(onlySheet, at)
			value, err2 := file.GetCellValue(onlySheet, at, excelize.Options{RawCellValue: true})
			formula, err3 := file.GetCellFormula(onlySheet, at)
			number, err4 := file.GetCellStyle(onlySheet, at)
			look, err5 := file.GetStyle(number)
			for _, err := range []error{err1, err2, err3, err4, err5} {
				if err != nil {
					t.Fatal(err)
				}
			}
			all = append(all, fmt.Sprintf("%s %d %q %q %v", at, kind, value, formula, look.Font.Bold))
		}
	}
	return all
}
