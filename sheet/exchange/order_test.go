package exchange

import (
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/estimate/purchase"
)

func number(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func currency(code string) money.Currency {
	c, err := money.Lookup(code)
	if err != nil {
		panic(err)
	}
	return c
}

// ordered is a job with the orders of some needs; only what orders are made
// from is filled in.
func ordered(settings job.Settings, suppliers []*job.Supplier, needs []purchase.Need) *estimate.Result {
	orders, materials, _ := purchase.Buy(settings, suppliers, needs)
	for i := range orders {
		orders[i].NeededBy = settings.StartDate
	}
	return &estimate.Result{Job: &job.Job{Settings: settings, Suppliers: suppliers}, Consignments: []estimate.Consignment{{}}, Orders: orders, Materials: materials}
}

// twoOrders is an order with every part, below the minimum, of planks by m2 at
// a discount and of bags; and a bare one.
func twoOrders() *estimate.Result {
	settings := job.Settings{
		Name: "Four flats <north>", Number: "J/7", Company: "Floors & Sons", CompanyAddress: "1 Yard", Site: "9 Quay", Currency: currency("EUR"), TaxName: "VAT",
		TaxPercent: number("20"), Date: time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC), StartDate: time.Date(2026, 5, 4, 0, 0, 0, 0, time.UTC),
	}
	euros := func(s string) money.Amount { return settings.Currency.Round(number(s)) }
	full := &job.Supplier{Code: "FULL", Name: "=Timber", Address: "2 Mill", City: "Town", Postcode: "T1", Country: "de", TaxNumber: "DE1", Email: "a@b.example",
		MinimumOrder: euros("2000"), Delivery: euros("45"), DiscountPercent: number("12.5")}
	bare := &job.Supplier{Code: "BARE", Name: "Bare"}
	plank := &job.Product{Code: "OAK", Description: "Oak plank", Supplier: full, Kind: job.Plank, SoldBy: job.PerPack, PricePer: job.PerSquareMetre, Price: number("31.455"),
		Length: 1285 * 320, Width: 192 * 320, PiecesPerPack: 8, AreaPerPack: 8 * 1285 * 192 * 320 * 320, OrderStep: number("1"), TaxPercent: number("7"), Weight: number("14.2")}
	bag := &job.Product{Code: "LEV", Description: "Compound", Supplier: full, Kind: job.Compound, SoldBy: job.PerBag, PricePer: job.PerBag, Price: number("17.9"), OrderStep: number("1"), TaxPercent: number("20")}
	tape := &job.Product{Code: "TAPE", Description: "@tape", Supplier: bare, Kind: job.Each, SoldBy: job.PerEach, PricePer: job.PerEach, Price: number("6"), OrderStep: number("1"), TaxPercent: number("0")}
	return ordered(settings, []*job.Supplier{full, bare}, []purchase.Need{
		{Product: plank, Sold: big.NewRat(50, 8)}, {Product: bag, Sold: big.NewRat(3, 1)}, {Product: tape, Sold: big.NewRat(2, 1)},
	})
}

func TestOrderFiles(t *testing.T) {
	files, err := OrderFiles(twoOrders())
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	if diff := cmp.Diff([]string{"orders.csv", "order-J-7-BARE.xml", "order-J-7-FULL.xml"}, names); diff != "" {
		t.Error(diff)
	}
	undated := twoOrders()
	undated.Job.Settings.Date = time.Time{}
	missing := MissingForOrders(undated.Job.Settings)
	if len(missing) != 1 || missing[0].Code != problem.OrderDateMissing || len(MissingForOrders(twoOrders().Job.Settings)) != 0 {
		t.Errorf("an order without a date: %v", missing)
	}
}

func TestFileNamesDiffer(t *testing.T) {
	taken := map[string]bool{}
	got := []string{fileName("a/b", taken), fileName("A.b", taken), fileName("../x", taken)}
	if diff := cmp.Diff([]string{"order-a-b", "order-A-b-2", "order----x"}, got); diff != "" {
		t.Error(diff)
	}
}

