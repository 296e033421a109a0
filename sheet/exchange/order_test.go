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
// a discount and with a charge on their line, and of bags; and a bare one.
func twoOrders() *estimate.Result {
	settings := job.Settings{
		Name: "Four flats <north>", Number: "J/7", Company: "Floors & Sons", CompanyAddress: "1 Yard", Site: "9 Quay", Currency: currency("EUR"), TaxName: "VAT",
		TaxPercent: number("20"), Date: time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC), StartDate: time.Date(2026, 5, 4, 0, 0, 0, 0, time.UTC),
	}
	euros := func(s string) money.Amount { return settings.Currency.Round(number(s)) }
	full := &job.Supplier{Code: "FULL", Name: "=Timber", Address: "2 Mill", City: "Town", Postcode: "T1", Country: "de", TaxNumber: "DE1", Email: "a@b.example",
		MinimumOrder: euros("2000"), Delivery: euros("45"), DiscountPercent: number("12.5"), OrderDiscountPercent: number("3"), OrderDiscountFrom: euros("400"),
		Paid: euros("250"), PayableStep: euros("1")}
	bare := &job.Supplier{Code: "BARE", Name: "Bare"}
	plank := &job.Product{Code: "OAK", Description: "Oak plank", Supplier: full, Kind: job.Plank, SoldBy: job.PerPack, PricePer: job.PerSquareMetre, Price: number("31.455"),
		Length: 1285 * 320, Width: 192 * 320, PiecesPerPack: 8, AreaPerPack: 8 * 1285 * 192 * 320 * 320, OrderStep: number("1"), TaxPercent: number("7"), Weight: number("14.2"),
		LineCharge: euros("8.5")}
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
// 62.0846208, 434.59 less 54.32 discount, and 8.50 for the line, = 388.77. Bags 3 x
// 17.9 = 53.70 less 6.71 = 46.99. Goods 435.76; 3 % of them 13.0728 -> 13.07, of which
// the planks at 7 % bear 11.66 (13.07 x 388.77 / 435.76 = 11.6606..) and the bags
// 1.41 (1.4093..). Delivery 45, supplement to 2000: 1564.24. Net 435.76 - 13.07 +
// 1609.24 = 2031.93; tax (388.77 - 11.66) x 7 % = 26.3977 -> 26.40 and (46.99 - 1.41 +
// 1609.24) x 20 % = 330.964 -> 330.96: 357.36. Gross 2389.29, less 250.00 paid 2139.29,
// rounded down by 0.29.
func TestOrderByHand(t *testing.T) {
	doc := read(t, ublOf(t, twoOrders(), 1))
	got := []string{
		doc.Lines[1].Price, doc.Lines[1].Allowance[0].Amount, doc.Lines[1].Allowance[1].Amount, doc.Lines[1].Net, doc.Lines[0].Net, doc.Total.Lines,
		doc.Charges[0].Amount, doc.Charges[0].Base, doc.Charges[1].Amount, doc.Charges[1].Base, doc.Total.Allowances, doc.Charges[2].Amount, doc.Charges[3].Amount,
		doc.Total.TaxExclusive, doc.Tax, doc.Total.TaxInclusive, doc.Total.Prepaid, doc.Total.Rounding, doc.Total.Payable, doc.Lines[1].Quantity.Unit, doc.Lines[0].Quantity.Unit,
	}
	want := []string{"62.0846208", "54.32", "8.50", "388.77", "46.99", "435.76", "11.66", "388.77", "1.41", "46.99", "13.07", "45.00", "1564.24",
		"2031.93", "357.36", "2389.29", "250.00", "-0.29", "2139.00", "XPK", "XBG"}
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
	supplier := &job.Supplier{Code: "S", Name: "S", Delivery: amount("delivery"), MinimumOrder: amount("minimum"), DiscountPercent: decimal.New(rapid.Int64Range(0, 1000).Draw(t, "discount"), -1),
		OrderDiscountPercent: decimal.New(rapid.Int64Range(0, 1_000_000).Draw(t, "order discount"), -4), OrderDiscountFrom: amount("discount from"), Paid: amount("paid"), PayableStep: amount("step")}
	var needs []purchase.Need
	for i := range rapid.IntRange(1, 5).Draw(t, "lines") {
		product := &job.Product{Code: fmt.Sprint(i), Supplier: supplier, Kind: job.Sheet, SoldBy: job.PerPack, PricePer: job.PerSquareMetre, OrderStep: number("1"), LineCharge: amount("line charge"),
			TaxPercent: number(rapid.SampledFrom([]string{"0", "7.25", "20"}).Draw(t, "tax")),
			Price:      decimal.New(rapid.Int64Range(0, 99_999).Draw(t, "price"), -3), AreaPerPack: 1 + 7919*1_000_003*9}
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
		{"R007", ">435.76<", ">-435.76<"},
		{"R008", ">435.76<", ">435.77<"},
		{"R009", ">13.07<", ">13.08<"},
		{"R010", ">1609.24<", ">1609.25<"},
		{"R011", ">2031.93<", ">2031.94<"},
		{"R016", `PayableAmount currencyID="EUR">2139.00<`, `PayableAmount currencyID="EUR">2139.01<`},
		{"R017", ">357.36<", ">357.37<"},
		{"R019", `<cbc:BaseQuantity unitCode="XBG">1</cbc:BaseQuantity>`, fmt.Sprintf(gross, "1", "19")},
		{"R016", ">250.00<", ">250.01<"},
		{"R016", ">-0.29<", ">0.29<"},
		{"R020", `<cbc:BaseAmount currencyID="EUR">388.77</cbc:BaseAmount>`, ""},
		{"R021", "<cbc:MultiplierFactorNumeric>3</cbc:MultiplierFactorNumeric>", ""},
		{"R022", ">11.66<", ">11.76<"},
		{"R023", "<cbc:AllowanceChargeReason>Discount on the whole order</cbc:AllowanceChargeReason>", ""},
		{"R024", ">8.50<", ">8.60<"},
		{"R032", ">8.50<", ">-8.50<"},
		{"R020", "<cbc:BaseAmount currencyID=\"EUR\">434.59</cbc:BaseAmount>", ""},
		{"R021", "<cbc:MultiplierFactorNumeric>12.5</cbc:MultiplierFactorNumeric>", ""},
		{"R022", ">54.32<", ">54.12<"},
		{"R023", "<cbc:AllowanceChargeReason>Delivery</cbc:AllowanceChargeReason>", ""},
		{"R024", `LineExtensionAmount currencyID="EUR">388.77<`, `LineExtensionAmount currencyID="EUR">388.87<`},
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
		if lines := strings.Split(strings.TrimSpace(string(table)), "\n"); !strings.Contains(lines[1]+",", row.cell+",,") {
			t.Errorf("%s does not have %s", lines[1], row.cell)
		}
		product.PacksPerPallet = 0
		if strings.Contains(string(ublOf(t, r, 0)), "pallet") {
			t.Error("pallets of a product that has none")
		}
	}
}

