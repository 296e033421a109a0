package purchase

import (
	"fmt"
	"math/big"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
)

// nearFreeDelivery cautions where an order would cost less if more of one
// product were bought, up to the supplier's limit for free delivery.
func nearFreeDelivery(settings job.Settings, order Order, problems *problem.List) {
	missing := order.ToFreeDelivery()
	if missing.IsZero() {
		return
	}
	best, at := order, -1
	for i, line := range order.Lines {
		larger, ok := line.raised(missing, settings.Currency)
		if !ok {
			continue
		}
		lines := append([]Line(nil), order.Lines...)
		lines[i] = larger
		if with := newOrder(settings, order.Supplier, lines); with.Delivery.IsZero() && with.Net.Cmp(best.Net) < 0 {
			best, at = with, i
		}
	}
	if at < 0 {
		return
	}
	code := settings.Currency.Code
	line, larger := order.Lines[at], best.Lines[at]
	problems.Add(problem.Problem{
		Code:  problem.FreeDeliveryNear,
		At:    order.Supplier.Ref,
		Found: fmt.Sprintf("order %s: goods of %s %s, delivery %s, free from %s", order.Number, order.Goods, code, order.Delivery, order.Supplier.FreeFrom),
		Want:  fmt.Sprintf("goods of %s more; %s instead of %s %s of %s make the order %s cheaper", missing, larger.Quantity, line.Quantity, line.Product.SoldBy, line.Product.Code, order.Net.Sub(best.Net)),
		Fix:   "Buy more of it, if the rest can be stored, used or returned: raise its Minimum quantity.",
	})
}

// raised is the line with so many order steps more that its net rises by an
// amount; not where the product is free.
func (l Line) raised(by money.Amount, currency money.Currency) (Line, bool) {
	each := l.exact(decimal.NewFromInt(1))
	if each.Sign() <= 0 {
		return l, false
	}
	units := new(big.Rat).Quo(by.Decimal().Rat(), each.Rat())
	larger := l.of(l.Quantity.Add(upTo(units, l.Product.OrderStep)), currency)
	for larger.Net.Sub(l.Net).Cmp(by) < 0 && larger.Price.Equal(l.Price) { // by a cent of rounding
		larger = l.of(larger.Quantity.Add(l.Product.OrderStep), currency)
	}
	return larger, true
}
