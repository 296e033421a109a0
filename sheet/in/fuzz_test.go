package in

import (
	"strings"
	"testing"
	"testing/fstest"

	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/sheet/book"
)

// FuzzCell reads any text as every kind of value: nothing may panic, and a
// number that is read means the same when it is written plainly.
func FuzzCell(f *testing.F) {
	for _, text := range []string{"1,234.50", "E 5.2, N 2.4, W 5.2", "12' 6 1/2\"", "31/03/2026", "€ 12", "7.25 %", "toward light: N", "1'234", "Length (cm)"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		in := input{kind: book.Text, text: text, length: measure.M}
		d, flaw := parseNumber(text)
		if flaw == nil {
			again, flaw := numberCell(input{kind: book.Number, text: d.String()})
			if flaw != nil || !again.Equal(d) {
				t.Fatalf("%q: %s read again as %s %v", text, d, again, flaw)
			}
		}
		if ring, flaw := parseLegs(in); flaw == nil && len(ring) < 3 {
			t.Fatalf("%q: a walk of %d corners", text, len(ring))
		}
		asPrice(in)
		asPercent(in)
		asArea(in)
		asDate(in)
		asYesNo(in)
		parseDirection(in, &roomEntry{})
		parseWall(in, nil)
		fold(text)
		near(text, []string{"Length", text})
	})
}

// FuzzTables reads any text as the Rooms table of an otherwise sound job.
func FuzzTables(f *testing.F) {
	f.Add("Apartment type,Room,Build-up,Length,Width\nA,Bed,Oak floor,4.1,3.82\n")
	f.Add("Room,Build-up,Outline\nBed,Oak floor,\"E 5, N 3, W 5\"\n")
	f.Fuzz(func(t *testing.T, rooms string) {
		folder := fstest.MapFS{}
		for _, sheet := range strings.Split(small, "-- ")[1:] {
			name, rows, _ := strings.Cut(sheet, " --\n")
			folder[name+".csv"] = &fstest.MapFile{Data: []byte(rows)}
		}
		folder["Rooms.csv"] = &fstest.MapFile{Data: []byte(rooms)}
		b, err := book.OpenFolder(folder)
		if err != nil {
			return
		}
		j, problems := Read(b)
		for _, room := range j.Rooms {
			if !problems.HasErrors() && (room.BuildUp == nil || len(room.Outline.Outer) < 3) {
				t.Fatalf("room %q without errors has no floor", room.Name)
			}
		}
		for _, p := range problems {
			if _, known := problem.Explain(string(p.Code)); !known || p.Found == "" || p.Want == "" || p.Fix == "" {
				t.Fatalf("incomplete problem %+v", p)
			}
		}
	})
}
