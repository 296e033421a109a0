package booklet

import (
	"fmt"
	"strconv"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/crew"
)

// list begins a page of its own and writes a table, or words where there is
// nothing to list.
func (d *document) list(e entry, note, none string, t table) {
	d.begin(e, e.name)
	d.heading(e.name)
	if len(t.rows) == 0 {
		note = none
	}
	d.paragraph(note, bodyType, false)
	d.y += 2
	d.table(t)
}

// programme writes the days of every apartment, those first that are laid
// first. A job without dates has no such page.
func (d *document) programme() {
	if !d.dated() {
		return
	}
	p := &d.result.Programme
	const date = 18.2
	t := table{setting: setting{size: 3.0, cellPad: 0.5}, columns: []column{
		{heading: "Apartment", width: 18.5, bold: true}, {heading: "Floor", width: 11}, {heading: "Made ready, tested", width: date}, {heading: "Test read by", width: date},
		{heading: "Levelled", width: date}, {heading: "Dry", width: date}, {heading: "Goods carried in", width: date}, {heading: "Used to the room", width: date},
		{heading: "Laid", width: 22.5, bold: true}, {heading: "Crew", width: 10, right: true}, {heading: "Trims, handing over", width: 20},
	}}
	for _, a := range d.crew.Dates() {
		t.rows = append(t.rows, []string{a.Place(), a.Floor(), days(a.Days(job.Preparation, job.MoistureTest)), days(a.Until(job.HoldPoint)),
			days(a.Days(job.Levelling)), days(a.Until(job.Drying)), days(a.Days(job.Delivering)), days(a.Until(job.Acclimatisation)),
			days(a.Days(job.Underlaying, job.Laying)), a.Crew(job.Laying), days(a.Days(job.FixingTrims, job.HandingOver))})
	}
	d.list(programmeEntry, fmt.Sprintf("From %s to %s. Nothing goes on before the moisture test is read and released by whoever is responsible for it, the compound is dry and the goods are used to the room. "+
		"\"Laid\" begins with film and underlay; \"Crew\" is the one that lays.", p.Start, p.Finish), "", t)
}

// days is a span of days whose line ends between them only.
func days(s string) string { return strings.ReplaceAll(together(s), "\u00A0\u2013", " \u2013") }

// dated tells whether the job has dates to print.
func (d *document) dated() bool { return d.result.Programme.Dated() }

// repairs writes what is replaced where and how. A job without repairs has no
// such page.
func (d *document) repairs() {
	t := table{setting: setting{size: 3.0, cellPad: 0.5}, columns: []column{
		{heading: "Apartment", width: 23, bold: true}, {heading: "Room", width: 24, bold: true}, {heading: "Product", width: 17}, {heading: "Pieces", width: 14, right: true, bold: true},
		{heading: "Length of each", width: 18}, {heading: "From stock", width: 11, right: true}, {heading: "New", width: 9, right: true}, {heading: "Besides", width: 22}, {heading: "Method, steps and tools", width: 58},
		{heading: "Note", width: 22},
	}}
	for _, r := range d.crew.Repairs() {
		t.rows = append(t.rows, []string{crew.Apartment(r.At.Apartment), r.At.Spec.Name, r.Product.Code, strconv.Itoa(r.Pieces), d.crew.Each(r), strconv.Itoa(r.FromStock), strconv.Itoa(r.NewPlanks()),
			d.crew.Goods(r), d.crew.How(r), r.Note})
	}
	if len(t.rows) > 0 {
		d.list(repairEntry, "Planks replaced in floors that stay; lengths in "+d.crew.UnitWords()+". "+crew.RepairCautions, "", t)
	}
}

// trimCuts writes the cutting of trims and film, stock length by stock length.
func (d *document) trimCuts() {
	t := table{columns: []column{
		{heading: "Product", width: 20, bold: true}, {heading: "Description", width: 30}, {heading: "Stock", width: 15, right: true}, {heading: "Bars", width: 10, right: true},
		{heading: "Cuts of each bar", width: 44, bold: true}, {heading: "Off-cut", width: 15, right: true}, {heading: "", width: 11}, {heading: "In all", width: 11, right: true},
		{heading: "Where", width: 36},
	}}
	for _, r := range d.crew.Bars() {
		t.rows = append(t.rows, []string{r.Product.Code, r.Description(), d.crew.Cut(r.Stock.Length), strconv.Itoa(r.Count), r.Words,
			d.crew.Cut(r.Offcut), r.KeepWord(), strconv.Itoa(r.InAll()), crew.SomeNames(r.Places)})
	}
	d.list(trimEntry, "Cut the pieces in the order shown, mark them, keep the off-cut where one is kept. Bars cut alike are one row: \"Bars\" in each place, \"In all\" together. Lengths in "+d.crew.UnitWords()+"."+d.crew.EndsNote(),
		"Nothing is cut from stock lengths.", t)
}

// deliveries writes what each supplier brings to each floor, and for which
// apartments.
func (d *document) deliveries() {
	t := table{columns: []column{
		{heading: "No", width: 8, right: true}, {heading: "On site by", width: 24, bold: true}, {heading: "Floor", width: 24}, {heading: "Product", width: 18, bold: true},
		{heading: "Description", width: 38}, {heading: "Bring", width: 12, right: true, bold: true}, {heading: "Sold by", width: 13}, {heading: "Pallets", width: 12, right: true},
		{heading: "Weight kg", width: 16, right: true}, {heading: "For", width: 40},
	}}
	for _, r := range d.crew.Loads() {
		pallets, weight := "", ""
		if n, said := r.Pallets(); said {
			pallets = n.StringFixed(2)
		}
		if !r.Weight().IsZero() {
			weight = r.Weight().StringFixed(1)
		}
		t.rows = append(t.rows, []string{strconv.Itoa(r.Number), dateWords(r.OnSite()), crew.FloorOf(r.Delivery), r.Product.Code, r.Product.Description, r.Bring.String(), r.Product.SoldBy.String(),
			pallets, weight, r.For})
	}
	d.list(deliveryEntry, "One number is one supplier's delivery to one floor. Packs are whole and spares are in them; what is left of an opened one goes to the next apartment.", "Nothing is delivered.", t)
}

// cautions writes what a person must judge or act on before laying.
func (d *document) cautions() {
	t := table{columns: []column{{heading: "Where", width: 36}, {heading: "What", width: 34, bold: true}, {heading: "Found", width: 60}, {heading: "What to do", width: 56}}}
	for _, p := range d.result.Problems {
		if p.Severity == problem.Caution {
			t.rows = append(t.rows, []string{crew.Place(joined(", ", p.Apartment, p.Room)), p.Code.Entry().Title, p.Found, p.Remedy()})
		}
	}
	d.list(cautionEntry, "Each has a cause in this job. A caution never says that something is safe: licensed practice and the local code decide.",
		"This job gave no cause for a caution. That does not say that the site is safe: licensed practice and the local code decide.", t)
}
