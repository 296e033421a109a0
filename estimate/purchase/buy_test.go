package purchase

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/estimate/quantity"
)

var euro = mustLookup("EUR")

func mustLookup(code string) money.Currency {
	c, err := money.Lookup(code)
	if err != nil {
		panic(err)
	}
	return c
}

func dec(s string) decimal.Decimal    { return decimal.RequireFromString(s) }
func euros(s string) money.Amount     { return euro.Round(dec(s)) }
func mm(n int64) measure.Length       { return measure.Length(n) * measure.Millimetre }
func m2(s string) measure.Area        { return measure.AreaFromDecimal(dec(s), measure.M2) }
func ft2(s string) measure.Area       { return measure.AreaFromDecimal(dec(s), measure.Ft2) }
func squares(a measure.Area) *big.Rat { return big.NewRat(int64(a), 1) }

var settings = job.Settings{Currency: euro, TaxPercent: dec("20")}

// supplied is a product of the supplier, bought by whole units at 10 each,
// unless the row of a test says otherwise.
func supplied(by *job.Supplier, code string, change func(*job.Product)) *job.Product {
	p := &job.Product{Code: code, Supplier: by, Kind: job.Each, SoldBy: job.PerEach, PricePer: job.PerEach,
		Price: dec("10"), OrderStep: dec("1"), TaxPercent: dec("20")}
	if change != nil {
		change(p)
	}
	return p
}

// plank is a pack of 8 planks of 1285 x 192 mm, 1.97376 m2.
func plank(p *job.Product) {
	p.Kind, p.SoldBy, p.PricePer = job.Plank, job.PerPack, job.PerPack
	p.Length, p.Width, p.PiecesPerPack = mm(1285), mm(192), 8
	p.AreaPerPack = 8 * p.Length.Times(p.Width)
}

func one(t *testing.T, settings job.Settings, supplier *job.Supplier, needs ...Need) (Order, []Material) {
	t.Helper()
	orders, materials, problems := Buy(settings, []*job.Supplier{supplier}, needs)
	if len(problems) > 0 || len(orders) != 1 {
		t.Fatalf("%d orders, problems: %v", len(orders), problems)
	}
	return orders[0], materials
}

func same(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s is %s, want %s", what, got, want)
	}
}

// Published quantities: whole boxes, buckets, bags and tiles.
func TestWholeUnits(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	for _, row := range []struct {
		name    string
		product func(*job.Product)
		by      job.Measure
		amount  *big.Rat // of what it is measured by
		waste   string   // per cent
		want    string
	}{
		{
			"120 sq ft + 10 % in boxes of 24 sq ft: 5.5 -> 6 (laminatefloorings.net)",
			func(p *job.Product) { p.Kind, p.SoldBy, p.AreaPerPack = job.Sheet, job.PerPack, ft2("24") },
			job.FloorArea, squares(ft2("120")), "10", "6",
		},
		{
			"500 sq ft at 175 sq ft a bucket: 2.86 -> 3 (laminatefloorings.net)",
			func(p *job.Product) { p.Kind, p.SoldBy, p.SpreadArea = job.Adhesive, job.PerTub, ft2("175") },
			job.FloorArea, squares(ft2("500")), "0", "3",
		},
		{
			"500 sq ft at 200 sq ft a roll: 2.5 (laminatefloorings.net), whole rolls 3",
			func(p *job.Product) { p.Kind, p.SoldBy, p.AreaPerPack = job.Sheet, job.PerRoll, ft2("200") },
			job.FloorArea, squares(ft2("500")), "0", "3",
		},
		{
			"200 sq ft at 65 sq ft a bag: 3.08 -> 4 (engineerfix.com)",
			func(p *job.Product) { p.Kind, p.SoldBy, p.SpreadArea = job.Adhesive, job.PerBag, ft2("65") },
			job.FloorArea, squares(ft2("200")), "0", "4",
		},
		{
			"20 m2 x 25 mm at 2.2 kg in bags of 50 kg: 22 exactly (kakprosto.ru)",
			func(p *job.Product) {
				p.Kind, p.SoldBy, p.Spread, p.Weight = job.Compound, job.PerBag, dec("2.2"), dec("50")
			},
			job.AreaDepth, new(big.Rat).Mul(squares(m2("20")), big.NewRat(25, 1)), "0", "22",
		},
		{
			"979 tiles + 5 %: 1027.95 -> 1028 (NAVEDTRA 14044 ch. 6)",
			func(p *job.Product) { p.SoldBy = job.PerPiece },
			job.Pieces, big.NewRat(979, 1), "5", "1028",
		},
	} {
		product := supplied(supplier, "P", row.product)
		product.PricePer = product.SoldBy
		sold := new(big.Rat).Quo(row.amount, quantity.Content(product, row.by))
		sold.Mul(sold, new(big.Rat).Add(big.NewRat(1, 1), dec(row.waste).Shift(-2).Rat()))
		order, _ := one(t, settings, supplier, Need{Product: product, Sold: sold})
		same(t, row.name, order.Lines[0].Quantity.String(), row.want)
	}
}

