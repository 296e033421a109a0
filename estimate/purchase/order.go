package purchase

import (
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

// newOrder adds up one supplier's lines: delivery is free from the supplier's
// limit on, and goods below the minimum order are charged up to it. Both
// compare with the goods after discount, before tax.
func newOrder(settings job.Settings, supplier *job.Supplier, lines []Line) Order {
	zero := settings.Currency.Zero()
	o := Order{Supplier: supplier, Lines: lines, Goods: zero, Delivery: zero, Supplement: zero}
	for _, line := range lines {
		o.Goods = o.Goods.Add(line.Net)
		o.Weight = o.Weight.Add(line.Quantity.Mul(line.Product.Weight))
	}
	if free := supplier.FreeFrom; free.IsZero() || o.Goods.Cmp(free) < 0 {
		o.Delivery = zero.Add(supplier.Delivery)
	}
	if o.Goods.Cmp(supplier.MinimumOrder) < 0 {
		o.Supplement = supplier.MinimumOrder.Sub(o.Goods)
	}
	o.Net = o.Goods.Add(o.Delivery).Add(o.Supplement)
	o.Taxes = o.taxes(settings.TaxPercent)
	o.Tax = zero
	for _, tax := range o.Taxes {
		o.Tax = o.Tax.Add(tax.Amount)
	}
	o.Gross = o.Net.Add(o.Tax)
	return o
}

// taxes are the order's taxes, one a rate, lowest rate first: the nets of a
// rate are added up and taxed once (EN 16931, rule BR-CO-17). Delivery and
// supplement bear the job's own rate.
func (o Order) taxes(chargeRate decimal.Decimal) []Tax {
	var taxes []Tax
	add := func(percent decimal.Decimal, base money.Amount) {
		for i := range taxes {
			if taxes[i].Percent.Equal(percent) {
				taxes[i].Base = taxes[i].Base.Add(base)
				return
			}
		}
		taxes = append(taxes, Tax{Percent: percent, Base: base})
	}
	for _, line := range o.Lines {
		add(line.TaxPercent, line.Net)
	}
	if charges := o.Charges(); !charges.IsZero() {
		add(chargeRate, charges)
	}
	slices.SortStableFunc(taxes, func(a, b Tax) int { return a.Percent.Cmp(b.Percent) })
	for i := range taxes {
		taxes[i].Amount = taxes[i].Base.Percent(taxes[i].Percent)
	}
	return taxes
}

// ToFreeDelivery is what the order's goods lack to free delivery: nothing when
// delivery is free, costs nothing anyway, or is never free.
func (o Order) ToFreeDelivery() money.Amount {
	if free := o.Supplier.FreeFrom; !free.IsZero() && !o.Delivery.IsZero() {
		return free.Sub(o.Goods)
	}
	return o.Goods.Sub(o.Goods)
}

// Charges is what the order costs besides its goods: delivery and supplement.
func (o Order) Charges() money.Amount { return o.Delivery.Add(o.Supplement) }
