package proof

import (
	"cmp"
	"fmt"
	"strings"
)

// checkTerms compares the terms of every order, wage and extra with those agreed.
func (c *checker) checkTerms() {
	t := c.claim(claimTerms)
	if c.f.Terms == nil {
		return
	}
	agreed := c.f.Terms.agreed(t)
	used := map[string]bool{}
	compare := func(where, name, stated string) {
		terms, known := agreed[name]
		t.want(known && terms == stated, where, stated, terms, "not on the terms agreed")
		used[name] = true
	}
	for _, orders := range [][]orderEntry{c.f.Orders, c.f.AtOnce} {
		for i := range orders {
			o := &orders[i]
			where := "order " + cmp.Or(o.Number, "at once from "+o.Supplier)
			compare(where, "supplier "+o.Supplier, o.terms())
			for j := range o.Lines {
				l := &o.Lines[j]
				compare(where, "product "+l.Product+" of "+o.Supplier, l.terms())
			}
		}
	}
	for i := range c.f.Labour {
		if l := &c.f.Labour[i]; l.Wage != nil {
			pay := crew{l.Wage.Decimal, orZero(l.Burden), orZero(l.Overtime)}
			compare(l.sign()+": "+l.Operation, "trade "+l.Trade, pay.sign())
		}
	}
	for i := range c.f.Extras {
		e := &c.f.Extras[i]
		compare("extra "+e.Description, fmt.Sprintf("extra %d", i+1), e.Description+" at "+e.UnitCost.String())
	}
	t.want(len(used) == len(agreed), "terms", fmt.Sprint(len(agreed)), fmt.Sprint(len(used)), "terms of what the job does not use")
}

// agreed are the terms in words, by what they are for.
func (terms *termsEntry) agreed(t *tally) map[string]string {
	agreed := map[string]string{}
	add := func(name, words string) {
		_, twice := agreed[name]
		t.want(!twice, "terms", name, "one entry", "listed twice")
		agreed[name] = words
	}
	for _, s := range terms.Suppliers {
		add("supplier "+s.Supplier, orderWords(&s.MinimumOrder, &s.Charge, s.FreeFrom, s.orderTerms))
	}
	for _, p := range terms.Prices {
		add("product "+p.Product+" of "+p.Supplier, lineTerms(&p.Price, p.PricePer, p.Breaks, p.Discount, p.Charge, p.Tax))
	}
	for _, w := range terms.Trades {
		add("trade "+w.Trade, crew{w.Wage.Decimal, w.Burden.Decimal, w.Overtime.Decimal}.sign())
	}
	for i, e := range terms.Extras {
		add(fmt.Sprintf("extra %d", i+1), e.Description+" at "+e.UnitCost.String())
	}
	return agreed
}

func (o *orderEntry) terms() string {
	return orderWords(o.MinimumOrder, o.Charge, o.FreeFrom, o.orderTerms)
}

func orderWords(minimum, charge, free *number, whole orderTerms) string {
	words := fmt.Sprintf("minimum %s, delivery %s", orZero(minimum), orZero(charge))
	if free != nil {
		words += ", free from " + free.String()
	}
	return words + fmt.Sprintf(", %s %% off orders from %s, paid %s, payable to %s", whole.DiscountPercent, orZero(whole.DiscountFrom), whole.PaidAlready, orZero(whole.PayableStep))
}

func (l *lineEntry) terms() string {
	return lineTerms(l.ListPrice, l.PricePer, l.Breaks, l.Discount, l.Charge, l.Tax)
}

func lineTerms(price *number, per string, breaks []breakEntry, discount, charge, tax number) string {
	var words strings.Builder
	fmt.Fprintf(&words, "%s per %s", orZero(price), per)
	for _, b := range breaks {
		fmt.Fprintf(&words, ", %s from %s", b.Price, b.From)
	}
	fmt.Fprintf(&words, ", %s %% off, charge %s, tax %s %%", discount, charge, tax)
	return words.String()
}
