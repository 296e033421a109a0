// Package problem holds what is wrong, doubtful or worth a caution in a job:
// plain values that are collected and carried to the end, never thrown.
//
// Every problem names the cell, what was found there, what is expected and how
// to mend it. A problem is not a Go error: errors are for files that cannot be
// read or written and for faults of the program.
package problem

import (
	"fmt"
	"sort"
	"strings"
)

// Severity orders problems by what they stop.
type Severity int

// The severities, gravest first.
const (
	Error   Severity = iota // the value cannot be used; nothing is priced
	Warning                 // usable but probably not meant
	Caution                 // right, but a person must judge or act
)

// String is the severity in lower case.
func (s Severity) String() string { return [...]string{"error", "warning", "caution"}[s] }

// Ref is a place in the user's workbook. Row and Col count from 1; Row 0 means
// the whole sheet, and an empty Sheet means the job as a whole.
type Ref struct {
	Sheet string
	Row   int
	Col   int
}

// String is the place as a formula would write it: Rooms!D14, or
// 'Price breaks'!B3 where the sheet's name needs quotes.
func (r Ref) String() string {
	if r.Sheet == "" {
		return "job"
	}
	if r.Row == 0 {
		return quoteSheet(r.Sheet)
	}
	return quoteSheet(r.Sheet) + "!" + r.Cell()
}

// Cell is the place on its sheet: D14, 14 for a whole row, nothing for the
// whole sheet.
func (r Ref) Cell() string {
	switch {
	case r.Row == 0:
		return ""
	case r.Col == 0:
		return fmt.Sprint(r.Row)
	}
	return fmt.Sprintf("%s%d", ColumnName(r.Col), r.Row)
}

// ColumnName is the letters of a column counted from 1: 1 is A, 27 is AA.
func ColumnName(col int) string {
	name := ""
	for ; col > 0; col = (col - 1) / 26 {
		name = string(rune('A'+(col-1)%26)) + name
	}
	return name
}

func quoteSheet(name string) string {
	plain := name != ""
	for i, r := range name {
		letter := r == '_' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z'
		if !letter && (i == 0 || r < '0' || r > '9') {
			plain = false
		}
	}
	if plain {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", "''") + "'"
}

// Problem is one thing to say about the user's data.
type Problem struct {
	Code     Code
	Severity Severity
	At       Ref
	Also     []Ref  // other cells that matter or share the cause
	Found    string // what stands there, as the person sees it
	Want     string // what is accepted, with an example
	Fix      string // one sentence that says what to do

	// Where the problem bites, when it belongs to a place in the building.
	Apartment string
	Room      string
	Rule      string // laying rule not kept: end, stagger, row, line-up, ...
}

// Summary is the problem on one line, as the terminal's first line shows it.
func (p Problem) Summary() string {
	return fmt.Sprintf("%s: %s: %s: found %s", p.At, p.Severity, p.Code, p.Found)
}

// Remedy is the problem's own remedy, or the one of its kind.
func (p Problem) Remedy() string {
	if p.Fix != "" {
		return p.Fix
	}
	return p.Code.Entry().Fix
}

// List is problems in the order they were found.
type List []Problem

// Add appends a problem with the severity of its code in the catalogue.
func (l *List) Add(p Problem) {
	p.Severity = p.Code.Entry().Severity
	*l = append(*l, p)
}

// Append adds another list's problems.
func (l *List) Append(other List) { *l = append(*l, other...) }

// HasErrors tells whether any problem stops the job.
func (l List) HasErrors() bool { return l.Count(Error) > 0 }

// Count is the number of problems of one severity.
func (l List) Count(s Severity) int {
	n := 0
	for _, p := range l {
		if p.Severity == s {
			n++
		}
	}
	return n
}

// Sorted is the list without exact repeats, ordered by sheet as sheets names
// them, then row, column and code. Sheets not named come last by name, the
// job as a whole first.
func (l List) Sorted(sheets []string) List {
	rank := map[string]int{"": -1}
	for i, name := range sheets {
		rank[name] = i
	}
	place := func(name string) int {
		if i, ok := rank[name]; ok {
			return i
		}
		return len(sheets)
	}
	sorted := append(List(nil), l...)
	sort.SliceStable(sorted, func(i, j int) bool {
		a, b := sorted[i], sorted[j]
		if x, y := place(a.At.Sheet), place(b.At.Sheet); x != y {
			return x < y
		}
		return a.less(b)
	})
	return sorted.withoutRepeats()
}

func (p Problem) less(q Problem) bool {
	switch {
	case p.At.Sheet != q.At.Sheet:
		return p.At.Sheet < q.At.Sheet
	case p.At.Row != q.At.Row:
		return p.At.Row < q.At.Row
	case p.At.Col != q.At.Col:
		return p.At.Col < q.At.Col
	case p.Code != q.Code:
		return p.Code < q.Code
	case p.Apartment != q.Apartment:
		return p.Apartment < q.Apartment
	case p.Room != q.Room:
		return p.Room < q.Room
	}
	return p.Found < q.Found
}

func (l List) withoutRepeats() List {
	var kept List
	for i, p := range l {
		if i > 0 && fmt.Sprint(p) == fmt.Sprint(l[i-1]) {
			continue
		}
		kept = append(kept, p)
	}
	return kept
}