// The published examples as orders of ours, whole: their goods bought from a
// supplier on the terms that the example shows, and written as UBL. Every figure
// that an example has comes out to the cent. A price less an allowance is a price
// with a discount, and a sum is a per cent that gives it: a tax or a discount that
// is stated without a rate has here the rate that leads to it, and the totals of the
// guide's text are one line of 700. The example of UBL 2.1 states a tax of 100 that
// its sum payable leaves out, so it is bought at no tax and its tax is not compared.
func TestPublishedExamplesAreReproduced(t *testing.T) {
	examples := []example{
		{name: "UC1", lines: []exampleLine{{quantity: "10", price: "4"}, {quantity: "5", price: "6"}, {quantity: "15", price: "3"}}, tax: "25", nets: []string{"40", "30", "45"}},
		{name: "UC2", lines: []exampleLine{{quantity: "10", price: "40"}, {quantity: "50", price: "6"}}, tax: "25", nets: []string{"400", "300"}},
		{name: "UC3", lines: []exampleLine{{quantity: "1", price: "400"}}, tax: "0", nets: []string{"400"}},
		{name: "UC4", lines: []exampleLine{{quantity: "50", price: "2", discount: "50"}}, discount: "20", delivery: "10", tax: "10", nets: []string{"50"}},
		{name: "UC6", lines: []exampleLine{{quantity: "10", price: "40"}}, tax: "25", nets: []string{"400"}},
		// 100.0025 are 1.5943 % of 6272.50.
		{name: "Order_Example", lines: []exampleLine{{quantity: "120", price: "50", discount: "5", charge: "600"}, {quantity: "15", price: "15"}}, discount: "10", delivery: "400",
			tax: "1.5943", paid: "10", step: "1", nets: []string{"6300.00", "225.00"}},
		// 99.9984 are 1.6064 % of 6225.
		{name: "UBL-Order-2.1-Example", lines: []exampleLine{{quantity: "120", price: "50"}, {quantity: "15", price: "15"}}, discount: "1.6064", delivery: "100", tax: "0", untaxed: true,
			nets: []string{"6000", "225"}},
		// 99.9999 are 14.2857 % of 700, and 85.632 are 10.704 % of 800.
		{name: "totals text", lines: []exampleLine{{quantity: "1", price: "700"}}, discount: "14.2857", delivery: "200", tax: "10.704", paid: "135", step: "1"},
	}
	rows := published.Keyed(t, "peppol_order_examples.csv")
	if len(rows) != len(examples) {
		t.Errorf("%d examples are published, %d are reproduced", len(rows), len(examples))
	}
	for _, e := range examples {
		t.Run(e.name, func(t *testing.T) {
			row := rows[e.name]
			of := currency("EUR") // the guide's text names none
			if row[1] != "" {
				of = currency(row[1])
			}
			text := ublOf(t, e.bought(of), 0)
			doc := read(t, text)
			if broken := doc.broken(text, 2); len(broken) > 0 {
				t.Error(broken)
			}
			for i, net := range e.nets {
				if !number(doc.Lines[i].Net).Equal(number(net)) || !strings.Contains(row[2], "="+net) {
					t.Errorf("line %d is %s, want %s as published in %s", i+1, doc.Lines[i].Net, net, row[2])
				}
			}
			total := doc.Total
			for i, ours := range []string{3: total.Lines, 4: total.Allowances, 5: total.Charges, 6: total.TaxExclusive, 7: doc.Tax, 8: total.TaxInclusive, 9: total.Prepaid, 10: total.Rounding, 11: total.Payable} {
				theirs, _, _ := strings.Cut(row[i], " ")
				if i < 3 || theirs == "" && i != 4 && i != 5 || e.untaxed && i == 7 {
					continue
				}
				if !orZero(ours).Equal(orZero(theirs)) {
					t.Errorf("%s is %s, published %s", orderExampleColumns[i], ours, theirs)
				}
			}
		})
	}
}

