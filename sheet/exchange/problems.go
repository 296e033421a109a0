package exchange

import (
	"encoding/json"
	"io"

	"laybill/estimate/problem"
)

// ProblemSchema names the format of the list of problems.
const ProblemSchema = "laybill.problems/1"

// problemFile is the list of problems as a file of its own.
type problemFile struct {
	Schema   string         `json:"schema"`
	Errors   int            `json:"errors"`
	Warnings int            `json:"warnings"`
	Cautions int            `json:"cautions"`
	Problems []foundProblem `json:"problems"`
}

// foundProblem is one problem. Sheet is empty for the job as a whole; Cell is
// like D14, a row's number for a whole row, empty for a whole sheet; Also is
// written like Rooms!D14.
type foundProblem struct {
	Code      string   `json:"code"`
	Severity  string   `json:"severity"`
	Sheet     string   `json:"sheet"`
	Cell      string   `json:"cell"`
	Also      []string `json:"also"`
	Found     string   `json:"found"`
	Expected  string   `json:"expected"`
	Remedy    string   `json:"remedy"`
	Apartment string   `json:"apartment"`
	Room      string   `json:"room"`
	Rule      string   `json:"rule"`
}

// WriteProblems writes a list of problems as one JSON object.
func WriteProblems(w io.Writer, list problem.List) error {
	file := problemFile{Schema: ProblemSchema, Errors: list.Count(problem.Error), Warnings: list.Count(problem.Warning),
		Cautions: list.Count(problem.Caution), Problems: []foundProblem{}}
	for _, p := range list {
		found := foundProblem{Code: string(p.Code), Severity: p.Severity.String(), Sheet: p.At.Sheet, Cell: p.At.Cell(), Also: []string{},
			Found: p.Found, Expected: p.Want, Remedy: p.Fix, Apartment: p.Apartment, Room: p.Room, Rule: p.Rule}
		for _, other := range p.Also {
			found.Also = append(found.Also, other.String())
		}
		file.Problems = append(file.Problems, found)
	}
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(file)
}
