package book

import (
	"archive/zip"
	"bytes"
	"hash/crc32"
	"sort"
	"strings"
	"testing"
)

// parts is a package as text: part name to contents.
type parts map[string]string

const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`

// minimal is the smallest workbook: one sheet, Rooms, with these rows.
func minimal(sheetData string) parts {
	return parts{
		"[Content_Types].xml": head + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"_rels/.rels": head + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
			`<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml": head + `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">` +
			`<sheets><sheet name="Rooms" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": head + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
			`<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/>` +
			`<Relationship Id="rId3" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/></Relationships>`,
		"xl/sharedStrings.xml": head + `<sst xmlns="m"><si><t>Bed 1</t></si><si><r><rPr><b/></rPr><t>Bed</t></r><r><t xml:space="preserve"> 2</t></r><rPh sb="0" eb="1"><t>x</t></rPh></si></sst>`,
		"xl/styles.xml": head + `<styleSheet><numFmts count="2"><numFmt numFmtId="164" formatCode="0.00&quot; m&quot;"/><numFmt numFmtId="165" formatCode="d.m"/></numFmts>` +
			`<cellStyleXfs><xf numFmtId="9"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="10"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="20"/></cellXfs></styleSheet>`,
		"xl/worksheets/sheet1.xml": head + `<worksheet><sheetData>` + sheetData + `</sheetData></worksheet>`,
	}
}

// with is the package with one part replaced.
func (p parts) with(name, body string) parts {
	q := parts{}
	for k, v := range p {
		q[k] = v
	}
	q[name] = body
	return q
}

func (p parts) without(name string) parts {
	q := p.with(name, "")
	delete(q, name)
	return q
}

// replaced is the package with a text replaced in one part; the text must be
// there.
func (p parts) replaced(t testing.TB, name, old, with string) parts {
	t.Helper()
	if !strings.Contains(p[name], old) {
		t.Fatalf("%s does not contain %q", name, old)
	}
	return p.with(name, strings.ReplaceAll(p[name], old, with))
}

func (p parts) zip(t testing.TB) []byte {
	t.Helper()
	var names []string
	for name := range p {
		names = append(names, name)
	}
	sort.Strings(names)
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, name := range names {
		part, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := part.Write([]byte(p[name])); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// stored is the package with no part compressed, for planting damage in
// plain bytes.
func (p parts) stored(t testing.TB) []byte {
	t.Helper()
	var names []string
	for name := range p {
		names = append(names, name)
	}
	sort.Strings(names)
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, name := range names {
		body := []byte(p[name])
		part, err := w.CreateRaw(&zip.FileHeader{Name: name, CRC32: crc32.ChecksumIEEE(body), CompressedSize64: uint64(len(body)), UncompressedSize64: uint64(len(body))})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := part.Write(body); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
