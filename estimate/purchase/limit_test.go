package purchase

import (
	"math/big"
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// At 10 apiece, delivery 45, free from 500. With 46 pieces 40.00 are missing: 4
// more cost 40.00 and save 45.00. With 45 pieces 50.00 are missing, more than
// they save. In steps of 5 to 50: 450 + 45 = 495 against 500.
func TestFreeDeliveryNear(t *testing.T) {
	for _, row := range []struct {
		name   string
		pieces int64
		change func(*job.Product)
		said   string
	}{
		{"worth it", 46, nil, "goods of 40.00 more; 50 instead of 46 each of P make the order 5.00 cheaper"},
		{"not worth it", 45, nil, ""},
		{"free already", 50, nil, ""},
		{"a step that is dear", 46, func(p *job.Product) { p.OrderStep = dec("46") }, ""},
		// 48 reach the break of 9.80: 470.40 is below the limit, 500.00 are
		// 52 x 9.80 = 509.60, which costs more than 46 and the delivery.
		{"a price break on the way", 46, func(p *job.Product) { p.PriceBreaks = []job.PriceBreak{{From: dec("48"), Price: dec("9.8")}} }, ""},
	} {
		supplier := &job.Supplier{Code: "S", Delivery: euros("45"), FreeFrom: euros("500")}
		_, _, problems := Buy(settings, []*job.Supplier{supplier}, []Need{{Product: supplied(supplier, "P", row.change), Sold: big.NewRat(row.pieces, 1)}})
		said := ""
		for _, p := range problems {
			if p.Code == problem.FreeDeliveryNear {
				said += p.Want
			}
		}
		same(t, row.name, said, row.said)
	}
}

// At 10 apiece, 5 % off the order from 500. With 48 pieces, 20.00 are missing: 50
// cost 475.00 instead of 480.00. With 47, 50 cost 475.00 instead of 470.00. A charge
// of 6 on the line counts to the limit: 48 pieces lack 14.00, and 50 cost 506 less
// 25.30, 480.70 instead of 486.00. Where delivery of 9 is free from 500 as well, 47
// pieces are worth raising for both: 475.00 instead of 479.00.
func TestOrderDiscountNear(t *testing.T) {
	for _, row := range []struct {
		name     string
		pieces   int64
		supplier job.Supplier
		change   func(*job.Product)
		said     string
	}{
		{"worth it", 48, job.Supplier{}, nil, "goods of 20.00 more; 50 instead of 48 each of P make the order 5.00 cheaper"},
		{"not worth it", 47, job.Supplier{}, nil, ""},
		{"given already", 50, job.Supplier{}, nil, ""},
		{"a charge on the line", 48, job.Supplier{}, func(p *job.Product) { p.LineCharge = euros("6") }, "goods of 14.00 more; 50 instead of 48 each of P make the order 5.30 cheaper"},
		{"with free delivery", 47, job.Supplier{Delivery: euros("9"), FreeFrom: euros("500")}, nil, "goods of 30.00 more; 50 instead of 47 each of P make the order 4.00 cheaper"},
	} {
		row.supplier.Code, row.supplier.OrderDiscountPercent, row.supplier.OrderDiscountFrom = "S", dec("5"), euros("500")
		_, _, problems := Buy(settings, []*job.Supplier{&row.supplier}, []Need{{Product: supplied(&row.supplier, "P", row.change), Sold: big.NewRat(row.pieces, 1)}})
		said := ""
		for _, p := range problems {
			if p.Code == problem.DiscountNear {
				said += p.Want
			}
		}
		same(t, row.name, said, row.said)
	}
}
