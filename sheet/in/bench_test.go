package in

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"laybill/sheet/book"
)

// BenchmarkCheck reads and checks 100,000 room rows that are in memory as a
// workbook's cells.
func BenchmarkCheck(b *testing.B) {
	folder := fstest.MapFS{}
	for _, sheet := range strings.Split(small, "-- ")[1:] {
		name, rows, _ := strings.Cut(sheet, " --\n")
		folder[name+".csv"] = &fstest.MapFile{Data: []byte(rows)}
	}
	var rows strings.Builder
	rows.WriteString("Apartment type,Room,Build-up,Length,Width,Laying direction,Level by,Doors,Heated\nA,Living,Oak floor,5.2,3.6,,,,\nB,Studio,Oak floor,,,,,,\n")
	for i := range 100_000 {
		fmt.Fprintf(&rows, "A,Room %d,Oak floor,%d.%02d,4.1,along length,5,,no\n", i, 3+i%3, i%97)
	}
	folder["Rooms.csv"] = &fstest.MapFile{Data: []byte(rows.String())}
	grid, err := book.OpenFolder(folder)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		j, problems := Read(grid)
		if len(j.Rooms) != 100_002 || problems.HasErrors() {
			b.Fatal(len(j.Rooms), problems)
		}
	}
}
