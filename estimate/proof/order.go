package proof

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// hundred is a whole in per cent.
var hundred = decimal.NewFromInt(100)

// rounded is a fraction rounded half away from zero.
func rounded(r *big.Rat, places int32) decimal.Decimal {
	shifted := new(big.Rat).Mul(r, decimal.New(1, places).Rat())
	twice := new(big.Int).Lsh(new(big.Int).Abs(shifted.Num()), 1)
	n := twice.Add(twice, shifted.Denom())
	n.Quo(n, new(big.Int).Lsh(shifted.Denom(), 1))
	if r.Sign() < 0 {
		n.Neg(n)
	}
	return decimal.NewFromBigInt(n, -places)
}

// share is a percentage of an amount, rounded to the minor unit.
func (c *checker) share(amount, percent decimal.Decimal) decimal.Decimal {
	return amount.Mul(percent).Shift(-2).Round(c.minor)
}

// orZero is a number that may be left out.
func orZero(n *number) decimal.Decimal {
	if n == nil {
		return decimal.Zero
	}
	return n.Decimal
}

// equal counts a place where two amounts must be equal.
func (t *tally) equal(where string, stated number, counted decimal.Decimal, why string) bool {
	return t.want(stated.Equal(counted), where, stated.String(), counted.String(), why)
}

// checkOrders adds up every order anew.
func (c *checker) checkOrders() {
	lines, sums := c.claim(claimLines), c.claim(claimOrders)
	c.report.Orders = len(c.f.Orders)
	names := map[[2]string]bool{}
	held := map[string]decimal.Decimal{}
	for i := range c.f.Orders {
		o := &c.f.Orders[i]
		name := [2]string{o.Supplier, o.Number}
		sums.want(!names[name], "order "+o.Number, "listed twice", "listed once", "two orders have one number")
		names[name] = true
		c.report.OrderLines += len(o.Lines)
		c.checkOrder(o, "order "+o.Number, lines, sums)
		if _, begun := held[o.Supplier]; !begun {
			held[o.Supplier] = o.PaidAlready.Decimal
		}
		o.checkPayment(held[o.Supplier], sums, "order "+o.Number)
		held[o.Supplier] = held[o.Supplier].Sub(o.Paid.Decimal)
	}
}

// checkOrder adds up one order.
func (c *checker) checkOrder(o *orderEntry, where string, lines, sums *tally) {
	goods := decimal.Zero
	for j := range o.Lines {
		c.checkLine(&o.Lines[j], lines, where+" "+o.Lines[j].Product)
		goods = goods.Add(o.Lines[j].Net.Decimal)
	}
	if o.Goods != nil {
		sums.equal(where, *o.Goods, goods, "goods are not the sum of the lines")
	}
	o.checkCharges(goods, sums, where)
	sums.equal(where, o.Discount, c.share(goods, o.discountOn(goods)), "not the supplier's discount on the order")
	sums.equal(where, o.Net, goods.Sub(o.Discount.Decimal).Add(o.Delivery.Decimal).Add(o.Supplement.Decimal), "net is not goods - order discount + delivery + supplement")
	c.checkTaxes(o, sums, where)
	sums.equal(where, o.Gross, o.Net.Add(o.Tax.Decimal), "gross is not net + tax")
}

// checkLine checks the quantity, the price and the net of a line.
func (c *checker) checkLine(l *lineEntry, t *tally, where string) {
	t.want(l.Quantity.Sign() > 0, where, l.Quantity.String(), "above 0", "nothing is ordered")
	l.checkPacks(t, where)
	l.checkBreak(t, where)
	units := decimal.NewFromInt(1)
	if l.UnitsPerSold != nil {
		units = l.UnitsPerSold.Decimal
	} else {
		t.want(l.PricePer == "" || l.PricePer == l.SoldBy, where, l.PricePer, l.SoldBy, "priced by another unit, but units_per_sold is missing")
	}
	left := hundred.Sub(l.Discount.Decimal).Shift(-2)
	net := l.Quantity.Mul(units).Mul(l.Price.Decimal).Mul(left).Round(c.minor)
	t.equal(where, l.Net, net.Add(l.Charge.Decimal), "net is not quantity x units x price less discount, and the line's charge")
}

