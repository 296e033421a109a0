package proof

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

// TestUnreadable: what is no result file is refused, with the reason.
func TestUnreadable(t *testing.T) {
	valid := `"schema":"laybill.result/1"`
	cases := []struct{ name, text, want string }{
		{"empty", ``, "no result"},
		{"no JSON", `rooms`, "no result"},
		{"cut short", `{` + valid, "no result"},
		{"other schema", `{"schema":"other/1"}`, "schema"},
		{"no schema", `{}`, "schema"},
		{"more than one value", `{` + valid + `}{}`, "after the result"},
		{"length off the grid", `{` + valid + `,"layouts":[{"gap_mm":0.001}]}`, "multiple"},
		{"length as a word", `{` + valid + `,"layouts":[{"gap_mm":"wide"}]}`, "number"},
		{"length beyond reach", `{` + valid + `,"layouts":[{"gap_mm":1000001}]}`, "1 km"},
		{"length without end", `{` + valid + `,"layouts":[{"gap_mm":1e999999}]}`, "ordinary size"},
		{"amount without end", `{` + valid + `,"price":{"net":"1e400"}}`, "ordinary size"},
		{"amount as a word", `{` + valid + `,"price":{"net":"much"}}`, "number"},
		{"half a unit of material", `{` + valid + `,"materials":[{"laid":1.5}]}`, "whole"},
		{"odd coordinates", `{` + valid + `,"rooms":[{"outline_mm":[[0,0],[1]]}]}`, "odd"},
		{"rectangle of three", `{` + valid + `,"layouts":[{"pieces":[{"in_stock_mm":[0,0,1]}]}]}`, "not 4"},
		{"text for a list", `{` + valid + `,"rooms":"none"}`, "no result"},
		{"count with a fraction", `{` + valid + `,"layouts":[{"planks":1.5}]}`, "no result"},
		{"nested without end", `{"x":` + strings.Repeat("[", 1_000_000), "no result"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := Check(strings.NewReader(c.text))
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %q", err, c.want)
			}
		})
	}
}

// TestLengthsAreExact: 1/64 inch is 0.396875 mm, 127 units of 1/320 mm.
func TestLengthsAreExact(t *testing.T) {
	cases := map[string]length{
		`0.396875`: 127, `"0.396875"`: 127, `-0.003125`: -1, `1285`: 1285 * unit, `1.2e3`: 1200 * unit,
		`"1285.50"`: 411_360, `1000000`: reach, `-1000000.0`: -reach, `0`: 0, `12.500000000`: 4000,
	}
	for text, want := range cases {
		var got length
		decode(t, text, &got)
		if got != want {
			t.Errorf("%s reads as %d units, want %d", text, got, want)
		}
	}
}

// TestEmptyResult: a result of nothing holds but for what it must have.
func TestEmptyResult(t *testing.T) {
	report := check(t, obj{"schema": Schema, "job": obj{"currency": "EUR"}, "price": obj{"profit_basis": "on cost"}})
	if !report.OK() {
		expectFailures(t, report, nil)
		t.Error("an empty result does not hold")
	}
}

// TestReportIsStable: the same file gives the same report.
func TestReportIsStable(t *testing.T) {
	for _, result := range []obj{fixture(), manyRooms(5), slantedRooms()["diagonal"]} {
		first, _ := json.Marshal(check(t, result))
		for range 5 {
			if again, _ := json.Marshal(check(t, result)); !bytes.Equal(first, again) {
				t.Fatalf("reports differ:\n%s\n%s", first, again)
			}
		}
	}
}

// FuzzCheck: no file makes the proof panic, and every claim of a report has a
// name and two sides.
func FuzzCheck(f *testing.F) {
	for _, result := range []obj{fixture(), slantedRooms()["trapezoid"], manyRooms(1)} {
		text, err := json.Marshal(result)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		report, err := Check(bytes.NewReader(text))
		if err != nil {
			return
		}
		for _, c := range report.Claims {
			if c.Name == "" || c.Left == "" || !c.OK && c.Detail == "" {
				t.Errorf("a claim that says too little: %+v", c)
			}
		}
	})
}

// BenchmarkCheck proves 5000 rooms of 60 pieces with as many distinct layouts
// and pools.
func BenchmarkCheck(b *testing.B) {
	text, err := json.Marshal(manyRooms(5000))
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		report, err := Check(bytes.NewReader(text))
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(report.Pieces), "pieces")
	}
}
