package form

import (
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"laybill/estimate/job"
	"laybill/sheet/table"
)

const howToSheet = "How to"

// step is one line of the How-to sheet.
type step struct{ label, text string }

var steps = []step{
	{"1", "Job: the settings of the whole job. Those marked * must be filled in; the others have a default that you may change."},
	{"2", "Suppliers and Products: what you buy, from whom, at what price. A price list can be kept and copied from job to job."},
	{"3", "Trades and Operations: who works, at what wage, and the hours each piece of work takes."},
	{"4", "Build-ups: each floor from the screed up: film, underlay, covering, edges and the work, a row each."},
	{"5", "Rooms: every room of every apartment type once. Doorways go on Openings, columns and hearths on Fixtures."},
	{"6", "Apartments: the building, apartment by apartment. Extras: costs by name, such as a skip or a lift."},
	{"7", "Save, then run:  laybill check FILE.xlsx  until it finds nothing, then  laybill price FILE.xlsx"},
}

var marks = []step{
	{"*", "Must be filled in. Everything else may stay empty; the heading's note says what an empty cell means."},
	{"Example:", "A grey row that begins so is an example and not read. Write over its first cell to use the row, or delete it."},
	{"note", "Point at a heading to read what its column holds, its default and an example."},
	{"list", "Cells with a small arrow offer the words or codes to choose from."},
	{"free", "Columns may be moved or left out, and columns of your own added; tables are found by their headings."},
}

var metricWays = []step{
	{"Length", "3820 (in the job's length unit), 3820 mm, 382 cm, 3.82 m, 3 m 82"},
	{"Outline", "E 5200, N 2400, W 1200, N 1200, W 4000, S 3600. " + walk + "E 900 N 1200."},
}

var imperialWays = []step{
	{"Length", `12.5 (in the job's length unit), 12' 6 1/2", 150 1/2", 12 ft 6 1/2 in, 3.82 m. Not 12-6 1/2: it can be read in two ways.`},
	{"Outline", `E 17', N 7' 10", W 4', N 4', W 13', S 11' 10". ` + walk + "E 3' N 4'."},
}

const walk = "A walk round the room from its south-west corner; E, N, W, S is the way each leg goes. The last leg may be left out. A slanted leg names both parts: "

var places = []step{
	{"Wall", "N, E, S or W when only one wall faces that way, else the number of the leg, counted anticlockwise from the corner nearest 0,0."},
	{"Direction", "along length, along width, 30 (degrees anticlockwise from the length), toward light: N, auto (what needs fewest planks)"},
}

// howTo makes the first sheet.
func (b *builder) howTo() {
	page := &howToPage{builder: b, row: 1}
	b.do(b.file.SetColWidth(howToSheet, "A", "A", 18))
	b.do(b.file.SetColWidth(howToSheet, "B", "B", howToWidth))
	b.do(b.file.SetColWidth(howToSheet, "C", "C", 12))
	page.line("", b.fill.Title, b.styles.title)
	page.line("", "Fill in the sheets, then let Laybill lay every floor, order the goods and price the job.", b.styles.plain)
	page.section("In this order", steps)
	page.section("What the marks mean", marks)
	ways := metricWays
	if b.fill.LengthUnit.Imperial() {
		ways = imperialWays
	}
	page.section("How to write", slices.Concat(ways, places))
	page.measures()
	page.sheets()
	gridLines := false
	b.do(b.file.SetSheetView(howToSheet, 0, &excelize.ViewOptions{ShowGridLines: &gridLines}))
	b.page(howToSheet, "portrait")
}

// howToWidth is the width of the How-to text in characters.
const howToWidth = 95

// howToPage writes the How-to sheet line by line.
type howToPage struct {
	*builder
	row int
}

func (p *howToPage) line(label, text string, style int) {
	if label == "" {
		p.set(howToSheet, p.row, 1, text, style)
	} else {
		p.set(howToSheet, p.row, 1, label, p.styles.strong)
		p.set(howToSheet, p.row, 2, text, style)
		p.fitHeight(howToSheet, p.row, text, howToWidth)
	}
	p.row++
}

func (p *howToPage) section(title string, lines []step) {
	p.row++
	p.line("", title, p.styles.subtitle)
	for _, s := range lines {
		p.line(s.label, s.text, p.styles.body)
	}
}

// measures lists what layers and work are measured by. The words are too many for
// the rule of a cell, so drop-down lists refer to them here.
func (p *howToPage) measures() {
	lines := make([]step, len(job.Measures))
	for i, word := range job.Measures {
		lines[i] = step{word, table.MeasureHelp[i]}
	}
	p.section("What layers and work are measured by", lines)
	last := p.row - 1
	p.measureWords = fmt.Sprintf("%s!$A$%d:$A$%d", quoted(howToSheet), last-len(lines)+1, last)
}

// sheets lists the sheets with a link to each.
func (p *howToPage) sheets() {
	p.row++
	p.line("", "The sheets", p.styles.subtitle)
	for i := range table.Tables {
		t := &table.Tables[i]
		cell := cellName(p.row, 1)
		need := "when needed"
		if t.Required {
			need = "always"
		}
		p.set(howToSheet, p.row, 3, need, p.styles.plain)
		p.line(t.Sheet, "One row is "+t.Row+". "+t.Help, p.styles.body)
		p.do(p.file.SetCellHyperLink(howToSheet, cell, quoted(t.Sheet)+"!A1", "Location"))
		p.do(p.file.SetCellStyle(howToSheet, cell, cell, p.styles.link))
	}
}
