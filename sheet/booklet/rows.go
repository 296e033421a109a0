package booklet

import (
	"regexp"
	"strconv"
	"strings"

	"laybill/estimate/building"
	"laybill/estimate/measure"
	"laybill/sheet/crew"
)

// cutsSet is the room's pieces row by row, in each of the settings in which its
// words have their place.
func (d *document) cutsSet(p *crew.Plan, room *building.Room) []table {
	var sets []table
	forms := d.forms(p, room)
	demands := make([]demand, len(forms))
	for i, form := range forms {
		demands[i] = d.demand(form)
	}
	for i, s := range settings {
		s.abreast = min(s.abreast, len(forms))
		n := max(s.abreast, 1) - 1
		t := forms[n]
		t.setting = s
		fits := demands[n].share(&t, d.abreastWidth(n+1))
		if last := i == len(settings)-1; fits || last && len(sets) == 0 { // what is wider than a page has to be parted
			sets = append(sets, t)
		}
	}
	return sets
}

// forms are the tables of a room's pieces: across the page, and narrow ones of
// which two and three stand side by side. Blocks have the first alone.
func (d *document) forms(p *crew.Plan, room *building.Room) []table {
	if d.crew.InBlocks(room) {
		return []table{d.blocks(p, room)}
	}
	rows := d.crew.Rows(p, room)
	return []table{d.wideRows(rows), d.narrowRows(rows), d.closestRows(rows)}
}

// wideRows is a table across the page.
func (d *document) wideRows(rows []crew.Row) table {
	t := table{
		spans: []span{{"Row", 3}, {"First piece", 3}, {"Full-length pieces", 3}, {"Last piece", 3}},
		columns: []column{
			{heading: "Pieces", bold: true}, {heading: "Width", right: true}, {heading: "Length", right: true},
			{heading: "Cut", right: true, bold: true}, {heading: "From"}, {heading: together("Off-cut to")},
			{heading: "No", right: true}, {heading: "From"}, {heading: together("Off-cut to")},
			{heading: "Cut", right: true, bold: true}, {heading: "From"}, {heading: together("Off-cut to")},
		},
	}
	for _, row := range rows {
		cells := []string{together(row.Pieces), d.cut(row.Width), d.cut(row.Length), d.cut(row.First.Length), listed(row.First.From), places(row.First.To), "", "", "", "", "", ""}
		if row.Between.Count > 0 {
			copy(cells[6:], []string{strconv.Itoa(row.Between.Count), listed(row.Between.From), places(row.Between.To)})
		}
		if row.Last.Count > 0 {
			copy(cells[9:], []string{d.cut(row.Last.Length), listed(row.Last.From), places(row.Last.To)})
		}
		t.rows = append(t.rows, cells)
	}
	return t
}

// narrowRows is a table of which two stand on a page: off-cuts stand behind what
// they are cut from, new planks are numbers, and the rows' sizes are in the
// drawing alone.
func (d *document) narrowRows(rows []crew.Row) table {
	t := table{
		spans: []span{{"Row", 1}, {"First piece", 2}, {"Full", 1}, {"Last piece", 2}},
		columns: []column{
			{heading: "Pieces", bold: true}, {heading: "Cut", right: true, bold: true}, {heading: together("New " + keptFor + " to")}, {heading: "New"},
			{heading: "Cut", right: true, bold: true}, {heading: together("New " + keptFor + " to")},
		},
	}
	for _, row := range rows {
		cells := []string{together(row.Short), d.cut(row.First.Length), fromTo(row.First), "", "", ""}
		if row.Between.Count > 0 {
			cells[3] = fromTo(row.Between)
		}
		if row.Last.Count > 0 {
			copy(cells[4:], []string{d.cut(row.Last.Length), fromTo(row.Last)})
		}
		t.rows = append(t.rows, cells)
	}
	return t
}

// closestRows is a table of which three stand on a page: narrow rows with what
// comes in each of them left out, and words and numbers made short.
func (d *document) closestRows(rows []crew.Row) table {
	t := d.narrowRows(rows)
	t.closest = true
	t.spans[0].words, t.columns[0].heading, t.columns[2].heading, t.columns[5].heading = "", "", "From", "From"
	if d.result.Job.Settings.LengthUnit.Imperial() {
		t.columns[1].heading, t.columns[4].heading = together("Cut in"), together("Cut in")
	}
	parts := map[string]int{}
	for _, row := range rows {
		parts[rowNumber(row)]++
	}
	short := strings.NewReplacer("off-cut", "off", `"`, "")
	for i, cells := range t.rows {
		if number := rowNumber(rows[i]); parts[number] == 1 {
			_, pieces, _ := strings.Cut(rows[i].Short, ".")
			cells[0] = together(number + strings.TrimLeft(pieces, "0123456789\u2013"))
		}
		for j, words := range cells[1:] {
			cells[j+1] = numberRange.ReplaceAllStringFunc(short.Replace(words), shortRange)
		}
	}
	return t
}

func rowNumber(row crew.Row) string {
	number, _, _ := strings.Cut(row.Short, ".")
	return number
}

var numberRange = regexp.MustCompile(`[0-9]+-[0-9]+`)

// shortRange writes the last number of a range with as many figures as differ
// from the first, two at least: 1198-1203 is 1198-203.
func shortRange(words string) string {
	first, last, _ := strings.Cut(words, "-")
	if len(first) < len(last) {
		return words
	}
	same := 0
	for same < len(last)-2 && first[same] == last[same] {
		same++
	}
	return first + "-" + last[same:]
}

// closestWords explains what closestRows leave out.
const closestWords = "Each line begins with its row. A number alone: a new plank; 120-23: planks 120 to 123. off 7: the off-cut of plank 7. " + keptFor + "7.1: the piece that the rest is kept for."

// explained are the notes below the table with what one must know to read it.
func (t table) explained(notes []note) []note {
	if !t.closest {
		return notes
	}
	return append([]note{{words: closestWords}}, notes...)
}

// cut is a length for the saw that no line's end parts.
func (d *document) cut(l measure.Length) string { return together(d.crew.Cut(l)) }

const keptFor = "\u2192"

// fromTo is the number of the new plank, or the off-cut, that pieces are cut
// from, and where their off-cuts go.
func fromTo(c crew.Cut) string {
	words := listed(strings.TrimPrefix(c.From, crew.New))
	if c.To != "" {
		words += " " + places(keptFor+c.To)
	}
	return words
}

// places are those where off-cuts go. Lines end between them, and within those
// that have names.
func places(s string) string {
	parts := strings.Split(s, ", ")
	for i, part := range parts {
		if strings.Count(part, " ") < 2 {
			parts[i] = together(part)
		}
	}
	return strings.Join(parts, ", ")
}
