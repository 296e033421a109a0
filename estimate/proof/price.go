package proof

import (
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// checkCurrency looks the currency up and checks that every amount of the file
// is a whole number of its minor units.
func (c *checker) checkCurrency() {
	t := c.claim(claimAmounts)
	minor, known := minorUnit(c.f.Job.Currency)
	t.want(known, "job", c.f.Job.Currency, "an ISO 4217 currency", "amounts in no known currency")
	c.minor = minor
	amount := func(where string, numbers ...*number) {
		for _, n := range numbers {
			if n != nil {
				t.want(n.Equal(n.Round(minor)), where, n.String(), fmt.Sprintf("%d decimals", minor), "an amount finer than the minor unit")
			}
		}
	}
	f := c.f
	for _, o := range slices.Concat(f.Orders, f.AtOnce) {
		amount("order "+o.Number, o.Goods, &o.Discount, &o.Delivery, &o.Supplement, &o.Net, &o.Tax, &o.Gross, &o.PaidAlready, &o.Paid, &o.Rounding, o.Payable)
		for j := range o.Lines {
			amount("order "+o.Number+" "+o.Lines[j].Product, &o.Lines[j].Charge, &o.Lines[j].Net)
		}
		for j := range o.Taxes {
			amount("order "+o.Number+" tax", &o.Taxes[j].Discount, &o.Taxes[j].Base, &o.Taxes[j].Tax)
		}
	}
	for i := range f.Labour {
		amount(f.Labour[i].sign(), &f.Labour[i].Cost)
	}
	for i := range f.Extras {
		amount("extra "+f.Extras[i].Description, &f.Extras[i].Amount)
	}
	for i := range f.Costs {
		amount("costs "+f.Costs[i].Category, &f.Costs[i].Amount)
	}
	p := &f.Price
	amount("price", &p.Material, &p.Labour, &p.Other, p.MaterialContingency, p.LabourContingency, p.OtherContingency,
		&p.Contingency, &p.Overhead, &p.Cost, &p.Profit, &p.Net, &p.Tax, &p.Gross, p.Retention)
	for _, shares := range [][]shareEntry{f.RoomShares, f.ByApartment} {
		for i := range shares {
			s := &shares[i]
			amount(s.sign(), &s.Material, &s.Labour, &s.Other, s.Contingency, s.Overhead, s.Profit, &s.Price)
		}
	}
}

// checkPrice climbs from cost to gross again.
func (c *checker) checkPrice() {
	t := c.claim(claimLadder)
	p := &c.f.Price
	step := func(stated number, counted decimal.Decimal, why string) { t.equal("price", stated, counted, why) }
	optional := func(stated *number, counted decimal.Decimal, why string) {
		if stated != nil {
			step(*stated, counted, why)
		}
	}
	step(p.Material, c.materialCost(), "material is not the sum of the orders")
	step(p.Labour, c.labourCost(), "labour is not the sum of its lines")
	step(p.Other, c.otherCost(), "other is not the sum of the extras")
	material := c.share(p.Material.Decimal, p.MaterialContingencyPct.Decimal)
	labour := c.share(p.Labour.Decimal, p.LabourContingencyPct.Decimal)
	other := c.share(p.Other.Decimal, p.OtherContingencyPct.Decimal)
	optional(p.MaterialContingency, material, "contingency on material")
	optional(p.LabourContingency, labour, "contingency on labour")
	optional(p.OtherContingency, other, "contingency on other costs")
	step(p.Contingency, material.Add(labour).Add(other), "contingency is not the sum of the three")
	prime := p.Material.Add(p.Labour.Decimal).Add(p.Other.Decimal).Add(p.Contingency.Decimal)
	step(p.Overhead, c.share(prime, p.OverheadPct.Decimal), "overhead")
	step(p.Cost, prime.Add(p.Overhead.Decimal), "cost is not the sum of the steps before it")
	if len(c.f.Costs) > 0 {
		parts := decimal.Zero
		for _, part := range c.f.Costs {
			parts = parts.Add(part.Amount.Decimal)
		}
		step(p.Cost, parts, "the costs by category do not add up to it")
	}
	if net, why := c.netPrice(); t.want(why == "", "price", p.ProfitPct.String()+" % "+p.ProfitBasis, "a profit", why) {
		step(p.Net, net, "net is not cost with profit "+p.ProfitBasis)
	}
	step(p.Profit, p.Net.Sub(p.Cost.Decimal), "profit is not net less cost")
	step(p.Tax, c.share(p.Net.Decimal, p.TaxPct.Decimal), "tax")
	step(p.Gross, p.Net.Add(p.Tax.Decimal), "gross is not net + tax")
	optional(p.Retention, c.share(p.Gross.Decimal, p.RetentionPct.Decimal), "retention")
	optional(p.Margin, share(p.Profit.Decimal, p.Net.Decimal), "margin is not profit / net")
	optional(p.Markup, share(p.Profit.Decimal, p.Cost.Decimal), "markup is not profit / cost")
}

func (c *checker) materialCost() decimal.Decimal {
	sum := decimal.Zero
	for _, o := range c.f.Orders {
		sum = sum.Add(o.Net.Decimal)
		if c.f.Price.PurchaseTaxIsCost {
			sum = sum.Add(o.Tax.Decimal)
		}
	}
	return sum
}

func (c *checker) labourCost() decimal.Decimal {
	sum := decimal.Zero
	for _, l := range c.f.Labour {
		sum = sum.Add(l.Cost.Decimal)
	}
	return sum
}

func (c *checker) otherCost() decimal.Decimal {
	sum := decimal.Zero
	for _, e := range c.f.Extras {
		sum = sum.Add(e.Amount.Decimal)
	}
	return sum
}

// netPrice is the cost with the profit on it or in it, at the nearest price
// step that is not below the cost.
func (c *checker) netPrice() (net decimal.Decimal, why string) {
	p := &c.f.Price
	cost, percent := p.Cost.Decimal, p.ProfitPct.Decimal
	switch p.ProfitBasis {
	case "on cost":
		net = cost.Mul(hundred.Add(percent)).Shift(-2).Round(c.minor)
	case "on price":
		if percent.GreaterThanOrEqual(hundred) {
			return net, "a profit of all the price or more"
		}
		net = quotient(cost.Mul(hundred), hundred.Sub(percent), c.minor)
	default:
		return net, "the profit basis is neither on price nor on cost"
	}
	if p.Step.Sign() <= 0 {
		return net, ""
	}
	net = quotient(net, p.Step.Decimal, 0).Mul(p.Step.Decimal)
	if net.LessThan(cost) {
		net = cost.Add(p.Step.Decimal).Sub(decimal.New(1, -c.minor))
		steps, _ := net.QuoRem(p.Step.Decimal, 0)
		net = steps.Mul(p.Step.Decimal)
	}
	return net, ""
}

// quotient is a / b rounded half away from zero.
func quotient(a, b decimal.Decimal, places int32) decimal.Decimal {
	return rounded(new(big.Rat).Quo(a.Rat(), b.Rat()), places)
}

// share is what a part is of a whole, with four decimals; 0 of nothing.
func share(part, whole decimal.Decimal) decimal.Decimal {
	const places = 4
	if whole.IsZero() {
		return decimal.Zero
	}
	return quotient(part, whole, places)
}
