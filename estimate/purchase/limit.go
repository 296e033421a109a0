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
	more, ok := order.cheaperFrom(settings, order.ToFreeDelivery())
	if !ok {
		return
	}
	problems.Add(more.caution(problem.FreeDeliveryNear, fmt.Sprintf("delivery %s, free from %s", order.Delivery, order.Supplier.FreeFrom)))
}

// nearOrderDiscount cautions where an order would cost less if more of one
// product were bought, up to the supplier's limit for the discount on the order
// as a whole.
func nearOrderDiscount(settings job.Settings, order Order, problems *problem.List) {
	more, ok := order.cheaperFrom(settings, order.ToDiscount())
	if !ok {
		return
	}
	problems.Add(more.caution(problem.DiscountNear, fmt.Sprintf("%s %% off all of them from %s", order.Supplier.OrderDiscountPercent, order.Supplier.OrderDiscountFrom)))
}

// larger is an order with more of one of its products.
type larger struct {
	order, with Order
	missing     money.Amount // to the limit that it reaches
	line        int          // of the product
}

// cheaperFrom is the cheapest of the orders whose goods are raised by what is
// missing to a limit, by buying more of one product; ok is false where none costs
// less.
func (o Order) cheaperFrom(settings job.Settings, missing money.Amount) (best larger, ok bool) {
	if missing.IsZero() {
		return best, false
	}
	best = larger{order: o, with: o, missing: missing}
	for i, line := range o.Lines {
		raised, possible := line.raised(missing, settings.Currency)
		if !possible {
			continue
		}
		lines := append([]Line(nil), o.Lines...)
		lines[i] = raised
		with := newOrder(settings, o.Supplier, lines)
		if with.Goods.Sub(o.Goods).Cmp(missing) >= 0 && with.Net.Cmp(best.with.Net) < 0 {
			best.with, best.line, ok = with, i, true
		}
	}
	return best, ok
}

func (l larger) caution(code problem.Code, limit string) problem.Problem {
	line, more := l.order.Lines[l.line], l.with.Lines[l.line]
	return problem.Problem{
		Code:  code,
		At:    l.order.Supplier.Ref,
		Found: fmt.Sprintf("order %s: goods of %s %s, %s", l.order.Number, l.order.Goods, l.order.Goods.Currency().Code, limit),
		Want: fmt.Sprintf("goods of %s more; %s instead of %s %s of %s make the order %s cheaper", l.missing, more.Quantity, line.Quantity, line.Product.SoldBy, line.Product.Code,
			l.order.Net.Sub(l.with.Net)),
		Fix: "Buy more of it, if the rest can be stored, used or returned: raise its Minimum quantity.",
	}
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
