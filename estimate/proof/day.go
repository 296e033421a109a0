package proof

import (
	"fmt"
	"slices"
	"time"
)

// day is a civil day, counted from 1970-01-01; noDay where the file has none.
type day int

const noDay day = -1 << 31

const secondsADay = 24 * 60 * 60

// UnmarshalJSON reads a date as ISO 8601 writes it, or null.
func (d *day) UnmarshalJSON(text []byte) error {
	*d = noDay
	if isNull(text) {
		return nil
	}
	read, err := time.Parse(time.DateOnly, string(unquote(text)))
	if err != nil {
		return fmt.Errorf("%s is not a date such as 2027-01-11", clip(text))
	}
	*d = day(read.Unix() / secondsADay)
	return nil
}

func (d day) String() string {
	if d == noDay {
		return "no day"
	}
	return time.Unix(int64(d)*secondsADay, 0).UTC().Format(time.DateOnly)
}

func (d day) weekday() time.Weekday { return time.Unix(int64(d)*secondsADay, 0).UTC().Weekday() }

// week is the days that a calendar works.
type week struct {
	worked   [7]bool
	holidays []day // sorted, each once
}

func (c *calendarEntry) week() week {
	w := week{holidays: slices.Clone(c.Holidays)}
	slices.Sort(w.holidays)
	w.holidays = slices.Compact(w.holidays)
	for _, name := range c.WorkingDays {
		for weekday := range w.worked {
			w.worked[weekday] = w.worked[weekday] || time.Weekday(weekday).String() == name
		}
	}
	return w
}

func (w week) works(d day) bool {
	_, holiday := slices.BinarySearch(w.holidays, d)
	return w.worked[d.weekday()] && !holiday
}

// days counts the working days from one day up to another, which does not
// count.
func (w week) days(from, until day) int {
	if until <= from {
		return 0
	}
	const weekLength = 7
	inWeek := 0
	for _, worked := range w.worked {
		if worked {
			inWeek++
		}
	}
	weeks := int(until-from) / weekLength
	total := weeks * inWeek
	for d := from + day(weeks*weekLength); d < until; d++ {
		if w.worked[d.weekday()] {
			total++
		}
	}
	first, _ := slices.BinarySearch(w.holidays, from)
	last, _ := slices.BinarySearch(w.holidays, until)
	for _, holiday := range w.holidays[first:last] {
		if w.worked[holiday.weekday()] {
			total--
		}
	}
	return total
}
