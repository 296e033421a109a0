package revision

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
)

func read(t *testing.T, text string) *Revision {
	t.Helper()
	r, err := Read(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

const old = `{"schema":"laybill.result/1","job":{"name":"J","currency":"EUR"},
"rooms":[{"apartment":"1","type":"A","room":"Hall","area_m2":"5"},{"apartment":"1","type":"A","room":"Bed","area_m2":"12"}],
"room_shares":[{"apartment":"1","type":"A","room":"Hall","price":"100.00"},{"apartment":"1","type":"A","room":"Bed","price":"240.10"}],
"orders":[{"supplier":"S","delivery":"20.00","supplement":"0.00","tax":"1.00","lines":[{"product":"OAK","quantity":"9","price":"15","net":"135.00"},{"product":"FILM","quantity":"1","price":"40","net":"40.00"}]}],
"labour":[{"operation":"LAY","hours":"2.50","wage":"20","cost":"50.00"},{"operation":"LAY","hours":"1.00","wage":"20","cost":"20.00"}],
"extras":[{"description":"Skip","quantity":"1","unit_cost":"40","amount":"40.00"}],
"price":{"material":"195.00","labour":"70.00","other":"40.00","contingency":"0.00","overhead":"0.00","cost":"305.00","profit":"35.10","net":"340.10","tax":"68.02","gross":"408.12"}}`

// The Bed grows, the Hall goes and a Store comes; film is not bought any more,
// tape is; the oak is dearer, delivery free; more hours; the skip stays.
const latest = `{"schema":"laybill.result/1","job":{"name":"J","currency":"EUR"},
"rooms":[{"apartment":"1","type":"A","room":"Bed","area_m2":"13"},{"apartment":"1","type":"A","room":"Store","area_m2":"2"}],
"room_shares":[{"apartment":"1","type":"A","room":"Bed","price":"260.00"},{"apartment":"1","type":"A","room":"Store","price":"50.55"}],
"orders":[{"supplier":"S","delivery":"0.00","supplement":"0.00","tax":"1.00","lines":[{"product":"OAK","quantity":"9","price":"15.50","net":"139.50"},{"product":"TAPE","quantity":"2","price":"6.25","net":"12.50"}]}],
"labour":[{"operation":"LAY","hours":"4.00","wage":"20","cost":"80.00"}],
"extras":[{"description":"Skip","quantity":"1","unit_cost":"40","amount":"40.00"}],
"price":{"material":"152.00","labour":"80.00","other":"40.00","contingency":"0.00","overhead":"0.00","cost":"272.00","profit":"38.55","net":"310.55","tax":"62.11","gross":"372.66"}}`

func TestChangesByHand(t *testing.T) {
	c, err := Compare(read(t, old), read(t, latest))
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		table Table
		name  string
		kind  Kind
		off   string
	}{
		{c.Rooms, "1 / Hall", Removed, "-100"}, {c.Rooms, "1 / Bed", Changed, "19.9"}, {c.Rooms, "1 / Store", Added, "50.55"},
		{c.Products, "OAK", Changed, "4.5"}, {c.Products, "FILM", Removed, "-40"}, {c.Products, "TAPE", Added, "12.5"}, {c.Products, charges, Changed, "-20"},
		{c.Labour, "LAY", Changed, "10"}, {c.Other, "Skip", Unchanged, "0"},
	} {
		found := false
		for _, line := range row.table.Lines {
			if line.Name == row.name {
				found = true
				if line.Kind != row.kind || line.Amount.Difference().String() != row.off {
					t.Errorf("%s: %s by %s, want %s by %s", row.name, line.Kind, line.Amount.Difference(), row.kind, row.off)
				}
			}
		}
		if !found {
			t.Errorf("%s is not there", row.name)
		}
	}
	if c.Hours.Old.String() != "3.5" || c.Hours.Difference().String() != "0.5" {
		t.Errorf("hours %v, want 3.5 and 0.5 more", c.Hours)
	}
	for name, table := range map[string]Table{"rooms": c.Rooms, "products": c.Products, "labour": c.Labour, "other": c.Other} {
		sum := decimal.Zero
		for _, line := range table.Changed() {
			sum = sum.Add(line.Amount.Difference())
		}
		if !sum.Equal(table.Whole.Difference()) {
			t.Errorf("the %s change by %s, the whole by %s", name, sum, table.Whole.Difference())
		}
	}
}

func TestCurrenciesMustAgree(t *testing.T) {
	if _, err := Compare(read(t, old), read(t, strings.Replace(latest, "EUR", "USD", 1))); err == nil {
		t.Error("euros and dollars are compared")
	}
	if _, err := Read(strings.NewReader(`{"schema":"other/1"}`)); err == nil {
		t.Error("another file is read")
	}
}