// A room of 10 x 12 ft and 10 % at 11.99 per sq yd: 14.67 sq yd are sold as
// 14.7 and cost 176.25 (daltoncarpet.com); by whole yards it would be 15.
func TestCutGoodsInSteps(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	for _, row := range []struct{ step, quantity, net string }{{"0.1", "14.7", "176.25"}, {"1", "15", "179.85"}} {
		carpet := supplied(supplier, "P", func(p *job.Product) {
			p.Kind, p.SoldBy, p.PricePer, p.Price, p.OrderStep = job.Roll, job.PerSquareYard, job.PerSquareYard, dec("11.99"), dec(row.step)
		})
		order, _ := one(t, settings, supplier, Need{Product: carpet, Sold: big.NewRat(132, 9)})
		same(t, "quantity", order.Lines[0].Quantity.String(), row.quantity)
		same(t, "net", order.Lines[0].Net.String(), row.net)
	}
}

// Goods sold by area in packs of 2.22 m2: each place opens whole packs, and no
// place is rounded up to whole square metres on top.
func TestPlacesOpenWholePacks(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	product := supplied(supplier, "P", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.AreaPerPack, p.OrderStep = job.Sheet, job.PerSquareMetre, job.PerSquareMetre, m2("2.22"), dec("2.22")
	})
	for _, row := range []struct {
		name            string
		needs           []Need
		quantity, packs string
	}{
		{"one place, 4.4 m2", []Need{{Product: product, Sold: big.NewRat(44, 10)}}, "4.44", "2"},
		{"the same need in two parts", []Need{{Product: product, Sold: big.NewRat(21, 10)}, {Product: product, Sold: big.NewRat(23, 10)}}, "4.44", "2"},
		{"two places, 2.1 and 2.3 m2", []Need{{Product: product, Place: "A", Sold: big.NewRat(21, 10)}, {Product: product, Place: "B", Sold: big.NewRat(23, 10)}}, "6.66", "3"},
		{"ten packs exactly", []Need{{Product: product, Sold: big.NewRat(222, 10)}}, "22.2", "10"},
	} {
		order, _ := one(t, settings, supplier, row.needs...)
		same(t, row.name, order.Lines[0].Quantity.String(), row.quantity)
		same(t, row.name+", packs", order.Lines[0].Packs.String(), row.packs)
	}
}

func TestStepAndMinimum(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	for _, row := range []struct{ name, step, minimum, need, want string }{
		{"as needed", "1", "0", "7", "7"},
		{"up to the step", "4", "0", "9", "12"},
		{"a step already", "4", "0", "12", "12"},
		{"up to the minimum", "1", "10", "3", "10"},
		{"the minimum in steps: least multiple of 4 not below 10", "4", "10", "3", "12"},
		{"above the minimum", "4", "10", "13", "16"},
	} {
		product := supplied(supplier, "P", func(p *job.Product) { p.OrderStep, p.MinimumQuantity = dec(row.step), dec(row.minimum) })
		order, _ := one(t, settings, supplier, Need{Product: product, Sold: dec(row.need).Rat()})
		same(t, row.name, order.Lines[0].Quantity.String(), row.want)
	}
}

