package programme

import (
	"slices"
	"time"

	"laybill/estimate/job"
)

// Day is a civil day, counted from 1970-01-01. NoDay stands for none.
type Day int

// NoDay is the day of a job that gives no dates.
const NoDay Day = -1 << 31

const secondsADay = 24 * 60 * 60

// DayOf is the civil day of a date, NoDay for the zero time.
func DayOf(t time.Time) Day {
	if t.IsZero() {
		return NoDay
	}
	return Day(time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC).Unix() / secondsADay)
}

// Date is the day as a date at midnight UTC, the zero time for NoDay.
func (d Day) Date() time.Time {
	if d == NoDay {
		return time.Time{}
	}
	return time.Unix(int64(d)*secondsADay, 0).UTC()
}

// String is the day as ISO 8601 writes it, "" for NoDay.
func (d Day) String() string {
	if d == NoDay {
		return ""
	}
	return d.Date().Format(time.DateOnly)
}

// Calendar is the working days of a job.
type Calendar struct {
	week     job.WorkingWeek
	holidays map[Day]bool
}

// NewCalendar is the calendar that the job's working days and holidays make.
func NewCalendar(j *job.Job) Calendar {
	c := Calendar{week: j.Settings.WorkingWeek, holidays: map[Day]bool{}}
	for _, holiday := range j.Holidays {
		c.holidays[DayOf(holiday.Date)] = true
	}
	return c
}

// Worked tells whether somebody works on the day.
func (c Calendar) Worked(d Day) bool { return c.week.Has(d.Date().Weekday()) && !c.holidays[d] }

// Next is the first working day from d on.
func (c Calendar) Next(d Day) Day {
	for !c.Worked(d) {
		d++
	}
	return d
}

// Back is the working day that lies n working days before d; for n = 0 the day
// itself.
func (c Calendar) Back(d Day, n int) Day {
	for ; n > 0; n-- {
		d--
		for !c.Worked(d) {
			d--
		}
	}
	return d
}

// Point is a time of a day: so many hundredths of a man-hour of one crew are
// worked by then. A morning is 0, an evening all of a crew's hours of a day.
type Point struct {
	Day    Day
	Worked int64
}

// later is the point so many calendar days of 24 hours later.
func (p Point) later(days int) Point { return Point{p.Day + Day(days), p.Worked} }

// moment is a time in a job's work: hundredths of a man-hour that one crew
// could have worked since the morning of the clock's first day. The evening of
// a working day and the morning of the next are one moment.
type moment int64

// clock turns moments into points and back. All crews work the same hours.
type clock struct {
	Calendar
	aDay moment // hundredths of a man-hour that a crew works a day
	days []Day  // working days, as many as were asked for
}

// newClock starts on the first working day from d on.
func newClock(c Calendar, d Day, aDay moment) *clock {
	return &clock{Calendar: c, aDay: aDay, days: []Day{c.Next(d)}}
}

// day is the n-th working day, from 0.
func (c *clock) day(n int) Day {
	for len(c.days) <= n {
		c.days = append(c.days, c.Next(c.days[len(c.days)-1]+1))
	}
	return c.days[n]
}

// number is the number of the first working day from d on.
func (c *clock) number(d Day) int {
	for c.days[len(c.days)-1] < d {
		c.day(len(c.days))
	}
	n, _ := slices.BinarySearch(c.days, d)
	return n
}

// morning is when work may begin from day d on.
func (c *clock) morning(d Day) moment { return moment(c.number(d)) * c.aDay }

// dayNumber is the number of the working day on which work begins.
func (c *clock) dayNumber(m moment) int { return int(m / c.aDay) }

// lastDayNumber is the number of the working day on which work has ended.
func (c *clock) lastDayNumber(m moment) int { return int(max(m-1, 0) / c.aDay) }

// begins is the point at which work begins: never an evening.
func (c *clock) begins(m moment) Point {
	return Point{c.day(c.dayNumber(m)), int64(m % c.aDay)}
}

// ends is the point at which work has ended: an evening, not the next morning.
func (c *clock) ends(m moment) Point {
	n := c.lastDayNumber(m)
	return Point{c.day(n), int64(m - moment(n)*c.aDay)}
}

// from is the first moment at or after a point.
func (c *clock) from(p Point) moment {
	n := c.number(p.Day)
	if c.day(n) != p.Day {
		return moment(n) * c.aDay
	}
	return moment(n)*c.aDay + moment(p.Worked)
}

// after is the first moment that is so many calendar days after a visit of so
// much work that has ended at m.
func (c *clock) after(m, work moment, days int) moment {
	switch {
	case days == 0:
		return m
	case work == 0:
		return c.from(c.begins(m).later(days))
	}
	return c.from(c.ends(m).later(days))
}

// until is the last moment at which a visit of so much work may end so that m
// is so many calendar days after it: of a day that is not worked, the evening
// before it; where there is no work, the morning before it.
func (c *clock) until(m, work moment, days int) moment {
	p := c.begins(m).later(-days)
	n := c.number(p.Day)
	switch {
	case c.day(n) == p.Day:
		return moment(n)*c.aDay + moment(p.Worked)
	case work == 0:
		return moment(max(n-1, 0)) * c.aDay
	}
	return moment(n) * c.aDay
}
