package purchase

import (
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

// newOrder adds up one supplier's lines: the order's discount is given and
// delivery is free from the supplier's limits on, and goods below the minimum
// order are charged up to it. All three compare with the goods after the lines'
// discounts, before the order's and before tax.
func newOrder(settings job.Settings, supplier *job.Supplier, lines []Line) Order {
	zero := settings.Currency.Zero()
	o := Order{Supplier: supplier, Lines: lines, Goods: zero, Allowance: zero, Delivery: zero, Supplement: zero}
	for _, line := range lines {
		o.Goods = o.Goods.Add(line.Net)
		o.Weight = o.Weight.Add(line.Quantity.Mul(line.Product.Weight))
	}
	o.Allowance = o.Goods.Percent(o.DiscountPercent())
	if free := supplier.FreeFrom; free.IsZero() || o.Goods.Cmp(free) < 0 {
		o.Delivery = zero.Add(supplier.Delivery)
	}
	if o.Goods.Cmp(supplier.MinimumOrder) < 0 {
		o.Supplement = supplier.MinimumOrder.Sub(o.Goods)
	}
	o.Net = o.Goods.Sub(o.Allowance).Add(o.Delivery).Add(o.Supplement)
	o.Taxes = o.taxes(settings.TaxPercent)
	o.Tax = zero
	for _, tax := range o.Taxes {
		o.Tax = o.Tax.Add(tax.Amount)
	}
	o.Gross = o.Net.Add(o.Tax)
	o.pay(zero)
	return o
}

// taxes are the order's taxes, one a rate, lowest rate first: what a rate is
// borne by is added up and taxed once (EN 16931, rule BR-CO-17). The allowance
// lowers every rate by its share, by the rates' goods; delivery and supplement
// bear the job's own rate.
func (o Order) taxes(chargeRate decimal.Decimal) []Tax {
	var taxes []Tax
	zero := o.Goods.Currency().Zero()
	rate := func(percent decimal.Decimal) *Tax {
		i := slices.IndexFunc(taxes, func(t Tax) bool { return t.Percent.Equal(percent) })
		if i < 0 {
			i = len(taxes)
			taxes = append(taxes, Tax{Percent: percent, Goods: zero, Allowance: zero, Base: zero})
		}
		return &taxes[i]
	}
	for _, line := range o.Lines {
		tax := rate(line.TaxPercent)
		tax.Goods = tax.Goods.Add(line.Net)
	}
	if charges := o.Charges(); !charges.IsZero() {
		tax := rate(chargeRate)
		tax.Base = tax.Base.Add(charges)
	}
	slices.SortStableFunc(taxes, func(a, b Tax) int { return a.Percent.Cmp(b.Percent) })
	goods := make([]int64, len(taxes))
	for i, tax := range taxes {
		goods[i] = tax.Goods.Weight()
	}
	for i, share := range o.Allowance.Allocate(goods) {
		tax := &taxes[i]
		tax.Allowance = share
		tax.Base = tax.Base.Add(tax.Goods).Sub(share)
		tax.Amount = tax.Base.Percent(tax.Percent)
	}
	return taxes
}

// settle takes what the suppliers hold already off their orders, those for the
// earliest part of the building first.
func settle(orders []Order) {
	held := map[*job.Supplier]money.Amount{}
	for i := range orders {
		o := &orders[i]
		left, begun := held[o.Supplier]
		if !begun {
			left = o.Gross.Currency().Zero().Add(o.Supplier.Paid)
		}
		o.pay(left)
		held[o.Supplier] = left.Sub(o.Paid)
	}
}

// pay takes as much of what the supplier holds off the order as it comes to, and
// rounds the rest as the supplier does, half up.
func (o *Order) pay(held money.Amount) {
	o.Paid = held
	if o.Gross.Cmp(held) < 0 {
		o.Paid = o.Gross
	}
	due := o.Gross.Sub(o.Paid)
	o.Payable = due.ToStep(o.Supplier.PayableStep)
	o.Rounding = o.Payable.Sub(due)
}

// ToFreeDelivery is what the order's goods lack to free delivery: nothing when
// delivery is free, costs nothing anyway, or is never free.
func (o Order) ToFreeDelivery() money.Amount {
	if free := o.Supplier.FreeFrom; !free.IsZero() && !o.Delivery.IsZero() {
		return free.Sub(o.Goods)
	}
	return o.Goods.Sub(o.Goods)
}

// DiscountPercent is what the supplier takes off an order of these goods: nothing
// below its limit.
func (o Order) DiscountPercent() decimal.Decimal {
	if o.Goods.Cmp(o.Supplier.OrderDiscountFrom) < 0 {
		return decimal.Zero
	}
	return o.Supplier.OrderDiscountPercent
}

// Kept is an amount of the order's goods less the discount on the order, not
// rounded.
func (o Order) Kept(goods money.Amount) decimal.Decimal {
	return goods.Decimal().Mul(decimal.NewFromInt(100).Sub(o.DiscountPercent())).Shift(-2)
}

// ToDiscount is what the order's goods lack to the discount on the order as a
// whole: nothing when it is given or there is none.
func (o Order) ToDiscount() money.Amount {
	if s := o.Supplier; s.OrderDiscountPercent.Sign() > 0 && o.Goods.Cmp(s.OrderDiscountFrom) < 0 {
		return s.OrderDiscountFrom.Sub(o.Goods)
	}
	return o.Goods.Sub(o.Goods)
}

// LineCharges are those of the order's lines, whatever their quantity.
func (o Order) LineCharges() money.Amount {
	total := o.Goods.Currency().Zero()
	for _, line := range o.Lines {
		total = total.Add(line.Charge)
	}
	return total
}

// Charges is what the order costs besides its goods: delivery and supplement.
func (o Order) Charges() money.Amount { return o.Delivery.Add(o.Supplement) }
