package cmd

import (
	"bytes"
	"context"
	"encoding/json"
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
	"laybill/sheet/form"
	"laybill/sheet/in"
	"laybill/templates"
)

// everyKindOfAmount is the base job with all that a result can hold amounts of:
// deliveries by floor, discounts, charges on lines, delivery, a deposit, sums
// payable that are rounded, two taxes and tax as a cost, overtime, extras,
// contingency, retention, an option, a takeoff, risk, and a repair with its call-out.
var everyKindOfAmount = map[string]string{
	"Job.csv": "Setting,Value\nJob name,Two rooms\nJob number,N\nCurrency,EUR\nLength unit,mm\nTax %,20\nProfit %,10\nMaterial contingency %,2\nLabour contingency %,3\n" +
		"Other contingency %,4\nOverhead %,9\nRetention %,5\nPurchase tax is a cost,yes\nDeliveries,floor\nHours a day,9\nOvertime after hours a day,8\nMore hours %,20\nTarget margin %,8\nPrice step,10\nLeast call-out hours,6\n",
	"Suppliers.csv": "Code,Name,Delivery charge,Minimum order,Free delivery from,Discount %,Order discount %,Order discount from,Paid already,Payable rounded to\n" +
		"NOR,Northlight Floors,35,900,2000,4,7.5,150,99.95,0.5\n",
	"Products.csv": "Code,Description,Kind,Supplier,Length,Width,Pieces per pack,Sold by,Price,Price per,Weight,Line charge,Tax %\n" +
		"OAK,Oak plank,plank,NOR,1285,192,8,pack,15,m2,14,9.99,7\nSKIR,Skirting,trim,NOR,2400,95,,piece,5,,,3.33,\nFILM,Vapour film,film,NOR,50000,2000,,roll,40,,,,\n",
	"Apartments.csv":   "Apartment,Type,Floor\nE1,A,1\nE2,A,2\n",
	"Extras.csv":       "Description,Per,Unit cost\nSkip,floor,99.95\n",
	"Price breaks.csv": "Product,From quantity,Price\nOAK,4,14\nOAK,40,9\n",
	"Options.csv":      "Option,Replace,With\nNo film,FILM,FILM\n",
	"Takeoff.csv":      "Apartment type,Room,Area\nA,Living,20\nA,Attic,4\n",
	"Repairs.csv":      "Apartment,Room,Product,Damaged planks,Length,From stock,Method,Rows to take up\nE1,Hall,OAK,3,,2,Take up,2\n",
	"Build-ups.csv":    "Build-up,Item,Measured by\nFloor,FILM,floor area\nFloor,OAK,laid area\nFloor,LAY,laid area\nFloor,SKIR,skirting\nTake up,TAKE,rows\n",
	"Operations.csv":   "Code,Description,Measured by,Hours per unit,Trade\nLAY,Lay planks,laid area,0.2,Layer\nTAKE,Take up a row,rows,0.15,Layer\n",
}

// amountKeys are the keys of a result file that hold money: amounts, and prices by
// the unit. The prices of trim_choices are ratios in whole numbers, no money.
var amountKeys = regexp.MustCompile(`^(net|goods|delivery|supplement|tax|gross|base|cost|amount|material|labour|other|(material|labour|other)_contingency|contingency|overhead|profit|retention|` +
	`price|price_step|price_on_takeoff|difference|minimum_order|delivery_charge|free_from|line_charge|order_discount|order_discount_from|paid_already|paid|payable_step|rounding|payable|list_price|unit_cost|wage|costs|left|right)$`)

// otherKeys are those that hold other numbers.
var otherKeys = regexp.MustCompile(`(_pct|_m2|_m3|_h|_kg|_mm|_mm_a_m|quantity|hours|_factor|_per_unit|_per_sold_unit|units_per_sold|per_sold_unit|sold_units|^(factor|packs|pieces|margin|markup|overtime_after|hours_a_day|area|takeoff_area|floor|phase|type|name|number|apartment|laid_through|bought|direction_deg))$`)

// costsWalked is the part of the risk's costs that are changed: all are compared
// in one loop.
const costsWalked = 50

// One minor unit more at any amount of a result file fails the proof.
func TestOneCentAnywhereFails(t *testing.T) {
	file := resultOf(t, everyKindOfAmount)
	if !holds(t, file) {
		t.Fatal("the result does not hold as it is")
	}
	walked := map[string]int{}
	for _, n := range numbersOf(t, file) {
		if !amountKeys.MatchString(n.key) {
			if !otherKeys.MatchString(n.key) {
				t.Errorf("%s is neither known as money nor as another number", n.path)
			}
			continue
		}
		if walked[n.path]++; n.key == "costs" && walked[n.path]%costsWalked != 0 {
			continue
		}
		more := n.value.Add(decimal.New(1, -2)).String()
		if holds(t, slices.Concat(file[:n.start], []byte(more), file[n.end:])) {
			t.Errorf("%s instead of %s at %s (%d) is not noticed", more, n.value, n.path, walked[n.path])
		}
	}
	for _, n := range numbersOf(t, demoResult(t)) {
		if amountKeys.MatchString(n.key) && walked[n.path] == 0 {
			t.Errorf("the demo has an amount at %s, the job of this test has none", n.path)
			walked[n.path]++
		}
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
	return priced(t, b)
}

// priced is the result file of a workbook.
func priced(t *testing.T, b *book.Book) []byte {
	t.Helper()
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

func holds(t *testing.T, file []byte) bool {
	t.Helper()
	report, err := proof.Check(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return report.OK()
}

// demoResult prices the demo.
func demoResult(t *testing.T) []byte {
	t.Helper()
	var workbook bytes.Buffer
	if err := form.Write(&workbook, templates.Demo(templates.Metric)); err != nil {
		t.Fatal(err)
	}
	b, err := book.OpenBytes(workbook.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return priced(t, b)
}

// spot is a text of a JSON file that is a decimal.
type spot struct {
	path       string // orders.lines.net: the same for all entries of a list
	key        string // the last name of the path
	value      decimal.Decimal
	start, end int // of the number within its quotes
}

// numbersOf lists the texts of a JSON object that are decimals, in their order.
func numbersOf(t *testing.T, file []byte) []spot {
	t.Helper()
	decoder := json.NewDecoder(bytes.NewReader(file))
	var numbers []spot
	var visit func(path, key string)
	visit = func(path, key string) {
		token, err := decoder.Token()
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case json.Delim:
			for decoder.More() {
				if token == '[' {
					visit(path, key)
					continue
				}
				name, _ := decoder.Token()
				visit(strings.TrimPrefix(path+"."+name.(string), "."), name.(string))
			}
			_, _ = decoder.Token()
		case string:
			if value, err := decimal.NewFromString(token); err == nil {
				end := int(decoder.InputOffset()) - 1
				numbers = append(numbers, spot{path, key, value, end - len(token), end})
			}
		}
	}
	visit("", "")
	return numbers
}
