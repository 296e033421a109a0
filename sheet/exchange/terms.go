package exchange

import (
	"cmp"
	"slices"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/money"
)

// termsOf are the job's terms for all that it uses, each kind by its name.
func termsOf(r *estimate.Result) termsEntry {
	var terms termsEntry
	bought, suppliers := map[*job.Product]bool{}, map[*job.Supplier]bool{}
	for i := range r.Orders {
		o := &r.Orders[i]
		if s := o.Supplier; !suppliers[s] {
			suppliers[s] = true
			terms.Suppliers = append(terms.Suppliers, supplierTerms{Supplier: s.Code, MinimumOrder: amount(s.MinimumOrder), Charge: amount(s.Delivery),
				FreeFrom: orNull(s.FreeFrom), OrderDiscount: dec(s.OrderDiscountPercent), DiscountFrom: orNull(s.OrderDiscountFrom),
				Paid: amount(s.Paid), PayableStep: orNull(s.PayableStep)})
		}
		for _, line := range o.Lines {
			if p := line.Product; !bought[p] {
				bought[p] = true
				terms.Prices = append(terms.Prices, priceTerms{Product: p.Code, Supplier: p.Supplier.Code, Price: dec(p.Price), PricePer: p.PricePer.String(),
					Breaks: breaksOf(p), Discount: dec(p.LineDiscount()), Charge: amount(p.LineCharge), Tax: dec(p.TaxPercent)})
			}
		}
	}
	slices.SortFunc(terms.Prices, func(a, b priceTerms) int { return cmp.Compare(a.Product, b.Product) })
	terms.Trades = tradesOf(r)
	for _, line := range r.Price.Extras {
		terms.Extras = append(terms.Extras, extraTerms{line.Extra.Description, dec(line.Extra.UnitCost)})
	}
	return terms
}

func tradesOf(r *estimate.Result) []tradeTerms {
	var trades []tradeTerms
	worked := map[*job.Trade]bool{}
	for _, line := range r.Labour {
		if w := line.Operation.Trade; !worked[w] {
			worked[w] = true
			trades = append(trades, tradeTerms{Trade: w.Name, Wage: dec(w.Wage), Burden: dec(w.BurdenPercent), Overtime: dec(w.Overtime)})
		}
	}
	slices.SortFunc(trades, func(a, b tradeTerms) int { return cmp.Compare(a.Trade, b.Trade) })
	return trades
}

func breaksOf(p *job.Product) []breakEntry {
	var breaks []breakEntry
	for _, b := range p.PriceBreaks {
		breaks = append(breaks, breakEntry{dec(b.From), dec(b.Price)})
	}
	return breaks
}

// orNull is a limit, nil when there is none.
func orNull(limit money.Amount) *string {
	if limit.Sign() <= 0 {
		return nil
	}
	text := amount(limit)
	return &text
}
