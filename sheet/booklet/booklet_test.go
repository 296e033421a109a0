package booklet_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/published"
	"laybill/estimate/shape"
	"laybill/sheet/book"
	"laybill/sheet/booklet"
	"laybill/sheet/crew"
	"laybill/sheet/in"
)

// result is the estimate of a small job: three apartments of two rooms, one of
// them mirrored. The job may be changed before it is run.
func result(t *testing.T, change func(*job.Job)) *estimate.Result {
	t.Helper()
	return resultOf(t, "../out/testdata/tiny", change)
}

// resultOf is the estimate of a job in a folder.
func resultOf(t *testing.T, folder string, change func(*job.Job)) *estimate.Result {
	t.Helper()
	b, err := book.OpenFolder(os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	j, problems := in.Read(b)
	if problems.HasErrors() {
		t.Fatalf("the job has errors: %v", problems)
	}
	if change != nil {
		change(j)
	}
	r, problems, err := estimate.Run(context.Background(), j, nil)
	if err != nil || r == nil {
		t.Fatalf("the job cannot be estimated: %v %v", err, problems)
	}
	r.Problems = problems
	return r
}

func written(t *testing.T, r *estimate.Result) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := booklet.Write(&out, r); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// poppler runs one of poppler's programs on a booklet. It is another reader of
// the format than the one that wrote it.
func poppler(t *testing.T, content []byte, program string, args ...string) string {
	t.Helper()
	published.Program(t, program)
	file := filepath.Join(t.TempDir(), "booklet.pdf")
	if err := os.WriteFile(file, content, 0o644); err != nil {
		t.Fatal(err)
	}
	args = append(args, file)
	if program == "pdftotext" {
		args = append(args, "-")
	}
	command := exec.Command(program, args...)
	var stderr bytes.Buffer
	command.Stderr = &stderr
	out, err := command.Output()
	if err != nil || stderr.Len() > 0 {
		t.Fatalf("%s: %v: %s", program, err, stderr.String())
	}
	return string(out)
}

// The same job gives the same bytes, whenever it is written and on however many
// processors, in whatever types.
func TestSameBytes(t *testing.T) {
	named := func(j *job.Job) { j.Settings.Client, j.Rooms[0].Name = "株式会社", "客厅 거실" }
	first := written(t, result(t, named))
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if !bytes.Equal(first, written(t, result(t, named))) {
		t.Error("two booklets of one job differ")
	}
}

func TestDatesAreTheJobs(t *testing.T) {
	for _, tt := range []struct {
		name string
		date time.Time
		want string
	}{
		{"a date", time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC), "/CreationDate (D:20260301000000"},
		{"none", time.Time{}, "/CreationDate (D:20000101000000"},
	} {
		content := written(t, result(t, func(j *job.Job) { j.Settings.Date = tt.date }))
		if !bytes.Contains(content, []byte(tt.want)) {
			t.Errorf("%s: the booklet lacks %q", tt.name, tt.want)
		}
	}
}

// ISO 216: A4 is 210 x 297 mm = 595 x 842 points; ANSI Letter is 8 1/2 x 11
// inches = 612 x 792 points.
func TestPaper(t *testing.T) {
	for _, tt := range []struct {
		name string
		unit measure.Unit
		want string
	}{
		{"metric", measure.M, "595.28 x 841.89 pts (A4)"},
		{"feet and inches", measure.Ft, "612 x 792 pts (letter)"},
	} {
		content := written(t, result(t, func(j *job.Job) { j.Settings.LengthUnit = tt.unit }))
		if info := poppler(t, content, "pdfinfo"); !strings.Contains(info, tt.want) {
			t.Errorf("%s: %s", tt.name, info)
		}
	}
}

// Every font is embedded, cut down to its letters, with a map to Unicode.
func TestFontsAreEmbedded(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(poppler(t, written(t, result(t, nil)), "pdffonts")), "\n")
	if len(lines) != 4 {
		t.Fatalf("want two fonts below two lines of headings:\n%s", strings.Join(lines, "\n"))
	}
	for _, line := range lines[2:] {
		fields := strings.Fields(line) // name, type in two words, encoding, embedded, subset, Unicode map, object
		if fields[4] != "yes" || fields[6] != "yes" {
			t.Errorf("not embedded or not searchable: %s", line)
		}
	}
}

