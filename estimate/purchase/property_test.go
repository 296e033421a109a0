package purchase

import (
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/money"
)

var equal = cmp.Options{
	cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) }),
	cmp.Comparer(func(a, b money.Amount) bool { return a.Equal(b) }),
}

// The order of the needs and of the suppliers changes nothing.
func TestOrderOfRowsChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := jobs.Draw(t, "job")
		orders, materials, problems := Buy(d.settings, d.suppliers, d.needs)
		suppliers := rapid.Permutation(d.suppliers).Draw(t, "suppliers")
		needs := rapid.Permutation(d.needs).Draw(t, "needs")
		again, materialsAgain, problemsAgain := Buy(d.settings, suppliers, needs)
		if diff := cmp.Diff(orders, again, equal); diff != "" {
			t.Fatal(diff)
		}
		if diff := cmp.Diff(materials, materialsAgain, equal); diff != "" {
			t.Fatal(diff)
		}
		if diff := cmp.Diff(problems, problemsAgain); diff != "" {
			t.Fatal(diff)
		}
	})
}

// Every line covers its need with no step too many: counted up step by step
// from nothing, the first multiple that is enough.
func TestLeastSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := jobs.Draw(t, "job")
		orders, _, _ := Buy(d.settings, d.suppliers, d.needs)
		for _, order := range orders {
			for _, line := range order.Lines {
				enough := leastEnough(line.Product, d.needs)
				if !line.Quantity.Equal(enough) {
					t.Fatalf("%s: %s ordered, %s is enough", line.Product.Code, line.Quantity, enough)
				}
			}
		}
	})
}

func leastEnough(p *job.Product, needs []Need) decimal.Decimal {
	places := map[string]*big.Rat{}
	for _, need := range needs {
		if need.Product == p {
			if places[need.Place] == nil {
				places[need.Place] = new(big.Rat)
			}
			places[need.Place].Add(places[need.Place], need.Sold)
		}
	}
	sum := int64(0)
	for _, sold := range places {
		units := int64(0)
		for big.NewRat(units, 1).Cmp(sold) < 0 {
			units++
		}
		sum += units
	}
	quantity := decimal.Zero
	for quantity.IntPart() < sum || quantity.Cmp(p.MinimumQuantity) < 0 {
		quantity = quantity.Add(p.OrderStep)
	}
	return quantity
}

// Totals are the sums of rounded lines, the rules of the Peppol order: lines
// within half a minor unit of quantity x price and charge (R024), sums exact (R008
// to R011, R016, R017), nothing negative (R004, R005). The allowance is shared
// among the rates without a minor unit lost, and what a supplier holds is taken off
// its orders once.
func TestTotalsAreSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := jobs.Draw(t, "job")
		orders, _, _ := Buy(d.settings, d.suppliers, d.needs)
		paid, gross := map[*job.Supplier]money.Amount{}, map[*job.Supplier]money.Amount{}
		for _, o := range orders {
			paid[o.Supplier], gross[o.Supplier] = o.Paid.Add(paid[o.Supplier]), o.Gross.Add(gross[o.Supplier])
			allowed := d.settings.Currency.Zero()
			goods, taxed, tax := d.settings.Currency.Zero(), d.settings.Currency.Zero(), d.settings.Currency.Zero()
			for _, line := range o.Lines {
				goods = goods.Add(line.Net)
				checkLine(t, line)
			}
			for _, rate := range o.Taxes {
				taxed, tax, allowed = taxed.Add(rate.Base), tax.Add(rate.Amount), allowed.Add(rate.Allowance)
				if rate.Allowance.Sign() < 0 || rate.Allowance.Cmp(rate.Goods) > 0 {
					t.Fatalf("allowance of %s on goods of %s", rate.Allowance, rate.Goods)
				}
				if !rate.Amount.Equal(rate.Base.Percent(rate.Percent)) {
					t.Fatalf("tax of %s at %s %% is %s", rate.Base, rate.Percent, rate.Amount)
				}
			}
			net := goods.Sub(allowed).Add(o.Delivery).Add(o.Supplement)
			if !allowed.Equal(o.Allowance) || o.Payable.Sign() < 0 || !o.Payable.Equal(o.Gross.Sub(o.Paid).Add(o.Rounding)) {
				t.Fatalf("allowance or payable of %+v", o)
			}
			if !o.Goods.Equal(goods) || !o.Net.Equal(net) || !taxed.Equal(net) || !o.Tax.Equal(tax) || !o.Gross.Equal(net.Add(tax)) {
				t.Fatalf("totals of %+v", o)
			}
			if o.Delivery.Sign() < 0 || o.Supplement.Sign() < 0 {
				t.Fatalf("negative charges: %s, %s", o.Delivery, o.Supplement)
			}
		}
		for supplier := range paid {
			if held := supplier.Paid; !paid[supplier].Equal(held) && (held.Cmp(gross[supplier]) < 0 || !paid[supplier].Equal(gross[supplier])) {
				t.Fatalf("%s paid of %s held for orders of %s", paid[supplier], held, gross[supplier])
			}
		}
	})
}

func checkLine(t *rapid.T, line Line) {
	exact := new(big.Rat).Mul(line.Quantity.Rat(), line.UnitsPerSold.Rat())
	exact.Mul(exact, line.Price.Rat())
	exact.Mul(exact, new(big.Rat).Sub(big.NewRat(1, 1), line.Discount.Shift(-2).Rat()))
	exact.Add(exact, line.Product.LineCharge.Decimal().Rat())
	off := exact.Sub(exact, line.Net.Decimal().Rat())
	half := decimal.New(5, -line.Net.Currency().Minor-1).Rat()
	if off.Abs(off).Cmp(half) > 0 || line.Net.Sign() < 0 {
		t.Fatalf("net of %+v", line)
	}
}
