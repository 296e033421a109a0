package in

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPriceBreaks(t *testing.T) {
	j, problems := Read(workbook(t, small+`-- Price breaks --
Product,From quantity,Price
oak,40,29.5
SKIRT,100,7.4
OAK,80,27.455
`))
	if diff := cmp.Diff([]string(nil), brief(problems)); diff != "" {
		t.Fatal(diff)
	}
	var got []string
	for _, p := range j.Products {
		for _, b := range p.PriceBreaks {
			got = append(got, p.Code+" "+b.From.String()+" "+b.Price.String()+" "+b.Ref.String())
		}
	}
	want := []string{"OAK 40 29.5 'Price breaks'!A2", "OAK 80 27.455 'Price breaks'!A4", "SKIRT 100 7.4 'Price breaks'!A3"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestFaultyPriceBreaks(t *testing.T) {
	_, problems := Read(workbook(t, small+`-- Price breaks --
Product,From quantity,Price
OAK,40,29.5
ASH,40,29.5
OAK,0,29.5
OAK,40,28
OAK,many,28
OAK,50,
`))
	want := []string{
		"'Price breaks'!A3 name-unknown",
		"'Price breaks'!B4 value-out-of-range",
		"'Price breaks'!B5 name-repeated",
		"'Price breaks'!B6 cell-unreadable",
		"'Price breaks'!C7 cell-missing",
	}
	if diff := cmp.Diff(want, brief(problems)); diff != "" {
		t.Error(diff)
	}
}
