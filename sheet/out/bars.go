package out

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"laybill/estimate/job"
	"laybill/estimate/programme"
)

// A column of the bars is a day, or a week where there would be more days than
// a page can show.
const (
	mostDayBars = 84
	barsOnPage  = 6 * week // of paper, to be read at arm's length
	week        = 7
)

// barLetters stand for the steps in a bar: capitals where somebody works.
var barLetters = map[job.Step]string{
	job.Preparation: "P", job.MoistureTest: "T", job.HoldPoint: "h", job.Levelling: "C", job.Drying: "d", job.Delivering: "D", job.Acclimatisation: "a",
	job.Underlaying: "F", job.Laying: "L", job.FixingTrims: "S", job.HandingOver: "H",
}

// barSheet is the programme as a picture of cells: a row for each apartment and
// each crew, a column for each day or week.
type barSheet struct {
	*sheet
	first programme.Day
	step  int // days a column
	count int // columns
	off   func(programme.Day) bool
}

// Columns before the bars.
const (
	barNumber = iota
	barPlace
	barFloor
	barsFrom
)

func (b *book) programmeBars(name string) {
	p := &b.result.Programme
	s := &barSheet{first: p.Entries[0].Start.Day, step: 1}
	last := p.Finish
	for _, e := range p.Entries {
		s.first, last = min(s.first, e.Start.Day), max(last, e.End.Day)
	}
	for _, d := range p.Deliveries {
		s.first = min(s.first, d.Day)
	}
	if int(last-s.first)+1 > mostDayBars {
		s.step = week
		s.first -= programme.Day((s.first.Date().Weekday() + week - time.Monday) % week)
	}
	s.count = int(last-s.first)/s.step + 1
	calendar := programme.NewCalendar(b.result.Job)
	s.off = func(d programme.Day) bool { return s.step == 1 && !calendar.Worked(d) }
	s.sheet = b.open(name, s.page())
	s.title("Programme")
	s.note(b.programmeWords())
	s.note("P preparation, T moisture test, h hold point until it is read, C levelling, d drying, D delivery to the rooms, a acclimatisation, F film and underlay, L laying, S trims, H snag and handover. " +
		"Dark: a crew works. Grey: a day off. Crews: the numbers of the apartments they are in. Deliveries to be on site: their numbers on the sheet Deliveries. " + map[int]string{1: "A column is a day.", week: "A column is a week; its date is the Monday."}[s.step])
	s.heads()
	s.apartments(p.Entries)
	below := append(s.crews(p.Entries), s.deliveries(p.Deliveries)...)
	s.keepTogether(below, nil)
	s.putBands(below)
	s.close()
}

func (s *barSheet) page() page {
	p := page{landscape: true, widths: []float64{5, 14, 16}, frozen: 5, titles: 4, frozenColumns: barsFrom}
	width := 4.0
	if s.step > 1 {
		width = 6.5
	}
	for range s.count {
		p.widths = append(p.widths, width)
	}
	p.across = (s.count + barsOnPage - 1) / barsOnPage
	return p
}

// heads are the months above the days.
func (s *barSheet) heads() {
	months, days := make([]cell, barsFrom+s.count), make([]cell, barsFrom+s.count)
	days[barNumber], days[barPlace], days[barFloor] = text("No"), text("Apartment"), text("Floor")
	for i := range s.count {
		date := s.day(i).Date()
		if i == 0 || date.Month() != s.day(i-1).Date().Month() {
			months[barsFrom+i] = text(date.Format("Jan 2006")).strong()
		}
		days[barsFrom+i] = day(date)
		days[barsFrom+i].style = style{format: "dd"}
	}
	for i := range days {
		format := days[i].style.format
		days[i].style = headingStyle
		days[i].style.format = format
		if i >= barsFrom {
			days[i].style.align = middle
		}
	}
	s.put(months...)
	s.put(days...)
}

// day is the first day of a column.
func (s *barSheet) day(column int) programme.Day { return s.first + programme.Day(column*s.step) }

