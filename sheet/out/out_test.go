package out_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/sheet/book"
	"laybill/sheet/in"
	"laybill/sheet/out"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// tinyJob is three apartments of two rooms, one of them mirrored; its rooms
// can be laid in one way only.
func tinyJob(t testing.TB) *job.Job {
	t.Helper()
	b, err := book.OpenFolder(os.DirFS("testdata/tiny"))
	if err != nil {
		t.Fatal(err)
	}
	j, problems := in.Read(b)
	if problems.HasErrors() {
		t.Fatalf("the tiny job has errors: %v", problems)
	}
	return j
}

func run(t testing.TB, j *job.Job) *estimate.Result {
	t.Helper()
	r, problems, err := estimate.Run(context.Background(), j, nil)
	if err != nil || r == nil {
		t.Fatalf("the job cannot be estimated: %v %v", err, problems)
	}
	return r
}

func write(t testing.TB, r *estimate.Result) []byte {
	t.Helper()
	var w bytes.Buffer
	if err := out.Write(&w, r); err != nil {
		t.Fatal(err)
	}
	return w.Bytes()
}

// Workbooks that several tests read, written once: the tiny job's, and that of
// the job without its price step, which would hide a small difference.
var tiny, unstepped struct {
	once     sync.Once
	workbook []byte
}

func tinyWorkbook(t testing.TB) []byte {
	tiny.once.Do(func() { tiny.workbook = write(t, run(t, tinyJob(t))) })
	return tiny.workbook
}

func unsteppedJob(t testing.TB) *job.Job {
	j := tinyJob(t)
	j.Settings.PriceStep = j.Settings.Currency.Zero()
	return j
}

func unsteppedWorkbook(t testing.TB) []byte {
	unstepped.once.Do(func() { unstepped.workbook = write(t, run(t, unsteppedJob(t))) })
	return unstepped.workbook
}

func open(t testing.TB, workbook []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(workbook))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

// eachCell visits every cell of a workbook that holds something.
func eachCell(t testing.TB, f *excelize.File, visit func(sheet, cell, value, formula string)) {
	t.Helper()
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for y, row := range rows {
			for x, value := range row {
				cell, _ := excelize.CoordinatesToCellName(x+1, y+1)
				formula, err := f.GetCellFormula(sheet, cell)
				if err != nil {
					t.Fatal(err)
				}
				if value != "" || formula != "" {
					visit(sheet, cell, value, formula)
				}
			}
		}
	}
}