func (l *lineEntry) checkPacks(t *tally, where string) {
	if l.Packs != nil && l.SoldBy == "pack" {
		t.equal(where, *l.Packs, l.Quantity.Decimal, "packs are not the quantity")
	}
	if l.Pieces == nil {
		return
	}
	t.want(l.Pieces.IsInteger(), where, l.Pieces.String(), "whole", "a part of a piece is ordered")
	switch {
	case l.Packs != nil && l.PiecesPerPack != nil:
		t.equal(where, *l.Pieces, l.Packs.Mul(l.PiecesPerPack.Decimal), "pieces are not packs x pieces per pack")
	case l.SoldBy == "piece" || l.SoldBy == "roll" || l.SoldBy == "each":
		t.equal(where, *l.Pieces, l.Quantity.Decimal, "pieces are not the quantity")
	}
}

// checkBreak finds the price of the highest break that the quantity reaches.
func (l *lineEntry) checkBreak(t *tally, where string) {
	if l.ListPrice == nil {
		return
	}
	price, last := l.ListPrice.Decimal, decimal.Zero
	for _, b := range l.Breaks {
		t.want(b.From.GreaterThan(last), where, b.From.String(), "above "+last.String(), "price breaks do not rise")
		last = b.From.Decimal
		if l.Quantity.GreaterThanOrEqual(b.From.Decimal) {
			price = b.Price.Decimal
		}
	}
	t.equal(where, l.Price, price, "not the price of the break reached")
}

func (o *orderEntry) checkCharges(goods decimal.Decimal, t *tally, where string) {
	t.want(o.Delivery.Sign() >= 0 && o.Supplement.Sign() >= 0, where, "negative", "0 or more", "delivery or supplement is negative")
	if o.Charge != nil {
		charge := o.Charge.Decimal
		if o.FreeFrom != nil && goods.GreaterThanOrEqual(o.FreeFrom.Decimal) {
			charge = decimal.Zero
		}
		t.equal(where, o.Delivery, charge, "not the supplier's delivery charge")
	}
	if o.MinimumOrder != nil {
		missing := decimal.Max(decimal.Zero, o.MinimumOrder.Sub(goods))
		t.equal(where, o.Supplement, missing, "not what is missing to the minimum order")
	}
}

// discountOn is the per cent that is taken off an order of these goods.
func (o *orderEntry) discountOn(goods decimal.Decimal) decimal.Decimal {
	if goods.LessThan(orZero(o.DiscountFrom)) {
		return decimal.Zero
	}
	return o.DiscountPercent.Decimal
}

// checkPayment takes off what the supplier still holds, and rounds the rest.
func (o *orderEntry) checkPayment(held decimal.Decimal, t *tally, where string) {
	if o.Payable == nil {
		return
	}
	t.equal(where, o.Paid, decimal.Min(held, o.Gross.Decimal), "paid is not what the supplier holds, up to the gross")
	due := o.Gross.Sub(o.Paid.Decimal)
	payable := due
	if step := orZero(o.PayableStep); step.Sign() > 0 {
		payable = quotient(due, step, 0).Mul(step)
	}
	t.equal(where, *o.Payable, payable, "payable is not what is left to pay, rounded")
	t.equal(where, o.Rounding, payable.Sub(due), "the rounding is not what it adds")
}

// rate is what an order has under one tax rate: goods less their discount, and
// charges.
type rate struct{ percent, goods, discount, base decimal.Decimal }

// rates gathers an order's lines by tax rate, delivery and supplement under the
// job's, and splits its discount among them.
func (c *checker) rates(o *orderEntry) []rate {
	var rates []rate
	under := func(percent decimal.Decimal) *rate {
		for i := range rates {
			if rates[i].percent.Equal(percent) {
				return &rates[i]
			}
		}
		rates = append(rates, rate{percent: percent})
		return &rates[len(rates)-1]
	}
	for _, l := range o.Lines {
		r := under(l.Tax.Decimal)
		r.goods = r.goods.Add(l.Net.Decimal)
	}
	if charges := o.Delivery.Add(o.Supplement.Decimal); !charges.IsZero() {
		r := under(c.f.Price.TaxPct.Decimal)
		r.base = charges
	}
	slices.SortStableFunc(rates, func(a, b rate) int { return a.percent.Cmp(b.percent) })
	goods := make([]*big.Int, len(rates))
	for i, r := range rates {
		goods[i] = c.weight(c.minorUnits(r.goods))
	}
	for i, share := range divide(c.minorUnits(o.Discount.Decimal), goods) {
		r := &rates[i]
		r.discount = decimal.NewFromBigInt(share, -c.minor)
		r.base = r.base.Add(r.goods).Sub(r.discount)
	}
	return rates
}

