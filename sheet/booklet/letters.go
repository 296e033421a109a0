package booklet

import (
	"fmt"
	"strings"

	"laybill/estimate/job"
	"laybill/estimate/problem"
	"laybill/sheet/draw"
)

// LettersMissing is a caution that names the job's texts with letters that the
// booklet's types lack; nothing when they have them all.
func LettersMissing(j *job.Job) problem.List {
	const shown = 5
	var texts []string
	var places []problem.Ref
	known := map[string]bool{}
	look := func(at problem.Ref, words ...string) {
		for _, s := range words {
			if !known[s] && !draw.Lettered(s) {
				known[s] = true
				texts, places = append(texts, s), append(places, at)
			}
		}
	}
	set := j.Settings
	look(problem.Ref{Sheet: "Job"}, set.Name, set.Client, set.Site, set.Company)
	for _, p := range j.Products {
		look(p.Ref, p.Code, p.Description)
	}
	for _, r := range j.Rooms {
		look(r.Ref, r.Type, r.Name, r.Note)
	}
	for _, a := range j.Apartments {
		look(a.Ref, a.Name)
	}
	var list problem.List
	if len(texts) == 0 {
		return list
	}
	found := strings.Join(texts[:min(shown, len(texts))], ", ")
	if more := len(texts) - shown; more > 0 {
		found += fmt.Sprintf(" and %d more", more)
	}
	list.Add(problem.Problem{Code: problem.LettersMissing, At: places[0], Also: places[1:], Found: found,
		Want: "letters that the booklet can print, such as Latin, Greek, Cyrillic, Hebrew, Arabic, Chinese, Japanese, Korean", Fix: "add a name in such letters, or hand out the cut lists of the result workbook"})
	return list
}
