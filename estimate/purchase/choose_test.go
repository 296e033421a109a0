package purchase

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

// offers are one product's offers: a price at each of some suppliers, so many
// pieces needed.
func offers(code string, need int64, prices map[*job.Supplier]string, order ...*job.Supplier) []Offer {
	var all []Offer
	for _, supplier := range order {
		if price, ok := prices[supplier]; ok {
			p := supplied(supplier, code, func(p *job.Product) { p.Price = dec(price) })
			all = append(all, Offer{Product: p, Needs: []Need{{Product: p, Sold: big.NewRat(need, 1)}}})
		}
	}
	return all
}

// Two products, 10 pieces of each. A sells P at 10.00 and Q at 10.00; B sells P
// at 9.50 and Q at 10.50. Apart, P comes from B (95.00) and Q from A (100.00).
func TestChoiceByHand(t *testing.T) {
	for _, row := range []struct {
		name                 string
		deliveryA, deliveryB string
		freeA, minimumB      string
		p, q, total, apart   string
	}{
		{"no charges: each where it is cheapest", "0", "0", "0", "0", "B", "A", "195.00", "195.00"},
		// Both from A: 200 + 19 = 219; both from B: 200 + 20; apart 195 + 39 = 234.
		{"two deliveries cost more than they save", "19", "20", "0", "0", "A", "A", "219.00", "234.00"},
		// Both from A: 200, delivery free from 200; apart 195 + 20 + 4 = 219.
		{"free delivery is reached", "20", "4", "200", "0", "A", "A", "200.00", "219.00"},
		// Both from B: 95 + 105 = 200 reach the minimum of 150 and cost no delivery;
		// apart 100 + 6 + 150 = 256; both from A 200 + 6.
		{"the minimum order is reached", "6", "0", "0", "150", "B", "B", "200.00", "256.00"},
	} {
		a := &job.Supplier{Code: "A", Delivery: euros(row.deliveryA), FreeFrom: euros(row.freeA)}
		b := &job.Supplier{Code: "B", Delivery: euros(row.deliveryB), MinimumOrder: euros(row.minimumB)}
		p := offers("P", 10, map[*job.Supplier]string{a: "10", b: "9.5"}, a, b)
		q := offers("Q", 10, map[*job.Supplier]string{a: "10", b: "10.5"}, a, b)
		choices, problems := Choose(settings, []*job.Supplier{b, a}, nil, [][]Offer{p, q})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		by := func(i int) string { c := choices.Products[i]; return c.Offers[c.Taken].Product.Supplier.Code }
		same(t, row.name+": P", by(0), row.p)
		same(t, row.name+": Q", by(1), row.q)
		same(t, row.name+": total", choices.Total.String(), row.total)
		same(t, row.name+": apart", choices.Apart.String(), row.apart)
		if !choices.Proven {
			t.Errorf("%s is not proven", row.name)
		}
	}
}

// drawOffers draws suppliers and products that some of them offer.
func drawOffers(t *rapid.T, suppliers, products, consignments int) ([]*job.Supplier, []Need, [][]Offer) {
	amount := func(name string, most int64) money.Amount {
		return euro.Round(decimal.New(rapid.Int64Range(0, most).Draw(t, name), 0))
	}
	var all []*job.Supplier
	for i := range suppliers {
		supplier := &job.Supplier{Code: fmt.Sprint("S", i), Delivery: amount("delivery", 60), FreeFrom: amount("free", 600), MinimumOrder: amount("minimum", 400)}
		if rapid.Bool().Draw(t, "discounted") {
			supplier.OrderDiscountPercent = dec(rapid.SampledFrom([]string{"3", "10", "12.55", "100"}).Draw(t, "order discount"))
			supplier.OrderDiscountFrom = amount("discount from", 600)
		}
		all = append(all, supplier)
	}
	var fixed []Need
	var open [][]Offer
	for i := range products {
		need := rapid.Int64Range(1, 20).Draw(t, "need")
		by := splits(t, need, consignments)
		var of []Offer
		for _, supplier := range all {
			if rapid.Bool().Draw(t, "offered") {
				p := supplied(supplier, fmt.Sprintf("P%03d", i), func(p *job.Product) {
					p.Price = decimal.New(rapid.Int64Range(900, 1100).Draw(t, "price"), -2)
					p.OrderStep = decimal.NewFromInt(rapid.Int64Range(1, 5).Draw(t, "step"))
					p.LineCharge = amount("line charge", 9)
					p.MinimumQuantity = decimal.NewFromInt(rapid.SampledFrom([]int64{0, 0, 7}).Draw(t, "least"))
					p.TaxPercent = dec(rapid.SampledFrom([]string{"0", "7.25", "20"}).Draw(t, "tax"))
				})
				of = append(of, Offer{Product: p, Needs: []Need{{Product: p, Sold: big.NewRat(need, 1), By: by}}})
			}
		}
		switch len(of) {
		case 0:
		case 1:
			fixed = append(fixed, of[0].Needs...)
		default:
			open = append(open, of)
		}
	}
	return all, fixed, open
}