func (c *checker) checkTaxes(o *orderEntry, t *tally, where string) {
	tax := decimal.Zero
	rates := c.rates(o)
	for _, r := range rates {
		tax = tax.Add(c.share(r.base, r.percent))
	}
	t.equal(where, o.Tax, tax, "tax is not the sum over the rates")
	stated := decimal.Zero
	for _, e := range o.Taxes {
		stated = stated.Add(e.Tax.Decimal)
		i := slices.IndexFunc(rates, func(r rate) bool { return r.percent.Equal(e.Percent.Decimal) })
		if i < 0 {
			t.want(e.Base.IsZero(), where, e.Percent.String()+" %", "a rate of the lines", "no line has this tax rate")
			continue
		}
		t.equal(where, e.Discount, rates[i].discount, "order discount of "+e.Percent.String()+" %")
		t.equal(where, e.Base, rates[i].base, "base of "+e.Percent.String()+" %")
		t.equal(where, e.Tax, c.share(rates[i].base, rates[i].percent), "tax of "+e.Percent.String()+" %")
	}
	if len(o.Taxes) > 0 {
		t.equal(where, o.Tax, stated, "tax is not the sum of its rates")
	}
}

// hourPlaces is the number of decimals of hours.
const hourPlaces = 2

// crew is the pay of a trade.
type crew struct{ wage, burden, overtime decimal.Decimal }

// checkLabour counts hours and wages anew.
func (c *checker) checkLabour() {
	t := c.claim(claimLabour)
	c.report.LabourLines = len(c.f.Labour)
	measured := c.measuredWork()
	paid := map[string]crew{}
	seen := map[work]bool{}
	for i := range c.f.Labour {
		l := &c.f.Labour[i]
		where := l.sign() + ": " + l.Operation
		name := l.work()
		topping := l.Room == nil && orZero(l.Quantity).IsZero() || l.CallOut
		if !topping {
			t.want(!seen[name], where, "listed twice", "listed once", "one line a room and operation")
			seen[name] = true
		}
		t.want(l.Hours.Sign() >= 0, where, l.Hours.String(), "0 or more", "negative hours")
		t.want(l.Room == nil || c.roomAt(l.place) != nil, where, "no such room", "a room", "the room is not in the file")
		if l.Quantity != nil && l.HoursPerUnit != nil && !topping {
			t.equal(where, l.Hours, l.Quantity.Mul(l.HoursPerUnit.Decimal).Mul(l.factor()).Round(hourPlaces), "hours are not quantity x hours per unit x factor")
		}
		if len(measured) > 0 && l.Quantity != nil && !topping {
			t.equal(where, *l.Quantity, measured[name], "not the quantity measured")
		}
		if l.Wage == nil {
			continue
		}
		pay := crew{l.Wage.Decimal, orZero(l.Burden), orZero(l.Overtime)}
		if known, before := paid[l.Trade]; before {
			t.want(pay.sign() == known.sign(), where, pay.sign(), known.sign(), "another wage for the trade "+l.Trade)
		}
		paid[l.Trade] = pay
		exact := l.Hours.Mul(pay.wage).Mul(hundred.Add(pay.burden)).Shift(-2).Rat()
		t.equal(where, l.Cost, rounded(exact.Mul(exact, c.premium(pay.overtime)), c.minor), "cost is not hours x wage with overtime and burden")
	}
	c.checkLeastHours(t)
	c.checkCallOut(t)
	c.checkLearning()
}

func (p crew) sign() string {
	return fmt.Sprintf("%s + %s %%, overtime x %s", p.wage, p.burden, p.overtime)
}