// Names come out in their own letters as far as the types have them, and can be
// searched for.
func TestNames(t *testing.T) {
	content := written(t, result(t, func(j *job.Job) {
		j.Settings.Name, j.Settings.Client, j.Settings.Site = "Жилой дом № 5", "Ελαιώνας 株式会社", "ཁ Żółta 1 ห้องนั่งเล่น"
		j.Rooms[0].Name = "客厅 거실 Küche 😀"
	}))
	text := poppler(t, content, "pdftotext")
	for _, want := range []string{"Жилой дом № 5", "Ελαιώνας 株式会社", "□ Żółta 1 ห้องนั่งเล่น", "客厅 거실 Küche □"} {
		if !strings.Contains(text, want) {
			t.Errorf("the booklet lacks %q", want)
		}
	}
	fonts := poppler(t, content, "pdffonts")
	if lines := strings.Split(strings.TrimSpace(fonts), "\n"); len(lines) != 7 || strings.Count(fonts, " yes ") < 10 {
		t.Errorf("want five fonts, embedded and with a map to Unicode:\n%s", fonts)
	}
	if len(content) > 200_000 {
		t.Errorf("the booklet has %d bytes: the fonts are not cut down", len(content))
	}
}

// A long Chinese note breaks between its letters: no line begins with a stop,
// and all but the last reach nearly to the margin. Hand working: 184 mm hold 54
// letters of 3.4 mm; "Note: " takes three of the first line, so the letter
// after 51, a stop, would begin the second.
func TestLongNote(t *testing.T) {
	sentence := strings.Repeat("铺装前，", 8)
	content := written(t, result(t, func(j *job.Job) { j.Rooms[0].Note = strings.Repeat(sentence, 6) }))
	_, note, found := strings.Cut(poppler(t, content, "pdftotext", "-layout"), "Note: "+sentence[:12])
	if !found {
		t.Fatal("no note")
	}
	note = sentence[:12] + note
	var lines []string
	for line := range strings.Lines(note) {
		if line = strings.TrimSpace(line); line == "" {
			break
		}
		lines = append(lines, line)
	}
	if got := strings.Join(lines, ""); !strings.HasPrefix(got, strings.Repeat(sentence, 6)) {
		t.Errorf("the note reads %q", got)
	}
	for i, line := range lines {
		if strings.HasPrefix(line, "，") {
			t.Errorf("line %d: %q", i+1, line)
		}
		if n := len([]rune(line)); i < len(lines)-1 && (n < 49 || n > 54) {
			t.Errorf("line %d has %d letters", i+1, n)
		}
	}
}

// pagesOf is the text of each page.
func pagesOf(t *testing.T, content []byte) []string {
	t.Helper()
	pages := strings.Split(poppler(t, content, "pdftotext", "-layout"), "\f")
	return pages[:len(pages)-1]
}

// The contents name the page on which each room and list stands, and every page
// has its number.
func TestContents(t *testing.T) {
	pages := pagesOf(t, written(t, result(t, nil)))
	for i, page := range pages {
		if want := "page " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(pages)); !strings.Contains(page, want) {
			t.Errorf("page %d lacks %q", i+1, want)
		}
	}
	lines := regexp.MustCompile(`(?m)^ *(\S.*?) +[. ]*\. +(\d+)$`).FindAllStringSubmatch(pages[0], -1)
	if len(lines) != 9 {
		t.Fatalf("%d lines of contents, want two plans of two rooms and three lists:\n%s", len(lines), pages[0])
	}
	for _, line := range lines {
		number, _ := strconv.Atoi(line[2])
		if number < 2 || number > len(pages) {
			t.Fatalf("%q is on page %s of %d", line[1], line[2], len(pages))
		}
		// A plan is named at the head of its pages, a room and a list above its own.
		head, _, _ := strings.Cut(pages[number-1], "\n")
		plan := strings.TrimSpace(strings.TrimPrefix(head, "Two small rooms"))
		if !strings.HasPrefix(line[1], plan+" ") && !strings.Contains(pages[number-1], line[1]) {
			t.Errorf("%q is not on page %s", line[1], line[2])
		}
	}
}

