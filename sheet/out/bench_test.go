package out

import (
	"fmt"
	"io"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"laybill/estimate"
	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/quantity"
)

// The size of the workbooks that are compared: a million cells.
const (
	benchSheets = 100
	benchRows   = 500
)

// BenchmarkBesideTheLibrary writes the same million cells - words, numbers,
// formulas with their values and dates, all with a style - as this package does
// and with the library's stream writer and its own packing, and prints how many
// times as long the library takes.
func BenchmarkBesideTheLibrary(b *testing.B) {
	var ours, library time.Duration
	result := &estimate.Result{Job: &job.Job{}, Building: &building.Building{}, Takeoff: &quantity.Takeoff{}}
	rows := make([][]cell, benchRows)
	for i := range rows {
		rows[i] = benchRow(i + 1)
	}
	for b.Loop() {
		start := time.Now()
		writeOurs(b, result, rows)
		ours += time.Since(start)
		start = time.Now()
		writeBare(b, rows)
		library += time.Since(start)
	}
	b.ReportMetric(library.Seconds()/ours.Seconds(), "library/ours")
}

func benchRow(row int) []cell {
	cells := make([]cell, 0, 20)
	for i := range 6 {
		cells = append(cells, text(fmt.Sprintf("Room %d, wall %d", row, i)))
	}
	for i := range 9 {
		cells = append(cells, number(decimal.New(int64(row*100+i), -2), "0.00"))
	}
	for i := range 4 {
		cells = append(cells, number(decimal.New(int64(row+i), 0), "0").from(fmt.Sprintf("G%d+%d", row, i)))
	}
	return append(cells, day(time.Date(2026, 11, 1+row%28, 0, 0, 0, 0, time.UTC)))
}

func writeOurs(b *testing.B, result *estimate.Result, rows [][]cell) {
	w := newBook(result)
	defer w.file.Close()
	for i := range benchSheets {
		s := w.open(w.add(fmt.Sprintf("Sheet of %d", i)), page{})
		for _, row := range rows {
			s.put(row...)
		}
		s.close()
	}
	if err := w.write(io.Discard); err != nil {
		b.Fatal(err)
	}
}

func writeBare(b *testing.B, rows [][]cell) {
	file := excelize.NewFile()
	defer file.Close()
	ids := map[string]int{}
	for i := range benchSheets {
		name := fmt.Sprintf("Sheet of %d", i)
		if _, err := file.NewSheet(name); err != nil {
			b.Fatal(err)
		}
		w, err := file.NewStreamWriter(name)
		if err != nil {
			b.Fatal(err)
		}
		for y, row := range rows {
			cells := make([]any, len(row))
			for x, c := range row {
				cells[x] = excelize.Cell{StyleID: bareStyle(b, file, ids, c.style.format), Formula: c.formula, Value: c.value}
			}
			if err := w.SetRow(address(1, y+1), cells); err != nil {
				b.Fatal(err)
			}
		}
		if err := w.Flush(); err != nil {
			b.Fatal(err)
		}
	}
	if err := file.Write(io.Discard); err != nil {
		b.Fatal(err)
	}
}

func bareStyle(b *testing.B, file *excelize.File, ids map[string]int, shown string) int {
	if id, known := ids[shown]; known {
		return id
	}
	format := shown
	if format == "" {
		format = "@"
	}
	id, err := file.NewStyle(&excelize.Style{CustomNumFmt: &format})
	if err != nil {
		b.Fatal(err)
	}
	ids[shown] = id
	return id
}