// Planks by hand: 7 packs of 1.97376 m2 at 31.455 are 434.59..: price of a pack
// 62.0846208, 434.59 less 54.32 discount = 380.27. Bags 3 x 17.9 = 53.70 less
// 6.71 = 46.99. Goods 427.26, delivery 45, supplement to 2000: 1572.74. Net
// 2045.00; tax 380.27 x 7 % = 26.62 and 1664.73 x 20 % = 332.95: 359.57.
func TestOrderByHand(t *testing.T) {
	doc := read(t, ublOf(t, twoOrders(), 1))
	got := []string{
		doc.Lines[1].Price, doc.Lines[1].Allowance[0].Amount, doc.Lines[1].Net, doc.Lines[0].Net, doc.Total.Lines, doc.Charges[0].Amount,
		doc.Charges[1].Amount, doc.Total.TaxExclusive, doc.Tax, doc.Total.Payable, doc.Lines[1].Quantity.Unit, doc.Lines[0].Quantity.Unit,
	}
	want := []string{"62.0846208", "54.32", "380.27", "46.99", "427.26", "45.00", "1572.74", "2045.00", "359.57", "2404.57", "XPK", "XBG"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func ublOf(t testing.TB, r *estimate.Result, order int) []byte {
	t.Helper()
	text, err := ublOrder(r.Job.Settings, "", &r.Orders[order])
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// received is an order as a supplier's program reads it, by local names.
type received struct {
	Currency string              `xml:"DocumentCurrencyCode"`
	Charges  []receivedAllowance `xml:"AllowanceCharge"`
	Tax      string              `xml:"TaxTotal>TaxAmount"`
	Total    struct {
		Lines        string `xml:"LineExtensionAmount"`
		TaxExclusive string `xml:"TaxExclusiveAmount"`
		TaxInclusive string `xml:"TaxInclusiveAmount"`
		Charges      string `xml:"ChargeTotalAmount"`
		Payable      string `xml:"PayableAmount"`
	} `xml:"AnticipatedMonetaryTotal"`
	Lines []receivedLine `xml:"OrderLine>LineItem"`
}

type receivedAllowance struct {
	Charge  bool   `xml:"ChargeIndicator"`
	Reason  string `xml:"AllowanceChargeReason"`
	Percent string `xml:"MultiplierFactorNumeric"`
	Amount  string `xml:"Amount"`
	Base    string `xml:"BaseAmount"`
}

type receivedLine struct {
	ID       string `xml:"ID"`
	Quantity struct {
		Unit  string `xml:"unitCode,attr"`
		Value string `xml:",chardata"`
	} `xml:"Quantity"`
	Net       string              `xml:"LineExtensionAmount"`
	Allowance []receivedAllowance `xml:"AllowanceCharge"`
	Price     string              `xml:"Price>PriceAmount"`
	Base      string              `xml:"Price>BaseQuantity"`
}

func read(t interface {
	Helper()
	Fatal(...any)
}, text []byte) received {
	t.Helper()
	var doc received
	if err := xml.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// broken lists the rules of the Peppol BIS order transaction (PEPPOL-T01, rules
// title 3.6) that a document breaks.
func (doc received) broken(minor int32) []string {
	var list []string
	rule := func(id string, kept bool) {
		if !kept {
			list = append(list, id)
		}
	}
	sum, ids := decimal.Zero, map[string]bool{}
	for _, line := range doc.Lines {
		quantity, price, base, net := number(line.Quantity.Value), number(line.Price), number(line.Base), number(line.Net)
		rule("R004 quantity not negative", quantity.Sign() >= 0)
		rule("R005 price not negative", price.Sign() >= 0)
		rule("R025 base quantity above zero", base.Sign() > 0)
		rule("R028 decimals of a line", -net.Exponent() <= minor)
		exact := new(big.Rat).Quo(new(big.Rat).Mul(quantity.Rat(), price.Rat()), base.Rat())
		for _, a := range line.Allowance {
			amount := number(a.Amount)
			rule("R023 reason of an allowance", a.Reason != "")
			rule("R032 allowance not negative", amount.Sign() >= 0 && !a.Charge)
			off := number(a.Base).Mul(number(a.Percent)).Shift(-2).Sub(amount)
			rule("R020 allowance of its base", off.Abs().Cmp(tolerance(minor)) <= 0)
			exact.Sub(exact, amount.Rat())
		}
		off := exact.Sub(exact, net.Rat())
		rule("R024 line = quantity x price / base - allowances", off.Abs(off).Cmp(tolerance(minor).Rat()) <= 0)
		rule("line ids differ", !ids[line.ID])
		ids[line.ID] = true
		sum = sum.Add(net)
	}
	charges := decimal.Zero
	for _, c := range doc.Charges {
		charges = charges.Add(number(c.Amount))
		rule("R023 reason of a charge", c.Reason != "" && c.Charge)
	}
	total := decimal.Zero
	if doc.Total.Charges != "" {
		total = number(doc.Total.Charges)
	}
	rule("R008 sum of the lines", number(doc.Total.Lines).Equal(sum))
	rule("R010 sum of the charges", total.Equal(charges))
	rule("R011 tax exclusive = lines + charges", number(doc.Total.TaxExclusive).Equal(sum.Add(charges)))
	rule("R017 tax inclusive = exclusive + tax", number(doc.Total.TaxInclusive).Equal(sum.Add(charges).Add(number(doc.Tax))))
	rule("R016 payable = inclusive", number(doc.Total.Payable).Equal(number(doc.Total.TaxInclusive)))
	return list
}

// tolerance is two minor units: 0.02 in a currency of two decimals.
func tolerance(minor int32) decimal.Decimal { return decimal.New(2, -minor) }

func TestOrderRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawOrder(t)
		text, err := ublOrder(r.Job.Settings, "", &r.Orders[0])
		if err != nil {
			t.Fatal(err)
		}
		if broken := read(t, text).broken(r.Job.Settings.Currency.Minor); len(broken) > 0 {
			t.Fatalf("%v broken by\n%s", broken, text)
		}
	})
}

func drawOrder(t *rapid.T) *estimate.Result {
	settings := job.Settings{Currency: currency(rapid.SampledFrom([]string{"EUR", "JPY", "KWD"}).Draw(t, "currency")), TaxName: "VAT", TaxPercent: number("20"), Date: time.Unix(0, 0)}
	amount := func(name string) money.Amount {
		return settings.Currency.Round(decimal.New(rapid.Int64Range(0, 99_999).Draw(t, name), -1))
	}
	supplier := &job.Supplier{Code: "S", Name: "S", Delivery: amount("delivery"), MinimumOrder: amount("minimum"), DiscountPercent: decimal.New(rapid.Int64Range(0, 1000).Draw(t, "discount"), -1)}
	var needs []purchase.Need
	for i := range rapid.IntRange(1, 5).Draw(t, "lines") {
		product := &job.Product{Code: fmt.Sprint(i), Supplier: supplier, Kind: job.Sheet, SoldBy: job.PerPack, PricePer: job.PerSquareMetre, OrderStep: number("1"), TaxPercent: number("7.25"),
			Price: decimal.New(rapid.Int64Range(0, 99_999).Draw(t, "price"), -3), AreaPerPack: 1 + 7919*1_000_003*9}
		needs = append(needs, purchase.Need{Product: product, Sold: big.NewRat(rapid.Int64Range(1, 5000).Draw(t, "packs"), 1)})
	}
	return ordered(settings, []*job.Supplier{supplier}, needs)
}

// A rule that is broken is found: one cent anywhere.
func TestBrokenRulesAreFound(t *testing.T) {
	good := string(ublOf(t, twoOrders(), 1))
	if broken := read(t, []byte(good)).broken(2); len(broken) > 0 {
		t.Fatal(broken)
	}
	for _, planted := range []struct{ old, new, rule string }{
		{">427.26<", ">427.27<", "R008 sum of the lines"},
		{">380.27<", ">380.37<", "R024 line = quantity x price / base - allowances"},
		{">2045.00<", ">2045.01<", "R011 tax exclusive = lines + charges"},
		{">359.57<", ">359.58<", "R017 tax inclusive = exclusive + tax"},
		{">54.32<", ">54.12<", "R020 allowance of its base"},
	} {
		broken := read(t, []byte(strings.Replace(good, planted.old, planted.new, 1))).broken(2)
		if !strings.Contains(strings.Join(broken, "; "), planted.rule) {
			t.Errorf("%s for %s: %v", planted.new, planted.old, broken)
		}
	}
}

// sharedPath is a path of the open reference data, which stands beside the
// repository or where LAYBILL_SHARED says.
func sharedPath(t *testing.T, name ...string) string {
	t.Helper()
	shared := os.Getenv("LAYBILL_SHARED")
	if shared == "" {
		shared = filepath.Join("..", "..", "..", "shared")
	}
	path := filepath.Join(append([]string{shared, "reference"}, name...)...)
	if _, err := os.Stat(path); err != nil {
		absent(t, err)
	}
	return path
}

func absent(t *testing.T, err error) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("not here: %v", err)
	}
	t.Skipf("not here: %v", err)
}

