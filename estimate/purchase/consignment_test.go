package purchase

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/job"
)

// By hand, for three consignments that need 3.2, 0.3 and 4 packs: packs opened
// on go over, so 4 come first, none second (4 packs hold 3.5), and 4 third (8
// packs hold 7.5). One order of the whole would be 8 packs too.
func TestConsignments(t *testing.T) {
	thirds := []*big.Rat{big.NewRat(16, 5), big.NewRat(3, 10), big.NewRat(4, 1)}
	for _, row := range []struct {
		name     string
		supplier job.Supplier
		product  func(*job.Product)
		want     []string // number: quantity x price, net of the order
	}{
		{"packs are opened on", job.Supplier{}, nil, []string{"J-S-1: 4 x 10, 40.00", "J-S-3: 4 x 10, 40.00"}},
		// 5 are ordered for 4; what is left over goes on to the third: 5 more for 8.
		{"an order step", job.Supplier{}, func(p *job.Product) { p.OrderStep = dec("5") }, []string{"J-S-1: 5 x 10, 50.00", "J-S-3: 5 x 10, 50.00"}},
		// The least of an order is 6: the third wants 2 more and gets 6.
		{"a minimum quantity", job.Supplier{}, func(p *job.Product) { p.MinimumQuantity = dec("6") }, []string{"J-S-1: 6 x 10, 60.00", "J-S-3: 6 x 10, 60.00"}},
		// The break from 5 on is not reached by 4, twice.
		{"a price break holds for one order", job.Supplier{}, func(p *job.Product) { p.PriceBreaks = []job.PriceBreak{{From: dec("5"), Price: dec("1")}} },
			[]string{"J-S-1: 4 x 10, 40.00", "J-S-3: 4 x 10, 40.00"}},
		{"delivery and minimum order are each order's", job.Supplier{Delivery: euros("7"), MinimumOrder: euros("45")}, nil, []string{"J-S-1: 4 x 10, 52.00", "J-S-3: 4 x 10, 52.00"}},
		{"delivery is free by each order", job.Supplier{Delivery: euros("7"), FreeFrom: euros("80")}, nil, []string{"J-S-1: 4 x 10, 47.00", "J-S-3: 4 x 10, 47.00"}},
	} {
		row.supplier.Code = "S"
		product := supplied(&row.supplier, "P", row.product)
		s := settings
		s.Number = "J"
		orders, _, _ := Buy(s, []*job.Supplier{&row.supplier}, []Need{{Product: product, Sold: big.NewRat(75, 10), By: thirds}})
		var got []string
		for _, o := range orders {
			got = append(got, fmt.Sprintf("%s: %s x %s, %s", o.Number, o.Lines[0].Quantity, o.Lines[0].Price, o.Net))
		}
		if diff := cmp.Diff(row.want, got); diff != "" {
			t.Errorf("%s: %s", row.name, diff)
		}
	}
}

// Whatever places open packs and whenever: after every consignment there is
// enough for all places so far, and in the end no pack more than one order of
// the whole buys, unless a minimum quantity asks for it.
func TestConsignmentsAreEnoughAndNoPackMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		supplier := &job.Supplier{Code: "S"}
		product := supplied(supplier, "P", func(p *job.Product) {
			p.OrderStep = decimal.NewFromInt(rapid.Int64Range(1, 4).Draw(t, "step"))
			p.MinimumQuantity = decimal.NewFromInt(rapid.SampledFrom([]int64{0, 0, 5}).Draw(t, "least"))
		})
		consignments := rapid.IntRange(2, 5).Draw(t, "consignments")
		var needs, whole []Need
		for place := range rapid.IntRange(1, 4).Draw(t, "places") {
			total := rapid.Int64Range(1, 30).Draw(t, "need")
			need := Need{Product: product, Place: fmt.Sprint(place), Sold: big.NewRat(total, 1), By: splits(t, total, consignments)}
			needs = append(needs, need)
			need.By = nil
			whole = append(whole, need)
		}
		ordered := make([]decimal.Decimal, consignments)
		orders, materials, _ := Buy(settings, []*job.Supplier{supplier}, needs)
		all := decimal.Zero
		for _, o := range orders {
			ordered[o.Consignment], all = o.Lines[0].Quantity, all.Add(o.Lines[0].Quantity)
		}
		there, enough := decimal.Zero, make([]*big.Rat, len(needs))
		for c := range consignments {
			there = there.Add(ordered[c])
			wanted := decimal.Zero
			for i, need := range needs {
				if enough[i] == nil {
					enough[i] = new(big.Rat)
				}
				enough[i].Add(enough[i], need.By[c])
				wanted = wanted.Add(upTo(enough[i], decimal.NewFromInt(1)))
			}
			if there.Cmp(wanted) < 0 {
				t.Fatalf("%s there after consignment %d, %s wanted", there, c+1, wanted)
			}
		}
		one, once, _ := Buy(settings, []*job.Supplier{supplier}, whole)
		if product.MinimumQuantity.IsZero() && (!all.Equal(one[0].Lines[0].Quantity) || cmp.Diff(once, materials, equal) != "") {
			t.Fatalf("%s in all, %s in one order; %+v and %+v", all, one[0].Lines[0].Quantity, materials[0], once[0])
		}
	})
}
