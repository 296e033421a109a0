package book

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// Files that are no workbook, by what they are.
func TestOtherFiles(t *testing.T) {
	plain := minimal(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	locked := func() []byte {
		raw, err := excelize.Encrypt(plain.zip(t), &excelize.Options{Password: "a password"})
		if err != nil {
			t.Fatal(err)
		}
		return raw
	}
	compound := "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + strings.Repeat("\x00", 504)
	tests := []struct {
		name string
		data []byte
		want Reason
	}{
		{"empty file", nil, IsEmpty},
		{"encrypted", locked(), IsEncrypted},
		{"old workbook", []byte(compound + string(wide("Workbook"))), IsOld},
		{"older workbook", []byte("\x09\x08\x10\x00\x00\x06\x05\x00"), IsOld},
		{"compound file of another kind", []byte(compound + string(wide("WordDocument"))), IsOther},
		{"text renamed", []byte("Room;Length;Width\nBed;3,82;4,10\nKüche;1;2"), IsText},
		{"text in UTF-16 renamed", []byte(utf16LE("\ufeffRoom\tLength")), IsText},
		{"picture renamed", []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR"), IsOther},
		{"zip of other things", parts{"photo.jpg": "x"}.zip(t), IsOther},
		{"text document", plain.replaced(t, "_rels/.rels", "xl/workbook.xml", "word/document.xml").zip(t), IsOther},
		{"binary workbook", plain.replaced(t, "_rels/.rels", "xl/workbook.xml", "xl/workbook.bin").zip(t), IsBinary},
		{"OpenDocument", parts{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<a/>"}.zip(t), IsODS},
		{"file cut short", plain.zip(t)[:900], IsDamaged},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { refused(t, test.data, test.want, "") })
	}
}

// refused checks that the file is refused for the reason, with the text in
// the message.
func refused(t *testing.T, data []byte, want Reason, text string) {
	t.Helper()
	_, err := OpenBytes(data)
	var refusal *Refusal
	switch {
	case !errors.As(err, &refusal):
		t.Errorf("got %v, want a refusal", err)
	case refusal.Reason != want:
		t.Errorf("refused because %v, want because %s", err, want)
	case !strings.Contains(err.Error(), text):
		t.Errorf("message %q does not say %q", err, text)
	}
}

// Damage inside a workbook is named with its place.
func TestDamage(t *testing.T) {
	good := minimal(`<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>`)
	const sheet = "xl/worksheets/sheet1.xml"
	sheetOf := func(rows string) parts { return minimal(rows) }
	tests := []struct {
		name  string
		parts parts
		want  string
	}{
		{"sheet cut off after a row", good.with(sheet, `<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c></row>`), "Rooms: the text breaks off: <sheetData> is not closed"},
		{"sheet cut off in a tag", good.with(sheet, `<worksheet><sheetData><row r="1"><c r="A1`), "Rooms: the text breaks off inside a tag"},
		{"sheet cut off in a closing tag", good.with(sheet, `<worksheet></work`), "breaks off inside a tag"},
		{"empty sheet part", good.with(sheet, ``), "Rooms: there is nothing in it"},
		{"closed by another name", sheetOf(`<row r="1"><c r="A1"><v>1</c></v></row>`), "Rooms: <v> is closed by </c>"},
		{"attribute without quotes", sheetOf(`<row r=1></row>`), "<row> has an attribute without quotes"},
		{"attribute twice", sheetOf(`<row r="1" r="2"></row>`), "<row> has the attribute r twice"},
		{"stray &", sheetOf(`<row r="1"><c r="A1" t="str"><v>a & b</v></c></row>`), "stray &"},
		{"stray <", sheetOf(`<row r="1"><c r="A1" t="str"><v>1 < 2</v></c></row>`), "stray <"},
		{"unknown entity", sheetOf(`<row r="1"><c r="A1" t="str"><v>&nbsp;</v></c></row>`), "the entity &nbsp; is not known"},
		{"character that cannot be", sheetOf(`<row r="1"><c r="A1" t="str"><v>&#0;</v></c></row>`), "the entity &#0; is not known"},
		{"text not in UTF-8", sheetOf("<row r=\"1\"><c r=\"A1\" t=\"str\"><v>\xff</v></c></row>"), "not UTF-8"},
		{"other encoding", good.with(sheet, `<?xml version="1.0" encoding="ISO-8859-1"?><worksheet/>`), `its encoding is "ISO-8859-1"`},
		{"says UTF-16, is not", good.with(sheet, `<?xml version="1.0" encoding="UTF-16"?><worksheet/>`), `its encoding is "UTF-16"`},
		{"document type", good.with(sheet, `<!DOCTYPE a [<!ENTITY b "c">]><worksheet><sheetData/></worksheet>`), "document type"},
		{"entity bomb in the texts", good.with("xl/sharedStrings.xml", `<!DOCTYPE a [<!ENTITY b "cccc"><!ENTITY d "&b;&b;">]><sst><si><t>&d;</t></si></sst>`), "document type"},
		{"two roots", good.with(sheet, `<worksheet/><worksheet/>`), "after the end of the root"},
		{"text behind the root", good.with(sheet, `<worksheet/>x`), "text stands outside"},
		{"deep nesting", good.with(sheet, `<worksheet>`+strings.Repeat("<a>", 100)), "nested deeper"},
		{"a tag too long", good.with(sheet, `<worksheet><a b="`+strings.Repeat("x", maxToken+1)), "longer than"},
		{"row twice", sheetOf(`<row r="1"/><row r="1"/>`), "row 1 stands after row 1"},
		{"rows out of order", sheetOf(`<row r="3"/><row r="2"/>`), "row 2 stands after row 3"},
		{"row number that is none", sheetOf(`<row r="x"/>`), `"x" is not a row number`},
		{"row 0", sheetOf(`<row r="0"/>`), `"0" is not a row number`},
		{"row beyond the sheet", sheetOf(`<row r="1048577"/>`), "row 1048577 is beyond"},
		{"cell twice", sheetOf(`<row r="1"><c r="A1"/><c r="A1"/></row>`), "cell A1 stands twice"},
		{"cells out of order", sheetOf(`<row r="1"><c r="C1"/><c r="B1"/></row>`), "cell B1 stands after C1"},
		{"cell of another row", sheetOf(`<row r="1"><c r="A2"/></row>`), "cell A2 stands in row 1"},
		{"cell beyond the sheet", sheetOf(`<row r="1"><c r="XFE1"/></row>`), `"XFE1" is not a cell`},
		{"cell behind the last", sheetOf(`<row r="1"><c r="XFD1"/><c/></row>`), "beyond the last column"},
		{"other things among rows", sheetOf(`<c r="A1"/>`), "a <c> stands among its rows"},
		{"other things among cells", sheetOf(`<row r="1"><v>1</v></row>`), "a <v> stands among the cells of row 1"},
		{"text that is missing", sheetOf(`<row r="4"><c r="B4" t="s"><v>2</v></c></row>`), "Rooms!B4: its text, number 2 of the shared texts, is missing"},
		{"text without a number", sheetOf(`<row r="4"><c r="B4" t="s"><v/></c></row>`), "Rooms!B4: its text is missing"},
		{"texts missing", good.without("xl/sharedStrings.xml"), "xl/sharedStrings.xml: the part is missing"},
		{"texts not linked", good.replaced(t, "xl/_rels/workbook.xml.rels", "relationships/sharedStrings", "relationships/other"), "Rooms!A1: its text, number 0 of the shared texts, is missing"},
		{"texts of another kind", good.with("xl/sharedStrings.xml", `<styleSheet/>`), "not a table of texts"},
		{"style missing", sheetOf(`<row r="1"><c r="A1" s="6"><v>1</v></c></row>`), `Rooms!A1: its style "6" is missing`},
		{"styles missing", good.without("xl/styles.xml"), "xl/styles.xml: the part is missing"},
		{"sheet missing", good.without(sheet), "Rooms: its part xl/worksheets/sheet1.xml is missing"},
		{"sheet of another kind", good.with(sheet, `<sst/>`), "is not a sheet"},
		{"sheet not linked", good.replaced(t, "xl/workbook.xml", `r:id="rId1"`, `r:id="rId9"`), "Rooms: the workbook does not say which part"},
		{"sheet linked to styles", good.replaced(t, "xl/workbook.xml", `r:id="rId1"`, `r:id="rId3"`), "Rooms: its part is not a sheet"},
		{"two sheets of one name", good.replaced(t, "xl/workbook.xml", `</sheets>`, `<sheet name="ROOMS" sheetId="2" r:id="rId1"/></sheets>`), "ROOMS: two sheets have this name"},
		{"no sheets", good.replaced(t, "xl/workbook.xml", `<sheet name="Rooms" sheetId="1" r:id="rId1"/>`, ``), "the workbook has no sheets"},
		{"workbook missing", good.without("xl/workbook.xml"), "xl/workbook.xml: the part is missing"},
		{"links missing", good.without("xl/_rels/workbook.xml.rels"), "xl/_rels/workbook.xml.rels: the part is missing"},
		{"link twice", good.replaced(t, "xl/_rels/workbook.xml.rels", "rId2", "rId1"), `"rId1" stands twice`},
		{"number that is none", sheetOf(`<row r="1"><c r="A1"><v>12x</v></c></row>`), `Rooms!A1: "12x" is not a number`},
		{"boolean that is none", sheetOf(`<row r="1"><c r="A1" t="b"><v>2</v></c></row>`), `Rooms!A1: "2" is neither true nor false`},
		{"date that is none", sheetOf(`<row r="1"><c r="A1" t="d"><v>soon</v></c></row>`), `Rooms!A1: "soon" is not a date`},
		{"unknown type", sheetOf(`<row r="1"><c r="A1" t="q"><v>2</v></c></row>`), `Rooms!A1: its type "q" is not known`},
		{"two values", sheetOf(`<row r="1"><c r="A1"><v>2</v><v>3</v></c></row>`), "Rooms!A1: it has two values"},
		{"value in a value", sheetOf(`<row r="1"><c r="A1"><v>2<x/></v></c></row>`), "Rooms!A1: its value holds a <x>"},
		{"merged cells that are none", good.with(sheet, `<worksheet><sheetData/><mergeCells><mergeCell ref="B2:A1"/></mergeCells></worksheet>`), "merged cells cannot be read"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { refused(t, test.parts.zip(t), IsDamaged, test.want) })
	}
}

func TestPartTwice(t *testing.T) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, name := range []string{"_rels/.rels", "xl/workbook.xml", "XL/workbook.xml"} {
		if _, err := w.Create(name); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	refused(t, out.Bytes(), IsDamaged, "XL/workbook.xml: the part is in the package twice")
}

// Every byte of the sheet's part is turned over in a file without
// compression: either the file is refused, or nothing that is read changed.
func TestEveryFlippedByte(t *testing.T) {
	whole := minimal(`<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="3"><v>3.82</v></c></row>`).stored(t)
	b, err := OpenBytes(whole)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join(dump(b), "\n")
	refusals := 0
	for i := range whole {
		data := bytes.Clone(whole)
		data[i] ^= []byte{1, 0x20, 0x80}[i%3]
		b, err := OpenBytes(data)
		if err != nil {
			refusals++
			continue
		}
		if got := strings.Join(dump(b), "\n"); got != want {
			t.Fatalf("byte %d turned over: read %s without a word", i, got)
		}
	}
	if refusals < len(whole)/2 {
		t.Errorf("%d of %d damages refused", refusals, len(whole))
	}
}

func TestFileCutAnywhere(t *testing.T) {
	whole := minimal(`<row r="1"><c r="A1" t="s"><v>0</v></c></row>`).zip(t)
	for n := range whole {
		if _, err := OpenBytes(whole[:n]); err == nil {
			t.Fatalf("cut to %d of %d bytes and accepted", n, len(whole))
		}
	}
}

// Bombs are refused by what they declare, before they are unpacked; a
// declaration that lies is found while unpacking.
func TestBombs(t *testing.T) {
	blanks := strings.Repeat(" ", 17<<20)
	good := minimal(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	refused(t, good.with("xl/worksheets/sheet1.xml", "<worksheet>"+blanks+"</worksheet>").zip(t), IsTooLarge, "packed more than 300 times")

	many := parts{}
	for i := range maxEntries + 1 {
		many[strings.Repeat("a", i%50)+"/"+cellName(i+1, 1)] = ""
	}
	refused(t, many.zip(t), IsTooLarge, "parts, more than")

	lying := good.with("xl/worksheets/sheet1.xml", "<worksheet><sheetData>"+strings.Repeat(`<row/>`, 1000)+"</sheetData></worksheet>").zip(t)
	size := []byte{0x9e, 0x17, 0, 0} // 6046 bytes, little endian, in the directory
	at := bytes.LastIndex(lying, size)
	if at < 0 {
		t.Fatal("the part's size is not where it is looked for")
	}
	lying[at] = 1
	refused(t, lying, IsDamaged, "")
}

// Of 2,000 random damages to a packed workbook (a bit turned over, bytes cut
// out, doubled, blanked or cut off the end) none may change a value unnoticed.
func TestRandomDamage(t *testing.T) {
	var rows strings.Builder
	for i := range 40 {
		fmt.Fprintf(&rows, `<row r="%d"><c r="A%d" t="s"><v>%d</v></c><c r="B%d" s="3"><v>%d.%d</v></c></row>`, i+1, i+1, i%2, i+1, i, i*7%100)
	}
	whole := minimal(rows.String()).zip(t)
	b, err := OpenBytes(whole)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join(dump(b), "\n")
	random := rand.New(rand.NewPCG(1, 2))
	refusals, harmless := 0, 0
	for range 2000 {
		data := bytes.Clone(whole)
		at, n := random.IntN(len(data)), 1+random.IntN(40)
		n = min(n, len(data)-at)
		switch random.IntN(5) {
		case 0:
			data[at] ^= 1 << random.IntN(8)
		case 1:
			data = append(data[:at:at], data[at+n:]...)
		case 2:
			data = append(bytes.Clone(data[:at+n]), data[at:]...)
		case 3:
			clear(data[at : at+n])
		case 4:
			data = data[:at]
		}
		b, err := OpenBytes(data)
		switch {
		case err != nil:
			refusals++
		case strings.Join(dump(b), "\n") != want:
			t.Fatalf("damage at byte %d changed a value unnoticed", at)
		default:
			harmless++
		}
	}
	t.Logf("%d refused, %d changed nothing that is read", refusals, harmless)
}
