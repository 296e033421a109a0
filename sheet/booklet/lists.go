package booklet

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

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
	d.table(d.onOnePage(t))
}

// onOnePage sets a table closer that is a little too long for the page.
func (d *document) onOnePage(t table) table {
	if t.size == 0 {
		t.setting = roomy
	}
	for _, closer := range append([]setting{t.setting}, settings...) {
		try := t
		try.setting = closer
		if closer.abreast == 0 && closer.size <= t.size && d.tableHeight(try) <= d.left() {
			return try
		}
	}
	return t
}

// programme writes the days of every apartment, those first that are laid
// first. A job without dates has no such page.
func (d *document) programme() {
	if !d.dated() {
		return
	}
	p := &d.result.Programme
	t := table{setting: setting{size: 3.0, cellPad: 0.5}, columns: []column{
		{heading: "Apartment", bold: true}, {heading: "Floor"}, {heading: "Made ready, tested"}, {heading: "Test read by"}, {heading: "Levelled"}, {heading: "Dry"},
		{heading: "Goods carried in"}, {heading: "Used to the room"}, {heading: "Laid", bold: true}, {heading: "Crew", right: true}, {heading: "Trims, handing over"},
	}}
	for _, a := range d.crew.Dates() {
		t.rows = append(t.rows, []string{a.Place(), a.Floor(), days(a.Days(job.Preparation, job.MoistureTest)), days(a.Until(job.HoldPoint)),
			days(a.Days(job.Levelling)), days(a.Until(job.Drying)), days(a.Days(job.Delivering)), days(a.Until(job.Acclimatisation)),
			days(a.Days(job.Underlaying, job.Laying)), a.Crew(job.Laying), days(a.Days(job.FixingTrims, job.HandingOver))})
	}
	d.demand(t).share(&t, d.inner())
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

// trimCuts writes the cutting of trims and film, place by place and stock length
// by stock length.
func (d *document) trimCuts() {
	t := table{columns: []column{
		{heading: "Bars", width: 12, right: true, bold: true}, {heading: "Stock", width: 20, right: true}, {heading: "Cuts of each bar", width: 112, bold: true},
		{heading: "Off-cut", width: 20, right: true}, {heading: "", width: 12}, {heading: "In all", width: 14, right: true},
	}}
	over := ""
	for _, r := range d.crew.Bars() {
		if words := barsWords(r); words != over {
			over = words
			t.rows = append(t.rows, []string{words})
		}
		t.rows = append(t.rows, []string{strconv.Itoa(r.Count), d.crew.Cut(r.Stock.Length), unparted(r.Words, "  +  "), d.crew.Cut(r.Offcut), r.KeepWord(), strconv.Itoa(r.InAll())})
	}
	d.list(trimEntry, "Cut the pieces in the order shown, mark them, keep the off-cut where one is kept. Bars cut alike are one row: \"Bars\" in each place, \"In all\" together. Lengths in "+d.crew.UnitWords()+"."+d.crew.EndsNote(),
		"Nothing is cut from stock lengths.", t)
}

// barsWords names the stock and the places in which it is cut alike.
func barsWords(r crew.Bars) string {
	places := crew.SomeNames(r.Places)
	if len(r.Places) > 1 {
		places = "in each of " + places
	}
	return joined("  ·  ", r.Product.Code, r.Description(), places)
}

// deliveries writes what each supplier brings to each floor, and for which
// apartments.
func (d *document) deliveries() {
	t := table{columns: []column{
		{heading: "Product", width: 21, bold: true}, {heading: "Description", width: 62}, {heading: "Bring", width: 14, right: true, bold: true}, {heading: "Sold by", width: 15},
		{heading: "Pallets", width: 15, right: true}, {heading: "Weight kg", width: 19, right: true}, {heading: "For", width: 58},
	}}
	number := 0
	for _, r := range d.crew.Loads() {
		if r.Number != number {
			number = r.Number
			t.rows = append(t.rows, []string{deliveryWords(r)})
		}
		pallets := ""
		if n, said := r.Pallets(); said {
			pallets = n.StringFixed(2)
		}
		t.rows = append(t.rows, []string{r.Product.Code, r.Product.Description, r.Bring.String(), r.Product.SoldBy.String(), pallets, weightWords(r.Weight()), r.For})
	}
	d.list(deliveryEntry, "A delivery is what one supplier brings to one floor. Packs are whole and spares are in them; what is left of an opened one goes to the next apartment.", "Nothing is delivered.", t)
}

// deliveryWords says when a delivery comes, where it goes, whose it is and how
// heavy.
func deliveryWords(r crew.Load) string {
	words, weight := fmt.Sprintf("Delivery %d", r.Number), weightWords(r.Delivery.Weight())
	if on := dateWords(r.OnSite()); on != "" {
		words += ", on site by " + on
	}
	if weight != "" {
		weight += " kg"
	}
	return joined("  ·  ", words, crew.FloorOf(r.Delivery), r.Delivery.Supplier.Name, weight)
}

// weightWords is nothing where no weight is known.
func weightWords(kg decimal.Decimal) string {
	if kg.IsZero() {
		return ""
	}
	return kg.StringFixed(1)
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
