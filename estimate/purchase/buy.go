package purchase

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/problem"
)

// Buy makes one order a supplier of everything that is needed, sorted by the
// supplier's code, and accounts for every product bought. A product that
// cannot be priced or counted from its row is left out with a problem.
func Buy(settings job.Settings, suppliers []*job.Supplier, needs []Need) ([]Order, []Material, problem.List) {
	var problems problem.List
	var materials []Material
	lines := map[*job.Supplier][]Line{}
	for _, w := range gather(needs) {
		bought, ok := w.buy(&problems)
		if !ok {
			continue
		}
		supplier := w.product.Supplier
		lines[supplier] = append(lines[supplier], bought.line(settings.Currency))
		materials = append(materials, bought.material())
	}
	var orders []Order
	for _, supplier := range byCode(suppliers) {
		if len(lines[supplier]) == 0 {
			continue
		}
		order := newOrder(settings, supplier, lines[supplier])
		order.Number = number(settings, supplier, len(orders)+1)
		belowMinimum(order, &problems)
		nearBreaks(settings, order, &problems)
		orders = append(orders, order)
	}
	return orders, materials, problems
}

// want is all that is needed of one product: one need a place, by place.
type want struct {
	product *job.Product
	places  []Need
}

// gather puts the needs of a product together, and those of one place into
// one, by product code and place.
func gather(needs []Need) []want {
	sorted := slices.Clone(needs)
	slices.SortStableFunc(sorted, func(a, b Need) int {
		return cmp.Or(cmp.Compare(a.Product.Code, b.Product.Code), cmp.Compare(a.Place, b.Place))
	})
	var wants []want
	for _, need := range sorted {
		if n := len(wants); n == 0 || wants[n-1].product != need.Product {
			wants = append(wants, want{product: need.Product})
		}
		wants[len(wants)-1].add(need)
	}
	return wants
}

func (w *want) add(need Need) {
	if n := len(w.places); n > 0 && w.places[n-1].Place == need.Place {
		at := &w.places[n-1]
		at.Sold = new(big.Rat).Add(at.Sold, need.Sold)
		at.Used += need.Used
		at.Laid += need.Laid
		at.Spare += need.Spare
		return
	}
	w.places = append(w.places, need)
}

// purchase is one product as it is bought.
type purchase struct {
	want
	opened       []decimal.Decimal // sold units each place opens
	quantity     decimal.Decimal   // sold units ordered
	unitsPerSold decimal.Decimal   // price units
	content      *big.Rat          // material units in a sold unit
}

// buy finds the quantity to order: each place opens whole sold units, and the
// order is the least multiple of the order step that is not below their sum or
// the minimum quantity.
func (w want) buy(problems *problem.List) (purchase, bool) {
	p := purchase{want: w}
	perSold := unitsPerSold(w.product)
	p.content = content(w.product)
	if perSold == nil || p.content == nil {
		problems.Add(incomplete(w.product, perSold == nil))
		return p, false
	}
	p.unitsPerSold = decimals(perSold, UnitPlaces)
	grain := grain(w.product)
	total := decimal.Zero
	for _, need := range w.places {
		opened := upTo(need.Sold, grain)
		p.opened = append(p.opened, opened)
		total = total.Add(opened)
	}
	p.quantity = upTo(decimal.Max(total, w.product.MinimumQuantity).Rat(), w.product.OrderStep)
	if UnitOf(w.product) == BySoldUnit && !p.quantity.IsInteger() {
		problems.Add(notWhole(w.product))
		return p, false
	}
	return p, true
}

// grain is the least amount that a place can open: a whole sold unit, or an
// order step where that is not a whole number of them, such as the area of a
// pack of goods sold by area.
func grain(p *job.Product) decimal.Decimal {
	if p.OrderStep.IsInteger() {
		return decimal.NewFromInt(1)
	}
	return p.OrderStep
}

// upTo is the least multiple of step that is not below the amount.
func upTo(amount *big.Rat, step decimal.Decimal) decimal.Decimal {
	steps := new(big.Rat).Quo(amount, step.Rat())
	whole, rest := new(big.Int).DivMod(steps.Num(), steps.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		whole.Add(whole, big.NewInt(1))
	}
	return decimal.NewFromBigInt(whole, 0).Mul(step)
}

func (p purchase) line(currency money.Currency) Line {
	return Line{
		Product:      p.product,
		UnitsPerSold: p.unitsPerSold,
		Discount:     p.product.Supplier.DiscountPercent,
		TaxPercent:   p.product.TaxPercent,
	}.of(p.quantity, currency)
}

// of is the line with another quantity, at the price of that quantity.
func (l Line) of(quantity decimal.Decimal, currency money.Currency) Line {
	l.Quantity = quantity
	l.Packs = packs(l.Product, quantity)
	l.Price = priceAt(l.Product, quantity)
	kept := decimal.NewFromInt(100).Sub(l.Discount).Shift(-2)
	l.Net = currency.Round(quantity.Mul(l.UnitsPerSold).Mul(l.Price).Mul(kept))
	return l
}

func byCode(suppliers []*job.Supplier) []*job.Supplier {
	return slices.SortedStableFunc(slices.Values(suppliers), func(a, b *job.Supplier) int { return cmp.Compare(a.Code, b.Code) })
}

// number is the order's number: the job's with the supplier's code, or a
// running number when the job has none.
func number(settings job.Settings, supplier *job.Supplier, running int) string {
	if settings.Number == "" {
		return fmt.Sprint(running)
	}
	return settings.Number + "-" + supplier.Code
}

func incomplete(p *job.Product, price bool) problem.Problem {
	if price {
		return problem.Problem{
			Code:  problem.ProductIncomplete,
			At:    p.Ref,
			Found: fmt.Sprintf("%s sold by %s and priced per %s", p.Code, p.SoldBy, p.PricePer),
			Want:  fmt.Sprintf("the sizes that say how many %s one %s holds: Length, Width, Pieces per pack or Area per pack", p.PricePer, p.SoldBy),
			Fix:   "Fill in the size, or price the product by the unit it is sold by.",
		}
	}
	return problem.Problem{
		Code:  problem.ProductIncomplete,
		At:    p.Ref,
		Found: fmt.Sprintf("%s of kind %s sold by %s", p.Code, p.Kind, p.SoldBy),
		Want:  fmt.Sprintf("the sizes that say how much one %s holds: Length, Width, Pieces per pack or Area per pack", p.SoldBy),
		Fix:   "Fill in the size.",
	}
}

func notWhole(p *job.Product) problem.Problem {
	return problem.Problem{
		Code:  problem.ValueOutOfRange,
		At:    p.Ref,
		Found: fmt.Sprintf("%s sold by %s in steps of %s", p.Code, p.SoldBy, p.OrderStep),
		Want:  "an order step of whole units, such as 1, for goods that are neither laid by area nor cut to length",
		Fix:   "Write a whole number under Order step.",
	}
}

func belowMinimum(order Order, problems *problem.List) {
	if order.Supplement.IsZero() {
		return
	}
	code := order.Supplement.Currency().Code
	problems.Add(problem.Problem{
		Code:  problem.BelowMinimum,
		At:    order.Supplier.Ref,
		Found: fmt.Sprintf("goods of %s %s from %s", order.Goods, code, order.Supplier.Code),
		Want:  fmt.Sprintf("at least %s %s", order.Supplier.MinimumOrder, code),
		Fix:   fmt.Sprintf("Order more from this supplier, or accept the supplement of %s %s.", order.Supplement, code),
	})
}
