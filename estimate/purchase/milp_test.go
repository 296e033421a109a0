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
	for _, size := range []struct{ products, consignments int }{{60, 1}, {20, 3}} {
		t.Run(fmt.Sprintf("%dx%d", size.products, size.consignments), func(t *testing.T) {
			suppliers, open := market(size.products, size.consignments)
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

// A few hundred lines are proven without it.
func TestHundredsOfLinesAreProven(t *testing.T) {
	for _, size := range []struct{ products, consignments int }{{300, 1}, {100, 3}} {
		suppliers, open := market(size.products, size.consignments)
		if choices, problems := Choose(settings, suppliers, nil, open); len(problems) > 0 || !choices.Proven {
			t.Errorf("%d products in %d consignments: not proven, %v", size.products, size.consignments, problems)
		}
	}
}

// integerProgramme is the choice of suppliers in cents: x is a product's offer, u
// that an order is placed, f that it reaches free delivery, s its supplement.
func integerProgramme(suppliers []*job.Supplier, open [][]Offer, consignments int) string {
	cents := func(d decimal.Decimal) string { return d.Shift(2).String() }
	var costs, rules, binaries strings.Builder
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
		}
	}
	return "Minimize\n cost: " + costs.String() + "\nSubject To\n" + rules.String() + "Binaries\n" + binaries.String() + "End\n"
}
