package calendar

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/programme"
)

func date(s string) time.Time {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return t
}

func point(s string) programme.Point { return programme.Point{Day: programme.DayOf(date(s))} }

// result is a job of one apartment with a name in which every sign of RFC 5545
// has a place.
func result() *estimate.Result {
	flat := &job.Apartment{Name: "Zürich; 3, \\ℵ"}
	oak := &job.Product{Code: "OAK", Description: "Oak, wide; 14 mm", SoldBy: job.PerPack, Weight: decimal.NewFromInt(20)}
	day := programme.DayOf(date("2027-01-12"))
	delivery := programme.Delivery{Supplier: &job.Supplier{Code: "S", Name: "Nørd Gulve, grosserer i gulve og lister til hele byen"}, Block: "East", Floor: "2", Day: day, OrderBy: day - 7,
		Supplies: []programme.Supply{{Apartment: flat, Product: oak, Bring: decimal.NewFromInt(12)}}}
	return &estimate.Result{
		Job:          &job.Job{Settings: job.Settings{Name: "Lantern Yard", Number: "7", Site: "1 Tidewell Road, Quillhaven", Date: date("2026-11-16")}},
		Consignments: []estimate.Consignment{{}},
		Programme: programme.Programme{Start: programme.DayOf(date("2027-01-11")),
			Entries: []programme.Entry{
				{Apartment: flat, Step: job.MoistureTest, Crew: 2, Hours: decimal.RequireFromString("1.5"), Start: point("2027-01-11"), End: point("2027-01-11")},
				{Apartment: flat, Step: job.HoldPoint, Hours: decimal.NewFromInt(24), Start: point("2027-01-11"), End: point("2027-01-12")},
				{Apartment: flat, Step: job.HandingOver, Crew: 1, Hours: decimal.NewFromInt(1), Start: point("2027-01-29"), End: point("2027-02-01")},
			},
			Deliveries: []programme.Delivery{delivery, delivery}},
	}
}

func written(t testing.TB, r *estimate.Result) string {
	t.Helper()
	var w bytes.Buffer
	if err := Write(&w, r); err != nil {
		t.Fatal(err)
	}
	return w.String()
}

// property is a content line taken apart.
type property struct{ name, parameters, value string }

// contentLine is the grammar of RFC 5545 section 3.1, without quoted parameters.
var contentLine = regexp.MustCompile(`^([A-Z0-9-]+)((?:;[A-Z0-9-]+=[^;:",\x00-\x1f]+)*):([^\x00-\x08\x0a-\x1f\x7f]*)$`)

