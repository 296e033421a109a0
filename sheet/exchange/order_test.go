package exchange

import (
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
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
	"laybill/estimate/published"
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

	Parties []struct {
		Company string `xml:"CompanyID"`
		Scheme  string `xml:"TaxScheme>ID"`
	} `xml:"SellerSupplierParty>Party>PartyTaxScheme"`
	Total struct {
		Lines        string `xml:"LineExtensionAmount"`
		TaxExclusive string `xml:"TaxExclusiveAmount"`
		TaxInclusive string `xml:"TaxInclusiveAmount"`
		Allowances   string `xml:"AllowanceTotalAmount"`
		Charges      string `xml:"ChargeTotalAmount"`
		Prepaid      string `xml:"PrepaidAmount"`
		Rounding     string `xml:"PayableRoundingAmount"`
		Payable      string `xml:"PayableAmount"`
	} `xml:"AnticipatedMonetaryTotal"`
	Lines []receivedLine `xml:"OrderLine>LineItem"`
}

type receivedAllowance struct {
	Charge  bool   `xml:"ChargeIndicator"`
	Reason  string `xml:"AllowanceChargeReason"`
	Code    string `xml:"AllowanceChargeReasonCode"`
	Percent string `xml:"MultiplierFactorNumeric"`
	Amount  string `xml:"Amount"`
	Base    string `xml:"BaseAmount"`

	Category *receivedCategory `xml:"TaxCategory"`
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
	Category  *receivedCategory   `xml:"Item>ClassifiedTaxCategory"`

	GrossPrice     string `xml:"Price>AllowanceCharge>BaseAmount"`
	PriceAllowance string `xml:"Price>AllowanceCharge>Amount"`
}

