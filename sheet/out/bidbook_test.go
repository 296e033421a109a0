package out_test

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strings"
	"testing"

	"laybill/estimate/money"
	"laybill/sheet/out"
)

// partsOf reads every part of a workbook, whatever it is.
func partsOf(t *testing.T, workbook []byte) map[string]string {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, file := range archive.File {
		r, err := file.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		parts[file.Name] = string(content)
	}
	return parts
}

// The bid as its own file tells nothing that the client must not know: no word
// and no figure of cost or margin in any part, no formula, no hidden sheet, no
// name but the print titles, no comment, no link.
func TestBidAloneHoldsNoCost(t *testing.T) {
	r := run(t, tinyJob(t))
	var workbook bytes.Buffer
	if err := out.WriteBid(&workbook, r); err != nil {
		t.Fatal(err)
	}
	l := r.Price.Ladder
	secrets := []money.Amount{l.Material, l.Labour, l.Other, l.Contingency, l.Overhead, l.Cost, l.Profit}
	for _, share := range r.Price.Rooms {
		secrets = append(secrets, share.Material, share.Labour, share.Profit)
	}
	words := regexp.MustCompile(`(?i)margin|markup|profit|overhead|contingenc|wage|burden|supplier|\bcosts?\b`)
	for name, part := range partsOf(t, workbook.Bytes()) {
		part = strings.NewReplacer("pageMargins", "", "markup-compatibility", "").Replace(part) // words of the format itself
		if found := words.FindString(part); found != "" {
			t.Errorf("%s says %q", name, found)
		}
		for _, mark := range []string{"<f>", "<f ", "state=\"hidden\"", "veryHidden", "hidden=\"1\"", "externalLink", "<comment"} {
			if strings.Contains(part, mark) {
				t.Errorf("%s holds %s", name, mark)
			}
		}
		for _, secret := range secrets {
			if secret.IsZero() || secret.Equal(l.Net) {
				continue
			}
			if regexp.MustCompile(`[>"]` + regexp.QuoteMeta(secret.Decimal().String()) + `[<"]`).MatchString(part) {
				t.Errorf("%s holds %s", name, secret)
			}
		}
		if strings.Contains(name, "comments") || strings.Contains(name, "vba") || strings.Contains(name, "externalLinks") {
			t.Errorf("there is a part %s", name)
		}
	}
	f := open(t, workbook.Bytes())
	if sheets := f.GetSheetList(); len(sheets) != 1 {
		t.Errorf("sheets %v", sheets)
	}
	for _, name := range f.GetDefinedName() {
		if name.Name != "_xlnm.Print_Titles" {
			t.Errorf("a name %s", name.Name)
		}
	}
	prices := map[string]bool{}
	eachCell(t, f, func(_, _, value, _ string) { prices[value] = true })
	for _, figure := range []money.Amount{l.Net, l.Tax, l.Gross} {
		if !prices[figure.Decimal().String()] {
			t.Errorf("the bid does not show %s", figure)
		}
	}
}
