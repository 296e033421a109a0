package booklet_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
	"laybill/sheet/book"
	"laybill/sheet/crew"
	"laybill/sheet/form"
	"laybill/sheet/in"
	"laybill/templates"
)

// narrowRow is what a row looks like where rows stand in two columns.
func narrowRow(lists *crew.Lists, row crew.Row) *regexp.Regexp {
	var cells []string
	for i, cut := range []crew.Cut{row.First, row.Between, row.Last} {
		if cut.Count == 0 {
			continue
		}
		if i != 1 {
			cells = append(cells, lists.Cut(cut.Length))
		}
		cells = append(cells, strings.TrimPrefix(cut.From, crew.New))
		if cut.To != "" {
			cells = append(cells, "\u2192"+cut.To)
		}
	}
	return regexp.MustCompile(regexp.QuoteMeta(row.Short) + " +" + strings.Join(cells, " +"))
}

// closestRow is what a row looks like where rows stand in three columns, one that
// no fixture parts.
func closestRow(lists *crew.Lists, row crew.Row) *regexp.Regexp {
	row.Short, _, _ = strings.Cut(row.Short, ".")
	words := narrowRow(lists, row).String()
	words = regexp.MustCompile(`-[0-9]*([0-9]{2})\b`).ReplaceAllString(words, "-[0-9]*$1")
	return regexp.MustCompile(strings.NewReplacer("off-cut", "off", `"`, "").Replace(words))
}

// begunRow is the beginning of a row that may take two lines.
func begunRow(lists *crew.Lists, row crew.Row) *regexp.Regexp {
	row.Between, row.Last, row.First.From, row.First.To = crew.Cut{}, crew.Cut{}, strings.Split(row.First.From, ",")[0], ""
	return closestRow(lists, row)
}

// demo is the estimate of the invented building.
func demo(t *testing.T, system templates.System) *estimate.Result {
	t.Helper()
	var workbook bytes.Buffer
	if err := form.Write(&workbook, templates.Demo(system)); err != nil {
		t.Fatal(err)
	}
	b, err := book.OpenBytes(workbook.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	j, problems := in.Read(b)
	if problems.HasErrors() {
		t.Fatalf("the demo has errors: %v", problems)
	}
	r, _, err := estimate.Run(context.Background(), j, nil)
	if err != nil || r == nil {
		t.Fatalf("the demo cannot be estimated: %v", err)
	}
	return r
}

// roomPages is how many pages each room of the plans has, from the page that is
// headed by its name to the next that has a heading.
func roomPages(t *testing.T, r *estimate.Result, pages []string) map[string]int {
	t.Helper()
	count := map[string]int{}
	room, filled := "", regexp.MustCompile(`(?m)^.*\S.*$`)
	for _, page := range pages {
		lines := filled.FindAllString(strings.ReplaceAll(page, "\u00A0", " "), 2)
		plan := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(lines[0]), r.Job.Settings.Name))
		heading, _, _ := strings.Cut(strings.TrimSpace(lines[1]), "  ")
		if strings.HasPrefix(plan, "Plan ") && strings.HasPrefix(heading, "Room ") {
			room = plan + " " + heading
		} else if strings.HasPrefix(heading, "To bring") || !strings.HasPrefix(plan, "Plan ") {
			room = ""
		}
		if room != "" {
			count[room]++
		}
	}
	return count
}

// Each room of the demo has one page, on A4 and, in feet and inches, on Letter.
func TestDemoHasAPageARoom(t *testing.T) {
	for _, system := range templates.Systems {
		r := demo(t, system)
		rooms := roomPages(t, r, pagesOf(t, written(t, r)))
		for room, pages := range rooms {
			if pages != 1 {
				t.Errorf("%s: %s has %d pages", system, room, pages)
			}
		}
		want := 0
		for _, p := range crew.Of(r).Plans() {
			want += len(p.Rooms)
		}
		if len(rooms) != want {
			t.Errorf("%s: %d rooms have pages, want %d", system, len(rooms), want)
		}
	}
}