// printedRow is what a row looks like on paper: its cells in their order, those
// that are empty left out.
func printedRow(lists *crew.Lists, row crew.Row) *regexp.Regexp {
	cells := []string{row.Pieces, lists.Cut(row.Width), lists.Cut(row.Length), lists.Cut(row.First.Length), row.First.From, row.First.To}
	if row.Between.Count > 0 {
		cells = append(cells, strconv.Itoa(row.Between.Count), row.Between.From, row.Between.To)
	}
	if row.Last.Count > 0 {
		cells = append(cells, lists.Cut(row.Last.Length), row.Last.From, row.Last.To)
	}
	var filled []string
	for _, cell := range cells {
		if cell != "" {
			filled = append(filled, regexp.QuoteMeta(cell))
		}
	}
	return regexp.MustCompile(`(?m)^ *` + strings.Join(filled, " +") + " *$")
}

// Every length to be cut, everything to bring and every apartment is printed on
// the room's page, as the lists of the crew have it.
func TestRoomPages(t *testing.T) {
	r := result(t, func(j *job.Job) {
		j.Rooms[0].Outline = shape.Rectangle(shape.Box{X1: 5 * measure.Metre, Y1: 2 * measure.Metre})
	})
	pages := pagesOf(t, written(t, r))
	lists := crew.Of(r)
	number := 1
	for _, p := range lists.Plans() {
		for i, room := range p.Rooms {
			page := strings.ReplaceAll(pages[number], "\u00A0", " ")
			number++
			wants := []string{"Room " + strconv.Itoa(i+1) + ": " + room.Spec.Name, p.Serves(), "whole plank", room.Spec.Note}
			for _, row := range lists.Rows(p, room) {
				if line := printedRow(lists, row); !line.MatchString(page) {
					t.Errorf("page %d lacks the row %s:\n%s", number, line, page)
				}
			}
			for _, item := range lists.CarriedIntoRoom(room) {
				wants = append(wants, item.Product.Code)
			}
			for _, want := range wants {
				if !strings.Contains(page, want) {
					t.Errorf("page %d lacks %q:\n%s", number, want, page)
				}
			}
		}
	}
}

// Every bar to be cut and every delivery is printed, below what it is cut from
// and where, or when it comes. Trims of a hundred apartments fill pages: the
// heading stands on each.
func TestClosingLists(t *testing.T) {
	r := result(t, func(j *job.Job) {
		j.Settings.Sharing = job.LevelJob
		for i := range 100 {
			apartment := *j.Apartments[0]
			apartment.Name = "N" + strconv.Itoa(i)
			j.Apartments = append(j.Apartments, &apartment)
			room := *j.Rooms[0]
			room.Type, room.Name = "T"+strconv.Itoa(i), "Room"
			room.Outline = shape.Rectangle(shape.Box{X1: measure.Length(1000+9*i) * measure.Millimetre, Y1: 984 * measure.Millimetre})
			j.Rooms = append(j.Rooms, &room)
			apartment.Type = room.Type
		}
	})
	pages := pagesOf(t, written(t, r))
	text := strings.Join(pages, "")
	lists := crew.Of(r)
	for _, bars := range lists.Bars() {
		if words := strings.ReplaceAll(bars.Words, "  +  ", " + "); !strings.Contains(strings.ReplaceAll(text, "\u00A0", " "), words) {
			t.Errorf("the booklet lacks the bar %s", words)
		}
	}
	for _, load := range lists.Loads() {
		if words := fmt.Sprintf("Delivery %d ", load.Number); !strings.Contains(text, words) {
			t.Errorf("the booklet lacks %s", words)
		}
	}
	cut := 0
	for _, page := range pages {
		if head, _, _ := strings.Cut(page, "\n"); strings.HasSuffix(head, "Trim cuts") {
			cut++
			if !strings.Contains(page, "SK · Skirting") {
				t.Errorf("a page does not say what is cut:\n%s", page)
			}
		}
	}
	if cut < 2 {
		t.Errorf("%d pages of trims, want several", cut)
	}
}

