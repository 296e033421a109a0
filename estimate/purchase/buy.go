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

// Buy makes one order a supplier and consignment of everything that is needed,
// sorted by the supplier's code, and accounts for every product bought. A
// product that cannot be priced or counted from its row is left out with a
// problem.
func Buy(settings job.Settings, suppliers []*job.Supplier, needs []Need) ([]Order, []Material, problem.List) {
	var problems problem.List
	var materials []Material
	consignments := consignmentsOf(needs, nil)
	lines := map[*job.Supplier][][]Line{}
	for _, w := range gather(needs) {
		bought, ok := w.buy(&problems)
		if !ok {
			continue
		}
		supplier := w.product.Supplier
		if lines[supplier] == nil {
			lines[supplier] = make([][]Line, consignments)
		}
		for i, line := range bought.lines(settings.Currency) {
			if line.Quantity.Sign() > 0 {
				lines[supplier][i] = append(lines[supplier][i], line)
			}
		}
		materials = append(materials, bought.material())
	}
	var orders []Order
	for _, supplier := range byCode(suppliers) {
		for i, of := range lines[supplier] {
			if len(of) == 0 {
				continue
			}
			order := newOrder(settings, supplier, of)
			order.Consignment = i
			order.Number = number(settings, order, len(orders)+1, consignments > 1)
			belowMinimum(order, &problems)
			nearBreaks(settings, order, &problems)
			nearFreeDelivery(settings, order, &problems)
			nearOrderDiscount(settings, order, &problems)
			orders = append(orders, order)
		}
	}
	settle(orders)
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
		at.By = added(at.By, need.By)
		at.Used += need.Used
		at.Laid += need.Laid
		at.Spare += need.Spare
		at.Attic += need.Attic
		return
	}
	w.places = append(w.places, need)
}

// added is the sum of two amounts by consignment.
func added(a, b []*big.Rat) []*big.Rat {
	if a == nil {
		return b
	}
	sum := slices.Clone(a)
	for i := range b {
		sum[i] = new(big.Rat).Add(a[i], b[i])
	}
	return sum
}

// purchase is one product as it is bought.
type purchase struct {
	want
	opened       []decimal.Decimal // sold units each place opens
	ordered      []decimal.Decimal // sold units by consignment
	quantity     decimal.Decimal   // sold units ordered in all
	unitsPerSold decimal.Decimal   // price units
	content      *big.Rat          // material units in a sold unit
}

// buy finds the quantities to order: each place opens whole sold units, and so
// much is ordered for each consignment that what has been ordered by then covers
// what has been opened by then. What a consignment leaves over goes on to the
// next.
func (w want) buy(problems *problem.List) (purchase, bool) {
	p := purchase{want: w}
	perSold := w.product.PriceUnits()
	p.content = content(w.product)
	if perSold == nil || p.content == nil {
		problems.Add(incomplete(w.product, perSold == nil))
		return p, false
	}
	p.unitsPerSold = decimals(perSold, UnitPlaces)
	var opened []decimal.Decimal // by consignment, in all
	for _, need := range w.places {
		total := decimal.Zero
		for i, part := range need.Opened() {
			if i == len(opened) {
				opened = append(opened, decimal.Zero)
			}
			opened[i], total = opened[i].Add(part), total.Add(part)
		}
		p.opened = append(p.opened, total)
	}
	p.order(opened)
	if UnitOf(w.product) == BySoldUnit && !p.quantity.IsInteger() {
		problems.Add(notWhole(w.product))
		return p, false
	}
	return p, true
}

// order orders what is opened for each consignment beyond what was ordered for
// those before: the least multiple of the order step that is not below that or
// the minimum quantity.
func (p *purchase) order(opened []decimal.Decimal) {
	wanted := decimal.Zero
	for _, amount := range opened {
		wanted = wanted.Add(amount)
		quantity := decimal.Zero
		if missing := wanted.Sub(p.quantity); missing.Sign() > 0 {
			quantity = upTo(decimal.Max(missing, p.product.MinimumQuantity).Rat(), p.product.OrderStep)
		}
		p.ordered, p.quantity = append(p.ordered, quantity), p.quantity.Add(quantity)
	}
}

