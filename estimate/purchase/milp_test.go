package purchase

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/published"
)

// Orders of some sixty lines are chosen, proven, and the solver of integer
// programmes CBC (COIN-OR, as Debian packages it) finds no cheaper choice.
func TestChoiceAgainstIntegerProgramme(t *testing.T) {
	cbc := published.Program(t, "cbc")
	for _, size := range []struct {
		products, consignments int
		discounted             bool
	}{{60, 1, false}, {20, 3, false}, {40, 1, true}, {15, 2, true}} {
		t.Run(fmt.Sprintf("%dx%d discounted %v", size.products, size.consignments, size.discounted), func(t *testing.T) {
			suppliers, open := market(size.products, size.consignments, size.discounted)
			choices, problems := Choose(settings, suppliers, nil, open)
			if len(problems) > 0 || !choices.Proven {
				t.Fatalf("not proven: %v", problems)
			}
			path := filepath.Join(t.TempDir(), "choice.lp")
			if err := os.WriteFile(path, []byte(integerProgramme(suppliers, open, size.consignments)), 0o600); err != nil {
				t.Fatal(err)
			}
			said, err := exec.Command(cbc, path, "ratio", "0", "allow", "0", "solve").CombinedOutput()
			best := regexp.MustCompile(`Objective value:\s+([0-9.]+)`).FindSubmatch(said)
			if err != nil || best == nil || !strings.Contains(string(said), "Optimal solution found") {
				t.Fatalf("%v\n%s", err, said)
			}
			if cents := dec(string(best[1])).Round(0); !cents.Shift(-2).Equal(choices.Total.Decimal()) {
				t.Errorf("chosen for %s, the programme finds %s", choices.Total, cents.Shift(-2))
			}
		})
	}
}

// A few hundred lines are proven without it, also where a tax that is a cost makes
// discounts worth more on some of them.
func TestHundredsOfLinesAreProven(t *testing.T) {
	for _, size := range []struct {
		products, consignments int
		discounted, taxed      bool
	}{{300, 1, false, false}, {100, 3, false, false}, {300, 1, true, false}, {60, 3, true, false}, {300, 1, true, true}, {100, 3, true, true}} {
		suppliers, open := market(size.products, size.consignments, size.discounted)
		bought := settings
		bought.PurchaseTaxIsCost = size.taxed
		for i, offers := range open {
			for _, offer := range offers {
				offer.Product.TaxPercent = dec([]string{"5", "20"}[i%2])
			}
		}
		if choices, problems := Choose(bought, suppliers, nil, open); len(problems) > 0 || !choices.Proven {
			t.Errorf("%+v: not proven, %v", size, problems)
		}
	}
}

// integerProgramme is the choice of suppliers in cents: x is a product's offer, u
// that an order is placed, f that it reaches free delivery, s its supplement, d that
// it reaches its discount and a the discount in whole cents, half up: at most the
// goods x per cent and half a cent, and nothing without d.
func integerProgramme(suppliers []*job.Supplier, open [][]Offer, consignments int) string {
	cents := func(d decimal.Decimal) string { return d.Shift(2).String() }
	var costs, rules, binaries, generals strings.Builder
	goods := map[string]string{} // of an order, as a sum
	for i, offers := range open {
		one := ""
		for k, offer := range offers {
			x := fmt.Sprintf("x%d_%d", i, k)
			one += " + " + x
			fmt.Fprintln(&binaries, x)
			orders, _, _ := Buy(settings, suppliers, offer.Needs)
			whole := decimal.Zero
			for _, o := range orders {
				at := fmt.Sprintf("%s_%d", o.Supplier.Code, o.Consignment)
				goods[at] += fmt.Sprintf(" + %s %s", cents(o.Goods.Decimal()), x)
				whole = whole.Add(o.Goods.Decimal())
				fmt.Fprintf(&rules, "u%s - %s >= 0\n", at, x)
			}
			fmt.Fprintf(&costs, " + %s %s", cents(whole), x)
		}
		fmt.Fprintf(&rules, "%s = 1\n", one)
	}
	for _, s := range suppliers {
		for c := range consignments {
			at := fmt.Sprintf("%s_%d", s.Code, c)
			fmt.Fprintf(&costs, " + %s u%s - %s f%s + s%s", cents(s.Delivery.Decimal()), at, cents(s.Delivery.Decimal()), at, at)
			fmt.Fprintf(&rules, "%s - %s f%s >= 0\nu%s - f%s >= 0\n%s + s%s - %s u%s >= 0\n",
				goods[at], cents(s.FreeFrom.Decimal()), at, at, at, goods[at], at, cents(s.MinimumOrder.Decimal()), at)
			fmt.Fprintf(&binaries, "u%s\nf%s\n", at, at)
			if s.OrderDiscountPercent.Sign() > 0 {
				fmt.Fprintf(&costs, " - a%s", at)
				fmt.Fprintf(&rules, "%s - %s d%s >= 0\na%s - 100000000 d%s <= 0\n", goods[at], cents(s.OrderDiscountFrom.Decimal()), at, at, at)
				fmt.Fprintf(&rules, "100 a%s %s <= 50\n", at, scaled(goods[at], s.OrderDiscountPercent))
				fmt.Fprintf(&binaries, "d%s\n", at)
				fmt.Fprintf(&generals, "a%s\n", at)
			}
		}
	}
	return "Minimize\n cost: " + costs.String() + "\nSubject To\n" + rules.String() + "Binaries\n" + binaries.String() + "Generals\n" + generals.String() + "End\n"
}

// scaled is a sum of products less than nothing so many times.
func scaled(sum string, times decimal.Decimal) string {
	return regexp.MustCompile(` \+ (\d+) `).ReplaceAllStringFunc(sum, func(term string) string {
		return " - " + dec(strings.Trim(term, " +")).Mul(times).String() + " "
	})
}
