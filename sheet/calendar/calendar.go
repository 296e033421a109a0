// Package calendar writes the programme of a result as a calendar that other
// programs read: iCalendar, RFC 5545. Every step of an apartment and every
// delivery is an event of whole days.
package calendar

import (
	"bufio"
	"crypto/sha256"
	"fmt"
	"io"
	"strings"
	"time"

	"laybill/estimate"
	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/estimate/programme"
	"laybill/sheet/crew"
)

// Missing names what a calendar needs and the job does not have.
func Missing(j *job.Job) problem.List {
	var list problem.List
	dated := !j.Settings.StartDate.IsZero()
	for _, a := range j.Apartments {
		dated = dated || !a.Start.IsZero()
	}
	if !dated {
		list.Add(problem.Problem{Code: problem.StartDateMissing, At: problem.Ref{Sheet: "Job"}, Found: "no Start date",
			Want: "the setting Start date: without it the job has no days", Fix: "add a row Start date with the first day of work to the Job sheet"})
	}
	return list
}

// Write writes the calendar. The same result gives the same bytes: the stamp of
// its events is the job's date, or the first day of work, and an event keeps its
// UID when the job is priced again.
func Write(w io.Writer, r *estimate.Result) error {
	c := &writer{w: bufio.NewWriter(w), result: r}
	c.stamp = r.Job.Settings.Date
	if c.stamp.IsZero() {
		c.stamp = r.Programme.Start.Date()
	}
	c.put("BEGIN", "VCALENDAR")
	c.put("VERSION", "2.0")
	c.put("PRODID", "-//Laybill//Programme//EN")
	c.put("CALSCALE", "GREGORIAN")
	c.put("NAME", escaped(r.Job.Settings.Name)) // RFC 7986
	for _, e := range r.Programme.Entries {
		c.event(c.step(e))
	}
	numbers := map[string]int{}
	for i := range r.Programme.Deliveries {
		c.event(c.delivery(i+1, &r.Programme.Deliveries[i], numbers))
	}
	c.put("END", "VCALENDAR")
	return c.w.Flush()
}

type writer struct {
	w      *bufio.Writer
	result *estimate.Result
	stamp  time.Time
}

// event is a thing of whole days.
type event struct {
	key         []string // what makes it the same event in another edition of the job
	first, last programme.Day
	summary     string
	category    string
	description string
}

// put writes a content line; the buffer keeps its first error.
func (c *writer) put(property, value string) { _, _ = c.w.WriteString(line(property, value)) }

const dateForm = "20060102"

func (c *writer) event(e event) {
	c.put("BEGIN", "VEVENT")
	c.put("UID", c.uid(e.key))
	c.put("DTSTAMP", c.stamp.Format(dateForm)+"T000000Z")
	c.put("DTSTART;VALUE=DATE", e.first.Date().Format(dateForm))
	c.put("DTEND;VALUE=DATE", (e.last + 1).Date().Format(dateForm)) // the day after
	c.put("SUMMARY", escaped(e.summary))
	c.put("CATEGORIES", texts(e.category))
	if site := c.result.Job.Settings.Site; site != "" {
		c.put("LOCATION", escaped(site))
	}
	if e.description != "" {
		c.put("DESCRIPTION", escaped(e.description))
	}
	c.put("TRANSP", "TRANSPARENT")
	c.put("END", "VEVENT")
}

// uid is made from what the event is, never from its days.
func (c *writer) uid(key []string) string {
	s := c.result.Job.Settings
	sum := sha256.Sum256(fmt.Appendf(nil, "%q", append([]string{s.Number, s.Name}, key...)))
	return fmt.Sprintf("%x@laybill", sum[:16])
}

// Categories of the events.
const (
	workCategory     = "Work"
	holdCategory     = "Hold point"
	waitCategory     = "Waiting"
	deliveryCategory = "Delivery"
	handoverCategory = "Handover"
)

func category(s job.Step) string {
	switch s {
	case job.HoldPoint:
		return holdCategory
	case job.Drying, job.Acclimatisation:
		return waitCategory
	case job.HandingOver:
		return handoverCategory
	}
	return workCategory
}

// holds says what a hold point, drying and acclimatisation hold up.
var holds = map[job.Step]string{
	job.HoldPoint:       "nothing goes on before the moisture test is read and released by whoever is responsible for it",
	job.Drying:          "no covering before the compound is dry: the data sheet of the bag and a test decide",
	job.Acclimatisation: "no laying before the goods are used to the room",
}

func (c *writer) step(e programme.Entry) event {
	place := crew.Place(crew.Apartment(e.Apartment))
	of := event{first: e.Start.Day, last: e.End.Day, category: category(e.Step), summary: place + ": " + e.Step.String()}
	of.key = []string{"step", e.Step.String()}
	if e.Apartment != nil {
		of.key = append(of.key, e.Apartment.Name, e.Apartment.Type)
	}
	switch {
	case e.Crew > 0:
		of.summary += fmt.Sprintf(" (crew %d)", e.Crew)
		of.description = e.Hours.String() + " man-hours"
	case holds[e.Step] != "":
		of.description = fmt.Sprintf("%s hours: %s", e.Hours, holds[e.Step])
	}
	return of
}

// delivery is an event of one day; several loads of a supplier to one place are
// told apart by their number among them.
func (c *writer) delivery(number int, d *programme.Delivery, numbers map[string]int) event {
	place := []string{d.Supplier.Code, c.result.Consignments[d.Consignment].Name, d.Phase, d.Block, d.Floor}
	key := fmt.Sprintf("%q", place)
	numbers[key]++
	var goods []string
	for _, load := range crew.LoadsOf(number, d) {
		goods = append(goods, fmt.Sprintf("%s %s of %s (%s)", load.Bring, load.Product.SoldBy, load.Product.Code, load.Product.Description))
	}
	return event{key: append(append([]string{"delivery"}, place...), fmt.Sprint(numbers[key])), first: d.Day, last: d.Day, category: deliveryCategory,
		summary:     fmt.Sprintf("%s: delivery %d from %s", crew.FloorOf(d), number, d.Supplier.Name),
		description: fmt.Sprintf("order by %s; %s kg\n%s", d.OrderBy, d.Weight(), strings.Join(goods, "\n"))}
}
