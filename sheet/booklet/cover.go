package booklet

import (
	"fmt"
	"strconv"
	"strings"

	"laybill/sheet/crew"
)

// The lists before and behind the plans.
var (
	programmeEntry = entry{name: "Programme"}
	repairEntry    = entry{name: "Repairs"}
	trimEntry      = entry{name: "Trim cuts"}
	deliveryEntry  = entry{name: "Deliveries"}
	cautionEntry   = entry{name: "Cautions"}
)

// planEntry is a plan; it begins with its first room.
func planEntry(number int, p *crew.Plan) entry { return entry{plan: number, name: "Plan " + p.Name()} }

func roomEntry(plan, number int, p *crew.Plan) entry {
	return entry{plan: plan, room: number, name: fmt.Sprintf("Room %d: %s", number, p.Rooms[number-1].Spec.Name)}
}

// cover is what the booklet is for and what is in it.
func (d *document) cover(plans []*crew.Plan) {
	set := d.result.Job.Settings
	d.section = "Laying booklet"
	d.page()
	d.y += 10
	d.paragraph(set.Name, coverType, true)
	d.y += 4
	for _, fact := range [][2]string{{"Job number", set.Number}, {"Client", set.Client}, {"Site", set.Site}, {"Date", dateWords(set.Date)}, {"Laid by", set.Company}} {
		if fact[1] == "" {
			continue
		}
		d.text(sideMargin, d.y+partType, partType, false, fact[0])
		lines := d.wrapped(fact[1], d.inner()-35, partType, true)
		for _, line := range lines {
			d.text(sideMargin+35, d.y+partType, partType, true, line)
			d.y += partType * 1.5
		}
	}
	if len(plans) > 0 {
		d.part("How to read the pages")
		d.paragraph(d.crew.HowToRead()+" Where rows stand in columns, a number alone is a new plank, and \""+keptFor+"7.1\" the piece that its rest is kept for.", bodyType, false)
	}
	d.contents(plans)
}

func (d *document) contents(plans []*crew.Plan) {
	d.part("Contents")
	if d.dated() {
		d.contentsLine(programmeEntry, d.known[programmeEntry], nil)
	}
	for i, p := range plans {
		d.contentsLine(planEntry(i+1, p), d.known[roomEntry(i+1, 1, p)], p)
		for n := range p.Rooms {
			e := roomEntry(i+1, n+1, p)
			d.contentsLine(e, d.known[e], nil)
		}
	}
	if len(d.crew.Repairs()) > 0 {
		d.contentsLine(repairEntry, d.known[repairEntry], nil)
	}
	for _, e := range []entry{trimEntry, deliveryEntry, cautionEntry} {
		d.contentsLine(e, d.known[e], nil)
	}
}

// contentsLine writes a line of the contents with dots to its page's number;
// behind a plan the apartments that it serves.
func (d *document) contentsLine(e entry, page int, p *crew.Plan) {
	height := bodyType * 1.45
	if d.left() < height {
		d.page()
	}
	x, bold := sideMargin, e.room == 0
	if e.room > 0 {
		x += 6
	}
	number := strconv.Itoa(page)
	end := d.width - sideMargin - 10
	words := e.name
	if p != nil {
		words = d.shortened(joined("   ", words, apartmentsOf(p)), end-x, bodyType)
	}
	words = d.shortened(words, end-x, bodyType)
	d.text(x, d.y+bodyType, bodyType, bold, words)
	from := x + d.measure(words, bodyType, bold) + 2
	if dots := int((end - from) / d.measure(" .", bodyType, false)); dots > 0 {
		d.rightText(end, d.y+bodyType, bodyType, false, strings.Repeat(" .", dots))
	}
	d.rightText(d.width-sideMargin, d.y+bodyType, bodyType, bold, number)
	link := d.pdf.AddLink()
	d.pdf.SetLink(link, 0, max(page, 1))
	d.pdf.Link(x, d.y, d.width-sideMargin-x, height, link)
	d.y += height
}

func apartmentsOf(p *crew.Plan) string {
	names := make([]string, len(p.Apartments))
	for i, a := range p.Apartments {
		names[i] = a.Name
	}
	return crew.SomeNames(names)
}