// splits divides a need among consignments, in thirds of a unit.
func splits(t *rapid.T, need int64, consignments int) []*big.Rat {
	if consignments == 1 {
		return nil
	}
	by, left := make([]*big.Rat, consignments), 3*need
	for i := range by {
		part := left
		if i+1 < consignments {
			part = rapid.Int64Range(0, left).Draw(t, "part")
		}
		by[i], left = big.NewRat(part, 3), left-part
	}
	return by
}

// wholeOrder is what the orders of a choice cost, from Buy itself.
func wholeOrder(s job.Settings, suppliers []*job.Supplier, fixed []Need, open [][]Offer, taken []int) money.Amount {
	needs := append([]Need(nil), fixed...)
	for i, offers := range open {
		needs = append(needs, offers[taken[i]].Needs...)
	}
	orders, _, _ := Buy(s, suppliers, needs)
	total := s.Currency.Zero()
	for _, order := range orders {
		total = total.Add(order.Net)
	}
	return total
}

// Every combination of suppliers is bought and none costs less.
func TestChoiceAgainstAllChoices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		suppliers, fixed, open := drawOffers(t, rapid.IntRange(1, 4).Draw(t, "suppliers"), rapid.IntRange(1, 5).Draw(t, "products"), rapid.IntRange(1, 3).Draw(t, "consignments"))
		choices, problems := Choose(settings, suppliers, fixed, open)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		taken := make([]int, len(open))
		for i, c := range choices.Products {
			taken[i] = c.Taken
		}
		if bought := wholeOrder(settings, suppliers, fixed, open, taken); !bought.Equal(choices.Total) {
			t.Fatalf("the choice is said to cost %s and costs %s", choices.Total, bought)
		}
		eachChoice(open, func(try []int) {
			if other := wholeOrder(settings, suppliers, fixed, open, try); other.Cmp(choices.Total) < 0 {
				t.Fatalf("%v costs %s, the choice %v %s", try, other, taken, choices.Total)
			}
		})
	})
}

// eachChoice visits every combination of offers.
func eachChoice(open [][]Offer, visit func([]int)) {
	try := make([]int, len(open))
	for {
		visit(try)
		i := 0
		for ; i < len(try); i++ {
			if try[i]++; try[i] < len(open[i]) {
				break
			}
			try[i] = 0
		}
		if i == len(try) {
			return
		}
	}
}

// withTax is what orders cost with their tax, line by line and not rounded: every
// line less its part of the order's discount.
func withTax(s job.Settings, orders []Order) *big.Rat {
	factor := func(percent decimal.Decimal) *big.Rat { return decimal.NewFromInt(100).Add(percent).Shift(-2).Rat() }
	total := new(big.Rat)
	for _, o := range orders {
		goods := new(big.Rat)
		for _, line := range o.Lines {
			goods.Add(goods, new(big.Rat).Mul(line.Net.Decimal().Rat(), factor(line.TaxPercent)))
		}
		if o.Goods.Sign() > 0 {
			kept := new(big.Rat).Quo(o.Goods.Sub(o.Allowance).Decimal().Rat(), o.Goods.Decimal().Rat())
			goods.Mul(goods, kept)
		}
		total.Add(total, goods)
		total.Add(total, new(big.Rat).Mul(o.Charges().Decimal().Rat(), factor(s.TaxPercent)))
	}
	return total
}

// Where the tax is a cost and its rates differ, no combination costs less either,
// but for the part of a cent that the search counts in: a ten-thousandth an order.
func TestChoiceWithTaxAgainstAllChoices(t *testing.T) {
	taxed := settings
	taxed.PurchaseTaxIsCost, taxed.TaxPercent = true, dec("20")
	rapid.Check(t, func(t *rapid.T) {
		suppliers, fixed, open := drawOffers(t, rapid.IntRange(1, 4).Draw(t, "suppliers"), rapid.IntRange(1, 5).Draw(t, "products"), rapid.IntRange(1, 3).Draw(t, "consignments"))
		choices, problems := Choose(taxed, suppliers, fixed, open)
		if len(problems) > 0 || !choices.Proven {
			t.Fatal(choices.Proven, problems)
		}
		bought := func(taken []int) *big.Rat {
			needs := append([]Need(nil), fixed...)
			for i, offers := range open {
				needs = append(needs, offers[taken[i]].Needs...)
			}
			orders, _, _ := Buy(taxed, suppliers, needs)
			return withTax(taxed, orders)
		}
		taken := make([]int, len(open))
		for i, c := range choices.Products {
			taken[i] = c.Taken
		}
		slack := big.NewRat(int64(2*len(suppliers)*3), 1_000_000)
		best := bought(taken)
		eachChoice(open, func(try []int) {
			if other := bought(try); other.Add(other, slack).Cmp(best) < 0 {
				t.Fatalf("%v costs %s, the choice %v %s", try, other.FloatString(6), taken, best.FloatString(6))
			}
		})
	})
}