type receivedCategory struct {
	ID      string `xml:"ID"`
	Percent string `xml:"Percent"`
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
// title 3.6) that a document breaks: all that bear on what an order of ours
// holds. R002 (validity), R014 (originator), R031 and R034 (Peppol profiles) bear
// on elements that none has.
func (doc received) broken(text []byte, minor int32) []string {
	var list []string
	rule := func(id string, kept bool) {
		if !kept {
			list = append(list, id)
		}
	}
	for _, currency := range currencies.FindAllSubmatch(text, -1) {
		rule("R003", string(currency[1]) == doc.Currency)
	}
	sum, allowances, charges, ids := decimal.Zero, decimal.Zero, decimal.Zero, map[string]bool{}
	for _, line := range doc.Lines {
		rule("R001", line.ID != "" && !ids[line.ID])
		ids[line.ID] = true
		sum = sum.Add(number(line.Net))
		line.broken(rule, minor)
	}
	for _, c := range doc.Charges {
		c.broken(rule, minor)
		if c.Charge {
			charges = charges.Add(number(c.Amount))
		} else {
			allowances = allowances.Add(number(c.Amount))
		}
	}
	t := doc.Total
	rule("R006", number(t.Payable).Sign() >= 0)
	rule("R007", number(t.Lines).Sign() >= 0)
	rule("R008", number(t.Lines).Equal(sum))
	rule("R009", orZero(t.Allowances).Equal(allowances))
	rule("R010", orZero(t.Charges).Equal(charges))
	rule("R011", number(t.TaxExclusive).Equal(number(t.Lines).Sub(orZero(t.Allowances)).Add(orZero(t.Charges))))
	rule("R016", number(t.Payable).Equal(number(t.TaxInclusive).Sub(orZero(t.Prepaid)).Add(orZero(t.Rounding))))
	rule("R017", doc.Tax == "" || number(t.TaxInclusive).Equal(number(t.TaxExclusive).Add(number(doc.Tax))))
	for _, amount := range []string{t.Lines, t.Allowances, t.Charges, t.TaxExclusive, t.TaxInclusive, t.Prepaid, t.Rounding, t.Payable, doc.Tax} {
		rule("R028", -orZero(amount).Exponent() <= minor)
	}
	for _, category := range doc.categories() {
		rule("R029", category.Percent != "" || category.ID == "O")
		rule("R030", category.ID != "S" || orZero(category.Percent).Sign() > 0)
	}
	for _, party := range doc.Parties {
		rule("R026", party.Scheme != "VAT" || countryPrefix.MatchString(party.Company))
	}
	return list
}

var (
	currencies    = regexp.MustCompile(`currencyID="([^"]*)"`)
	countryPrefix = regexp.MustCompile(`^[A-Z]{2}`)
)

func (line receivedLine) broken(rule func(string, bool), minor int32) {
	quantity, price, base, net := number(line.Quantity.Value), number(line.Price), number(line.Base), number(line.Net)
	rule("R004", quantity.Sign() >= 0)
	rule("R005", price.Sign() >= 0)
	rule("R013", line.Quantity.Value != "")
	rule("R025", base.Sign() > 0)
	rule("R028", -net.Exponent() <= minor)
	rule("R019", line.GrossPrice == "" || price.Equal(number(line.GrossPrice).Sub(orZero(line.PriceAllowance))))
	rule("R027", orZero(line.GrossPrice).Sign() >= 0)
	rule("R033", orZero(line.PriceAllowance).Sign() >= 0)
	exact := new(big.Rat)
	if base.Sign() != 0 {
		exact.Quo(new(big.Rat).Mul(quantity.Rat(), price.Rat()), base.Rat())
	}
	for _, a := range line.Allowance {
		a.broken(rule, minor)
		if amount := number(a.Amount); a.Charge {
			exact.Add(exact, amount.Rat())
		} else {
			exact.Sub(exact, amount.Rat())
		}
	}
	off := exact.Sub(exact, net.Rat())
	rule("R024", off.Abs(off).Cmp(tolerance(minor).Rat()) <= 0)
}

func (a receivedAllowance) broken(rule func(string, bool), minor int32) {
	rule("R020", a.Percent == "" || a.Base != "")
	rule("R021", a.Base == "" || a.Percent != "")
	if a.Base != "" && a.Percent != "" {
		off := number(a.Base).Mul(number(a.Percent)).Shift(-2).Sub(number(a.Amount))
		rule("R022", off.Abs().Cmp(tolerance(minor)) <= 0)
	}
	rule("R023", a.Reason != "" || a.Code != "")
	rule("R028", -number(a.Amount).Exponent() <= minor)
	rule("R032", number(a.Amount).Sign() >= 0)
}

// categories are all tax categories of the document.
func (doc received) categories() []receivedCategory {
	var all []receivedCategory
	for _, c := range doc.Charges {
		if c.Category != nil {
			all = append(all, *c.Category)
		}
	}
	for _, line := range doc.Lines {
		if line.Category != nil {
			all = append(all, *line.Category)
		}
	}
	return all
}

func orZero(text string) decimal.Decimal {
	if text == "" {
		return decimal.Zero
	}
	return number(text)
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
		if broken := read(t, text).broken(text, r.Job.Settings.Currency.Minor); len(broken) > 0 {
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

// Every rule is broken once, and found by its number.
func TestBrokenRulesAreFound(t *testing.T) {
	good := string(ublOf(t, twoOrders(), 1))
	if broken := read(t, []byte(good)).broken([]byte(good), 2); len(broken) > 0 {
		t.Fatal(broken)
	}
	gross := `<cbc:BaseQuantity unitCode="XBG">1</cbc:BaseQuantity><cac:AllowanceCharge><cbc:Amount>%s</cbc:Amount><cbc:BaseAmount>%s</cbc:BaseAmount></cac:AllowanceCharge>`
	for _, planted := range []struct{ rule, old, new string }{
		{"R001", "<cbc:ID>2</cbc:ID>", "<cbc:ID>1</cbc:ID>"},
		{"R003", `<cbc:PayableAmount currencyID="EUR">`, `<cbc:PayableAmount currencyID="USD">`},
		{"R004", `<cbc:Quantity unitCode="XBG">3<`, `<cbc:Quantity unitCode="XBG">-3<`},
		{"R005", ">17.9<", ">-17.9<"},
		{"R006", `PayableAmount currencyID="EUR">`, `PayableAmount currencyID="EUR">-`},
		{"R007", ">427.26<", ">-427.26<"},
		{"R008", ">427.26<", ">427.27<"},
		{"R009", "<cbc:ChargeTotalAmount", `<cbc:AllowanceTotalAmount>1</cbc:AllowanceTotalAmount><cbc:ChargeTotalAmount`},
		{"R010", ">1617.74<", ">1617.75<"},
		{"R011", ">2045.00<", ">2045.01<"},
		{"R016", `PayableAmount currencyID="EUR">2404.57<`, `PayableAmount currencyID="EUR">2404.58<`},
		{"R017", ">359.57<", ">359.58<"},
		{"R019", `<cbc:BaseQuantity unitCode="XBG">1</cbc:BaseQuantity>`, fmt.Sprintf(gross, "1", "19")},
		{"R020", "<cbc:BaseAmount currencyID=\"EUR\">434.59</cbc:BaseAmount>", ""},
		{"R021", "<cbc:MultiplierFactorNumeric>12.5</cbc:MultiplierFactorNumeric>", ""},
		{"R022", ">54.32<", ">54.12<"},
		{"R023", "<cbc:AllowanceChargeReason>Delivery</cbc:AllowanceChargeReason>", ""},
		{"R024", ">380.27<", ">380.37<"},
		{"R025", `<cbc:BaseQuantity unitCode="XBG">1<`, `<cbc:BaseQuantity unitCode="XBG">0<`},
		{"R026", ">DE1<", ">1<"},
		{"R027", `<cbc:BaseQuantity unitCode="XBG">1</cbc:BaseQuantity>`, fmt.Sprintf(gross, "1", "-1")},
		{"R028", ">45.00<", ">45.001<"},
		{"R029", "<cbc:Percent>20</cbc:Percent>", ""},
		{"R030", "<cbc:Percent>7</cbc:Percent>", "<cbc:Percent>0</cbc:Percent>"},
		{"R032", ">45.00<", ">-45.00<"},
		{"R033", `<cbc:BaseQuantity unitCode="XBG">1</cbc:BaseQuantity>`, fmt.Sprintf(gross, "-1", "17.9")},
	} {
		t.Run("PEPPOL-T01-"+planted.rule, func(t *testing.T) {
			bad := strings.Replace(good, planted.old, planted.new, 1)
			if bad == good {
				t.Fatalf("%q is not in the document", planted.old)
			}
			if !slices.Contains(read(t, []byte(bad)).broken([]byte(bad), 2), planted.rule) {
				t.Error("not found broken")
			}
		})
	}
}

// The published examples of Peppol orders (peppol_order_examples.csv: lines,
// document allowances and charges, tax, prepaid and rounding amounts), read as a
// supplier would, keep the same rules to the cent, and a cent more at any of
// their totals breaks one.
func TestPublishedExamplesKeepTheRules(t *testing.T) {
	line := regexp.MustCompile(`^([\d.]+)x([\d.]+)(?:/1)?(?:\+([\d.]+))?(?:-([\d.]+))?=([\d.]+)`)
	for _, r := range published.Table(t, "peppol_order_examples.csv") {
		if r[0] == "UBL-Order-2.1-Example" { // has no tax totals
			continue
		}
		var doc received
		for i, text := range strings.Split(r[2], "; ") {
			m := line.FindStringSubmatch(text)
			if m == nil {
				continue // the totals of the guide's text have no lines
			}
			l := receivedLine{ID: fmt.Sprint(i + 1), Net: m[5], Price: m[2], Base: "1"}
			l.Quantity.Value = m[1]
			for _, a := range []receivedAllowance{{Charge: true, Reason: "r", Amount: m[3]}, {Reason: "r", Amount: m[4]}} {
				if a.Amount != "" {
					l.Allowance = append(l.Allowance, a)
				}
			}
			doc.Lines = append(doc.Lines, l)
		}
		if len(doc.Lines) == 0 {
			doc.Lines = []receivedLine{{ID: "1", Net: r[3], Price: r[3], Base: "1"}}
			doc.Lines[0].Quantity.Value = "1"
		}
		first := func(texts ...string) string {
			for _, text := range texts {
				if text != "" {
					return text
				}
			}
			return "0"
		}
		total := &doc.Total
		total.Lines, total.Allowances, total.Charges, total.Prepaid, total.Rounding = r[3], strings.Fields(r[4] + " 0")[0], first(r[5]), first(r[9]), first(r[10])
		doc.Tax, total.Payable = first(r[7]), r[11]
		total.TaxExclusive = first(r[6], r[3])
		total.TaxInclusive = first(r[8], r[11])
		doc.Charges = []receivedAllowance{{Reason: "r", Amount: total.Allowances}, {Charge: true, Reason: "r", Amount: total.Charges}}
		if broken := doc.broken(nil, 2); len(broken) > 0 {
			t.Errorf("%s: %v", r[0], broken)
		}
		for _, amount := range []*string{&total.Lines, &total.Allowances, &total.Charges, &total.TaxExclusive, &total.TaxInclusive, &total.Prepaid, &total.Rounding, &total.Payable, &doc.Tax} {
			was := *amount
			*amount = number(was).Add(number("0.01")).String()
			if len(doc.broken(nil, 2)) == 0 {
				t.Errorf("%s: a cent more than %s is not noticed", r[0], was)
			}
			*amount = was
		}
	}
}

// What comes on pallets by hand: 50 packs, 24 a pallet, are two full ones and 2
// packs on a part; 48 are two full. The supplier reads it on the line, in both
// formats; a product whose row says no pallet has none.
func TestPartPalletsAreToldToTheSupplier(t *testing.T) {
	for _, row := range []struct {
		packs      int64
		note, cell string
	}{{50, "Full pallets: 2. On a part pallet: 2 of 24.", ",2,2"}, {48, "Full pallets: 2. On a part pallet: 0 of 24.", ",2,0"}} {
		settings := job.Settings{Currency: currency("EUR"), TaxName: "VAT", Date: time.Unix(0, 0)}
		supplier := &job.Supplier{Code: "S", Name: "S"}
		product := &job.Product{Code: "P", Supplier: supplier, Kind: job.Sheet, SoldBy: job.PerPack, PricePer: job.PerPack, Price: number("1"), OrderStep: number("1"),
			AreaPerPack: 320 * 320, PacksPerPallet: 24}
		r := ordered(settings, []*job.Supplier{supplier}, []purchase.Need{{Product: product, Sold: big.NewRat(row.packs, 1)}})
		table, err := orderTable(r)
		if err != nil {
			t.Fatal(err)
		}
		if text := string(ublOf(t, r, 0)); !strings.Contains(text, "<cbc:Note>"+row.note+"</cbc:Note>") {
			t.Errorf("the order does not say %q:\n%s", row.note, text)
		}
		if lines := strings.Split(strings.TrimSpace(string(table)), "\n"); !strings.HasSuffix(lines[1], row.cell) {
			t.Errorf("%s does not end with %s", lines[1], row.cell)
		}
		product.PacksPerPallet = 0
		if strings.Contains(string(ublOf(t, r, 0)), "pallet") {
			t.Error("pallets of a product that has none")
		}
	}
}

// The published examples as orders of ours: their goods bought from a supplier who
// charges for delivery what the example charges, and written as UBL. Prices less an
// allowance are prices with a discount. Four examples come out whole, to the cent.
// Of the others ours has the lines and the charge: our orders have no charge on a
// line, no allowance on the order as a whole (a supplier's discount is each line's),
// no tax but by rate, nothing prepaid and no rounding of the sum payable.
func TestPublishedExamplesAreReproduced(t *testing.T) {
	for _, example := range []struct {
		name     string
		lines    [][3]string // quantity, price, discount %
		delivery string
		tax      string // %
		whole    bool
		nets     []string // of the lines that ours can express
	}{
		{name: "UC1", lines: [][3]string{{"10", "4", "0"}, {"5", "6", "0"}, {"15", "3", "0"}}, tax: "25", whole: true, nets: []string{"40", "30", "45"}},
		{name: "UC2", lines: [][3]string{{"10", "40", "0"}, {"50", "6", "0"}}, tax: "25", whole: true, nets: []string{"400", "300"}},
		{name: "UC3", lines: [][3]string{{"1", "400", "0"}}, tax: "0", whole: true, nets: []string{"400"}},
		{name: "UC6", lines: [][3]string{{"10", "40", "0"}}, tax: "25", whole: true, nets: []string{"400"}},
		{name: "UC4", lines: [][3]string{{"50", "2", "50"}}, delivery: "10", tax: "0", nets: []string{"50"}},
		{name: "UBL-Order-2.1-Example", lines: [][3]string{{"120", "50", "0"}, {"15", "15", "0"}}, delivery: "100", tax: "0", nets: []string{"6000", "225"}},
		{name: "Order_Example", lines: [][3]string{{"15", "15", "0"}}, delivery: "400", tax: "0", nets: []string{"225"}},
	} {
		t.Run(example.name, func(t *testing.T) {
			row := published.Keyed(t, "peppol_order_examples.csv")[example.name]
			settings := job.Settings{Currency: currency(row[1]), TaxName: "VAT", TaxPercent: number(example.tax), Date: time.Unix(0, 0)}
			supplier := &job.Supplier{Code: "S", Name: "S", Delivery: settings.Currency.Round(orZero(example.delivery))}
			var needs []purchase.Need
			for i, l := range example.lines {
				supplier.DiscountPercent = number(l[2])
				needs = append(needs, purchase.Need{Sold: number(l[0]).Rat(), Product: &job.Product{Code: fmt.Sprint(i), Supplier: supplier, Kind: job.Each,
					SoldBy: job.PerEach, PricePer: job.PerEach, Price: number(l[1]), OrderStep: number("1"), TaxPercent: settings.TaxPercent}})
			}
			text := ublOf(t, ordered(settings, []*job.Supplier{supplier}, needs), 0)
			doc := read(t, text)
			if broken := doc.broken(text, 2); len(broken) > 0 {
				t.Error(broken)
			}
			for i, net := range example.nets {
				if !number(doc.Lines[i].Net).Equal(number(net)) || !strings.Contains(row[2], net) {
					t.Errorf("line %d is %s, want %s as published in %s", i+1, doc.Lines[i].Net, net, row[2])
				}
			}
			same := func(what, ours, published string) {
				if !orZero(ours).Equal(orZero(published)) {
					t.Errorf("%s is %s, published %s", what, ours, published)
				}
			}
			same("the charge", doc.Total.Charges, row[5])
			if !example.whole {
				return
			}
			same("the sum of the lines", doc.Total.Lines, row[3])
			same("the tax", doc.Tax, row[7])
			same("the sum payable", doc.Total.Payable, row[11])
		})
	}
}

// The documents are valid by the published schema of OASIS UBL 2.4.
func TestOrdersAreValidUBL(t *testing.T) {
	schema := published.Path(t, "reference", "ubl", "xsdrt", "maindoc", "UBL-Order-2.4.xsd")
	xmllint := published.Program(t, "xmllint")
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
		for _, r := range published.Table(t, table.file) {
			inForce[r[0]] = inForce[r[0]] || table.good(r)
		}
	}
	for unit := range job.Units {
		if code := job.Unit(unit).Code(); !inForce[code] {
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