// column is where a day is.
func (s *barSheet) column(d programme.Day) int { return int(d-s.first) / s.step }

// bar is a row whose cells say what happens.
type bar struct {
	words [][]string
	work  []bool
}

func (s *barSheet) bar() bar { return bar{make([][]string, s.count), make([]bool, s.count)} }

// mark writes words into the columns from one day to another, once in each.
func (s *barSheet) mark(b bar, from, until programme.Day, words string, work bool) {
	for i := s.column(from); i <= s.column(until); i++ {
		if work && s.off(s.day(i)) {
			continue
		}
		if !slices.Contains(b.words[i], words) {
			b.words[i] = append(b.words[i], words)
		}
		b.work[i] = b.work[i] || work
	}
}

// note writes a line of explanation across the first of the printed pages.
func (s *barSheet) note(words string) {
	s.putBands(bands{noteBand(words, s.sheet.page.widths[:barsFrom+s.count/max(1, s.sheet.page.across)])})
}

// barRow is a bar behind its names, as high as its words need.
func (s *barSheet) barRow(b bar, between string, names ...cell) band {
	cells := append(names, make([]cell, s.count)...)
	lines := 1
	for i := range s.count {
		at := &cells[barsFrom+i]
		*at = text(strings.Join(b.words[i], between))
		at.style = style{size: barSize, align: middle, edge: tableGrid, wrap: between == "\n", dark: b.work[i], shaded: s.off(s.day(i)) && len(b.words[i]) == 0}
		if at.style.wrap {
			lines = max(lines, len(b.words[i]))
		}
	}
	for i := range barsFrom {
		cells[i].style.edge = tableGrid
	}
	return band{cells: cells, height: 3 + 9*float64(lines)}
}

const barSize = 7

// apartments are a row each, in the order of the list.
func (s *barSheet) apartments(entries []programme.Entry) {
	number := 0
	for from := 0; from < len(entries); {
		e := entries[from]
		b := s.bar()
		for ; from < len(entries) && entries[from].Apartment == e.Apartment; from++ {
			s.mark(b, entries[from].Start.Day, entries[from].End.Day, barLetters[entries[from].Step], entries[from].Crew > 0)
		}
		floor := ""
		if e.Apartment != nil {
			floor = strings.Join(notEmpty(e.Apartment.Block, e.Apartment.Floor), " / ")
		}
		number++
		s.putBands(bands{s.barRow(b, "", plainCount(number), text(entryPlace(e)).strong().indented(), text(floor).indented())})
	}
}

// crews are a row each: the numbers of the apartments they are in.
func (s *barSheet) crews(entries []programme.Entry) bands {
	rows := bands{gapBand(), partBand("Crews", s.sheet.page.widths)}
	bars := map[int]bar{}
	most, number := 0, 0
	for i, e := range entries {
		if i == 0 || e.Apartment != entries[i-1].Apartment {
			number++
		}
		if e.Crew == 0 {
			continue
		}
		if _, known := bars[e.Crew]; !known {
			bars[e.Crew] = s.bar()
		}
		most = max(most, e.Crew)
		s.mark(bars[e.Crew], e.Start.Day, e.End.Day, strconv.Itoa(number), true)
	}
	for crew := 1; crew <= most; crew++ {
		if b, busy := bars[crew]; busy {
			rows = append(rows, s.barRow(b, "\n", cell{}, text(fmt.Sprintf("Crew %d", crew)).strong().indented(), cell{}))
		}
	}
	return rows
}

// deliveries are a row: their numbers on the sheet Deliveries.
func (s *barSheet) deliveries(deliveries []programme.Delivery) bands {
	b := s.bar()
	for i, d := range deliveries {
		s.mark(b, d.Day, d.Day, strconv.Itoa(i+1), false)
	}
	return bands{gapBand(), partBand("Deliveries", s.sheet.page.widths), s.barRow(b, "\n", cell{}, text("On site").strong().indented(), cell{})}
}