// The documents are valid by the published schema of OASIS UBL 2.4.
func TestOrdersAreValidUBL(t *testing.T) {
	schema := sharedPath(t, "ubl", "xsdrt", "maindoc", "UBL-Order-2.4.xsd")
	xmllint, err := exec.LookPath("xmllint")
	if err != nil {
		absent(t, err)
	}
	files, err := OrderFiles(twoOrders())
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	arguments := []string{"--nonet", "--noout", "--schema", schema}
	for _, f := range files[1:] {
		path := filepath.Join(dir, f.Name)
		if err := os.WriteFile(path, f.Data, 0o600); err != nil {
			t.Fatal(err)
		}
		arguments = append(arguments, path)
	}
	if out, err := exec.Command(xmllint, arguments...).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// Every unit of sale has a code that UN/ECE Recommendation 20 has in force, or
// one of Recommendation 21 with its X.
func TestUnitCodesAreInForce(t *testing.T) {
	inForce := map[string]bool{}
	for _, table := range []struct {
		file string
		good func([]string) bool
	}{
		{"rec20_units.csv", func(r []string) bool { return r[2] == "active" }},
		{"rec21_packaging.csv", func([]string) bool { return true }},
	} {
		file, err := os.Open(sharedPath(t, table.file))
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		rows := csv.NewReader(file)
		rows.Comment, rows.FieldsPerRecord = '#', -1
		records, err := rows.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range records[1:] {
			inForce[r[0]] = inForce[r[0]] || table.good(r)
		}
	}
	for unit := range job.Units {
		if code := unitCodes[job.Unit(unit)]; !inForce[code] {
			t.Errorf("%s has the code %q", job.Unit(unit), code)
		}
	}
}

// The nets of an order's rows add up to its net, and no text of the user's can
// be taken for a formula.
func TestOrderTable(t *testing.T) {
	r := twoOrders()
	text, err := orderTable(r)
	if err != nil {
		t.Fatal(err)
	}
	records, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sums := map[string]decimal.Decimal{}
	for _, record := range records[1:] {
		sums[record[0]] = sums[record[0]].Add(number(record[13]))
		for _, cell := range record {
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
				t.Errorf("cell %q", cell)
			}
		}
	}
	for _, o := range r.Orders {
		if !sums[o.Number].Equal(o.Net.Decimal()) {
			t.Errorf("rows of %s add up to %s, want %s", o.Number, sums[o.Number], o.Net)
		}
	}
}
