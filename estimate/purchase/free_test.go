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
