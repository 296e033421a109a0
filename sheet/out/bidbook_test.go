package out_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"laybill/estimate"
	"laybill/estimate/money"
	"laybill/estimate/revision"
	"laybill/sheet/exchange"
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

// secretsOf are the amounts that a client must not know.
func secretsOf(r *estimate.Result) []money.Amount {
	l := r.Price.Ladder
	secrets := []money.Amount{l.Material, l.Labour, l.Other, l.Contingency, l.Overhead, l.Cost, l.Profit}
	for _, share := range r.Price.Rooms {
		secrets = append(secrets, share.Material, share.Labour, share.Profit)
	}
	return slices.DeleteFunc(secrets, func(a money.Amount) bool { return a.IsZero() || a.Equal(l.Net) })
}

// holdsNoCost looks into every part of a workbook for the client: no word and no
// figure of cost or margin, no formula to anywhere else, no hidden sheet, no
// comment, no link, no program.
func holdsNoCost(t *testing.T, workbook []byte, secrets []money.Amount) {
	t.Helper()
	words := regexp.MustCompile(`(?i)margin|markup|profit|overhead|contingenc|wage|burden|supplier|\bcosts?\b`)
	for name, part := range partsOf(t, workbook) {
		part = strings.NewReplacer("pageMargins", "", "markup-compatibility", "").Replace(part) // words of the format itself
		if found := words.FindString(part); found != "" {
			t.Errorf("%s says %q", name, found)
		}
		for _, mark := range []string{"state=\"hidden\"", "veryHidden", "hidden=\"1\"", "externalLink", "<comment"} {
			if strings.Contains(part, mark) {
				t.Errorf("%s holds %s", name, mark)
			}
		}
		for _, secret := range secrets {
			if regexp.MustCompile(`[>"]` + regexp.QuoteMeta(secret.Decimal().String()) + `[<"]`).MatchString(part) {
				t.Errorf("%s holds %s", name, secret)
			}
		}
		if strings.Contains(name, "comments") || strings.Contains(name, "vba") || strings.Contains(name, "externalLinks") {
			t.Errorf("there is a part %s", name)
		}
	}
}

// The changes as the client may see them tell no cost either, in no part.
func TestChangesForTheClientHoldNoCost(t *testing.T) {
	j := tinyJob(t)
	product(j, "OAK").Price = product(j, "OAK").Price.Add(decimal.NewFromInt(3))
	before, after := run(t, tinyJob(t)), run(t, j)
	changes, err := revision.Compare(revisionOf(t, before), revisionOf(t, after))
	if err != nil {
		t.Fatal(err)
	}
	var client, own bytes.Buffer
	if err := errors.Join(out.WriteChangesForClient(&client, changes), out.WriteChanges(&own, changes)); err != nil {
		t.Fatal(err)
	}
	holdsNoCost(t, client.Bytes(), append(secretsOf(before), secretsOf(after)...))
	shown := map[string]bool{}
	eachCell(t, open(t, client.Bytes()), func(_, _, value, _ string) { shown[value] = true })
	for _, net := range []money.Amount{before.Price.Ladder.Net, after.Price.Ladder.Net} {
		if !shown[net.Decimal().String()] {
			t.Errorf("the client does not see %s", net)
		}
	}
	told := map[string]bool{}
	eachCell(t, open(t, own.Bytes()), func(_, _, value, _ string) { told[value] = true })
	if cost := after.Price.Ladder.Cost.Decimal().String(); !told[cost] {
		t.Errorf("the office does not see the cost %s", cost)
	}
}

func revisionOf(t *testing.T, r *estimate.Result) *revision.Revision {
	t.Helper()
	var file bytes.Buffer
	if err := exchange.WriteResult(&file, r); err != nil {
		t.Fatal(err)
	}
	read, err := revision.Read(&file)
	if err != nil {
		t.Fatal(err)
	}
	return read
}

// The bid's areas times its unit rates, each rounded, and the line of the
// difference make the price before tax to the cent.
func TestUnitRatesMakeThePrice(t *testing.T) {
	r := run(t, tinyJob(t))
	rows, err := open(t, write(t, r)).GetRows("Bid", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	const name, area, rate, extended = 0, 3, 4, 5
	dec := decimal.RequireFromString
	sum, rates, differences := decimal.Zero, 0, 0
	for _, row := range rows {
		switch {
		case len(row) <= extended:
		case row[name] == "All work on":
			rates++
			if product := dec(row[area]).Mul(dec(row[rate])).Round(2); !product.Equal(dec(row[extended])) {
				t.Errorf("%s x %s is %s, not %s", row[area], row[rate], product, row[extended])
			}
			sum = sum.Add(dec(row[extended]))
		case strings.HasPrefix(row[name], "Difference by rounding"):
			differences++
			sum = sum.Add(dec(row[extended]))
		}
	}
	if net := r.Price.Ladder.Net.Decimal(); rates == 0 || differences != 1 || !sum.Equal(net) {
		t.Errorf("%d rates and %d differences make %s, want %s", rates, differences, sum, net)
	}
}

// The bid as its own file tells nothing that the client must not know, has no
// formula and no name but the print titles, and shows the price.
func TestBidAloneHoldsNoCost(t *testing.T) {
	r := run(t, tinyJob(t))
	var workbook bytes.Buffer
	if err := out.WriteBid(&workbook, r); err != nil {
		t.Fatal(err)
	}
	l := r.Price.Ladder
	holdsNoCost(t, workbook.Bytes(), secretsOf(r))
	for name, part := range partsOf(t, workbook.Bytes()) {
		if strings.Contains(part, "<f>") || strings.Contains(part, "<f ") {
			t.Errorf("%s holds a formula", name)
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
