package book

import (
	"testing"
	"testing/fstest"
)

// ordered checks what every book that was accepted promises.
func ordered(t *testing.T, b *Book) {
	for _, s := range b.Sheets {
		last := 0
		for _, row := range s.Rows {
			if row.Number <= last || len(row.Cells) == 0 {
				t.Fatalf("row %d after row %d, %d cells", row.Number, last, len(row.Cells))
			}
			last = row.Number
			col := int32(0)
			for _, c := range row.Cells {
				if c.Col <= col || c.Kind == Empty {
					t.Fatalf("row %d: column %d after column %d, kind %d", last, c.Col, col, c.Kind)
				}
				col = c.Col
				b.Shown(c)
			}
		}
	}
}

// FuzzSheet puts any bytes in the place of a sheet, a table of texts and
// styles.
func FuzzSheet(f *testing.F) {
	f.Add(`<worksheet><sheetData><row r="1"><c r="A1" t="s" s="1"><v>0</v></c></row></sheetData></worksheet>`, `<sst><si><t>a</t></si></sst>`, `0.00" m"`)
	f.Add(`<worksheet><cols><col min="1" max="2"/></cols><sheetData/><mergeCells><mergeCell ref="A1:B2"/></mergeCells></worksheet>`, `<sst/>`, `[h]:mm`)
	f.Add(`<w:worksheet><sheetData><row><c t="inlineStr"><is><t>&lt;&#65;_x0041_</t></is></c><c><f>1</f></c></row></sheetData></w:worksheet>`, "\xff\xfe<\x00", `"`)
	f.Fuzz(func(t *testing.T, sheet, texts, format string) {
		parseFormat(format)
		p := minimal("").with("xl/worksheets/sheet1.xml", sheet).with("xl/sharedStrings.xml", texts)
		b, err := OpenBytes(p.stored(t))
		if err == nil {
			ordered(t, b)
		}
	})
}

// FuzzFile opens any bytes.
func FuzzFile(f *testing.F) {
	f.Add(minimal(`<row r="1"><c r="A1" t="s"><v>0</v></c></row>`).zip(f))
	f.Add([]byte("a,b\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if b, err := OpenBytes(data); err == nil {
			ordered(t, b)
		}
		if b, err := OpenFolder(fstest.MapFS{"a.csv": {Data: data}}); err == nil {
			ordered(t, b)
		}
	})
}
