package in

import (
	"fmt"
	"strings"

	"laybill/estimate/problem"
)

// mostSuggested is how many unknown names get suggestions: a list of
// thousands of wrong names is a wrong column, not a slip.
const mostSuggested = 200

// names is what the rows of a table are called.
type names[T any] struct {
	what  string // one of them, for messages
	sheet string
	known map[string]T // by nameKey
	refs  map[string]problem.Ref
	list  []string // as written
	sound bool     // the table was read; else unknown names are not its rows' fault
}

func newNames[T any](what, sheet string, found bool) *names[T] {
	return &names[T]{what: what, sheet: sheet, known: map[string]T{}, refs: map[string]problem.Ref{}, sound: found}
}

// add makes a name known; a name that stands twice is a problem of the later
// row.
func (n *names[T]) add(r row, key, name string, value T) {
	if name == "" {
		return
	}
	folded := nameKey(name)
	if earlier, twice := n.refs[folded]; twice {
		r.problems.add(r.part.table.Key+" "+folded, problem.Problem{Code: problem.NameRepeated, At: r.at(key), Also: []problem.Ref{earlier},
			Found: fmt.Sprintf("%s a second time", quote(name)), Want: fmt.Sprintf("each %s once", n.what), Fix: "rename one of them, or delete the row that is not meant"})
		return
	}
	n.known[folded] = value
	n.refs[folded] = r.at(key)
	n.list = append(n.list, name)
}

// find is the row a name means.
func (n *names[T]) find(name string) (value T, ok bool) {
	value, ok = n.known[nameKey(name)]
	return value, ok
}

// refer reads a cell that names a row of another table; an unknown name is
// one problem however many cells have it.
func refer[T any](r row, key string, n *names[T]) (value T, s state) {
	name, s := read(r, key, asText)
	if s != given {
		return value, s
	}
	value, ok := n.find(name)
	if !ok {
		r.unknownName(key, name, n.what, n.sheet, n.list, n.sound)
		return value, unknown
	}
	return value, given
}

// unknownName reports a name that is in no row of its table, unless the table
// itself could not be read.
func (r row) unknownName(key, name, what, sheet string, list []string, sound bool) {
	if !sound {
		r.problems.unknown[r.at(key)] = true
		r.lacking[sheet] = true
		return
	}
	fix := fmt.Sprintf("correct the name, or add a row for it to %s", sheet)
	if r.suggested < mostSuggested {
		r.suggested++
		if nearest := near(name, list); len(nearest) > 0 {
			fix = fmt.Sprintf("write %s, if that is meant, or add a row for it to %s", orList(nearest), sheet)
		}
	}
	r.problems.add(sheet+" "+nameKey(name), problem.Problem{Code: problem.NameUnknown, At: r.at(key), Found: quote(name),
		Want: fmt.Sprintf("%s %s of %s", article(what), what, sheet), Fix: strings.TrimSpace(fix)})
}

func article(noun string) string {
	if strings.ContainsAny(noun[:1], "aeiou") {
		return "an"
	}
	return "a"
}
