package cmd

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/proof"
	"laybill/sheet/book"
	"laybill/sheet/exchange"
	"laybill/sheet/in"
)

// everyKindOfAmount is the base job with all that a result can hold amounts of:
// deliveries by floor, discount, delivery, tax as a cost, overtime, extras,
// contingency, retention, an option, a takeoff and risk.
var everyKindOfAmount = map[string]string{
	"Job.csv": "Setting,Value\nJob name,Two rooms\nJob number,N\nCurrency,EUR\nLength unit,mm\nTax %,20\nProfit %,10\nMaterial contingency %,2\nLabour contingency %,3\n" +
		"Other contingency %,4\nOverhead %,9\nRetention %,5\nPurchase tax is a cost,yes\nDeliveries,floor\nHours a day,9\nOvertime after hours a day,8\nMore hours %,20\nTarget margin %,8\n",
	"Suppliers.csv":    "Code,Name,Delivery charge,Minimum order,Discount %\nNOR,Northlight Floors,35,900,4\n",
	"Apartments.csv":   "Apartment,Type,Floor\nE1,A,1\nE2,A,2\n",
	"Extras.csv":       "Description,Per,Unit cost\nSkip,floor,99.95\n",
	"Price breaks.csv": "Product,From quantity,Price\nOAK,40,9\n",
	"Options.csv":      "Option,Replace,With\nNo film,FILM,FILM\n",
	"Takeoff.csv":      "Apartment type,Room,Area\nA,Living,20\nA,Attic,4\n",
}

// amountKeys are the keys of a result file that hold money.
var amountKeys = regexp.MustCompile(`^(costs\[\d+\]|net|goods|delivery|supplement|tax|gross|base|cost|amount|material|labour|other|(material|labour|other)_contingency|contingency|overhead|profit|retention|price|price_on_takeoff|difference|minimum_order|delivery_charge)$`)

// One cent more at any amount of a result file fails the proof.
func TestOneCentAnywhereFails(t *testing.T) {
	var file any
	decoder := json.NewDecoder(bytes.NewReader(resultOf(t, everyKindOfAmount)))
	decoder.UseNumber()
	if err := decoder.Decode(&file); err != nil {
		t.Fatal(err)
	}
	if !holds(t, file) {
		t.Fatal("the result does not hold as it is")
	}
	planted := 0
	eachText(file, "", "", func(path, key, text string, put func(string)) {
		amount, err := decimal.NewFromString(text)
		if err != nil || !amountKeys.MatchString(key) || strings.Contains(path, ".breaks[") { // list prices of breaks not reached charge nothing
			return
		}
		planted++
		put(amount.Add(decimal.New(1, -2)).String())
		if holds(t, file) {
			t.Errorf("a cent more at %s is not noticed", path)
		}
		put(text)
	})
	if planted < 100 {
		t.Errorf("only %d amounts were found", planted)
	}
}

// resultOf prices the base job with some sheets replaced.
func resultOf(t *testing.T, sheets map[string]string) []byte {
	t.Helper()
	folder := t.TempDir()
	base, err := filepath.Glob(filepath.Join("..", "testdata", "base", "*.csv"))
	if err != nil || len(base) == 0 {
		t.Fatal(err, base)
	}
	for _, from := range base {
		content, err := os.ReadFile(from)
		if err != nil {
			t.Fatal(err)
		}
		writeTo(t, filepath.Join(folder, filepath.Base(from)), content)
	}
	for name, content := range sheets {
		writeTo(t, filepath.Join(folder, name), []byte(content))
	}
	b, err := book.OpenFolder(os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	j, problems := in.Read(b)
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	r, problems, err := estimate.RunWithOptions(context.Background(), j, nil)
	if err != nil || r == nil {
		t.Fatal(err, problems)
	}
	var text bytes.Buffer
	if err := exchange.WriteResult(&text, r); err != nil {
		t.Fatal(err)
	}
	return text.Bytes()
}

func writeTo(t *testing.T, path string, content []byte) {
	t.Helper()
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
}

func holds(t *testing.T, file any) bool {
	t.Helper()
	text, err := json.Marshal(file)
	if err != nil {
		t.Fatal(err)
	}
	report, err := proof.Check(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return report.OK()
}

// eachText visits every text of a decoded file, with its path, its key and what
// puts another in its place.
func eachText(v any, path, key string, visit func(path, key, text string, put func(string))) {
	switch v := v.(type) {
	case map[string]any:
		keys := make([]string, 0, len(v))
		for k := range v {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		for _, k := range keys {
			if text, ok := v[k].(string); ok {
				visit(path+"."+k, k, text, func(s string) { v[k] = s })
				continue
			}
			eachText(v[k], path+"."+k, k, visit)
		}
	case []any:
		for i := range v {
			at := fmt.Sprintf("%s[%d]", key, i)
			if text, ok := v[i].(string); ok {
				visit(path+at, at, text, func(s string) { v[i] = s })
				continue
			}
			eachText(v[i], fmt.Sprintf("%s[%d]", path, i), at, visit)
		}
	}
}
