package purchase

import (
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
)

// Two apartments of 20 planks and 1 spare each in packs of 8: 21/8 -> 3 packs
// each, 48 planks bought. Of each 24 planks 20 are cut, 1 is spare and 3 are
// left over; what is cut away of the 20 is waste.
func TestPlanksByHand(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	for _, row := range []struct {
		name               string
		step               string
		returnable         bool
		returned, leftOver int64 // planks
	}{
		{"as needed", "1", false, 0, 6},
		{"in steps of 10 packs: 4 packs stay closed", "10", false, 0, 6 + 32},
		{"closed packs go back", "10", true, 32, 6},
	} {
		product := supplied(supplier, "P", func(p *job.Product) { plank(p); p.OrderStep, p.Returnable = dec(row.step), row.returnable })
		area := int64(product.Length.Times(product.Width))
		laid := 19*area + area/2
		need := Need{Product: product, Place: "A", Sold: big.NewRat(21, 8), Used: 20 * area, Laid: laid, Spare: area}
		other := need
		other.Place = "B"
		_, materials := one(t, settings, supplier, need, other)
		wanted := Material{Product: product, Unit: ByArea, Laid: 2 * laid, Spare: 2 * area,
			Returned: row.returned * area, LeftOver: row.leftOver * area, Waste: 40*area - 2*laid, ReturnedUnits: decimal.New(row.returned/8, 0)}
		wanted.Bought = (42 + row.returned + row.leftOver) * area
		if cmp.Diff(wanted, materials[0], equal) != "" {
			t.Errorf("%s: %+v, want %+v", row.name, materials[0], wanted)
		}
	}
}

// More ways to account: pieces are left over whole, the end of an opened roll
// is waste, closed rolls and bags are left over or go back.
func TestMaterialsByHand(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	bar := supplied(supplier, "BAR", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.Length, p.PiecesPerPack = job.Trim, job.PerPack, job.PerPack, mm(2400), 10
	})
	roll := supplied(supplier, "ROLL", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.AreaPerPack, p.MinimumQuantity = job.Sheet, job.PerRoll, job.PerRoll, m2("15"), dec("5")
	})
	bag := supplied(supplier, "BAG", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.Returnable, p.OrderStep = job.Compound, job.PerBag, job.PerBag, true, dec("10")
	})
	carpet := supplied(supplier, "CARPET", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.Length, p.Width = job.Roll, job.PerMetre, job.PerMetre, mm(30_000), mm(4_000)
	})
	sheets := supplied(supplier, "SHEET", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.Length, p.Width = job.Sheet, job.PerPack, job.PerPack, mm(1_000), mm(500)
		p.PiecesPerPack, p.AreaPerPack = 10, m2("5")
	})
	loose := supplied(supplier, "LOOSE", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.Length, p.Width = job.Plank, job.PerSquareMetre, job.PerSquareMetre, mm(2_000), mm(150)
	})
	for _, row := range []struct {
		name   string
		need   Need
		wanted Material
	}{
		// 10.3 m of carpet 4 m wide: 11 m are cut off, 0.7 m of it is waste.
		{"carpet by the metre", Need{Product: carpet, Sold: big.NewRat(103, 10), Used: int64(m2("41.2")), Laid: int64(m2("40"))},
			Material{Unit: ByArea, Bought: int64(m2("44")), Laid: int64(m2("40")), Waste: int64(m2("4"))}},
		// 6.2 of 5 m2 a pack opens 2 packs; of 3.8 m2 7 sheets of 0.5 m2 stay whole.
		{"sheets", Need{Product: sheets, Sold: big.NewRat(62, 50), Used: int64(m2("6.2")), Laid: int64(m2("6"))},
			Material{Unit: ByArea, Bought: int64(m2("10")), Laid: int64(m2("6")), LeftOver: int64(m2("3.5")), Waste: int64(m2("0.5"))}},
		// 7 planks of 0.3 m2 are 2.1 m2; of 3 m2 bought 3 planks stay whole.
		{"planks by the square metre", Need{Product: loose, Sold: big.NewRat(21, 10), Used: int64(m2("2.1")), Laid: int64(m2("2"))},
			Material{Unit: ByArea, Bought: int64(m2("3")), Laid: int64(m2("2")), LeftOver: int64(m2("0.9")), Waste: int64(m2("0.1"))}},
		// 12 bars in packs of 10: 20 bought, 8 left over whole; 27.0 of 28.8 m laid.
		{"bars", Need{Product: bar, Sold: big.NewRat(12, 10), Used: 12 * int64(mm(2400)), Laid: int64(mm(27_000))},
			Material{Unit: ByLength, Bought: int64(mm(48_000)), Laid: int64(mm(27_000)), LeftOver: int64(mm(19_200)), Waste: int64(mm(1_800))}},
		// 50 of 15 m2 a roll opens 4 rolls; the minimum is 5, so 1 roll stays closed.
		{"rolls", Need{Product: roll, Sold: big.NewRat(50, 15), Used: int64(m2("50")), Laid: int64(m2("48"))},
			Material{Unit: ByArea, Bought: int64(m2("75")), Laid: int64(m2("48")), LeftOver: int64(m2("15")), Waste: int64(m2("12"))}},
		// 21.2 bags open 22; 30 are bought, 8 go back.
		{"bags", Need{Product: bag, Sold: big.NewRat(212, 10), Used: 22, Laid: 22},
			Material{Unit: BySoldUnit, Bought: 30, Laid: 22, Returned: 8, ReturnedUnits: dec("8")}},
	} {
		row.wanted.Product = row.need.Product
		if _, materials := one(t, settings, supplier, row.need); cmp.Diff(row.wanted, materials[0], equal) != "" {
			t.Errorf("%s: %+v, want %+v", row.name, materials[0], row.wanted)
		}
	}
}