// premium is what the overtime of a working day raises every hour's wage by, at
// a factor.
func (c *checker) premium(factor decimal.Decimal) *big.Rat {
	day, after := orZero(c.f.Job.HoursADay), orZero(c.f.Job.OvertimeAfter)
	raised := big.NewRat(1, 1)
	if after.Sign() <= 0 || !day.GreaterThan(after) {
		return raised
	}
	extra := new(big.Rat).Quo(day.Sub(after).Rat(), day.Rat())
	extra.Mul(extra, factor.Sub(decimal.NewFromInt(1)).Rat())
	return raised.Add(raised, extra)
}

// work names an operation in a place.
type work struct{ apartment, kind, room, operation string }

func (l *labourEntry) work() work {
	w := work{l.Apartment, l.Type, "", l.Operation}
	if l.Room != nil {
		w.room = *l.Room
	}
	return w
}

// measuredWork is the quantities of the file by place and item.
func (c *checker) measuredWork() map[work]decimal.Decimal {
	measured := map[work]decimal.Decimal{}
	for i := range c.f.Quantities {
		q := &c.f.Quantities[i]
		line := labourEntry{place: q.place, Operation: q.Item}
		measured[line.work()] = measured[line.work()].Add(q.Quantity.Decimal)
	}
	return measured
}

// checkLeastHours checks that an operation has its least hours in every
// apartment, and that what is added for it brings it there exactly.
func (c *checker) checkLeastHours(t *tally) {
	type total struct {
		work
		hours, least decimal.Decimal
		topped       bool
	}
	totals := map[work]*total{}
	for i := range c.f.Labour {
		l := &c.f.Labour[i]
		name := l.work()
		name.room = ""
		if name.apartment == "" && name.kind == "" {
			continue
		}
		if totals[name] == nil {
			totals[name] = &total{work: name}
		}
		sum := totals[name]
		sum.hours = sum.hours.Add(l.Hours.Decimal)
		sum.least = decimal.Max(sum.least, orZero(l.LeastHours).Round(hourPlaces))
		sum.topped = sum.topped || l.Room == nil && orZero(l.Quantity).IsZero()
	}
	ordered := make([]*total, 0, len(totals))
	for _, sum := range totals {
		ordered = append(ordered, sum)
	}
	slices.SortFunc(ordered, func(a, b *total) int {
		return cmp.Or(cmp.Compare(a.apartment, b.apartment), cmp.Compare(a.kind, b.kind), cmp.Compare(a.operation, b.operation))
	})
	for _, sum := range ordered {
		where := cmp.Or(sum.apartment, sum.kind) + ": " + sum.operation
		t.want(sum.hours.GreaterThanOrEqual(sum.least), where, sum.hours.String(), "at least "+sum.least.String(), "under the least hours")
		t.want(!sum.topped || sum.hours.Equal(sum.least), where, sum.hours.String(), sum.least.String(), "more is added than the least hours miss")
	}
}

// checkCallOut checks that all hours come to the least call-out, and that what is
// added for it brings them there exactly.
func (c *checker) checkCallOut(t *tally) {
	hours, added := decimal.Zero, 0
	for i := range c.f.Labour {
		l := &c.f.Labour[i]
		hours = hours.Add(l.Hours.Decimal)
		if l.CallOut {
			added++
			t.want(l.Room == nil && l.Apartment == "" && l.Type == "", l.sign(), l.sign(), "the whole job", "a call-out of a part of the job")
		}
	}
	least := orZero(c.f.Job.LeastCallOut).Round(hourPlaces)
	t.want(len(c.f.Labour) == 0 || hours.GreaterThanOrEqual(least), "labour", hours.String(), "at least "+least.String(), "under the least call-out")
	t.want(added == 0 || added == 1 && hours.Equal(least), "labour", hours.String(), least.String(), "more is added than the least call-out misses")
}

// checkExtras multiplies every extra out.
func (c *checker) checkExtras() {
	t := c.claim(claimExtras)
	for i := range c.f.Extras {
		e := &c.f.Extras[i]
		where := "extra " + e.Description
		times := int64(len(c.placesPer(e.Per)))
		if e.Per == "job" {
			times = 1
		}
		t.want(times > 0 && times == e.Times, where, fmt.Sprint(e.Times), fmt.Sprint(times), "times is not the number of "+e.Per+"s")
		exact := decimal.NewFromInt(e.Times).Mul(e.Quantity.Decimal).Mul(e.UnitCost.Decimal)
		t.equal(where, e.Amount, exact.Round(c.minor), "amount is not times x quantity x unit cost")
	}
}
