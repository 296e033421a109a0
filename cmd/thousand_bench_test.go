package cmd

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"laybill/sheet/form"
	"laybill/templates"
)

// BenchmarkThousandApartments prices a workbook of 1,000 apartments of five
// rooms in 20 types, from file to file. LAYBILL_KEEP=FOLDER leaves the workbook
// there, so that the program's peak memory can be measured on it.
func BenchmarkThousandApartments(b *testing.B) {
	folder := b.TempDir()
	if keep := os.Getenv("LAYBILL_KEEP"); keep != "" {
		folder = keep
	}
	workbook := filepath.Join(folder, "thousand.xlsx")
	var text bytes.Buffer
	if err := form.Write(&text, thousandApartments(1000, 20)); err != nil {
		b.Fatal(err)
	}
	if err := os.WriteFile(workbook, text.Bytes(), 0o644); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		var stdout, stderr bytes.Buffer
		result := filepath.Join(folder, "result.xlsx")
		if code := Main([]string{"price", workbook, "-o", result}, strings.NewReader(""), &stdout, &stderr); code != exitDone {
			b.Fatalf("exit code %d: %s", code, stderr.String())
		}
	}
	b.ReportMetric(1000, "apartments")
}

// thousandApartments is n apartments on floors of 20 in so many types of five
// rooms, with the demo's products, prices and work; every second one of a type
// is mirrored.
func thousandApartments(n, types int) form.Fill {
	fill := templates.Demo(templates.Metric)
	for _, key := range []string{"rooms", "corners", "openings", "fixtures", "apartments", "options", "takeoff", "loose", "remnants", "levels"} {
		delete(fill.Rows, key)
	}
	for t := range types {
		name := fmt.Sprintf("T%02d", t+1)
		for i, size := range [][2]int{{4200, 3100}, {3600, 2900}, {5900, 4300}, {1500, 5200}, {2400, 1900}} {
			length, width := size[0]+(t*37+i*53)%29*17, size[1]+(t*41+i*59)%31*13
			room := form.Row{"type": name, "room": fmt.Sprintf("Room %d", i+1), "buildup": "Oak click", "length": strconv.Itoa(length), "width": strconv.Itoa(width)}
			if i == 2 { // an L
				delete(room, "length")
				delete(room, "width")
				room["outline"] = fmt.Sprintf("E %d, N %d, W %d, N %d, W %d, S %d", length, width/2, length/3, width-width/2, length-length/3, width)
			}
			fill.Rows["rooms"] = append(fill.Rows["rooms"], room)
			fill.Rows["openings"] = append(fill.Rows["openings"], form.Row{"type": name, "room": room["room"], "wall": "S", "from": "300", "width": "838", "profile": "PR-T"})
		}
	}
	for i := range n {
		mirrored := "no"
		if i/types%2 == 1 {
			mirrored = "yes"
		}
		fill.Rows["apartments"] = append(fill.Rows["apartments"], form.Row{"apartment": fmt.Sprintf("%04d", i+1), "type": fmt.Sprintf("T%02d", i%types+1),
			"floor": strconv.Itoa(i/20 + 1), "mirrored": mirrored})
	}
	return fill
}