// Units per sold unit, by every way a product can be sold and priced; "" means
// the row does not say.
func TestUnitsPerSold(t *testing.T) {
	bar := func(p *job.Product) { p.Length, p.PiecesPerPack = mm(2400), 10 }
	roll := func(p *job.Product) { p.Length, p.Width = mm(50_000), mm(4_000) }
	for _, row := range []struct {
		name        string
		sold, price job.Unit
		product     func(*job.Product)
		want        string
	}{
		{"pack priced per pack", job.PerPack, job.PerPack, plank, "1"},
		{"pack priced per piece", job.PerPack, job.PerPiece, plank, "8"},
		{"pack priced per m2, area from its planks", job.PerPack, job.PerSquareMetre, plank, "1.97376"},
		{"pack priced per m2, area as stated", job.PerPack, job.PerSquareMetre, func(p *job.Product) { plank(p); p.AreaPerPack = m2("1.98") }, "1.98"},
		{"pack priced per ft2, area as stated in feet", job.PerPack, job.PerSquareFoot, func(p *job.Product) { plank(p); p.AreaPerPack = ft2("23.68") }, "23.68"},
		{"piece priced per pack of 8", job.PerPiece, job.PerPack, plank, "0.125"},
		{"piece priced per m2", job.PerPiece, job.PerSquareMetre, plank, "0.24672"},
		{"bar priced per m", job.PerPiece, job.PerMetre, bar, "2.4"},
		{"bars by the pack priced per m", job.PerPack, job.PerMetre, bar, "24"},
		{"8 ft bar priced per ft", job.PerPiece, job.PerFoot, func(p *job.Product) { p.Length = 8 * measure.Foot }, "8"},
		{"roll priced per m2 of 50 x 4 m", job.PerRoll, job.PerSquareMetre, roll, "200"},
		{"roll priced per m", job.PerRoll, job.PerMetre, roll, "50"},
		{"carpet by the metre priced per m2, 4 m wide", job.PerMetre, job.PerSquareMetre, roll, "4"},
		{"carpet by the m2 priced per m, 4 m wide", job.PerSquareMetre, job.PerMetre, roll, "0.25"},
		{"sold by ft2 priced per m2 (NIST SP 811)", job.PerSquareFoot, job.PerSquareMetre, nil, "0.09290304"},
		{"sold by yd2 priced per m2 (NIST SP 811)", job.PerSquareYard, job.PerSquareMetre, nil, "0.83612736"},
		{"sold by yd2 priced per ft2", job.PerSquareYard, job.PerSquareFoot, nil, "9"},
		{"each is a piece", job.PerEach, job.PerPiece, nil, "1"},
		{"rolls by the pack of 8", job.PerPack, job.PerRoll, plank, "8"},
		{"a pack without pieces", job.PerPack, job.PerPiece, nil, ""},
		{"a pack without area", job.PerPack, job.PerSquareMetre, nil, ""},
		{"a bag per tub", job.PerBag, job.PerTub, nil, ""},
		{"a bag per m2", job.PerBag, job.PerSquareMetre, roll, ""},
		{"a bar without length", job.PerPiece, job.PerMetre, nil, ""},
		{"metres without width per m2", job.PerMetre, job.PerSquareMetre, bar, ""},
	} {
		product := supplied(nil, "P", row.product)
		product.SoldBy, product.PricePer = row.sold, row.price
		got := ""
		if units := product.PriceUnits(); units != nil {
			got = decimals(units, UnitPlaces).String()
		}
		same(t, row.name, got, row.want)
	}
}

// A line by hand: 7 packs of 1.97376 m2 at 31.45 per m2 less 12.5 %:
// 7 x 1.97376 x 31.45 x 0.875 = 380.2078.. -> 380.21.
func TestLineNet(t *testing.T) {
	supplier := &job.Supplier{Code: "S", DiscountPercent: dec("12.5")}
	product := supplied(supplier, "P", func(p *job.Product) { plank(p); p.PricePer, p.Price = job.PerSquareMetre, dec("31.45") })
	order, _ := one(t, settings, supplier, Need{Product: product, Sold: big.NewRat(50, 8)})
	same(t, "quantity", order.Lines[0].Quantity.String(), "7")
	same(t, "net", order.Lines[0].Net.String(), "380.21")
}

func TestImpossibleProductsAreNamed(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	for _, row := range []struct {
		name    string
		product func(*job.Product)
		code    problem.Code
	}{
		{"a pack without area priced per m2", func(p *job.Product) { p.SoldBy, p.PricePer = job.PerPack, job.PerSquareMetre }, problem.ProductIncomplete},
		{"a plank without width", func(p *job.Product) { plank(p); p.Width = 0 }, problem.ProductIncomplete},
		{"half bags of compound", func(p *job.Product) { p.Kind, p.OrderStep = job.Compound, dec("0.5") }, problem.ValueOutOfRange},
	} {
		good := supplied(supplier, "GOOD", nil)
		bad := supplied(supplier, "BAD", row.product)
		bad.Ref = problem.Ref{Sheet: "Products", Row: 7}
		orders, _, problems := Buy(settings, []*job.Supplier{supplier}, []Need{{Product: bad, Sold: big.NewRat(3, 2)}, {Product: good, Sold: big.NewRat(1, 1)}})
		if len(problems) != 1 || problems[0].Code != row.code || problems[0].At != bad.Ref {
			t.Errorf("%s: problems %v", row.name, problems)
		}
		if len(orders) != 1 || len(orders[0].Lines) != 1 || orders[0].Lines[0].Product != good {
			t.Errorf("%s: the other product is not ordered: %v", row.name, orders)
		}
	}
}
