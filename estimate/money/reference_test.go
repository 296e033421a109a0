package money

import (
	"strconv"
	"testing"

	"laybill/estimate/published"
)

// Every current code of ISO 4217 list one (2024-06-25) with its minor unit;
// codes without one are refused.
func TestISO4217(t *testing.T) {
	records := published.Table(t, "iso4217_minor_units.csv")
	if len(records) != 178 || len(minorUnits) != 178 {
		t.Errorf("%d codes in the list, %d known, want 178", len(records), len(minorUnits))
	}
	for _, record := range records {
		code, minor := record[0], record[2]
		currency, err := Lookup(code)
		if minor == "" {
			if err == nil {
				t.Errorf("%s has no minor unit and is accepted", code)
			}
			continue
		}
		places, parseErr := strconv.Atoi(minor)
		if err != nil || parseErr != nil || currency != (Currency{Code: code, Minor: int32(places)}) {
			t.Errorf("%s is %+v (%v), want %s decimals", code, currency, err, minor)
		}
	}
}

func TestLookup(t *testing.T) {
	if c, err := Lookup(" eur "); err != nil || c.Code != "EUR" {
		t.Errorf("eur is %+v, %v", c, err)
	}
	for _, code := range []string{"", "EURO", "DEM", "XAU"} {
		if _, err := Lookup(code); err == nil {
			t.Errorf("%q is accepted", code)
		}
	}
}

// printed finds what a worked money example of cost_examples.csv prints.
func printed(t *testing.T, example string) map[string]string {
	t.Helper()
	figures := map[string]string{}
	for _, record := range published.Table(t, "cost_examples.csv") {
		if record[0] == example {
			figures[record[1]] = record[3]
		}
	}
	if len(figures) == 0 {
		t.Fatalf("example %s is not in the reference data", example)
	}
	return figures
}

func wantPrinted(t *testing.T, step, want string, got Amount) {
	t.Helper()
	if !got.Decimal().Equal(dec(want)) {
		t.Errorf("step %s is %s, printed %s", step, got, want)
	}
}

// Himachal Pradesh schedule of rates 2020, item 2.1.1: every step is rounded
// half up to 2 decimals before the next.
func TestChainedPercentages(t *testing.T) {
	want := printed(t, "hpsr2020_chain")
	rupee := mustLookup("INR")
	labour := rupee.Round(dec("6.8").Add(dec("5.6")).Mul(dec("350")))
	wantPrinted(t, "1", want["1"], labour)
	raised := labour.WithMarkup(dec("1"))
	wantPrinted(t, "2", want["2"], raised)
	tax := raised.Percent(dec("14.05"))
	wantPrinted(t, "3", want["3"], tax)
	taxed := raised.Add(tax)
	wantPrinted(t, "4", want["4"], taxed)
	profit := taxed.Percent(dec("15"))
	wantPrinted(t, "5", want["5"], profit)
	withProfit := taxed.Add(profit)
	wantPrinted(t, "6", want["6"], withProfit)
	cess := withProfit.Percent(dec("1"))
	wantPrinted(t, "7", want["7"], cess)
	total := withProfit.Add(cess)
	wantPrinted(t, "8", want["8"], total)
	wantPrinted(t, "9", want["9"], total.Percent(dec("1"))) // of 100 m2
}

// Rate analysis, chapter 10 Flooring, item 1: markup on material and on labour.
func TestRateAnalysis(t *testing.T) {
	want := printed(t, "rate_analysis_100sft")
	rupee := mustLookup("INR")
	material := rupee.Sum(rupee.Round(dec("0.80").Mul(dec("560"))), rupee.Round(dec("0.55").Mul(dec("520"))), rupee.Round(dec("0.09").Mul(dec("550"))))
	wantPrinted(t, "4", want["4"], material)
	wantPrinted(t, "5", want["5"], material.Percent(dec("20")))
	wantPrinted(t, "6", want["6"], material.WithMarkup(dec("20")))
	wages := rupee.Sum(rupee.Round(dec("0.5").Mul(dec("300"))), rupee.Round(dec("3").Mul(dec("140"))), rupee.Round(dec("0.5").Mul(dec("160"))))
	wantPrinted(t, "7", want["7"], wages)
	wantPrinted(t, "8", want["8"], wages.Percent(dec("10")))
	labour := wages.WithMarkup(dec("10"))
	wantPrinted(t, "9", want["9"], labour.Percent(dec("20")))
	wantPrinted(t, "10", want["10"], material.WithMarkup(dec("20")).Add(labour.WithMarkup(dec("20"))))
}

// ICS Building Construction vol. 4, the three-storey house: feet at a price per
// 1000. The source truncates the second line (155.1984 -> 155.19); half away
// from zero gives 155.20, so the sum is a cent above the printed one.
func TestHouseOfThe1900s(t *testing.T) {
	want := printed(t, "ics_floor_total")
	dollar := mustLookup("USD")
	rough := dollar.Round(dec("3280").Mul(dec("0.0261")))
	finish := dollar.Round(dec("4619").Mul(dec("0.0336")))
	porch := dollar.Round(dec("654").Mul(dec("0.0311")))
	wantPrinted(t, "1", want["1"], rough)
	wantPrinted(t, "3", want["3"], porch)
	cent := dollar.Round(dec("0.01"))
	wantPrinted(t, "2, truncated", want["2"], finish.Sub(cent))
	wantPrinted(t, "4, from the truncated line", want["4"], dollar.Sum(rough, finish, porch).Sub(cent))
	if finish.String() != "155.20" {
		t.Errorf("4619 at 33.60 is %s, want 155.20", finish)
	}
}

// The prices per 1000 ft of the same house: lumber, labour at 50 % of it, 33 lb
// of nails at 1.80 per 100 lb, which the source prints to 0.05.
func TestPricePerThousand(t *testing.T) {
	want := printed(t, "ics_floor_1000bf_rough")
	dollar := mustLookup("USD")
	lumber := dollar.Round(dec("17"))
	labour := lumber.Percent(dec("50"))
	wantPrinted(t, "2", want["2"], labour)
	nails := dollar.Round(dec("33").Mul(dec("1.80")).Shift(-2)).ToStep(dollar.Round(dec("0.05")))
	wantPrinted(t, "3", want["3"], nails)
	wantPrinted(t, "4", want["4"], dollar.Sum(lumber, labour, nails))
	finish, porch := printed(t, "ics_floor_1000bf_finish"), printed(t, "ics_floor_1000bf_porch")
	wantPrinted(t, "finish", finish["1"], dollar.Sum(dollar.Round(dec("22")), dollar.Round(dec("22")).Percent(dec("50")), nails))
	wantPrinted(t, "porch", porch["1"], dollar.Sum(dollar.Round(dec("20")), dollar.Round(dec("20")).Percent(dec("50")), dollar.Round(dec("0.50")), nails))
}