// A job with a thousand names on one plan prints them once.
func TestManyApartments(t *testing.T) {
	r := result(t, func(j *job.Job) {
		for i := range 1000 {
			apartment := *j.Apartments[0]
			apartment.Name = "N" + strconv.Itoa(i)
			j.Apartments = append(j.Apartments, &apartment)
		}
	})
	pages := pagesOf(t, written(t, r))
	named := 0
	for _, page := range pages {
		named += strings.Count(page, "N777")
	}
	if named != 1 {
		t.Errorf("an apartment of a thousand is named %d times, want once", named)
	}
	if !strings.Contains(strings.Join(pages, ""), "For 1002 apartments laid alike, named on page ") {
		t.Error("the second room does not say where its apartments are named")
	}
}

// A job with a start date has a page with the days of its apartments. From
// Monday, 2 March 2026: the test is read after 24 hours, on Tuesday; the goods
// carried in then have lain in their rooms for 48 hours on Thursday (common
// practice). To lay and to hand over 101 takes a fraction of that day.
func TestProgramme(t *testing.T) {
	start := time.Date(2026, time.March, 2, 0, 0, 0, 0, time.UTC)
	pages := pagesOf(t, written(t, result(t, func(j *job.Job) { j.Settings.StartDate = start })))
	for _, apartment := range []string{"101 +1", "102 +1", "201 +2"} {
		line := regexp.MustCompile(`(?m)^ *` + apartment + ` +Tue 3 Mar +Tue 3 Mar +Thu 5 Mar +Thu 5 Mar +1 +Thu 5 Mar$`)
		if !line.MatchString(strings.ReplaceAll(pages[1], "\u00A0", " ")) {
			t.Errorf("page 2 lacks %s:\n%s", line, pages[1])
		}
	}
	if pages := pagesOf(t, written(t, result(t, nil))); strings.Contains(strings.Join(pages, ""), "Programme") {
		t.Error("a job without a start date has a programme")
	}
}

// Columns of the programme are as wide as their words: no day of the demo is
// torn.
func TestProgrammeDaysAreWhole(t *testing.T) {
	page := strings.ReplaceAll(pagesOf(t, written(t, resultOf(t, "../../templates/demo", nil)))[2], "\u00A0", " ")
	found := regexp.MustCompile(`– [A-Z][a-z]{2} \d+ ([A-Za-z]*)`).FindAllStringSubmatch(page, -1)
	if len(found) < 20 {
		t.Fatalf("%d spans of days:\n%s", len(found), page)
	}
	for _, span := range found {
		if len(span[1]) != 3 {
			t.Errorf("%q is torn", span[0])
		}
	}
}

// A repair has its row on a page of its own, with the rows to take up, and the
// page is in the contents; without repairs there is none.
func TestRepairsHaveAPage(t *testing.T) {
	words := func(r *estimate.Result) string {
		return strings.Join(strings.Fields(poppler(t, written(t, r), "pdftotext")), " ")
	}
	if plain := words(result(t, nil)); strings.Contains(plain, "Repairs") {
		t.Error("a job without repairs speaks of them")
	}
	text := words(result(t, func(j *job.Job) {
		method := &job.BuildUp{Name: "Take up", Lines: []*job.Line{{Operation: j.Operations[0], Measure: job.Rows, Factor: decimal.NewFromInt(1)}}}
		plank := j.Products[slices.IndexFunc(j.Products, func(p *job.Product) bool { return p.Kind == job.Plank })]
		j.Repairs = []*job.Repair{{Apartment: j.Apartments[0], Room: "Porch", Product: plank, Pieces: 2, Length: plank.Length, Rows: 4, Method: method}}
	}))
	for _, want := range []string{"Porch", "take up 4 rows", "Local codes and licensed practice decide"} {
		if !strings.Contains(text, want) {
			t.Errorf("the booklet does not say %q", want)
		}
	}
	if strings.Count(text, "Repairs") < 3 { // contents, header and heading
		t.Error("the page of repairs is not in the contents")
	}
}
