package book

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/xuri/excelize/v2"
)

// roomRows writes a workbook of n room rows of 15 columns.
func roomRows(b *testing.B, n int) []byte {
	b.Helper()
	f := excelize.NewFile()
	defer f.Close()
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		b.Fatal(err)
	}
	for i := range n {
		row := []any{fmt.Sprintf("Type %d", i%40), fmt.Sprintf("Bed %d", i), "Oak on film", 3.82 + float64(i%97)/100, 4.1 + float64(i%89)/50,
			"", "", "", "along length", 5, "no", "yes", 1, "no", 2.1}
		if err := w.SetRow(fmt.Sprintf("A%d", i+1), row); err != nil {
			b.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		b.Fatal(err)
	}
	data, err := f.WriteToBuffer()
	if err != nil {
		b.Fatal(err)
	}
	return data.Bytes()
}

// BenchmarkRead reads 100,000 room rows, and the same file with the library's
// bare row reader.
func BenchmarkRead(b *testing.B) {
	data := roomRows(b, 100_000)
	b.Run("book", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			book, err := OpenBytes(data)
			if err != nil || len(book.Sheets[0].Rows) != 100_000 {
				b.Fatal(err)
			}
		}
	})
	b.Run("library", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true})
			if err != nil {
				b.Fatal(err)
			}
			rows, err := f.Rows("Sheet1")
			if err != nil {
				b.Fatal(err)
			}
			for rows.Next() {
				if _, err := rows.Columns(); err != nil {
					b.Fatal(err)
				}
			}
			f.Close()
		}
	})
}