// The end pieces of rolls in two apartments never add up to a whole roll left.
func TestRestsOfTwoPlacesAreNoWholeRoll(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	roll := supplied(supplier, "ROLL", func(p *job.Product) {
		p.Kind, p.SoldBy, p.PricePer, p.AreaPerPack = job.Sheet, job.PerRoll, job.PerRoll, m2("15")
	})
	need := Need{Product: roll, Place: "A", Sold: big.NewRat(5, 15), Used: int64(m2("5")), Laid: int64(m2("5"))}
	other := need
	other.Place = "B"
	if _, materials := one(t, settings, supplier, need, other); materials[0].LeftOver != 0 || materials[0].Waste != int64(m2("20")) {
		t.Errorf("left over %d, waste %d", materials[0].LeftOver, materials[0].Waste)
	}
}

// Planks of 7.48 x 47.64 in, 8 a pack, sold by ft2: a pack is 19.797.. ft2, which
// no decimal holds. 80 planks are ten packs all the same, and all accounted for.
func TestPacksWhoseAreaIsNoDecimal(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	product := supplied(supplier, "P", func(p *job.Product) {
		plank(p)
		p.Length, p.Width = measure.FromDecimal(dec("47.64"), measure.In), measure.FromDecimal(dec("7.48"), measure.In)
		p.AreaPerPack = 8 * p.Length.Times(p.Width)
		p.SoldBy, p.PricePer = job.PerSquareFoot, job.PerSquareFoot
		p.OrderStep = p.AreaPerPack.Decimal(measure.Ft2, 6)
	})
	piece := int64(product.Length.Times(product.Width))
	for planks := int64(1); planks <= 400; planks++ {
		sold := new(big.Rat).Quo(big.NewRat(planks, 1), PiecesPerSold(product))
		order, materials := one(t, settings, supplier, Need{Product: product, Sold: sold, Used: planks * piece, Laid: planks * piece})
		packs := (planks + 7) / 8
		same(t, "packs", order.Lines[0].Packs.String(), decimal.NewFromInt(packs).String())
		if m := materials[0]; m.Bought != packs*8*piece || m.LeftOver != (packs*8-planks)*piece || m.Waste != 0 {
			t.Fatalf("%d planks: %+v", planks, m)
		}
	}
}

// drawn is a random job: suppliers with every condition and products sold in
// many ways, each needed at a few places.
type drawn struct {
	settings  job.Settings
	suppliers []*job.Supplier
	needs     []Need
}

var jobs = rapid.Custom(func(t *rapid.T) drawn {
	d := drawn{settings: job.Settings{Currency: rapid.SampledFrom([]money.Currency{euro, mustLookup("JPY"), mustLookup("KWD")}).Draw(t, "currency")}}
	d.settings.TaxPercent = dec(rapid.SampledFrom([]string{"0", "7.25", "20"}).Draw(t, "tax"))
	amount := func(name string) money.Amount {
		return d.settings.Currency.Round(decimal.New(rapid.Int64Range(0, 50_000).Draw(t, name), -1))
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "suppliers") {
		d.suppliers = append(d.suppliers, &job.Supplier{Code: string(rune('A' + i)), Delivery: amount("delivery"), FreeFrom: amount("free"),
			MinimumOrder: amount("minimum"), DiscountPercent: decimal.New(rapid.Int64Range(0, 300).Draw(t, "discount"), -1),
			OrderDiscountPercent: decimal.New(rapid.Int64Range(0, 1000).Draw(t, "order discount"), -1), OrderDiscountFrom: amount("discount from"),
			Paid: amount("paid"), PayableStep: amount("step")})
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "products") {
		product := drawProduct(t, string(rune('A'+i)), rapid.SampledFrom(d.suppliers).Draw(t, "supplier"))
		if rapid.Bool().Draw(t, "charged") {
			product.LineCharge = amount("line charge")
		}
		for _, place := range rapid.SliceOfN(rapid.SampledFrom([]string{"", "1", "2", "3"}), 1, 4).Draw(t, "places") {
			d.needs = append(d.needs, drawNeed(t, product, place))
		}
	}
	return d
})

