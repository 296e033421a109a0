package proof

import (
	"fmt"
	"strings"
	"testing"

	"laybill/estimate/published"

	"github.com/shopspring/decimal"
)

// orderOnly is a result with one order and nothing else. Each line is
// {quantity, price, net}.
func orderOnly(currency, taxPercent, net, tax, gross string, lines [][3]string) obj {
	var entries list
	for i, line := range lines {
		entries = append(entries, obj{"product": fmt.Sprint(i), "quantity": line[0], "sold_by": "each", "price": line[1],
			"price_per": "each", "discount_pct": "0", "net": line[2], "tax_pct": taxPercent})
	}
	return obj{"schema": Schema, "job": obj{"currency": currency}, "orders": list{obj{"supplier": "S", "number": "1", "lines": entries,
		"goods": net, "delivery": "0", "supplement": "0", "net": net, "tax": tax, "gross": gross}}}
}

// claimOf finds a claim by name.
func claimOf(t *testing.T, r Report, name string) Claim {
	t.Helper()
	for _, c := range r.Claims {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("no claim %q", name)
	return Claim{}
}

// TestPublishedOrders adds up the order examples of the Peppol BIS Order
// transaction 3 (OpenPEPPOL/poacc-upgrade-3, rules examples): those without
// allowances and charges, whose lines are quantity x price.
func TestPublishedOrders(t *testing.T) {
	used := 0
	for _, record := range published.Table(t, "peppol_order_examples.csv") {
		var lines [][3]string
		for _, text := range strings.Split(record[2], "; ") {
			var quantity, price, net string
			left, net, found := strings.Cut(text, "=")
			quantity, price, times := strings.Cut(left, "x")
			if found && times && !strings.ContainsAny(net, " (/+") && !strings.ContainsAny(price, "/+") {
				lines = append(lines, [3]string{quantity, price, net})
			}
		}
		if len(lines) == 0 || record[4] != "" || record[5] != "" || record[7] == "" {
			continue
		}
		sum, tax, payable := decimal.RequireFromString(record[3]), decimal.RequireFromString(record[7]), decimal.RequireFromString(record[11])
		percent := tax.Mul(hundred).Div(sum)
		if !sum.Add(tax).Equal(payable) {
			continue
		}
		used++
		t.Run(record[0], func(t *testing.T) {
			result := orderOnly(record[1], percent.String(), sum.String(), tax.String(), payable.String(), lines)
			for _, name := range []string{claimLines, claimOrders, claimAmounts} {
				if c := claimOf(t, check(t, result), name); !c.OK {
					t.Errorf("%s: %s", c.Name, c.Detail)
				}
			}
			at(result, "orders", 0)["gross"] = payable.Add(decimal.New(1, -2)).String()
			if claimOf(t, check(t, result), claimOrders).OK {
				t.Error("a cent too much was not noticed")
			}
		})
	}
	if used < 4 {
		t.Errorf("only %d examples were used", used)
	}
}

// TestFloatTrap adds 720.81, 0.01, -720.81 and -0.01, which binary floats do not
// bring to nought (EN 16931 test file for rule BR-CO-10).
func TestFloatTrap(t *testing.T) {
	var lines [][3]string
	for _, amount := range []string{"720.81", "0.01", "-720.81", "-0.01"} {
		lines = append(lines, [3]string{"1", amount, amount})
	}
	report := check(t, orderOnly("EUR", "25", "0.00", "0.00", "0.00", lines))
	for _, name := range []string{claimLines, claimOrders} {
		if c := claimOf(t, report, name); !c.OK {
			t.Errorf("%s: %s", c.Name, c.Detail)
		}
	}
}

// TestChainedPercentages climbs a published chain of percentages with a
// rounding after every step: Himachal Pradesh schedule of rates 2020, item
// 2.1.1: 4340.00, 1 % more, 0.1405 on that, 15 % profit on cost, 1 % cess.
func TestChainedPercentages(t *testing.T) {
	result := obj{
		"schema": Schema, "job": obj{"currency": "INR"},
		"labour": list{obj{"operation": "LAY", "trade": "mason", "quantity": "12.4", "hours_per_unit": "1", "hours": "12.4", "wage": "350", "cost": "4340.00"}},
		"price": obj{
			"material": "0", "labour": "4340.00", "other": "0",
			"labour_contingency_pct": "1", "labour_contingency": "43.40", "contingency": "43.40",
			"overhead_pct": "14.05", "overhead": "615.87", "cost": "4999.27",
			"profit_pct": "15", "profit_basis": "on cost", "profit": "749.89", "net": "5749.16",
			"tax_pct": "1", "tax": "57.49", "gross": "5806.65",
		},
	}
	if c := claimOf(t, check(t, result), claimLadder); !c.OK {
		t.Error(c.Detail)
	}
}

// TestPriceSteps works the profit on both bases and the price step by hand.
func TestPriceSteps(t *testing.T) {
	cases := []struct{ cost, percent, basis, step, want string }{
		{"509.84", "15", "on price", "0", "599.81"},   // 509.84 / 0.85 = 599.8117..
		{"509.84", "15", "on cost", "0", "586.32"},    // 509.84 x 1.15 = 586.316
		{"509.84", "15", "on price", "5", "600.00"},   // nearest 5
		{"100.00", "1", "on cost", "10", "100.00"},    // 101 to 100, still the cost
		{"101.00", "1", "on cost", "10", "110.00"},    // 102.01 to 100 is below cost: up to 110
		{"100.01", "0", "on price", "0.05", "100.05"}, // 100.01 to 100.00 is below cost: up
		{"0.00", "15", "on price", "5", "0.00"},
		{"10.00", "33.3333", "on price", "0", "15.00"}, // 10 / 0.666667 = 14.9999925
		{"105.00", "0", "on cost", "10", "110.00"},     // half goes away from zero
	}
	for _, c := range cases {
		text := fmt.Sprintf(`{"cost":%q,"profit_pct":%q,"profit_basis":%q,"price_step":%q}`, c.cost, c.percent, c.basis, c.step)
		result := checker{f: &file{}, minor: 2}
		decode(t, text, &result.f.Price)
		got, why := result.netPrice()
		if why != "" || got.StringFixed(2) != c.want {
			t.Errorf("%s: %s %s, want %s", text, got, why, c.want)
		}
	}
}

// TestMinorUnits compares the currencies with ISO 4217 list one (2024-06-25):
// 17 codes without decimals, 139 with two, 7 with three, 2 with four, 13 that
// are no money.
func TestMinorUnits(t *testing.T) {
	counts := map[string]int{}
	for _, record := range published.Table(t, "iso4217_minor_units.csv") {
		minor, known := minorUnit(record[0])
		counts[record[2]]++
		if known != (record[2] != "") || known && fmt.Sprint(minor) != record[2] {
			t.Errorf("%s has %d decimals (%v), want %q", record[0], minor, known, record[2])
		}
	}
	if fmt.Sprint(counts) != "map[:13 0:17 2:139 3:7 4:2]" {
		t.Errorf("the list has %v", counts)
	}
}
