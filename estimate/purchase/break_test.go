package purchase

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
)

// At 10.00, from 20 on 9.00, from 50 on 8.50, in steps of 1: 18 cost 180.00 and
// 20 cost 180.00 too; 19 cost 190.00, 10.00 more than 20. 48 cost 432.00, 7.00
// more than 50.
func TestPriceBreaks(t *testing.T) {
	for _, row := range []struct {
		name         string
		need         int64
		price, net   string
		caution      string
		delivery     string
		freeFrom     string
		minimumOrder string
	}{
		{"below every break", 10, "10", "100.00", "", "0", "0", "0"},
		{"the break costs the same", 18, "10", "180.00", "", "0", "0", "0"},
		{"the break is cheaper", 19, "10", "190.00", "20 each at 9, which cost 10.00 EUR less with delivery and supplement", "0", "0", "0"},
		{"a break reached exactly", 20, "9", "180.00", "", "0", "0", "0"},
		{"the second break is cheaper", 48, "9", "432.00", "50 each at 8.5, which cost 7.00 EUR less with delivery and supplement", "0", "0", "0"},
		{"beyond every break", 60, "8.5", "510.00", "", "0", "0", "0"},
		{"free delivery would be lost", 19, "10", "190.00", "", "45", "185", "0"},
		{"the minimum order is charged anyway", 19, "10", "190.00", "", "0", "0", "200"},
	} {
		supplier := &job.Supplier{Code: "S", Delivery: euros(row.delivery), FreeFrom: euros(row.freeFrom), MinimumOrder: euros(row.minimumOrder)}
		product := supplied(supplier, "P", func(p *job.Product) {
			p.PriceBreaks = []job.PriceBreak{{From: dec("50"), Price: dec("8.5")}, {From: dec("20"), Price: dec("9")}}
		})
		orders, _, problems := Buy(settings, []*job.Supplier{supplier}, []Need{{Product: product, Sold: big.NewRat(row.need, 1)}})
		same(t, row.name+": price", orders[0].Lines[0].Price.String(), row.price)
		same(t, row.name+": net", orders[0].Lines[0].Net.String(), row.net)
		said := ""
		for _, p := range problems {
			if p.Code == problem.PriceBreakNear {
				said += p.Want
			}
		}
		same(t, row.name+": caution", said, row.caution)
	}
}

// The price is that of a search through all breaks from the highest down, and a
// caution names the cheapest order among all larger quantities up to a break.
func TestBreaksAgainstSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amount := func(name string) money.Amount {
			return euro.Round(decimal.New(rapid.Int64Range(0, 30_000).Draw(t, name), -2))
		}
		supplier := &job.Supplier{Code: "S", Delivery: amount("delivery"), FreeFrom: amount("free"), MinimumOrder: amount("minimum")}
		product := supplied(supplier, "P", func(p *job.Product) { p.OrderStep = decimal.NewFromInt(rapid.Int64Range(1, 6).Draw(t, "step")) })
		for _, from := range rapid.SliceOfNDistinct(rapid.Int64Range(1, 60), 0, 4, rapid.ID[int64]).Draw(t, "breaks") {
			product.PriceBreaks = append(product.PriceBreaks, job.PriceBreak{From: decimal.NewFromInt(from), Price: decimal.NewFromInt(12 - from%7)})
		}
		need := Need{Product: product, Sold: big.NewRat(rapid.Int64Range(1, 60).Draw(t, "need"), 1)}
		orders, _, problems := Buy(settings, []*job.Supplier{supplier}, []Need{need})
		order := orders[0]
		cheapest := order.Net
		for _, b := range product.PriceBreaks {
			if b.From.Cmp(order.Lines[0].Quantity) <= 0 {
				continue
			}
			need.Sold = b.From.Rat()
			larger, _, _ := Buy(settings, []*job.Supplier{supplier}, []Need{need})
			if larger[0].Net.Cmp(cheapest) < 0 {
				cheapest = larger[0].Net
			}
		}
		cautions := 0
		for _, p := range problems {
			if p.Code == problem.PriceBreakNear {
				cautions++
			}
		}
		if wanted := cheapest.Cmp(order.Net) < 0; wanted != (cautions == 1) {
			t.Fatalf("order %s, cheapest %s, %d cautions", order.Net, cheapest, cautions)
		}
		price := product.Price
		for from := order.Lines[0].Quantity.IntPart(); from > 0; from-- {
			for _, b := range product.PriceBreaks {
				if b.From.IntPart() == from {
					price, from = b.Price, 0
					break
				}
			}
		}
		if !order.Lines[0].Price.Equal(price) {
			t.Fatalf("price %s, want %s", order.Lines[0].Price, price)
		}
	})
}