func drawProduct(t *rapid.T, code string, supplier *job.Supplier) *job.Product {
	return supplied(supplier, code, func(p *job.Product) {
		p.Kind = rapid.SampledFrom([]job.Kind{job.Plank, job.Film, job.Sheet, job.Trim, job.Adhesive}).Draw(t, "kind")
		units := []job.Unit{job.PerPack, job.PerPiece}
		switch p.Kind {
		case job.Sheet:
			units = append(units, job.PerSquareMetre, job.PerRoll)
		case job.Trim:
			units = append(units, job.PerMetre)
		}
		p.SoldBy = rapid.SampledFrom(units).Draw(t, "sold by")
		p.PricePer = rapid.SampledFrom([]job.Unit{job.PerPack, job.PerPiece, p.SoldBy}).Draw(t, "price per")
		p.Length, p.Width = mm(rapid.Int64Range(300, 3000).Draw(t, "length")), mm(rapid.Int64Range(50, 300).Draw(t, "width"))
		p.PiecesPerPack = rapid.IntRange(1, 12).Draw(t, "pieces")
		p.AreaPerPack = measure.Area(p.PiecesPerPack) * p.Length.Times(p.Width)
		p.Price = decimal.New(rapid.Int64Range(0, 100_000).Draw(t, "price"), -3)
		p.OrderStep = decimal.NewFromInt(rapid.Int64Range(1, 12).Draw(t, "step"))
		p.MinimumQuantity = decimal.NewFromInt(rapid.Int64Range(0, 40).Draw(t, "least"))
		p.Returnable = rapid.Bool().Draw(t, "returnable")
		p.TaxPercent = dec(rapid.SampledFrom([]string{"0", "7.25", "20"}).Draw(t, "product tax"))
	})
}

// drawNeed needs whole pieces of goods in pieces and any amount of the rest.
func drawNeed(t *rapid.T, p *job.Product, place string) Need {
	n := rapid.Int64Range(1, 200).Draw(t, "needed")
	need := Need{Product: p, Place: place}
	if UnitOf(p) == BySoldUnit {
		need.Sold, need.Used, need.Laid = big.NewRat(n, 1), n, n
		return need
	}
	piece := int64(p.Length)
	if UnitOf(p) == ByArea {
		piece = int64(p.Length.Times(p.Width))
	}
	spare := rapid.Int64Range(0, 3).Draw(t, "spare")
	need.Used, need.Spare = n*piece, spare*piece
	need.Laid = need.Used - rapid.Int64Range(0, need.Used).Draw(t, "cut away")
	need.Sold = new(big.Rat).Quo(big.NewRat(need.Used+need.Spare, 1), content(p))
	return need
}

// Everything bought is accounted for, and nothing is negative.
func TestBoughtIsAccountedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := jobs.Draw(t, "job")
		orders, materials, _ := Buy(d.settings, d.suppliers, d.needs)
		quantities := map[*job.Product]decimal.Decimal{}
		for _, order := range orders {
			for _, line := range order.Lines {
				quantities[line.Product] = line.Quantity
			}
		}
		for _, m := range materials {
			if m.Bought != m.Accounted() {
				t.Fatalf("%s: bought %d, accounted %d", m.Product.Code, m.Bought, m.Accounted())
			}
			for _, part := range []int64{m.Laid, m.Spare, m.Returned, m.LeftOver, m.Waste} {
				if part < 0 {
					t.Fatalf("%s: a negative part in %+v", m.Product.Code, m)
				}
			}
			exact := new(big.Rat).Mul(quantities[m.Product].Rat(), content(m.Product))
			if exact.Cmp(big.NewRat(m.Bought, 1)) != 0 {
				t.Fatalf("%s: %s ordered, %d accounted as bought", m.Product.Code, quantities[m.Product], m.Bought)
			}
		}
	})
}