// parse reads a calendar by the grammar alone: lines end with CRLF and have 75
// octets at most, folded lines are joined (3.1), text is unescaped (3.3.11).
func parse(t testing.TB, calendar string) []property {
	t.Helper()
	if !utf8.ValidString(calendar) || !strings.HasSuffix(calendar, "\r\n") || strings.Count(calendar, "\n") != strings.Count(calendar, "\r\n") || strings.Count(calendar, "\r") != strings.Count(calendar, "\r\n") {
		t.Fatalf("not lines of UTF-8 that end with CRLF: %q", calendar)
	}
	var lines []string
	for _, line := range strings.Split(strings.TrimSuffix(calendar, "\r\n"), "\r\n") {
		if len(line) > 75 {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
		if !utf8.ValidString(line) {
			t.Errorf("a letter is torn apart: %q", line)
		}
		if continued, folded := strings.CutPrefix(line, " "); folded && len(lines) > 0 {
			lines[len(lines)-1] += continued
			continue
		}
		lines = append(lines, line)
	}
	var all []property
	for _, line := range lines {
		m := contentLine.FindStringSubmatch(line)
		if m == nil {
			t.Fatalf("not a content line: %q", line)
		}
		all = append(all, property{m[1], m[2], m[3]})
	}
	return all
}

// unescape reads a TEXT value; commas and semicolons that are not escaped would
// part it.
func unescape(t testing.TB, value string) string {
	t.Helper()
	var b strings.Builder
	for i := 0; i < len(value); i++ {
		switch c := value[i]; c {
		case ',', ';':
			t.Errorf("%q is not one text", value)
		case '\\':
			i++
			switch {
			case i == len(value):
				t.Fatalf("%q ends in an escape", value)
			case value[i] == 'n' || value[i] == 'N':
				b.WriteByte('\n')
			case strings.IndexByte(`\;,`, value[i]) >= 0:
				b.WriteByte(value[i])
			default:
				t.Errorf("%q escapes %q", value, value[i])
			}
		default:
			b.WriteByte(c)
		}
	}
	return b.String()
}

// vevent is the properties of one event, each of which may stand once (3.6.1).
func vevents(t testing.TB, all []property) []map[string]property {
	t.Helper()
	var events []map[string]property
	open := ""
	for i, p := range all {
		switch {
		case i == 0 || i == len(all)-1:
			if p.value != "VCALENDAR" {
				t.Errorf("%+v", p)
			}
		case p.name == "BEGIN":
			if open != "" || p.value != "VEVENT" {
				t.Errorf("%+v within %s", p, open)
			}
			open = p.value
			events = append(events, map[string]property{})
		case p.name == "END":
			if p.value != open {
				t.Errorf("%+v ends %s", p, open)
			}
			open = ""
		case open != "":
			event := events[len(events)-1]
			if _, twice := event[p.name]; twice {
				t.Errorf("%s stands twice", p.name)
			}
			event[p.name] = p
		}
	}
	return events
}

// RFC 5545: VERSION and PRODID once (3.6), UID and DTSTAMP in every event, the
// stamp in UTC (3.8.7.2), days as DATE, and the end the day after the last
// (3.6.1: DTEND is not part of the event).
func TestCalendarKeepsTheStandard(t *testing.T) {
	all := parse(t, written(t, result()))
	if all[1] != (property{"VERSION", "", "2.0"}) || all[2].name != "PRODID" {
		t.Errorf("head %v", all[:3])
	}
	events := vevents(t, all)
	uids := map[string]bool{}
	for _, event := range events {
		uid := event["UID"].value
		if uid == "" || uids[uid] {
			t.Errorf("UID %q", uid)
		}
		uids[uid] = true
		if got := event["DTSTAMP"].value; got != "20261116T000000Z" {
			t.Errorf("stamp %s", got)
		}
		if event["DTSTART"].parameters != ";VALUE=DATE" || event["DTEND"].parameters != ";VALUE=DATE" {
			t.Errorf("days %+v %+v", event["DTSTART"], event["DTEND"])
		}
	}
	var got []string
	for _, event := range events {
		got = append(got, fmt.Sprintf("%s-%s %s [%s] %s", event["DTSTART"].value, event["DTEND"].value, unescape(t, event["SUMMARY"].value), event["CATEGORIES"].value, unescape(t, event["DESCRIPTION"].value)))
	}
	want := []string{
		"20270111-20270112 Zürich; 3, \\ℵ: moisture test (crew 2) [Work] 1.5 man-hours",
		"20270111-20270113 Zürich; 3, \\ℵ: hold point [Hold point] 24 hours: nothing goes on before the moisture test is read and released by whoever is responsible for it",
		"20270129-20270202 Zürich; 3, \\ℵ: snag and handover (crew 1) [Handover] 1 man-hours",
		"20270112-20270113 East, floor 2: delivery 1 from Nørd Gulve, grosserer i gulve og lister til hele byen [Delivery] order by 2027-01-05; 240 kg\n12 pack of OAK (Oak, wide; 14 mm)",
		"20270112-20270113 East, floor 2: delivery 2 from Nørd Gulve, grosserer i gulve og lister til hele byen [Delivery] order by 2027-01-05; 240 kg\n12 pack of OAK (Oak, wide; 14 mm)",
	}
	if strings.Join(got, "\n\n") != strings.Join(want, "\n\n") {
		t.Errorf("events\n%s\nwant\n%s", strings.Join(got, "\n\n"), strings.Join(want, "\n\n"))
	}
	if got := unescape(t, events[0]["LOCATION"].value); got != "1 Tidewell Road, Quillhaven" {
		t.Errorf("location %q", got)
	}
}

// Letters of two, three and four octets, at every place of a line: none is torn
// and no line has more than 75 octets, the space before a further one counted.
func TestFoldingKeepsLettersWhole(t *testing.T) {
	for _, letter := range []string{"a", "ü", "ℵ", "𝄞"} {
		for shift := range 8 {
			text := strings.Repeat("x", shift) + strings.Repeat(letter, 150)
			all := parse(t, "BEGIN:VCALENDAR\r\n"+line("SUMMARY", text))
			if all[1].value != text {
				t.Errorf("%d x %q came back as %q", shift, letter, all[1].value)
			}
		}
	}
}

// An event stays the same one when its days move, and is another in another job.
func TestUIDsFollowTheContent(t *testing.T) {
	uids := func(r *estimate.Result) string {
		var all []string
		for _, event := range vevents(t, parse(t, written(t, r))) {
			all = append(all, event["UID"].value)
		}
		return strings.Join(all, " ")
	}
	first := uids(result())
	moved := result()
	for i := range moved.Programme.Entries {
		moved.Programme.Entries[i].Start.Day += 9
		moved.Programme.Entries[i].End.Day += 9
		moved.Programme.Entries[i].Crew++
	}
	moved.Job.Settings.Date = date("2026-12-24")
	if got := uids(moved); got != first {
		t.Errorf("moved by nine days: %s, want %s", got, first)
	}
	other := result()
	other.Job.Settings.Number = "8"
	if got := uids(other); got == first {
		t.Errorf("another job has the same events")
	}
}

// Any text comes back from a content line as it was, less control characters.
func TestTextsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringN(0, 200, -1).Draw(t, "text")
		joined := strings.TrimSuffix(strings.ReplaceAll(line("SUMMARY", escaped(text)), "\r\n ", ""), "\r\n")
		for _, part := range strings.Split(line("SUMMARY", escaped(text)), "\r\n") {
			if len(part) > 75 || !utf8.ValidString(part) {
				t.Fatalf("%d octets: %q", len(part), part)
			}
		}
		value, found := strings.CutPrefix(joined, "SUMMARY:")
		if !found || !contentLine.MatchString(joined) {
			t.Fatalf("%q", joined)
		}
		want := strings.Map(func(r rune) rune {
			if r < ' ' && r != '\n' && r != '\t' || r == '\x7f' {
				return -1
			}
			return r
		}, strings.ReplaceAll(text, "\r\n", "\n"))
		if got := unescapeAny(value); got != want {
			t.Fatalf("%q came back as %q", want, got)
		}
	})
}

func unescapeAny(value string) string {
	return strings.NewReplacer(`\\`, `\`, `\n`, "\n", `\;`, ";", `\,`, ",").Replace(value)
}
