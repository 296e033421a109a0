// Package booklet prints what the crew needs as one PDF document: a cover with
// the contents, the days of the programme, a page for each room, the cutting of
// trims, the deliveries and the cautions. It is black on white, on Letter where
// the job counts in feet and inches, else on A4.
package booklet

import (
	"fmt"
	"io"
	"maps"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"laybill/estimate"
	"laybill/sheet/crew"
	"laybill/sheet/draw"
)

// Write writes the booklet of a result. The same result gives the same bytes:
// dates are the job's.
func Write(w io.Writer, r *estimate.Result) error {
	d := compose(&document{result: r, crew: crew.Of(r), lines: map[setText][]string{}, widths: map[setText]float64{}})
	// The second draft knows all numbers; a third is needed only where a longer
	// number took a line more.
	for range mostDrafts {
		draft := d
		d = compose(draft)
		if maps.Equal(d.pageOf, draft.pageOf) && d.count == draft.count {
			break
		}
	}
	return d.pdf.Output(w)
}

const mostDrafts = 4

// Sizes in mm.
const (
	sideMargin   = 13.0
	topMargin    = 20.0 // below the page's header
	bottomMargin = 16.0
	coverType    = 9.0
	titleType    = 5.6
	partType     = 4.0
	bodyType     = 3.4
	smallType    = 2.9
	leading      = 1.28 // of a line, in heights of the type
	ascent       = 0.95 // from a line's top to its base, in heights of the type
)

// document is the booklet in the making. It is composed anew until it knows
// on which page everything stands.
type document struct {
	pdf           *fpdf.Fpdf
	result        *estimate.Result
	crew          *crew.Lists
	width, height float64
	y             float64 // where the next thing goes
	section       string  // named in the header of the pages that begin now
	roomShown     entry   // the room whose pages are written, none between rooms
	pageOf        map[entry]int
	roomPages     map[entry]int        // how many each room has
	count         int                  // of the pages
	known         map[entry]int        // pageOf of the draft; nil for the first draft
	knownPages    map[entry]int        // roomPages of the draft
	pages         int                  // count of the draft
	lines         map[setText][]string // found so far, in all drafts
	widths        map[setText]float64  // likewise, of texts in type of 1 mm
}

// entry is a line of the contents: a plan, one of its rooms, or a closing
// list.
type entry struct {
	plan, room int // from 1; 0 for none
	name       string
}

// compose writes the booklet anew from what its draft tells.
func compose(draft *document) *document {
	d := &document{result: draft.result, crew: draft.crew, pageOf: map[entry]int{}, roomPages: map[entry]int{}, known: draft.pageOf, knownPages: draft.roomPages, pages: draft.count, lines: draft.lines, widths: draft.widths}
	d.open()
	plans := d.crew.Plans()
	d.cover(plans)
	d.programme()
	for i, p := range plans {
		d.plan(i+1, p)
	}
	d.repairs()
	d.trimCuts()
	d.deliveries()
	d.cautions()
	d.count = d.pdf.PageCount()
	return d
}

// noDate stands in the document's properties when the job has no date.
var noDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func (d *document) open() {
	set := d.result.Job.Settings
	size := "A4"
	if set.LengthUnit.Imperial() {
		size = "Letter"
	}
	d.pdf = fpdf.New("P", "mm", size, "")
	d.width, d.height = d.pdf.GetPageSize()
	d.pdf.SetCatalogSort(true)
	date := set.Date
	if date.IsZero() {
		date = noDate
	}
	d.pdf.SetCreationDate(date)
	d.pdf.SetModificationDate(date)
	d.pdf.SetTitle(draw.Letters(set.Name), true)
	d.pdf.SetSubject(draw.Letters(set.Number), true)
	d.pdf.SetCreator("Laybill", true)
	d.pdf.SetLang("en")
	d.pdf.SetAutoPageBreak(false, 0)
	draw.AddType(d.pdf)
}

// inner is the width between the margins.
func (d *document) inner() float64 { return d.width - 2*sideMargin }

// left is the height left on the page.
func (d *document) left() float64 { return d.height - bottomMargin - d.y }

// begin starts a page for an entry of the contents.
func (d *document) begin(e entry, section string) {
	d.section = section
	d.pageOf[e] = d.pdf.PageNo() + 1
	d.page()
	if e.room == 1 {
		d.pdf.Bookmark(draw.Letters(section), 0, 0)
	}
	d.pdf.Bookmark(draw.Letters(e.name), min(e.room, 1), 0)
}

// page starts a page with its header and footer.
func (d *document) page() {
	d.pdf.AddPage()
	set := d.result.Job.Settings
	d.text(sideMargin, topMargin-8, smallType, false, d.shortened(set.Name, d.inner()*0.6, smallType))
	d.rightText(d.width-sideMargin, topMargin-8, smallType, true, d.shortened(d.section, d.inner()*0.38, smallType))
	d.rule(topMargin-6.5, 0.3)
	bottom := d.height - bottomMargin + 8
	d.rule(bottom-4, 0.3)
	d.text(sideMargin, bottom, smallType, false, d.shortened(joined("  ·  ", set.Number, dateWords(set.Date)), d.inner()*0.6, smallType))
	d.rightText(d.width-sideMargin, bottom, smallType, true, fmt.Sprintf("page %d of %d", d.pdf.PageNo(), d.pages))
	d.y = topMargin
	if d.roomShown != (entry{}) {
		d.roomHead()
	}
}

func dateWords(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}
