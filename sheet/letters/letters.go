// Package letters cautions of names with letters that no built-in type has.
package letters

import (
	"fmt"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/draw"
)

// InDrawings is a caution that names those of the job's texts that stand in the
// drawings of the result workbook and hold letters that the types lack; nothing
// when they have them all.
func InDrawings(j *job.Job) problem.List {
	var m missing
	m.lookAtDrawn(j)
	return m.caution()
}

// InBooklet is the same caution for all texts that the booklet prints; its
// drawings are those of the workbook.
func InBooklet(j *job.Job) problem.List {
	var m missing
	set := j.Settings
	m.look(problem.Ref{Sheet: "Job"}, set.Name, set.Client, set.Site, set.Company)
	for _, p := range j.Products {
		m.look(p.Ref, p.Code, p.Description)
	}
	for _, r := range j.Rooms {
		m.look(r.Ref, r.Type, r.Name, r.Note)
	}
	for _, a := range j.Apartments {
		m.look(a.Ref, a.Name)
	}
	m.lookAtDrawn(j)
	return m.caution()
}

// missing are the texts found, each once, and where they stand.
type missing struct {
	texts  []string
	places []problem.Ref
	known  map[string]bool
}

func (m *missing) look(at problem.Ref, words ...string) {
	for _, s := range words {
		if m.known[s] || draw.Lettered(s) {
			continue
		}
		if m.known == nil {
			m.known = map[string]bool{}
		}
		m.known[s] = true
		m.texts, m.places = append(m.texts, s), append(m.places, at)
	}
}

// lookAtDrawn looks at what drawings say in the user's words: where doors lead.
func (m *missing) lookAtDrawn(j *job.Job) {
	for _, r := range j.Rooms {
		for _, o := range r.Openings {
			m.look(o.Ref, o.LeadsTo)
		}
	}
}

func (m *missing) caution() problem.List {
	const shown = 5
	var list problem.List
	if len(m.texts) == 0 {
		return list
	}
	found := strings.Join(m.texts[:min(shown, len(m.texts))], ", ")
	if more := len(m.texts) - shown; more > 0 {
		found += fmt.Sprintf(" and %d more", more)
	}
	list.Add(problem.Problem{Code: problem.LettersMissing, At: m.places[0], Also: m.places[1:], Found: found,
		Want: "letters that drawings and booklet can print, such as Latin, Greek, Cyrillic, Hebrew, Arabic, Thai, Chinese, Japanese, Korean and those of Indian languages",
		Fix:  "add a name in such letters, or go by the cut lists of the result workbook, whose cells hold any letters"})
	return list
}