// Products at four suppliers, prices within a few per cent of one another, for
// one consignment and for eight.
func BenchmarkChoose(b *testing.B) {
	for _, size := range []struct {
		products, consignments int
		discounted             bool
	}{{20, 1, false}, {100, 1, false}, {300, 1, false}, {20, 8, false}, {100, 8, false}, {300, 8, false}, {20, 1, true}, {100, 1, true}, {300, 1, true}, {20, 8, true}, {100, 8, true}} {
		b.Run(fmt.Sprintf("%dx%d discounted %v", size.products, size.consignments, size.discounted), func(b *testing.B) {
			suppliers, open := market(size.products, size.consignments, size.discounted)
			var choices Choices
			for b.Loop() {
				choices, _ = Choose(settings, suppliers, nil, open)
			}
			proven := 0.0
			if choices.Proven {
				proven = 1
			}
			b.ReportMetric(proven, "proven")
		})
	}
}

// market is four suppliers whose free limits and minimum orders are near what
// they get of the products; discounted ones give something off larger orders.
func market(products, consignments int, discounted bool) (suppliers []*job.Supplier, open [][]Offer) {
	share := products * 200 / 4 / consignments // about what a supplier's order comes to
	for i := range 4 {
		suppliers = append(suppliers, &job.Supplier{Code: fmt.Sprint("S", i), Delivery: euros("85"), FreeFrom: euros(fmt.Sprint(share + share*i/8)), MinimumOrder: euros(fmt.Sprint(share / 2))})
		if discounted {
			suppliers[i].OrderDiscountPercent, suppliers[i].OrderDiscountFrom = dec(fmt.Sprint(2+i)), euros(fmt.Sprint(share+share*(3-i)/4))
		}
	}
	for i := range products {
		need := int64(1 + i*37%40)
		var by []*big.Rat
		for c := range consignments {
			by = append(by, big.NewRat(need*int64(c+1)*2, int64(consignments*(consignments+1))))
		}
		var of []Offer
		for s, supplier := range suppliers {
			p := supplied(supplier, fmt.Sprintf("P%03d", i), func(p *job.Product) { p.Price = decimal.New(int64(1000+(i*7919+s*104729+i*s*31)%83), -2) })
			of = append(of, Offer{Product: p, Needs: []Need{{Product: p, Sold: big.NewRat(need, 1), By: by}}})
		}
		open = append(open, of)
	}
	return suppliers, open
}

// leastOf is the least that the steps that hold some goods count for them.
func leastOf(steps []step, goods int64) int64 {
	least := int64(never)
	for _, st := range steps {
		if st.used && st.from <= goods && goods <= st.most {
			least = min(least, st.charges(goods))
		}
	}
	return least
}

// The steps that hold some goods never count more than the order's charges. Where
// all lines bear the highest tax they count less than a cent too little, with what
// the counting rounds; and so they do at any tax where each line is counted less its
// part of the discount.
func TestStepsAreBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newSearch(job.Settings{Currency: euro, PurchaseTaxIsCost: true, TaxPercent: dec("20")}, nil, 1)
		amount := func(name string) int64 { return rapid.Int64Range(0, 500).Draw(t, name) }
		tax := dec(rapid.SampledFrom([]string{"0", "7.25", "25"}).Draw(t, "tax"))
		s.mostTax = s.taxed(1, dec("25"))
		o := terms{minimum: amount("minimum"), delivery: amount("delivery"), free: amount("free"), discount: discountOf(&job.Supplier{
			OrderDiscountPercent: dec(rapid.SampledFrom([]string{"0", "3", "33.3333", "100"}).Draw(t, "percent")), OrderDiscountFrom: euro.Round(decimal.New(amount("from"), -2))})}
		for goods := range int64(600) {
			have := o
			line := offeredLine{goods: goods, cost: s.taxed(goods, tax)}
			line.off = o.discount.most(line.cost)
			have.add(line)
			charges, least := s.charges(have), leastOf(s.steps(o, 600, true), goods)
			if least > charges || s.taxed(1, tax) == s.mostTax && charges-least > s.mostTax+goods+2 {
				t.Fatalf("%d for goods of %d, charges are %d", least, goods, charges)
			}
			if net, ok := s.netSteps(o, s.steps(o, 600, true)); ok {
				if counted := leastOf(net, goods) - have.off; counted > charges || charges-counted > s.mostTax+2 {
					t.Fatalf("%d for goods of %d less their discount, charges are %d", counted, goods, charges)
				}
			}
		}
	})
}
