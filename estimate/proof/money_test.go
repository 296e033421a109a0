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

// discounted is Order_Example of the same table as a result: 120 x 50 less 5 % and
// a charge of 600.00, 15 x 15, 10 % off the order, delivery of 400, tax by a rate that
// gives 100.00, some paid already and the rest rounded to whole.
func discounted(paid string) obj {
	result := orderOnly("NOK", "1.5943", "6525.00", "100.00", "6372.50", [][3]string{{"120", "50", "6300.00"}, {"15", "15", "225.00"}})
	order := at(result, "orders", 0)
	for key, value := range map[string]string{"order_discount_pct": "10", "order_discount": "652.50", "delivery": "400.00", "net": "6272.50", "paid_already": paid,
		"paid": paid, "payable_step": "1", "rounding": "0.50", "payable": "6363.00"} {
		order[key] = value
	}
	order["taxes"] = list{obj{"tax_pct": "1.5943", "order_discount": "652.50", "base": "6272.50", "tax": "100.00"}}
	order["lines"].(list)[0].(obj)["discount_pct"], order["lines"].(list)[0].(obj)["line_charge"] = "5", "600.00"
	result["price"] = obj{"tax_pct": "1.5943"}
	return result
}

// The published order with all its parts holds, and no part of it can be another by a
// cent.
func TestPublishedOrderWithAllParts(t *testing.T) {
	holds := func(result obj) bool {
		report := check(t, result)
		return claimOf(t, report, claimLines).OK && claimOf(t, report, claimOrders).OK
	}
	if !holds(discounted("10.00")) {
		t.Fatal("the order does not hold")
	}
	for _, key := range []string{"order_discount", "delivery", "net", "tax", "gross", "paid", "paid_already", "rounding", "payable"} {
		result := discounted("10.00")
		if cent("orders", 0, key)(result); holds(result) {
			t.Errorf("a cent more at %s is not noticed", key)
		}
	}
	for name, fault := range map[string]func(obj){
		"charge":                     cent("orders", 0, "lines", 0, "line_charge"),
		"share of the discount":      cent("orders", 0, "taxes", 0, "order_discount"),
		"discount out of reach":      set("6525.01", "orders", 0, "order_discount_from"),
		"discount of another rate":   set("10.01", "orders", 0, "order_discount_pct"),
		"rounded to something else":  set("5", "orders", 0, "payable_step"),
		"half rounded down":          both(set("-0.50", "orders", 0, "rounding"), set("6362.00", "orders", 0, "payable")),
		"the deposit is used twice":  func(r obj) { r["orders"] = append(r["orders"].(list), numbered(discounted("10.00"), "2")) },
		"more than all is paid":      both(set("7000.00", "orders", 0, "paid_already"), set("7000.00", "orders", 0, "paid")),
		"less is paid than is there": set("7000.00", "orders", 0, "paid_already"),
	} {
		result := discounted("10.00")
		if fault(result); holds(result) {
			t.Errorf("%s is not noticed", name)
		}
	}
}

// numbered is the order of a result with another number.
func numbered(result obj, number string) obj {
	order := at(result, "orders", 0)
	order["number"] = number
	return order
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