// The whole workbook of the tiny job as text, to be read in review.
func TestWorkbook(t *testing.T) {
	var dump strings.Builder
	eachCell(t, open(t, tinyWorkbook(t)), func(sheet, cell, value, formula string) {
		fmt.Fprintf(&dump, "%s!%s = %s", sheet, cell, value)
		if formula != "" {
			fmt.Fprintf(&dump, " | %s", formula)
		}
		dump.WriteString("\n")
	})
	golden := "testdata/tiny.txt"
	if *update {
		if err := os.WriteFile(golden, []byte(dump.String()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(dump.String(), "\n")); diff != "" {
		t.Errorf("the workbook is not as recorded (-want +got); -update rewrites it:\n%s", diff)
	}
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(tinyWorkbook(t), write(t, run(t, tinyJob(t)))) {
		t.Error("two workbooks of one result differ")
	}
}

// Every formula is calculated anew, by excelize's own calculator, and must give
// the value stored beside it: that value came from exact decimals.
func TestFormulasHoldTheirResults(t *testing.T) {
	learned := tinyJob(t)
	learned.Settings.LearningPercent = decimal.NewFromInt(90)
	for name, workbook := range map[string][]byte{"as it is": tinyWorkbook(t), "learned": write(t, run(t, learned)), "all terms": write(t, run(t, onTerms(tinyJob(t))))} {
		t.Run(name, func(t *testing.T) { formulasHold(t, open(t, workbook)) })
	}
}

// onTerms is the job with charges on lines, discounts on whole orders, deposits and
// rounded payments, at three rates of tax, ordered floor by floor.
func onTerms(j *job.Job) *job.Job {
	dec := decimal.RequireFromString
	amount := func(text string) money.Amount { return j.Settings.Currency.Round(dec(text)) }
	north, south := j.Suppliers[0], j.Suppliers[1]
	north.OrderDiscountPercent, north.OrderDiscountFrom, north.Paid, north.PayableStep = dec("3.25"), amount("150"), amount("201.37"), amount("0.5")
	south.OrderDiscountPercent, south.Paid = dec("10"), amount("5")
	for i, p := range j.Products {
		p.LineCharge, p.TaxPercent = amount([]string{"7.77", "0"}[i%2]), dec([]string{"20", "5", "0"}[i%3])
	}
	j.Settings.Deliveries = job.DeliverFloors
	return j
}

func formulasHold(t *testing.T, f *excelize.File) {
	formulas := 0
	eachCell(t, f, func(sheet, cell, value, formula string) {
		if formula == "" {
			return
		}
		formulas++
		got, err := f.CalcCellValue(sheet, cell, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Errorf("%s!%s: %s: %v", sheet, cell, formula, err)
			return
		}
		if !alike(got, value) {
			t.Errorf("%s!%s: %s gives %s, stored is %s", sheet, cell, formula, got, value)
		}
	})
	if formulas < 100 {
		t.Errorf("only %d formulas: the totals are not live", formulas)
	}
}

func alike(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX != nil || errY != nil {
		return a == b
	}
	return math.Abs(x-y) < 1e-9
}

// A cell changed in the workbook must move the price to what a new estimate
// with that change gives.
func TestChangesMoveThePrice(t *testing.T) {
	dec := decimal.RequireFromString
	for _, c := range []change{
		{"price of a plank", "Orders", "Price", "OAK", 30.005, func(j *job.Job) { product(j, "OAK").Price = dec("30.005") }},
		{"discount", "Orders", "Discount", "SK", 0.4, nil},
		{"wage", "Trades", "Wage an hour", "Layer", 31.4, func(j *job.Job) { j.Trades[0].Wage = dec("31.4") }},
		{"burden", "Trades", "Burden", "Clerk", 0.255, func(j *job.Job) { j.Trades[1].BurdenPercent = dec("25.5") }},
		{"hours per unit", "Operations", "Hours per unit", "FIX", 0.117, func(j *job.Job) { j.Operations[1].HoursPerUnit = dec("0.117") }},
		{"least hours take over and give way", "Operations", "Hours per unit", "LAY", 1.9, func(j *job.Job) { j.Operations[0].HoursPerUnit = dec("1.9") }},
		{"unit cost", "Other costs", "Unit cost", "Parking", 9.99, func(j *job.Job) { j.Extras[1].UnitCost = dec("9.99") }},
		{"delivery charge", "Order totals", "Charge", "North Supplies", 80, func(j *job.Job) {
			j.Suppliers[0].Delivery, _ = j.Settings.Currency.Exact(dec("80"))
		}},
		{"minimum order", "Order totals", "Minimum", "North Supplies", 900, func(j *job.Job) {
			j.Suppliers[0].MinimumOrder, _ = j.Settings.Currency.Exact(dec("900"))
		}},
		{"overhead", "Summary", "Per cent", "Overhead", 0.1, func(j *job.Job) { j.Settings.OverheadPercent = dec("10") }},
		{"profit", "Summary", "Per cent", "Profit, on price", 0.22, func(j *job.Job) { j.Settings.ProfitPercent = dec("22") }},
	} {
		t.Run(c.name, func(t *testing.T) { c.movesThePrice(t, unsteppedWorkbook(t), unsteppedJob(t)) })
	}
}

// So must the terms of purchase; a deposit moves no price.
func TestChangesOfTermsMoveThePrice(t *testing.T) {
	dec := decimal.RequireFromString
	fresh := func() *job.Job {
		j := onTerms(unsteppedJob(t))
		j.Settings.Deliveries = job.DeliverJob
		return j
	}
	workbook := write(t, run(t, fresh()))
	for _, c := range []change{
		{"line charge", "Orders", "Line charge", "OAK", 31.05, func(j *job.Job) { product(j, "OAK").LineCharge = j.Settings.Currency.Round(dec("31.05")) }},
		{"order discount", "Order discounts", "Order discount %", "North Supplies", 0.041, func(j *job.Job) { j.Suppliers[0].OrderDiscountPercent = dec("4.1") }},
		{"order discount out of reach", "Order discounts", "From goods of", "North Supplies", 1e5, func(j *job.Job) {
			j.Suppliers[0].OrderDiscountFrom = j.Settings.Currency.Round(dec("100000"))
		}},
		{"a deposit costs nothing", "Order payments", "Paid already", "North Supplies", 1234, func(*job.Job) {}},
	} {
		t.Run(c.name, func(t *testing.T) { c.movesThePrice(t, workbook, fresh()) })
	}
}

// change is one cell that is changed in a workbook, and the same in the job.
type change struct {
	name       string
	sheet      string
	heading    string
	key        string // text in the row to change
	value      float64
	inEstimate func(*job.Job)
}

func (c change) movesThePrice(t *testing.T, workbook []byte, j *job.Job) {
	f := open(t, workbook)
	before := calculated(t, f)
	if err := f.SetCellValue(c.sheet, find(t, f, c.sheet, c.heading, c.key), c.value); err != nil {
		t.Fatal(err)
	}
	after := calculated(t, f)
	if c.inEstimate == nil {
		if before == after {
			t.Errorf("the price stays %s", after)
		}
		return
	}
	c.inEstimate(j)
	if want := run(t, j).Price.Ladder.Gross.Decimal().String(); after != want {
		t.Errorf("the price becomes %s, a new estimate gives %s (before: %s)", after, want, before)
	}
}

func product(j *job.Job, code string) *job.Product {
	for _, p := range j.Products {
		if p.Code == code {
			return p
		}
	}
	return nil
}

// calculated is the price with tax on the summary, calculated from scratch.
func calculated(t *testing.T, f *excelize.File) string {
	t.Helper()
	value, err := f.CalcCellValue("Summary", find(t, f, "Summary", "EUR", "Price with VAT"), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return decimal.RequireFromString(value).String()
}

// find is the cell below a heading in the row that holds a text.
func find(t *testing.T, f *excelize.File, sheet, heading, key string) string {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	col := -1
	for y, row := range rows {
		for x, value := range row {
			if col < 0 && value == heading {
				col = x
			}
		}
		if col >= 0 {
			for _, value := range row {
				if value == key {
					cell, _ := excelize.CoordinatesToCellName(col+1, y+1)
					return cell
				}
			}
		}
	}
	t.Fatalf("%s has no %s of %s", sheet, heading, key)
	return ""
}

// Texts of the user are never formulas (a supplier is called =South+Co), and
// the bid shows neither cost nor margin.
func TestWhatIsNotThere(t *testing.T) {
	f := open(t, tinyWorkbook(t))
	eachCell(t, f, func(sheet, cell, value, formula string) {
		if strings.Contains(formula, "South") {
			t.Errorf("%s!%s: a name has become the formula %s", sheet, cell, formula)
		}
		if sheet != "Bid" {
			return
		}
		for _, secret := range []string{"cost", "margin", "profit", "wage", "overhead", "contingency"} {
			if strings.Contains(strings.ToLower(value), secret) {
				t.Errorf("Bid!%s tells the client %q", cell, value)
			}
		}
	})
}

// BenchmarkThousandApartments writes the workbook of 1,000 apartments.
func BenchmarkThousandApartments(b *testing.B) {
	j := tinyJob(b)
	j.Apartments = nil
	for i := range 1000 {
		j.Apartments = append(j.Apartments, &job.Apartment{Name: fmt.Sprintf("%04d", i+1), Type: "A", Floor: fmt.Sprint(i / 10), Mirrored: i%2 == 1})
	}
	r := run(b, j)
	b.ReportAllocs()
	for b.Loop() {
		b.ReportMetric(float64(len(write(b, r))), "bytes")
	}
}