// Opened is the whole sold units that the place opens for each consignment: what
// it has opened by then holds all that it has needed by then.
func (n Need) Opened() []decimal.Decimal {
	by := n.By
	if by == nil {
		by = []*big.Rat{n.Sold}
	}
	grain := grain(n.Product)
	opened := make([]decimal.Decimal, len(by))
	needed, before := new(big.Rat), decimal.Zero
	for i, part := range by {
		now := upTo(needed.Add(needed, part), grain)
		opened[i], before = now.Sub(before), now
	}
	return opened
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

// Opened is the least amount of sold units that can be opened and holds an
// amount of them.
func Opened(p *job.Product, sold *big.Rat) decimal.Decimal { return upTo(sold, grain(p)) }

// upTo is the least multiple of step that is not below the amount.
func upTo(amount *big.Rat, step decimal.Decimal) decimal.Decimal {
	steps := new(big.Rat).Quo(amount, step.Rat())
	whole, rest := new(big.Int).DivMod(steps.Num(), steps.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		whole.Add(whole, big.NewInt(1))
	}
	return decimal.NewFromBigInt(whole, 0).Mul(step)
}

// lines are the order lines of the product, one a consignment; the quantity is 0
// where nothing is ordered.
func (p purchase) lines(currency money.Currency) []Line {
	lines := make([]Line, len(p.ordered))
	for i, quantity := range p.ordered {
		lines[i] = Line{
			Product:      p.product,
			UnitsPerSold: p.unitsPerSold,
			Discount:     p.product.LineDiscount(),
			TaxPercent:   p.product.TaxPercent,
		}.of(quantity, currency)
	}
	return lines
}

// net is what the lines cost together.
func (p purchase) net(currency money.Currency) money.Amount {
	total := currency.Zero()
	for _, line := range p.lines(currency) {
		total = total.Add(line.Net)
	}
	return total
}

// of is the line with another quantity, at the price of that quantity; a line of
// nothing is not charged.
func (l Line) of(quantity decimal.Decimal, currency money.Currency) Line {
	l.Quantity = quantity
	l.Packs = packs(l.Product, quantity)
	l.Price = priceAt(l.Product, quantity)
	l.Charge = currency.Zero()
	if quantity.Sign() > 0 {
		l.Charge = l.Charge.Add(l.Product.LineCharge)
	}
	l.Net = currency.Round(l.exact(quantity)).Add(l.Charge)
	return l
}

// exact is the net of so many sold units at the line's price, without the line's
// charge and not rounded.
func (l Line) exact(quantity decimal.Decimal) decimal.Decimal {
	return quantity.Mul(l.UnitsPerSold).Mul(l.Price).Mul(l.kept())
}

// Goods are the line's net without its charge.
func (l Line) Goods() money.Amount { return l.Net.Sub(l.Charge) }

// Worth is the net of so many sold units at the line's price, without its charge.
func (l Line) Worth(quantity decimal.Decimal) money.Amount {
	return l.Net.Currency().Round(l.exact(quantity))
}

// kept is the share of the price that the discount leaves.
func (l Line) kept() decimal.Decimal { return decimal.NewFromInt(100).Sub(l.Discount).Shift(-2) }

func byCode(suppliers []*job.Supplier) []*job.Supplier {
	return slices.SortedStableFunc(slices.Values(suppliers), func(a, b *job.Supplier) int { return cmp.Compare(a.Code, b.Code) })
}

// number is the order's number: the job's with the supplier's code and, where
// there are several, the consignment's number; or a running number when the job
// has none.
func number(settings job.Settings, order Order, running int, several bool) string {
	switch {
	case settings.Number == "":
		return fmt.Sprint(running)
	case several:
		return fmt.Sprintf("%s-%s-%d", settings.Number, order.Supplier.Code, order.Consignment+1)
	}
	return settings.Number + "-" + order.Supplier.Code
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
