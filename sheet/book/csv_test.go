package book

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

func TestFolder(t *testing.T) {
	tests := []struct {
		name, file string
		want       []string
	}{
		{"commas", "Room,Length\nBed 1,3.82\n", []string{`Rooms!A1 text "Room"`, `Rooms!B1 text "Length"`, `Rooms!A2 text "Bed 1"`, `Rooms!B2 number "3.82"`}},
		{"quoted numbers stay text", "a,\"12\"\n007,1.50\n", []string{`Rooms!A1 text "a"`, `Rooms!B1 text "12"`, `Rooms!A2 text "007"`, `Rooms!B2 text "1.50"`}},
		{"semicolons and decimal commas", "Room;Length\r\nBed;3,82\r\n", []string{`Rooms!A1 text "Room"`, `Rooms!B1 text "Length"`, `Rooms!A2 text "Bed"`, `Rooms!B2 text "3,82"`}},
		{"tabs", "a\tb,c\nd\te", []string{`Rooms!A1 text "a"`, `Rooms!B1 text "b,c"`, `Rooms!A2 text "d"`, `Rooms!B2 text "e"`}},
		{"bars", "a|b\nc|d", []string{`Rooms!A1 text "a"`, `Rooms!B1 text "b"`, `Rooms!A2 text "c"`, `Rooms!B2 text "d"`}},
		{"separator named", "sep=;\na,b;c", []string{`Rooms!A1 text "a,b"`, `Rooms!B1 text "c"`}},
		{"mark of UTF-8", "\xef\xbb\xbfa,b", []string{`Rooms!A1 text "a"`, `Rooms!B1 text "b"`}},
		{"UTF-16", utf16LE("\ufeffKüche\tb"), []string{`Rooms!A1 text "Küche"`, `Rooms!B1 text "b"`}},
		{"Windows-1252", "K\xfcche,\x80", []string{`Rooms!A1 text "Küche"`, `Rooms!B1 text "€"`}},
		{"inches", "a,12' 6 1/2\",\"12' 6 1/2\"\"\"\n", []string{`Rooms!A1 text "a"`, `Rooms!B1 text "12' 6 1/2\""`, `Rooms!C1 text "12' 6 1/2\""`}},
		{"blank lines count", "a,b\n\n,\n  c,d", []string{`Rooms!A1 text "a"`, `Rooms!B1 text "b"`, `Rooms!A4 text "  c"`, `Rooms!B4 text "d"`}},
		{"line break in a cell", "a,\"b\nc\"\nd,e", []string{`Rooms!A1 text "a"`, `Rooms!B1 text "b\nc"`, `Rooms!A2 text "d"`, `Rooms!B2 text "e"`}},
		{"empty file", "", nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b, err := OpenFolder(fstest.MapFS{"Rooms.csv": {Data: []byte(test.file)}, "notes.txt": {Data: []byte("x")}})
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, dump(b)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestFolderRefusals(t *testing.T) {
	tests := []struct {
		name   string
		folder fstest.MapFS
		want   string
	}{
		{"no files", fstest.MapFS{"a.txt": {}}, "the folder has no CSV files"},
		{"open quote", fstest.MapFS{"Rooms.csv": {Data: []byte("a,b\nc,\"d\ne,f\n")}}, "Rooms: row 2: the quote of column B is not closed"},
		{"text behind a quote", fstest.MapFS{"Rooms.csv": {Data: []byte("a,\"b\"c\n")}}, "Rooms: row 1: the quote of column B"},
		{"workbook renamed", fstest.MapFS{"Rooms.csv": {Data: []byte("PK\x03\x04\x00\x00")}}, "bytes that no text has"},
		{"too many columns", fstest.MapFS{"Rooms.csv": {Data: []byte(strings.Repeat("a,", maxCol+1))}}, "more than 16384 cells"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := OpenFolder(test.folder)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want %q", err, test.want)
			}
		})
	}
}
