package purchase

import (
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// By hand, for two consignments of 4 packs each.
//
// A break: 4 x 10 twice are 80; one order of 8 reaches the break from 8 on at 9:
// 72, so 8 less. Delivery of 7 a time, free from 75: 40 + 7 twice are 94, and
// 80 once, so 14 less. A minimum of 60: 60 twice are 120, and 80 once, 40 less.
// A minimum quantity of 6: 6 and then 6 more for 2 are 120, and 8 once, 80.
// A charge of 6 on a line: 46 twice are 92, and 86 once, 6 less. 10 % off orders
// from 75: 40 twice are 80, and 80 less 8 once.
func TestWhatOneOrderWouldCost(t *testing.T) {
	four := []*big.Rat{big.NewRat(4, 1), big.NewRat(4, 1)}
	for _, row := range []struct {
		name     string
		supplier job.Supplier
		product  func(*job.Product)
		less     string
		reasons  []string
	}{
		{"nothing is lost", job.Supplier{}, nil, "0.00", nil},
		{"a price break", job.Supplier{}, func(p *job.Product) { p.PriceBreaks = []job.PriceBreak{{From: dec("8"), Price: dec("9")}} }, "8.00",
			[]string{"P at 9.00 for 8 each instead of 10.00 for 4, 10.00 for 4"}},
		{"free delivery", job.Supplier{Delivery: euros("7"), FreeFrom: euros("75")}, nil, "14.00", []string{"delivery 0.00 instead of 14.00"}},
		{"the minimum order", job.Supplier{MinimumOrder: euros("60")}, nil, "40.00", []string{"supplement up to the minimum order 0.00 instead of 40.00"}},
		{"a charge on the line", job.Supplier{}, func(p *job.Product) { p.LineCharge = euros("6") }, "6.00", []string{"charges on lines 6.00 instead of 12.00"}},
		{"a discount on the order", job.Supplier{OrderDiscountPercent: dec("10"), OrderDiscountFrom: euros("75")}, nil, "8.00", []string{"discount on the whole order 8.00 instead of 0.00"}},
		{"a minimum quantity", job.Supplier{}, func(p *job.Product) { p.MinimumQuantity = dec("6") }, "40.00", []string{"8 each of P instead of 12"}},
	} {
		row.supplier.Code = "S"
		needs := []Need{{Product: supplied(&row.supplier, "P", row.product), Sold: big.NewRat(8, 1), By: four}}
		suppliers := []*job.Supplier{&row.supplier}
		orders, _, _ := Buy(settings, suppliers, needs)
		splits := Splits(settings, suppliers, needs, orders)
		if len(splits) != 1 || len(splits[0].Orders) != 2 {
			t.Fatalf("%s: %+v", row.name, splits)
		}
		if less := splits[0].Less().String(); less != row.less {
			t.Errorf("%s: one order costs %s less, want %s", row.name, less, row.less)
		}
		if diff := cmp.Diff(row.reasons, splits[0].Reasons()); diff != "" {
			t.Errorf("%s: %s", row.name, diff)
		}
		cautions := Dearer(splits)
		if got := len(cautions) == 1 && cautions[0].Code == problem.SplitDearer; got != (row.less != "0.00") {
			t.Errorf("%s: cautions %v", row.name, cautions)
		}
	}
}

// A supplier with one order has nothing to compare.
func TestOneOrderIsNotSplit(t *testing.T) {
	supplier := &job.Supplier{Code: "S"}
	needs := []Need{{Product: supplied(supplier, "P", nil), Sold: big.NewRat(4, 1), By: []*big.Rat{big.NewRat(4, 1), new(big.Rat)}}}
	orders, _, _ := Buy(settings, []*job.Supplier{supplier}, needs)
	if splits := Splits(settings, []*job.Supplier{supplier}, needs, orders); len(splits) != 0 {
		t.Errorf("%+v", splits)
	}
}
