package purchase

import (
	"fmt"
	"slices"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
)

// Split is a supplier's orders for several parts of the building beside one
// order of the same goods for all of them.
type Split struct {
	Orders []Order
	Once   Order // without a number: it is not placed
}

// Splits are the suppliers that get several orders, in the order of these, each
// with what one order would cost. There a price break, a discount on the
// order, free delivery or the minimum order may be reached that no part reaches by itself.
func Splits(settings job.Settings, suppliers []*job.Supplier, needs []Need, orders []Order) []Split {
	whole := slices.Clone(needs)
	for i := range whole {
		whole[i].By = nil
	}
	once, _, _ := Buy(settings, suppliers, whole)
	var splits []Split
	for _, order := range once {
		parts := slices.DeleteFunc(slices.Clone(orders), func(o Order) bool { return o.Supplier != order.Supplier })
		if len(parts) > 1 {
			order.Number = ""
			splits = append(splits, Split{parts, order})
		}
	}
	return splits
}

// sum adds up one amount of the orders as they are placed.
func (s Split) sum(of func(Order) money.Amount) money.Amount {
	total := of(s.Once).Sub(of(s.Once))
	for _, order := range s.Orders {
		total = total.Add(of(order))
	}
	return total
}

// Net is what the orders cost together, before tax.
func (s Split) Net() money.Amount { return s.sum(func(o Order) money.Amount { return o.Net }) }

// Less is how much less one order would cost, before tax.
func (s Split) Less() money.Amount { return s.Net().Sub(s.Once.Net) }

// Reasons say in words what makes the difference; none where it is cents of
// rounding.
func (s Split) Reasons() []string {
	var reasons []string
	for _, line := range s.Once.Lines {
		if reason := s.reason(line); reason != "" {
			reasons = append(reasons, reason)
		}
	}
	for _, charge := range []struct {
		name string
		of   func(Order) money.Amount
	}{
		{"charges on lines", Order.LineCharges},
		{"discount on the whole order", func(o Order) money.Amount { return o.Allowance }},
		{"delivery", func(o Order) money.Amount { return o.Delivery }},
		{"supplement up to the minimum order", func(o Order) money.Amount { return o.Supplement }},
	} {
		if parts, once := s.sum(charge.of), charge.of(s.Once); !parts.Equal(once) {
			reasons = append(reasons, fmt.Sprintf("%s %s instead of %s", charge.name, once, parts))
		}
	}
	return reasons
}

// reason says how a product's line would differ.
func (s Split) reason(line Line) string {
	p := line.Product
	total, dearer := line.Quantity.Sub(line.Quantity), []string{}
	for _, order := range s.Orders {
		for _, part := range order.Lines {
			if part.Product != p {
				continue
			}
			total = total.Add(part.Quantity)
			if !part.Price.Equal(line.Price) {
				dearer = append(dearer, fmt.Sprintf("%s for %s", part.priceText(), part.Quantity))
			}
		}
	}
	switch {
	case len(dearer) > 0:
		return fmt.Sprintf("%s at %s for %s %s instead of %s", p.Code, line.priceText(), line.Quantity, p.SoldBy, strings.Join(dearer, ", "))
	case !total.Equal(line.Quantity):
		return fmt.Sprintf("%s %s of %s instead of %s", line.Quantity, p.SoldBy, p.Code, total)
	}
	return ""
}

// Dearer cautions of the suppliers that would charge less for one order.
func Dearer(splits []Split) problem.List {
	var problems problem.List
	for _, s := range splits {
		reasons := s.Reasons()
		if s.Less().Sign() <= 0 || len(reasons) == 0 {
			continue
		}
		code, supplier := s.Less().Currency().Code, s.Once.Supplier
		problems.Add(problem.Problem{
			Code:  problem.SplitDearer,
			At:    supplier.Ref,
			Found: fmt.Sprintf("%d orders to %s for parts of the building, together %s %s", len(s.Orders), supplier.Code, s.Net(), code),
			Want:  fmt.Sprintf("one order of the same goods would cost %s %s less: %s", s.Less(), code, strings.Join(reasons, "; ")),
			Fix:   "Ask for the whole job's prices with deliveries on call, or set Deliveries to job and store the goods.",
		})
	}
	return problems
}

// priceText is the line's price with the decimals of its currency, or with more
// where it has them.
func (l *Line) priceText() string {
	return l.Price.StringFixed(max(l.Net.Currency().Minor, -l.Price.Exponent()))
}