// A room has one page, with its rows in two or three columns where they are
// many; its rows go to pages of their own where none of this would be readable.
// An A4 page has 261 mm between header and footer. 63 rows of 192 mm, drawn 1 mm
// deep with 28 mm round them, take 91 mm; in three columns of 3.6 mm a row 84 mm;
// 14 lines of 5 mm leave them room. 151 rows would take 179 and 188 mm.
func TestOnePageARoom(t *testing.T) {
	for _, tt := range []struct {
		unit                 measure.Unit
		metres, along, pages int // of the room's sides
		printed              func(*crew.Lists, crew.Row) *regexp.Regexp
	}{
		{measure.M, 2, 2, 1, printedRow}, {measure.M, 5, 5, 1, narrowRow}, {measure.M, 12, 12, 1, closestRow}, {measure.M, 29, 9, 2, begunRow},
		{measure.Ft, 2, 2, 1, printedRow}, {measure.Ft, 5, 5, 1, narrowRow}, {measure.Ft, 12, 12, 1, closestRow}, {measure.Ft, 29, 5, 2, begunRow},
	} {
		r := result(t, func(j *job.Job) {
			j.Settings.LengthUnit = tt.unit
			j.Rooms[0].Name, j.Rooms[0].Direction.Choice = "Alcove", job.AtAngle
			j.Rooms[0].Outline = shape.Rectangle(shape.Box{X1: measure.Length(tt.along) * measure.Metre, Y1: measure.Length(tt.metres) * measure.Metre})
		})
		content := written(t, r)
		pages := pagesOf(t, content)
		if got := roomPages(t, r, pages)["Plan A Room 1: Alcove"]; got != tt.pages {
			t.Errorf("%v, %d m: the room has %d pages, want %d", tt.unit, tt.metres, got, tt.pages)
			continue
		}
		for i := range tt.pages {
			words := fmt.Sprintf("page %d of %d for this room", i+1, tt.pages)
			if said := strings.Contains(pages[i+1], words); said != (tt.pages > 1) {
				t.Errorf("%v, %d m: page %d says %q: %v", tt.unit, tt.metres, i+2, words, said)
			}
		}
		rows := strings.ReplaceAll(pages[tt.pages], "\u00A0", " ")
		lists := crew.Of(r)
		plan := lists.Plans()[0]
		for _, row := range lists.Rows(plan, plan.Rooms[0]) {
			if line := tt.printed(lists, row); !line.MatchString(rows) {
				t.Errorf("%v, %d m: page %d lacks the row %s:\n%s", tt.unit, tt.metres, tt.pages+1, line, rows)
			}
		}
		wordsHavePlace(t, fmt.Sprintf("%v, %d m", tt.unit, tt.metres), content)
	}
}

// word is a word on a page in points, as poppler finds it.
type word struct {
	X0 float64 `xml:"xMin,attr"`
	Y0 float64 `xml:"yMin,attr"`
	X1 float64 `xml:"xMax,attr"`
	Y1 float64 `xml:"yMax,attr"`
	S  string  `xml:",chardata"`
}

type wordPage struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []word  `xml:"word"`
}

// wordsHavePlace wants every word within the margins of its page, and none upon
// another. A word's box is as high as the type's tallest letters; its middle half
// is where small letters stand. Words upright on a drawing are left out: poppler
// gives them a box as wide as their line.
func wordsHavePlace(t *testing.T, name string, content []byte) {
	t.Helper()
	const margin = 7 / 25.4 * 72
	for number, page := range pageWords(t, content) {
		var level []word
		for _, w := range page.Words {
			if w.X0 < margin || w.X1 > page.Width-margin || w.Y0 < margin || w.Y1 > page.Height-margin {
				t.Errorf("%s, page %d: %q is at %.0f,%.0f to %.0f,%.0f on a page of %.0f x %.0f", name, number+1, w.S, w.X0, w.Y0, w.X1, w.Y1, page.Width, page.Height)
			}
			if w.Y1-w.Y0 < 40 {
				level = append(level, w)
			}
		}
		for i, a := range level {
			for _, b := range level[:i] {
				over, deep := math.Min(a.X1, b.X1)-math.Max(a.X0, b.X0), math.Min(a.Y1, b.Y1)-math.Max(a.Y0, b.Y0)
				if over > 0.3 && deep > 0.25*math.Min(a.Y1-a.Y0, b.Y1-b.Y0) {
					t.Errorf("%s, page %d: %q at %.0f,%.0f stands on %q", name, number+1, a.S, a.X0, a.Y0, b.S)
				}
			}
		}
	}
}

func pageWords(t *testing.T, content []byte) []wordPage {
	t.Helper()
	var pages []wordPage
	text := poppler(t, content, "pdftotext", "-bbox")
	decoder := xml.NewDecoder(strings.NewReader(text))
	decoder.Strict = false
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return pages
		}
		if err != nil {
			t.Fatal(err)
		}
		if start, is := token.(xml.StartElement); is && start.Name.Local == "page" {
			var page wordPage
			if err := decoder.DecodeElement(&page, &start); err != nil {
				t.Fatal(err)
			}
			pages = append(pages, page)
		}
	}
}
