// Package exchange writes what other programs read: the result file and order
// documents.
package exchange

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"laybill/estimate"
	"laybill/estimate/labour"
)

// Schema names the result file's format; estimate/proof describes it.
const Schema = "laybill.result/1"

// WriteResult writes the result file: one JSON object whose lists have one
// entry a line.
func WriteResult(w io.Writer, r *estimate.Result) error {
	f := file{w: bufio.NewWriterSize(w, 1<<16)}
	f.text("{")
	f.value("schema", Schema)
	f.value("job", jobOf(r))
	list(&f, "rooms", rooms(r))
	list(&f, "repaired", repaired(r))
	list(&f, "repairs", repairs(r))
	list(&f, "layouts", layouts(r))
	list(&f, "pools", pools(r))
	list(&f, "stock", stock(r))
	list(&f, "lengths", lengths(r))
	list(&f, "corners", corners(r))
	list(&f, "trims", trims(r))
	list(&f, "trim_choices", choices(r))
	list(&f, "materials", materials(r))
	list(&f, "subfloors", subfloors(r))
	list(&f, "moisture_tests", moistureTests(r))
	list(&f, "hold_points", holdPoints(r))
	list(&f, "quantities", quantities(r))
	list(&f, "uses", uses(r))
	f.value("waste", wasteOf(r))
	f.value("terms", termsOf(r))
	list(&f, "orders", orders(r))
	list(&f, "ordered_at_once", atOnce(r))
	list(&f, "labour", work(r))
	f.value("calendar", calendar(r))
	list(&f, "programme", steps(r))
	list(&f, "deliveries", deliveries(r))
	list(&f, "extras", extras(r))
	list(&f, "costs", costs(r))
	f.value("price", priceOf(r))
	list(&f, "options", options(r))
	list(&f, "takeoff", takeoffTable(r))
	f.value("risk", riskOf(r))
	list(&f, "room_shares", roomShares(r))
	list(&f, "by_apartment", byApartment(r))
	cautions, problems := problemsOf(r)
	list(&f, "cautions", cautions)
	list(&f, "problems", problems)
	list(&f, "checks", checks(r))
	f.text("\n}\n")
	if f.err != nil {
		return f.err
	}
	return f.w.Flush()
}

// file writes one key after another and remembers the first error.
type file struct {
	w    *bufio.Writer
	keys int
	err  error
}

func (f *file) text(s string) {
	if f.err == nil {
		_, f.err = f.w.WriteString(s)
	}
}

func (f *file) json(v any) {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil && f.err == nil {
		f.err = err
	}
	f.text(strings.TrimSuffix(text.String(), "\n"))
}

func (f *file) key(name string) {
	if f.keys > 0 {
		f.text(",")
	}
	f.keys++
	f.text(fmt.Sprintf("\n%q: ", name))
}

func (f *file) value(name string, v any) {
	f.key(name)
	f.json(v)
}

func list[T any](f *file, name string, entries []T) {
	f.key(name)
	f.text("[")
	for i := range entries {
		if i > 0 {
			f.text(",")
		}
		f.text("\n  ")
		f.json(entries[i])
	}
	f.text("]")
}

func jobOf(r *estimate.Result) jobEntry {
	s := r.Job.Settings
	e := jobEntry{Name: s.Name, Number: s.Number, Client: s.Client, Site: s.Site, Currency: s.Currency.Code,
		Sharing: s.Sharing.String(), PackRounding: s.PackRounding.String(), Breakage: dec(s.BreakagePercent), Attic: dec(s.AtticPercent),
		HoursADay: dec(s.HoursADay), OvertimeAfter: dec(s.OvertimeAfter), LeastCallOut: dec(s.LeastCallOut),
		EntranceFloor: s.EntranceFloor, Lift: s.Lift, Learning: dec(s.LearningPercent)}
	if labour.Learned(s) {
		for _, a := range r.Job.Apartments {
			e.Apartments = append(e.Apartments, apartmentEntry{a.Name, a.Type})
		}
	}
	return e
}