// orderExampleColumns are those of peppol_order_examples.csv.
var orderExampleColumns = strings.Split("example,currency,lines,line_sum,doc_allowance,doc_charge,tax_exclusive,tax,tax_inclusive,prepaid,rounding,payable", ",")

// example is a published order as one of ours, per cents and amounts blank where it
// has none.
type example struct {
	name                                string
	lines                               []exampleLine
	discount, delivery, tax, paid, step string // discount on the whole order and tax in per cent
	untaxed                             bool   // its sums leave its tax out
	nets                                []string
}

type exampleLine struct{ quantity, price, discount, charge string }

// bought is the example's goods, ordered on its terms.
func (e example) bought(of money.Currency) *estimate.Result {
	amount := func(text string) money.Amount { return of.Round(orZero(text)) }
	settings := job.Settings{Currency: of, TaxName: "VAT", TaxPercent: number(e.tax), Date: time.Unix(0, 0)}
	supplier := &job.Supplier{Code: "S", Name: "S", Delivery: amount(e.delivery), OrderDiscountPercent: orZero(e.discount), Paid: amount(e.paid), PayableStep: amount(e.step)}
	var needs []purchase.Need
	for i, l := range e.lines {
		needs = append(needs, purchase.Need{Sold: number(l.quantity).Rat(), Product: &job.Product{Code: fmt.Sprint(i), Supplier: supplier, Kind: job.Each,
			SoldBy: job.PerEach, PricePer: job.PerEach, Price: number(l.price), Discount: decimal.NewNullDecimal(orZero(l.discount)), LineCharge: amount(l.charge),
			OrderStep: number("1"), TaxPercent: settings.TaxPercent}})
	}
	return ordered(settings, []*job.Supplier{supplier}, needs)
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
	sums, payable := map[string]decimal.Decimal{}, map[string]decimal.Decimal{}
	for _, record := range records[1:] {
		payable[record[0]] = payable[record[0]].Add(orZero(record[25]))
		sums[record[0]] = sums[record[0]].Add(number(record[13]))
		for _, cell := range record {
			if _, err := decimal.NewFromString(cell); err != nil && cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
				t.Errorf("cell %q", cell)
			}
		}
	}
	for _, o := range r.Orders {
		if !sums[o.Number].Equal(o.Net.Decimal()) {
			t.Errorf("rows of %s add up to %s, want %s", o.Number, sums[o.Number], o.Net)
		}
		if !payable[o.Number].Equal(o.Payable.Decimal()) {
			t.Errorf("%s is payable with %s, want %s, once", o.Number, payable[o.Number], o.Payable)
		}
	}
}
