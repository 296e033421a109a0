package cmd

import (
	"testing"

	"laybill/sheet/form"
	"laybill/templates"
)

// TestSkirtingOfSeveralLengths prices the demo with its skirting in two more
// lengths and some remnants on hand: the mixture must be proven, must cost no
// more than one length, and must use no more remnants than there are.
func TestSkirtingOfSeveralLengths(t *testing.T) {
	one := priceFill(t, templates.Demo(templates.Metric))
	fill := templates.Demo(templates.Metric)
	var skirting form.Row
	for _, row := range fill.Rows["products"] {
		if row["code"] == "SKIR-95" {
			skirting = row
		}
	}
	for code, change := range map[string]form.Row{"SKIR-95-3": {"length": "3000", "price": "6.55"}, "SKIR-95-18": {"length": "1800", "price": "4.15"}} {
		other := form.Row{}
		for key, value := range skirting {
			other[key] = value
		}
		other["code"], other["length"], other["price"], other["lengthof"] = code, change["length"], change["price"], "SKIR-95"
		fill.Rows["products"] = append(fill.Rows["products"], other)
	}
	fill.Rows["remnants"] = []form.Row{{"product": "SKIR-95", "length": "1240", "count": "7"}, {"product": "SKIR-95", "length": "2050", "count": "3"}}
	several := priceFill(t, fill)
	proveResult(t, several)
	if got, most := several.Price.Ladder.Material, one.Price.Ladder.Material; got.Cmp(most) > 0 {
		t.Errorf("with more lengths to choose from the material costs %s, with one %s", got, most)
	}
	remnants, lengths := 0, map[string]bool{}
	for i := range several.Cutting {
		pool := &several.Cutting[i]
		for k, stock := range pool.Stocks {
			bars, _ := pool.BarsOf(k)
			if bars > 0 && stock.Remnant != nil {
				remnants += bars
			}
			if bars > 0 && stock.Product != nil && pool.Product.Code == "SKIR-95" {
				lengths[stock.Product.Code] = true
			}
		}
	}
	if remnants == 0 || remnants > 10 {
		t.Errorf("%d remnants are used, 10 are on hand", remnants)
	}
	if len(lengths) < 2 {
		t.Errorf("only %v are bought", lengths)
	}
}
